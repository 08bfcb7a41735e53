// Package ear says how a line of verse is best read aloud: which of its
// syllables bear a beat, under each meter that a poem may keep. It is a
// conditional random field (Lafferty, McCallum, Pereira 2001) over the line's
// syllables whose hidden part is the pronunciation of each word. Its weights
// are learned by the trainer beside it. It knows a line; it knows nothing of
// the poem round it, of rhyme, or of what a line ought to be.
package ear

import (
	"dandle/analysis/manuscript"
	"dandle/phonetics"
	"dandle/phonetics/grammar"
)

// A Word is a word of a line with every way to say it.
type Word struct {
	manuscript.Word
	Tag  grammar.Tag
	Ways []phonetics.Pronunciation // most usual first; none: the word is silent
}

// A Foot is a foot that a line's meter can be made of.
type Foot uint8

// The feet that a line is tried under.
const (
	Iambic Foot = iota
	Trochaic
	Anapestic
	Dactylic
	Amphibrachic
	Mixed // duple and triple feet side by side

	FootCount
)

// A family is the usual distance of beats: what feet share in mid-line.
type family uint8

const (
	duple family = iota
	triple
	loose

	familyCount
)

var familyOf = [FootCount]family{duple, duple, triple, triple, triple, loose}

// SameFamily reports whether two feet put the same number of slacks between
// beats.
func SameFamily(a, b Foot) bool { return familyOf[a] == familyOf[b] }

// Limits on what is read as a line of verse.
const (
	// MaxBeats is the most beats that a line is heard to have. Eight is the
	// longest line the trade has a name for; two more let it be overstepped.
	MaxBeats = 10
	// MaxSyllables bounds the work. The longest line in use, a dactylic
	// octameter, has 24.
	MaxSyllables = 48
	// maxWays bounds the pronunciations of one word that are tried.
	maxWays = 4
)
