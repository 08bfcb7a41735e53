package main

import "io"

// A list writes parts one after the other as they come, between a head and a
// foot, so that the whole need never be held.
type list struct {
	head, between, foot string
}

// The list that JSON output of several files is.
var filesList = list{head: `{"files":[`, between: ",\n", foot: "]}\n"}

// A listWriter is a list being written.
type listWriter struct {
	list
	w       io.Writer
	started bool
}

func (l list) to(w io.Writer) *listWriter { return &listWriter{list: l, w: w} }

// add writes a part; an empty one is left out.
func (l *listWriter) add(part []byte) error {
	if len(part) == 0 {
		return nil
	}
	lead := l.between
	if !l.started {
		lead = l.head
		l.started = true
	}
	if _, err := io.WriteString(l.w, lead); err != nil {
		return err
	}
	_, err := l.w.Write(part)
	return err
}

// end closes the list.
func (l *listWriter) end() error {
	foot := l.foot
	if !l.started {
		foot = l.head + l.foot
	}
	_, err := io.WriteString(l.w, foot)
	return err
}
