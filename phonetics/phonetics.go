// Package phonetics turns written words into sounds: pronunciations,
// syllables with their places in the spelling, and stress, in the dialect of
// the writer. It knows words and the words beside them; it knows no verse.
//
// A word is found by the first way of knowing that has an answer: what the
// writer taught, abbreviations, the dictionary, elisions, stretched words,
// numerals, contractions, endings, prefixes, hyphens, sound words, compounds,
// and last its letters. What is found is loosened by its optional syllables,
// brought into the writer's dialect, and laid to its spelling.
package phonetics

import (
	"dandle/phonetics/arpabet"
	"dandle/phonetics/grammar"
)

// The types of package arpabet that this package's answers are made of.
type (
	Sounds = arpabet.Sounds
	Stress = arpabet.Stress
)

// A Source says how a pronunciation is known.
type Source uint8

// The sources of a pronunciation.
const (
	FromSpelling   Source = iota // guessed from the letters
	FromLexicon                  // in the dictionary
	FromWriter                   // taught by the writer
	FromInflection               // a known word with an ending or a prefix
	FromCompound                 // two or more known words
	FromNumber                   // a numeral read out
	FromElision                  // a known word with a sound dropped
	FromLetters                  // letters named one by one
	FromImitation                // a sound word, or a word stretched
	FromVariant                  // another spelling of a known word: "colour", "color"
)

var sourceNames = [...]string{"spelling", "lexicon", "writer", "inflection", "compound", "number", "elision", "letters", "imitation", "variant"}

// String is the name used in output, such as "lexicon".
func (s Source) String() string { return sourceNames[s] }

// A Pronunciation is one way to say a word.
type Pronunciation struct {
	Sounds Sounds
	Source Source
	// Cost is how much less usual this way is than the most usual one, in
	// natural logarithms: 0 is the most usual, 0.7 about half as usual.
	Cost float32
	// Reason says what in the sentence put this way first, where something
	// did, in words that can follow "it is": "a verb here".
	Reason string
	// Syllables are in order; their spans cover the spelling without gaps.
	// There are none where the word is only the opening of the next one: th'.
	Syllables []Syllable
}

// A Syllable is one syllable of a pronunciation, and where it stands in the
// spelling, in bytes from the word's start.
type Syllable struct {
	// Sounds [From, Nucleus) are the onset, Nucleus is the vowel's place, and
	// (Nucleus, To) are the coda. In a word that has no vowel, such as "shh",
	// Nucleus is the place of the consonant that is held in its stead.
	From, Nucleus, To int
	Start, End        int
	Stress            Stress
}

// A Reader pronounces words in one dialect, with the words its writer has
// taught it. Its answers never change, and it may be used by many goroutines.
type Reader struct {
	dialect Dialect
	taught  map[string]Sounds // by the folded word
	memory  memory
}

// NewReader makes a reader. The keys of taught are words as written: case,
// accents and the shape of apostrophes do not matter in them. The map is
// copied.
func NewReader(d Dialect, taught map[string]Sounds) *Reader { return newReader(d, taught, 0) }

func newReader(d Dialect, taught map[string]Sounds, words int) *Reader {
	r := &Reader{dialect: d, taught: make(map[string]Sounds, len(taught)), memory: newMemory(words)}
	for word, s := range taught {
		if s != "" {
			r.taught[fold(word).text] = s
		}
	}
	return r
}

// Dialect is the dialect of the reader's answers.
func (r *Reader) Dialect() Dialect { return r.dialect }

// A Context is what stands round a word.
type Context struct {
	Tag           grammar.Tag
	Before, After string // the words beside it as written; empty at an end
}

// surroundings are a word's context, and whether its answer depends on the words
// beside it. A part of a word, such as the letters of "Dr0", has none: nil.
type surroundings struct {
	context Context
	asked   bool
}

func (s *surroundings) tag() grammar.Tag { return s.context.Tag }

func (s *surroundings) before() string {
	if s == nil {
		return ""
	}
	s.asked = true
	return s.context.Before
}

func (s *surroundings) after() string {
	if s == nil {
		return ""
	}
	s.asked = true
	return s.context.After
}
