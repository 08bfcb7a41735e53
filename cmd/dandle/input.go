package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"unicode/utf8"

	"dandle/analysis"
	"dandle/analysis/docx"
	"dandle/analysis/manuscript"
	"dandle/analysis/typescript"
)

const (
	standardInput = "-"
	// maxSize is the most that is read of one file, in bytes: a hundred times
	// the longest novel in verse, and small enough to hold.
	maxSize = 64 << 20
)

// A reading is one file, read and analysed.
type reading struct {
	name     string
	snapshot *analysis.Snapshot
	document *docx.Document // the word-processor file that it is; nil for text
	options  analysis.Options
}

// readManuscripts reads the named files beside each other, calls prepare on each where it
// was read, still beside the others, and show in the order of the names. Only a
// few files are held at a time. It reports whether all could be read; what could
// not is told on the error stream.
func readManuscripts[T any](s *session, names []string, prepare func(reading) (T, error), show func(T) error) (bool, error) {
	type result struct {
		value T
		amiss []string
		err   error
	}
	houses := newHouses()
	tell := s.newProgress(len(names))
	defer tell.end()
	all := true
	err := inOrder(len(names), func(i int) (out result) {
		// A fault in one file must not take the others' findings with it.
		defer func() {
			if fault := recover(); fault != nil {
				out.err = fmt.Errorf("%s: a fault in dandle: %v %s; please report it with this file", names[i], fault, culprit())
			}
		}()
		r, err := s.read(names[i], houses)
		if err != nil {
			return result{err: err}
		}
		out.amiss = amiss(r)
		out.value, out.err = prepare(r)
		return out
	}, func(r result) error {
		tell.step()
		if r.err != nil {
			tell.clear()
			s.fail("dandle", r.err)
			all = false
			return nil
		}
		for _, line := range r.amiss {
			tell.clear()
			fmt.Fprintln(s.err, line)
		}
		return show(r.value)
	})
	return all, err
}

// checkNames reports what cannot be meant in a list of files.
func checkNames(names []string) error {
	if len(names) == 0 {
		return misuse("no file given; name a manuscript, or - for standard input")
	}
	first := slices.Index(names, standardInput)
	if first >= 0 && slices.Contains(names[first+1:], standardInput) {
		return misuse("- stands more than once; standard input can be read once")
	}
	return nil
}

// culprit is where the panic being recovered from was raised, as far up as our
// own code: "at scansion/meter.go:120".
func culprit() string {
	var calls [32]uintptr
	frames := runtime.CallersFrames(calls[:runtime.Callers(3, calls[:])])
	for {
		frame, more := frames.Next()
		if strings.HasPrefix(frame.Function, "dandle/") || strings.HasPrefix(frame.Function, "main.") {
			return fmt.Sprintf("at %s/%s:%d", filepath.Base(filepath.Dir(frame.File)), filepath.Base(frame.File), frame.Line)
		}
		if !more {
			return ""
		}
	}
}

// read reads and analyses one file.
func (s *session) read(name string, houses *houses) (reading, error) {
	data, err := s.readBytes(name)
	if err != nil {
		return reading{}, err
	}
	return readingOf(name, data, houses)
}

// readingOf analyses what a file holds.
func readingOf(name string, data []byte, houses *houses) (reading, error) {
	house, err := houses.of(name)
	if err != nil {
		return reading{}, err
	}
	options := analysis.Options{House: house, Readers: &houses.readers}
	if docx.Is(data) || isNamed(name, ".docx") && docx.Foreign(data) == nil {
		d, err := docx.Read(data)
		if err != nil {
			return reading{}, fmt.Errorf("%s: %w", name, err)
		}
		return reading{name, analysis.NewExtract(d.Text, d.Lines, options), d, options}, nil
	}
	text, err := plainText(name, data)
	if err != nil {
		return reading{}, err
	}
	if isNamed(name, ".txt") {
		if typed, ok := typescript.Plain(text); ok {
			return reading{name: name, snapshot: analysis.NewExtract(typed.Text, typed.Lines, options), options: options}, nil
		}
	}
	return reading{name: name, snapshot: analysis.New(text, options), options: options}, nil
}

