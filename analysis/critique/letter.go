// Package critique writes the letter that a read-through ends in. It knows what
// an editor says first and last, and how; it hears nothing itself, and claims
// nothing that the findings, the meter and the rhymes it is given do not hold.
package critique

import (
	"dandle/analysis/card"
	"dandle/analysis/checks"
	"dandle/analysis/manuscript"
	"dandle/analysis/rhyme"
	"dandle/analysis/scansion"
)

// Parts are what a letter is written from: one version of a manuscript with
// everything that was heard in it. Nothing in them is changed.
type Parts struct {
	Manuscript *manuscript.Manuscript
	Poem       *scansion.Poem
	Stanzas    []rhyme.Stanza   // what is heard in the ends of their lines, one for each stanza
	Findings   []checks.Finding // praise among them, by place
	// Again hears a text that an edit has changed, so that the letter offers no
	// way to mend a line that does not scan itself. Without it, ways are shown
	// without their feet.
	Again func(text string) (*manuscript.Manuscript, *scansion.Poem)
	// Fixes are the ways to mend a finding; without it, those that it has itself.
	Fixes func(*checks.Finding) []checks.Fix
}

// A Tone is how much the letter says.
type Tone uint8

// The tones.
const (
	Full  Tone = iota // two pages for a picture book
	Brief             // one page: the notes that matter most, the rest by line number
)

// A Letter is what an editor would write. It is a plain value: every renderer
// shows the same letter.
type Letter struct {
	Title    string // of the book; "" where it has none
	Sections []Section
}

// A SectionKind is what a section is about.
type SectionKind uint8

// The sections, in the order of the letter.
const (
	Aim       SectionKind = iota // what the book sets out to do
	Works                        // what works
	Meter                        // the meter, in a sentence and a stanza
	First                        // the notes that matter most
	Lines                        // the other notes on lines
	Reviewer                     // the reviewer's own notes
	Verses                       // what runs through the stanzas
	Marks                        // marks and art notes
	Book                         // words, spreads
	NextSteps                    // what to do now
)

// A Section is one part of the letter.
type Section struct {
	Kind       SectionKind
	Heading    string
	Paragraphs []string // plain text
	Feet       []Verse  // lines set with their feet, after the paragraphs
	Notes      []Note
	Steps      []string // what to do, in order
	Closing    string   // the last words of the section, after all else
}

// A Note is one thing that is said, about one place or several alike.
type Note struct {
	Code     checks.Code // "" for a note of the reviewer's own
	Severity checks.Severity
	Reviewer bool    // the reviewer's own words
	Action   string  // what to do about it, as a heading; notes with the same one follow each other
	Text     string  // what the ear hears and why; "" where Action says it all
	Places   []Place // never empty but for notes about the whole book
	Feet     []Verse // the lines it is about, where it speaks of feet
	Expected string  // the pattern the place calls for, "xx/|xx/"; "" where the note is about no pattern
	Heard    string  // the pattern heard
	Ways     []Way   // at most two
	Findings []int   // the findings it speaks of, indexes into Parts.Findings, one for each place where the note is not the reviewer's
}

// A Place is where a note points.
type Place struct {
	Span  manuscript.Span
	Line  int    // in the file, from 1
	Verse int    // index of the verse line, or -1
	Quote string // the words, on one line, without quotation marks
	Way   string // in a note about several places, what could stand here instead
}

// A Way is something to try.
type Way struct {
	Title string
	Edits []checks.Edit
	Line  string     // the line as it would read; "" where the edits touch several lines
	Block card.Block // that line with its feet, where it was heard again
}

// A Verse is one line set with its feet.
type Verse struct {
	Line  int // in the file, from 1
	Block card.Block
}
