// Package suggest offers words to a writer: rhymes that fit what the line
// still lacks at the cursor, and words that would do in the place of another.
// It knows how words sound, how common they are and how near they lie in
// sense; it knows no protocol and changes no text.
//
// An editor asks At for the words at a cursor, Rhymes for the words that rhyme
// with a word, Replacements for the words that could stand in for one, and
// Instead for single words that could stand in for a few.
package suggest

import (
	"dandle/analysis/manuscript"
	"dandle/analysis/rhyme"
	"dandle/analysis/scansion"
	"dandle/phonetics"
)

// A Place is a spot in a manuscript for which words are wanted.
type Place struct {
	Manuscript *manuscript.Manuscript
	Poem       *scansion.Poem
	Reader     *phonetics.Reader
	// Stanzas are what is heard in the ends of the manuscript's lines; where
	// there are none, the stanzas round the cursor are heard again.
	Stanzas []rhyme.Stanza
	Offset  int // the cursor, in bytes from the manuscript's start
	// Judges and Empty report whether a word, in lower case, only judges what it
	// stands by, and whether it shows nothing at all. Neither kind is offered, and
	// what judges yields to what can be seen. Nil knows none.
	Judges, Empty func(word string) bool
}

// An Item is one word, or a few, to offer.
type Item struct {
	Text    string
	Span    manuscript.Span // what it replaces; empty where it is put in
	Kind    rhyme.Kind      // how it answers the line's mate; NoRhyme where no mate is known
	Pattern string          // its beats, one character a syllable: "x/"
	Feet    string          // of the line with it; empty where it was not read in one
	Detail  string          // pattern and kind, in a few words: "x/ · perfect rhyme with glow"
	Doc     string          // its sense, in Markdown; empty where none is known
	Wants   string          // the word that the line would end with, where that rhymes with its mate no more
	Score   float64         // 0 … 1, the higher the better; items come best first
}

// A List is what At answers.
type List struct {
	Items []Item
	// Incomplete is set where more typing may bring up words that are not
	// among the items.
	Incomplete bool
}
