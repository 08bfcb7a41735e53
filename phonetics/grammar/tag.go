// Package grammar tells what part a word plays in its sentence. It knows
// spellings and their order; it knows neither sounds nor verse.
package grammar

import "strings"

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

// A Token is a word and the punctuation that follows it.
type Token struct {
	Text  string // the word as written
	After string // marks up to the next word: "," or "—", often empty
}

// Tags gives each token of a passage its part of speech. A passage is a few
// lines of verse that run on, in order.
func Tags(tokens []Token) []Tag {
	tags := make([]Tag, len(tokens))
	before, opens := Unknown, true
	for i, t := range tokens {
		capital := t.Text != "" && t.Text[0] >= 'A' && t.Text[0] <= 'Z'
		tags[i] = plainTag(t.Text, capital, opens, before)
		before = tags[i]
		opens = strings.ContainsAny(t.After, ".!?\n")
		if t.After != "" {
			before = Punctuation
		}
	}
	return tags
}
