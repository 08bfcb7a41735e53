// Package manuscript reads the text of a manuscript into its parts: front
// matter, headings, spreads, stanzas, lines, words, notes and directives, each
// with its exact place. It knows how a manuscript is written down; it knows
// nothing of what the verse sounds like, and never changes a byte of it.
package manuscript

import (
	"dandle/phonetics"
)

// A Span is a stretch of the text in bytes, [Start, End).
type Span struct{ Start, End int }

// Len is the number of bytes.
func (s Span) Len() int { return s.End - s.Start }

// In cuts the span out of the text it belongs to.
func (s Span) In(text string) string { return text[s.Start:s.End] }

// Contains reports whether the offset lies in the span.
func (s Span) Contains(offset int) bool { return s.Start <= offset && offset < s.End }

// A Manuscript is one version of a text, read. It never changes once made.
type Manuscript struct {
	Text       string
	Front      Front
	Title      Heading  // the first "#" heading; zero where there is none
	Spreads    []Spread // none where no "##" heading stands
	Stanzas    []Stanza // in order
	Lines      []Line   // verse lines only, in order
	Notes      []Note   // art notes and reviewer's notes, in order
	Allowances []Allowance
	Problems   []Problem // what could not be read as meant: never fatal
	LineStarts []int     // byte offset of each line of the file
}

// Front is the front matter.
type Front struct {
	Span       Span // with its fences; empty where there is none
	Title      string
	Ages       Ages   // zero: not given
	Meter      string // as written: "anapestic tetrameter"; the scansion reads it
	Dialect    phonetics.Dialect
	HasDialect bool
	Pitch      string
	Pronounce  map[string]string // word in lower case → respelling, as written
	Allow      []string          // codes of findings, or areas
	Verse      bool              // "dandle: verse", which opts a Markdown file in
}

// Ages is the age band a book is for, in years, both ends in it.
type Ages struct{ From, To int }

// A Heading is a line that starts with "#".
type Heading struct {
	Span  Span
	Level int
	Text  string
}

// A Spread is what lies between two page turns.
type Spread struct {
	Heading  Heading
	From, To int // lines of verse [From, To), indexes into Lines
}

// A Stanza is a run of verse lines with no blank line between them.
type Stanza struct {
	From, To int // lines [From, To), indexes into Lines
}

// A Line is one line of verse.
type Line struct {
	Span   Span // the verse in it: no indent, no trailing space, no note
	Number int  // from 1, in the file
	Stanza int  // index into Stanzas
	Place  int  // from 0, in its stanza
	Words  []Word
}

// A Word is a run of letters, digits, apostrophes and inner hyphens.
type Word struct {
	Span     Span
	Text     string
	Emphasis bool // set in *…* or _…_
	// Shouted is set for a word of two letters and more all in capitals, in a line that is not.
	Shouted bool
	// Break is the pause after the word, from its punctuation.
	Break Break
	// Quoted is set inside double or curly quotes: speech.
	Quoted bool
}

// A Break is how strong a pause the punctuation after a word asks for.
type Break uint8

// The breaks.
const (
	NoBreak    Break = iota
	LightBreak       // comma, bracket, quote
	HeavyBreak       // dash, colon, semicolon, ellipsis
	FullBreak        // full stop, question, exclamation mark
)

// A Note is an art note or a reviewer's note.
type Note struct {
	Span Span // with its brackets, or from its ">"
	Kind NoteKind
	Text string // without them
	Line int    // index of the verse line that it follows or stands in; -1 before the first
}

// A NoteKind tells whose note it is.
type NoteKind uint8

// The kinds of note.
const (
	ArtNote      NoteKind = iota // […], for the illustrator
	ReviewerNote                 // > …, the reviewer's own
)

// An Allowance accepts findings, by a directive in a comment.
type Allowance struct {
	Span  Span     // the comment
	Codes []string // codes or areas
	Line  int      // the verse line it holds for, an index into Lines; -1 for the whole file
}

// A Problem is something that could not be read as it was meant.
type Problem struct {
	Span    Span
	Message string // what is wrong and what to do
}
