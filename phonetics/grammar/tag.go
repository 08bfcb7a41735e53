// Package grammar tells what part a word plays in its sentence. It knows
// spellings and their order; it knows neither sounds nor verse.
package grammar

import (
	"math"
	"math/bits"
)

// A Tag is a part of speech. The tags are those of the Penn Treebank (Marcus,
// Santorini, Marcinkiewicz 1993), under readable names.
type Tag uint8

// The tags.
const (
	Unknown        Tag = iota
	Noun               // NN
	NounPlural         // NNS
	Name               // NNP
	NamePlural         // NNPS
	Verb               // VB, base form
	VerbPast           // VBD
	VerbGerund         // VBG
	VerbParticiple     // VBN
	VerbPresent        // VBP
	VerbThird          // VBZ
	Modal              // MD
	Adjective          // JJ
	Comparative        // JJR
	Superlative        // JJS
	Adverb             // RB
	AdverbMore         // RBR
	AdverbMost         // RBS
	Particle           // RP
	Preposition        // IN, and subordinating conjunctions
	To                 // TO
	Determiner         // DT
	Predeterminer      // PDT
	Pronoun            // PRP
	Possessive         // PRP$
	WhPronoun          // WP, WP$
	WhDeterminer       // WDT
	WhAdverb           // WRB
	Conjunction        // CC
	Number             // CD
	There              // EX
	Interjection       // UH
	PossessiveEnd      // POS
	Foreign            // FW
	Symbol             // SYM, LS
	Punctuation        // any mark

	tagCount
)

var tagNames = [tagCount]string{
	"?", "NN", "NNS", "NNP", "NNPS", "VB", "VBD", "VBG", "VBN", "VBP", "VBZ", "MD", "JJ", "JJR", "JJS", "RB", "RBR", "RBS",
	"RP", "IN", "TO", "DT", "PDT", "PRP", "PRP$", "WP", "WDT", "WRB", "CC", "CD", "EX", "UH", "POS", "FW", "SYM", ".",
}

// String is the treebank's name of the tag, such as "NNS"; "." is any mark
// and "?" is Unknown.
func (t Tag) String() string {
	if t < tagCount {
		return tagNames[t]
	}
	return "?"
}

// IsNoun reports whether the tag is a noun's or a name's.
func (t Tag) IsNoun() bool { return Noun <= t && t <= NamePlural }

// IsVerb reports whether the tag is a verb's in any form. A modal is none.
func (t Tag) IsVerb() bool { return Verb <= t && t <= VerbThird }

// IsAdjective reports whether the tag is an adjective's in any degree.
func (t Tag) IsAdjective() bool { return Adjective <= t && t <= Superlative }

// IsAdverb reports whether the tag is an adverb's in any degree.
func (t Tag) IsAdverb() bool { return Adverb <= t && t <= AdverbMost }

// A Token is a word and what follows it.
type Token struct {
	Text string // the word as written
	// After is what stands between the word and the next: "," or "—" or
	// ".\n", often empty. A line break tells that the next word's capital may
	// be the line's and not the word's own.
	After string
}

// Tags gives each token of a passage its part of speech. A passage is a few
// lines of verse that run on, in order.
//
// A contraction has the tag of its head: "it's" and "'tis" are Pronoun,
// "don't" is VerbPresent, "can't" is Modal, "goat's" is Noun whether the rest
// is a possessive or a verb. A token without a letter or a digit is
// Punctuation.
func Tags(tokens []Token) []Tag {
	tags := make([]Tag, len(tokens))
	for _, p := range choose(split(tokens)) {
		if p.head {
			tags[p.token] = tagOf[p.class]
		}
	}
	return tags
}

// A Reading is a tag and how sure it is.
type Reading struct {
	Tag Tag
	// Chance is how likely the part of speech is right, from 0.5 for a guess
	// to 1; a verb's form, or a noun's number, may still be another.
	Chance float32
}

// Read is Tags with the chance of each.
func Read(tokens []Token) []Reading {
	list := make([]Reading, len(tokens))
	for _, p := range choose(split(tokens)) {
		if p.head {
			list[p.token] = Reading{tagOf[p.class], chance(p.margin)}
		}
	}
	return list
}

// chance is a logistic curve through how often a tag was right that won by a
// margin, in twelfths, measured on 3,900 sentences of newspaper text: 0.59 at
// 1 whole point, 0.85 at 9, 0.96 at 17. On testdata/verse.txt it is a little
// too low.
func chance(margin int32) float32 {
	return float32(1 / (1 + math.Exp(-0.2-0.17/12*float64(margin))))
}

// A TagSet is a set of tags.
type TagSet uint64

// Has reports whether a tag is in the set.
func (s TagSet) Has(t Tag) bool { return s>>t&1 != 0 }

// TagsOf are the tags that the word lists know a word by, as written, by
// itself or as a regular inflection: none for a word that no list has.
func TagsOf(word string) TagSet {
	low := modern(lower(word))
	may := inflected(low)
	if set, ok := lookup(low); ok {
		may |= set.may
	}
	var tags TagSet
	for ; may != 0; may &= may - 1 {
		tags |= 1 << tagOf[bits.TrailingZeros64(uint64(may))]
	}
	return tags
}

// CanBe reports whether a tag is one of the word's: see TagsOf.
func CanBe(word string, tag Tag) bool { return TagsOf(word).Has(tag) }
