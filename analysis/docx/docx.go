// Package docx reads and writes word-processor files: Office Open XML, ECMA-376
// (ISO/IEC 29500), both its conformance classes. It knows how a manuscript lies
// in such a file and hands it on as text in the format of package manuscript,
// with the way back from every word to its place in the file; it knows nothing
// of verse, and opens no file itself.
package docx

import (
	"sort"

	"dandle/analysis/manuscript"
	"dandle/analysis/typescript"
)

// A Document is a word-processor file, read or newly made. It never changes.
type Document struct {
	// Text is the manuscript in the format of package manuscript.
	Text string
	// Lines are the offsets in Text where the lines of the document begin: one
	// for each paragraph and each soft break, the empty ones too, as a word
	// processor counts when it shows line numbers and no line is too long for
	// the page. What Text has besides (front matter, a reviewer's note, the gap
	// between two stanzas) belongs to the line before it.
	Lines []int
	// Notices tell what was left out or read in a way of its own, by line.
	Notices []Notice

	archive   *archive
	main      string // the name of the part with the text
	source    []byte // that part
	namespace string // of word-processing elements in it
	runs      []run
	pieces    []piece
	stretches []typescript.Stretch // by their place in Text
	notes     []Comment            // to be written with it: those of the reviewer of a new one
	stale     []edit               // what the comments of an earlier letter left in the source, to be cut
}

// A Notice says what could not be taken over as it was.
type Notice struct {
	Line    int // of the document, from 1
	Message string
}

// A run is a w:r element: text in one format.
type run struct {
	from, to   int    // its bytes in the source
	prefix     string // of its name: "w:", mostly
	properties string // its w:rPr element, as it stands
}

// A piece is a w:t element.
type piece struct {
	run      int
	from, to int    // its bytes in the source
	text     string // decoded
	opens    bool   // nothing stands before it in its run
	closes   bool   // nothing stands after it
}

// Read reads a file. The error is one sentence for the file's owner: what is
// the matter with it, and what to do.
func Read(data []byte) (*Document, error) {
	a, err := open(data)
	if err != nil {
		return nil, err
	}
	main, err := a.main()
	if err != nil {
		return nil, err
	}
	source, err := a.part(main)
	if err != nil {
		return nil, err
	}
	sheet, err := a.styles(main)
	if err != nil {
		return nil, err
	}
	notes, err := a.comments(main)
	if err != nil {
		return nil, err
	}
	front, err := a.front()
	if err != nil {
		return nil, err
	}
	d := &Document{archive: a, main: main, source: source}
	w := newWalker(d, sheet, notes)
	if err := w.walk(); err != nil {
		return nil, err
	}
	read := typescript.Read(w.typed(), front)
	d.Text, d.Lines, d.stretches = read.Text, read.Lines, read.Stretches
	return d, nil
}

// overlapping are the indexes [from, to) of the stretches that a span touches.
func (d *Document) overlapping(span manuscript.Span) (from, to int) {
	from = sort.Search(len(d.stretches), func(i int) bool { return d.stretches[i].End > span.Start })
	to = from
	for to < len(d.stretches) && d.stretches[to].Start < span.End {
		to++
	}
	return from, to
}
