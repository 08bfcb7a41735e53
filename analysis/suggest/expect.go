package suggest

import (
	"math"

	"dandle/phonetics/grammar"
)

// A class is a group of parts of speech that stand in the same places.
type class uint8

const (
	noun class = iota
	plural
	verb
	past
	participle
	gerund
	third
	adjective
	adverb
	pronoun
	preposition
	other
	classCount
)

// tagsOf are the tags of each class that a single word may be asked for.
var tagsOf = [classCount][]grammar.Tag{
	noun:        {grammar.Noun},
	plural:      {grammar.NounPlural},
	verb:        {grammar.Verb},
	past:        {grammar.VerbPast},
	participle:  {grammar.VerbParticiple},
	gerund:      {grammar.VerbGerund},
	third:       {grammar.VerbThird},
	adjective:   {grammar.Adjective, grammar.Comparative, grammar.Superlative, grammar.Number},
	adverb:      {grammar.Adverb},
	pronoun:     {grammar.Pronoun},
	preposition: {grammar.Preposition, grammar.Particle},
	other:       {grammar.Determiner, grammar.Modal, grammar.WhPronoun, grammar.WhAdverb, grammar.Interjection},
}

// expectation is how likely each class is, as a logarithm, at a line's end
// after a word of some part of speech. The figures are rounded from counts
// over the endings of 20,000 lines of English verse before 1800 and of the
// nineteenth century, tagged by package grammar; the order within a row is
// plain grammar: an article wants a noun, "to" a verb.
var expectation = map[grammar.Tag][classCount]float64{
	//                        N     NS    V     VD    VN    VG    VZ    J     R     P     I     O
	grammar.Noun:           {-0.7, -3.1, -2.2, -2.6, -3.7, -6.3, -2.6, -3.2, -2.8, -4.5, -3.5, -4.4},
	grammar.NounPlural:     {-1.8, -3.5, -0.8, -2.5, -3.4, -5.4, -4.5, -2.5, -2.7, -4.9, -3.3, -3.9},
	grammar.Verb:           {-1.4, -4.0, -2.7, -4.7, -1.7, -5.1, -6.6, -1.9, -2.0, -2.1, -3.1, -3.7},
	grammar.VerbPast:       {-1.3, -3.8, -1.6, -4.2, -1.8, -3.7, -4.9, -2.3, -2.2, -3.1, -3.5, -4.6},
	grammar.VerbGerund:     {-0.8, -2.2, -4.4, -3.6, -4.4, -5.5, -4.4, -2.2, -2.0, -2.6, -3.6, -3.1},
	grammar.VerbParticiple: {-1.1, -4.2, -3.2, -3.3, -3.2, -4.5, -5.3, -2.2, -1.5, -2.8, -2.7, -3.3},
	grammar.VerbPresent:    {-1.7, -3.4, -1.6, -4.5, -1.8, -3.8, -5.9, -2.0, -2.3, -2.5, -3.4, -3.5},
	grammar.VerbThird:      {-1.7, -3.8, -1.4, -5.2, -1.6, -4.2, -5.2, -1.9, -2.3, -3.3, -3.5, -4.7},
	grammar.Modal:          {-3.6, -5.5, -0.1, -7.1, -6.0, -7.1, -5.5, -6.0, -4.0, -4.7, -7.1, -6.0},
	grammar.Adjective:      {-0.3, -2.0, -3.5, -4.9, -5.2, -7.9, -5.5, -3.7, -4.2, -5.8, -5.5, -5.5},
	grammar.Comparative:    {-0.5, -1.8, -3.2, -3.4, -4.5, -5.6, -4.0, -2.5, -3.7, -5.6, -4.0, -4.5},
	grammar.Superlative:    {-0.2, -2.4, -4.5, -5.6, -4.5, -5.6, -4.5, -3.2, -5.6, -3.7, -5.6, -4.5},
	grammar.Adverb:         {-2.1, -4.5, -1.3, -2.7, -2.8, -4.8, -3.0, -1.4, -2.2, -4.8, -4.3, -4.3},
	grammar.Particle:       {-1.1, -2.9, -4.0, -4.0, -4.0, -4.0, -4.0, -2.1, -1.3, -4.0, -2.9, -2.9},
	grammar.Preposition:    {-0.4, -2.5, -4.7, -5.7, -5.7, -5.6, -5.7, -2.7, -3.5, -2.3, -4.9, -3.1},
	grammar.To:             {-2.3, -4.2, -0.2, -7.9, -7.9, -7.9, -7.9, -5.9, -6.3, -3.4, -6.8, -4.7},
	grammar.Determiner:     {-0.2, -2.8, -4.9, -5.8, -6.7, -7.0, -6.2, -2.8, -4.2, -8.6, -5.6, -6.4},
	grammar.Pronoun:        {-2.5, -4.1, -0.8, -1.7, -4.1, -6.2, -2.5, -3.1, -2.5, -5.6, -3.7, -3.4},
	grammar.Possessive:     {-0.3, -1.8, -4.8, -8.2, -6.6, -6.6, -6.6, -3.2, -6.0, -8.2, -6.3, -6.6},
	grammar.WhPronoun:      {-1.2, -2.5, -2.2, -2.2, -3.1, -4.7, -2.3, -3.1, -2.5, -3.1, -3.1, -3.6},
	grammar.WhDeterminer:   {-2.1, -4.1, -1.4, -1.9, -5.2, -5.2, -1.2, -3.6, -2.5, -5.2, -5.2, -3.3},
	grammar.WhAdverb:       {-1.2, -3.3, -2.4, -3.3, -4.4, -3.3, -4.4, -2.0, -2.2, -1.8, -3.3, -4.4},
	grammar.Conjunction:    {-0.7, -2.4, -2.1, -3.7, -4.6, -5.9, -4.1, -1.9, -3.0, -3.7, -4.7, -4.0},
	grammar.Number:         {-1.3, -0.7, -3.9, -3.9, -3.9, -5.0, -3.9, -3.4, -2.5, -3.9, -5.0, -3.4},
	grammar.There:          {-2.2, -3.8, -1.1, -1.9, -2.2, -3.8, -2.7, -2.7, -2.7, -3.8, -3.8, -3.8},
}

// anywhere is the row where the word before says nothing.
var anywhere = [classCount]float64{-1.1, -2.8, -1.6, -3.0, -3.2, -5.0, -3.4, -2.5, -2.7, -3.6, -4.0, -4.0}

// expected is how well a word's parts of speech suit a place after a word of
// the tag given: the logarithm of the mean likelihood of the parts it may be.
func expected(text string, before grammar.Tag) float64 {
	row, ok := expectation[before]
	if !ok {
		row = anywhere
	}
	sum, n := 0.0, 0
	for c := range classCount {
		for _, tag := range tagsOf[c] {
			if grammar.CanBe(text, tag) {
				sum += math.Exp(row[c])
				n++
				break
			}
		}
	}
	if n == 0 {
		return -4
	}
	return math.Log(sum / float64(n))
}
