// Package manuscript reads the text of a manuscript into its parts: front
// matter, headings, spreads, stanzas, lines, words, notes and directives, each
// with its exact place. It knows how a manuscript is written down; it knows
// nothing of what the verse sounds like, and never changes a byte of it. The
// format is set down in grammar.txt.
package manuscript

import (
	"sort"

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

// Touches reports whether a cursor at the offset stands in the span or at
// either edge of it.
func (s Span) Touches(offset int) bool { return s.Start <= offset && offset <= s.End }

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
	Prose      []Span    // paragraphs of prose, which are left alone, in order
	Problems   []Problem // what could not be read as meant: never fatal; in order
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
	Keys       []Key             // every key at the top, as written, in order
}

// A Key is one entry at the top of the front matter or the house rules, with
// its place, for what wants to point at it.
type Key struct {
	Name  string
	Span  Span // the name
	Value Span // from the value's start to where its last line ends; empty where there is none
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

// A Stanza is a run of verse lines with no blank line between them. It may run
// over a page turn.
type Stanza struct {
	From, To int // lines [From, To), indexes into Lines
}

// A Line is one line of verse.
type Line struct {
	// Span is the verse in it: no indent, no trailing space, no note. Only a
	// note, comment or tag between two words of the line lies within it.
	Span   Span
	Number int // from 1, in the file
	Stanza int // index into Stanzas
	Place  int // from 0, in its stanza
	Words  []Word
}

// A Word is a run of letters, digits, apostrophes and inner hyphens.
type Word struct {
	Span Span
	// Text is the word without what cannot be heard: emphasis marks in the
	// middle of it, soft hyphens, joiners. Else it is what the span holds.
	Text string
	// Emphasis is set in *…* or _…_, where these raise a word's stress. Around
	// a whole line, or five words and more, they set off a letter, a sign or a
	// song, and stress nothing.
	Emphasis bool
	// Shouted is set for a word of two letters and more all in capitals, in a line that is not.
	Shouted bool
	// Break is the pause after the word, from its punctuation.
	Break Break
	// Quoted is set inside quotation marks, double or single: speech.
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
	// Inside is set for an art note with words of the verse after it on its line.
	Inside bool
}

// A NoteKind tells whose note it is.
type NoteKind uint8

// The kinds of note.
const (
	ArtNote      NoteKind = iota // […], for the illustrator
	ReviewerNote                 // > …, the reviewer's own
)

// An Allowance accepts findings, by a directive in a comment or in the front
// matter.
type Allowance struct {
	Span  Span     // the comment, or the front matter's value
	Codes []string // codes or areas
	Line  int      // the verse line it holds for, an index into Lines; -1 for the whole file
}

// A Problem is something that could not be read as it was meant.
type Problem struct {
	Span    Span
	Message string // what is wrong and what to do
}

// FileLine is the line of the file that the offset lies in, from 0. An offset
// before or after the text counts as its first or last.
func (m *Manuscript) FileLine(offset int) int {
	return max(0, sort.SearchInts(m.LineStarts, offset+1)-1)
}

// LineAt is the index of the verse line whose line in the file the offset lies
// in, its indent and notes included, or -1 where no verse stands on that line.
func (m *Manuscript) LineAt(offset int) int {
	if offset < 0 || offset > len(m.Text) {
		return -1
	}
	number := m.FileLine(offset) + 1
	i := sort.Search(len(m.Lines), func(i int) bool { return m.Lines[i].Number >= number })
	if i == len(m.Lines) || m.Lines[i].Number != number {
		return -1
	}
	return i
}

// WordAt finds the word that a cursor at the offset stands in or touches; where
// it touches two, the one that it stands before. Line indexes Lines, word that
// line's Words.
func (m *Manuscript) WordAt(offset int) (line, word int, ok bool) {
	line = m.LineAt(offset)
	if line < 0 {
		return 0, 0, false
	}
	words := m.Lines[line].Words
	// The first word that does not end before the cursor.
	i := sort.Search(len(words), func(i int) bool { return words[i].Span.End >= offset })
	if i+1 < len(words) && words[i+1].Span.Start == offset {
		i++
	}
	if i == len(words) || !words[i].Span.Touches(offset) {
		return 0, 0, false
	}
	return line, i, true
}

// StanzaAt is the index of the stanza that the offset lies in, from the start
// of its first line to the end of its last, or -1.
func (m *Manuscript) StanzaAt(offset int) int {
	i := sort.Search(len(m.Stanzas), func(i int) bool { return m.StanzaSpan(i).End >= offset })
	if i == len(m.Stanzas) || !m.StanzaSpan(i).Touches(offset) {
		return -1
	}
	return i
}

// SpreadAt is the index of the spread that the offset lies in, its heading
// included, or -1 before the first.
func (m *Manuscript) SpreadAt(offset int) int {
	return sort.Search(len(m.Spreads), func(i int) bool { return m.Spreads[i].Heading.Span.Start > offset }) - 1
}

// NoteAt is the index of the note that the offset lies in or touches, or -1.
func (m *Manuscript) NoteAt(offset int) int {
	i := sort.Search(len(m.Notes), func(i int) bool { return m.Notes[i].Span.End >= offset })
	if i == len(m.Notes) || !m.Notes[i].Span.Touches(offset) {
		return -1
	}
	return i
}

// StanzaSpan is the stretch from the start of a stanza's first line to the end
// of its last.
func (m *Manuscript) StanzaSpan(i int) Span {
	s := m.Stanzas[i]
	return Span{m.Lines[s.From].Span.Start, m.Lines[s.To-1].Span.End}
}

// StanzaLines are the lines of a stanza.
func (m *Manuscript) StanzaLines(i int) []Line {
	return m.Lines[m.Stanzas[i].From:m.Stanzas[i].To]
}

// FileLineSpan is the whole of a line of the file, counted from 0, without its
// line break.
func (m *Manuscript) FileLineSpan(i int) Span {
	end := len(m.Text)
	if i+1 < len(m.LineStarts) {
		end = m.LineStarts[i+1]
	}
	for start := m.LineStarts[i]; end > start && (m.Text[end-1] == '\n' || m.Text[end-1] == '\r'); {
		end--
	}
	return Span{m.LineStarts[i], end}
}

// LineEnd is the line end that the text uses first; "\n" where it has none.
func (m *Manuscript) LineEnd() string {
	if len(m.LineStarts) < 2 {
		return "\n"
	}
	return m.Text[m.FileLineSpan(0).End:m.LineStarts[1]]
}

// WordCount is the number of words of verse, which is what a publisher counts
// of a picture book (common practice).
func (m *Manuscript) WordCount() int {
	n := 0
	for i := range m.Lines {
		n += len(m.Lines[i].Words)
	}
	return n
}