func isNamed(name, ending string) bool { return strings.EqualFold(filepath.Ext(name), ending) }

// readBytes is what a file holds. The error is one line that names the file,
// the reason, and what to do.
func (s *session) readBytes(name string) ([]byte, error) {
	in := s.in
	if name != standardInput {
		f, err := os.Open(name)
		if err != nil {
			return nil, fileError(name, err)
		}
		defer f.Close()
		in = f
	}
	data, err := io.ReadAll(io.LimitReader(in, maxSize+1))
	if err != nil {
		return nil, fileError(name, err)
	}
	if len(data) > maxSize {
		return nil, fmt.Errorf("%s: longer than %d MiB; is it a manuscript?", name, maxSize>>20)
	}
	return data, nil
}

// plainText is data as text, or what is the matter with it and where.
func plainText(name string, data []byte) (string, error) {
	if err := docx.Foreign(data); err != nil {
		return "", fmt.Errorf("%s: %w", name, err)
	}
	text := string(data)
	if line, column, valid := firstBadByte(text); !valid {
		return "", fmt.Errorf("%s:%d:%d: not UTF-8 text; save the manuscript as plain text in UTF-8", name, line, column)
	}
	return text, nil
}

// maxAmiss is how much is told of what is amiss in one file; who mends the first
// lines sees the rest.
const maxAmiss = 10

// amiss tells what in a file could not be read as it was meant, one line each.
// The rest of the file is read all the same.
func amiss(r reading) []string {
	m := r.snapshot.Manuscript()
	var lines []string
	if r.document != nil {
		for _, n := range r.document.Notices[:min(len(r.document.Notices), maxAmiss)] {
			lines = append(lines, fmt.Sprintf("%s:%d: %s", printable(r.name), n.Line, n.Message))
		}
	}
	for _, p := range m.Problems[:min(len(m.Problems), maxAmiss)] {
		line, column := place(m, p.Span.Start)
		lines = append(lines, fmt.Sprintf("%s:%d:%d: %s", printable(r.name), line, column, printable(oneLine(p.Message))))
	}
	return lines
}

func fileError(name string, err error) error {
	var reason *fs.PathError
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("%s: no such file; see that the path is right", name)
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("%s: may not be read; see that you own it", name)
	case errors.As(err, &reason):
		if info, statErr := os.Stat(name); statErr == nil && info.IsDir() {
			return fmt.Errorf("%s: a folder; name the manuscripts in it", name)
		}
		return fmt.Errorf("%s: %w; see that it is a file", name, reason.Err)
	}
	return fmt.Errorf("%s: %w; see that it is a file", name, err)
}

// firstBadByte finds where text stops being UTF-8: its line and column, both
// from 1.
func firstBadByte(text string) (line, column int, valid bool) {
	if utf8.ValidString(text) {
		return 0, 0, true
	}
	line, column = 1, 1
	for i := 0; i < len(text); {
		r, size := utf8.DecodeRuneInString(text[i:])
		if r == utf8.RuneError && size == 1 {
			break
		}
		column++
		if r == '\n' {
			line, column = line+1, 1
		}
		i += size
	}
	return line, column, false
}

// place is where an offset stands in a manuscript: its line, and its column in
// Unicode code points, both from 1. A byte order mark takes up no column.
func place(m *manuscript.Manuscript, offset int) (line, column int) {
	at := m.FileLine(offset)
	start := around(m, offset).Start
	column = utf8.RuneCountInString(m.Text[start:offset]) + 1
	if at == 0 && offset > start && len(m.Text) >= len(bom) && m.Text[:len(bom)] == bom {
		column--
	}
	return at + 1, column
}

// around is the line of the text that an offset stands in, without its line
// break. The text of a document may have more lines than the document.
func around(m *manuscript.Manuscript, offset int) manuscript.Span {
	row := manuscript.Span{Start: strings.LastIndexAny(m.Text[:offset], "\r\n") + 1, End: len(m.Text)}
	if n := strings.IndexAny(m.Text[offset:], "\r\n"); n >= 0 {
		row.End = offset + n
	}
	return row
}

const bom = "\ufeff"
