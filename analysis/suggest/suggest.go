// Package suggest offers words to a writer: rhymes that fit what the line
// still lacks at the cursor, and words that would do in the place of another.
// It knows how words sound, how common they are and how near they lie in
// sense; it knows no protocol and changes no text.
//
// An editor asks At for the words at a cursor, Rhymes for the words that rhyme
// with a word, and Replacements for the words that could stand in for one.
package suggest

import (
	"dandle/analysis/manuscript"
	"dandle/analysis/rhyme"
	"dandle/analysis/scansion"
	"dandle/phonetics"
	"dandle/phonetics/arpabet"
)

// A Place is a spot in a manuscript for which words are wanted.
type Place struct {
	Manuscript *manuscript.Manuscript
	Poem       *scansion.Poem
	Reader     *phonetics.Reader
	Offset     int // the cursor, in bytes from the manuscript's start
}

// An Item is one word, or a few, to offer.
type Item struct {
	Text    string
	Span    manuscript.Span // what it replaces; empty where it is put in
	Kind    rhyme.Kind      // how it answers the line's mate; NoRhyme where no mate is known
	Pattern string          // its beats, one character a syllable: "x/"
	Detail  string          // pattern and kind, in a few words: "x/ · perfect rhyme with glow"
	Doc     string          // its sense, in Markdown; empty where none is known
	Score   float64         // 0 … 1, the higher the better; items come best first
}

// A List is what At answers.
type List struct {
	Items []Item
	// Incomplete is set where more typing may bring up words that are not
	// among the items.
	Incomplete bool
}

// At lists the words that would end the line at the cursor: rhymes for the
// line's mate that fill what its meter still wants, best first, perfect ones
// before near ones. It is empty where the cursor is not at the end of a line
// of verse, or in its last word.
func At(p Place) List { return List{} }

// Options narrow a search for rhymes.
type Options struct {
	Slot  string         // beats wanted, one character a syllable: "xx/"; empty for any
	Near  bool           // near rhymes too, after the perfect ones
	Sense string         // a word whose sense the answers should lie near; empty for none
	Sound arpabet.Sounds // the sound to rhyme with, instead of the word's own
	Limit int            // the most items wanted; 0 for 200
}

// Rhymes lists the words that rhyme with a word, best first.
func Rhymes(word string, reader *phonetics.Reader, o Options) []Item { return nil }

// Replacements lists words that could stand in for word number word of line
// number line: near in sense, and of the beats that its place wants.
func Replacements(p Place, line, word int) []Item { return nil }
