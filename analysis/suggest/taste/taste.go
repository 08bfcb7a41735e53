// Package taste weighs the words that could end a line of verse: how much more
// likely a poet is to choose one than another. It is a conditional logit
// (McFadden, Conditional logit analysis of qualitative choice behavior, 1974):
// of all candidates for a place, one is chosen with a probability that grows
// with the exponential of its score. The weights are learned by the command
// analysis/suggest/train; where they come from is told there.
//
// A score has three parts: facts about the candidate, one weight each; how the
// candidate's vector lies to those of the words before it and of the stanza;
// and how its parts of speech suit the place.
package taste

import (
	_ "embed"
	"encoding/binary"
	"math"

	"dandle/analysis/suggest/words"
	"dandle/phonetics/grammar"
)

// A Fact is something known of a candidate at its place.
type Fact uint8

// The facts.
const (
	Mate          Fact = iota // how likely its mate is the line to answer, as a logarithm
	After                     // 1 if its mate comes after it
	Gap2                      // 1 if its mate is two lines off
	Gap3                      // three
	GapMore                   // more
	Answered                  // 1 if another line answers its mate already
	AnsweredTwice             // 1 if two or more do
	Alone                     // 1 if of all lines near by only its mate has no answer
	Parallel                  // 1 if a line beside it answers one as far off as its mate: alternate rhyme
	Mirror                    // 1 if a line beside it answers the one on its mate's near side: enclosed rhyme
	Length                    // how likely its length is, by syllables, as a logarithm
	Beats                     // the same by beats
	Rarity                    // binary logarithm of its rank
	Rare                      // of that, what is beyond 12
	Level                     // SCOWL's size, in tens
	Tagged                    // binary logarithm of its count in texts tagged by sense
	Theme                     // nearness to the stanza
	Line                      // nearness to the line
	MateSense                 // nearness to its mate
	Nearest                   // nearness to the nearest word of the stanza
	Used                      // 1 if it ends a line already
	InLine                    // 1 if the line has it already
	Light                     // 1 for a light rhyme
	Near                      // for a near rhyme 1 and its distance
	Rich                      // 1 if the consonants before the vowel rhyme too
	Clash                     // its stresses where the meter wants slack
	Long                      // its syllables before the rhyming one
	Alike                     // 1 if it is spelled as its mate is
	Closed                    // 1 for a word of grammar, such as "me"
	Name                      // 1 for a place or a day
	Familiar                  // how often it is written in an encyclopedia: lexicon's familiarity, in tens
	Alliterates               // 1 if it begins as a word shortly before it does
	Common                    // how far its rarity is below 8
	Sensible                  // 1 if it has a sense in WordNet
	NearestInLine             // nearness to the nearest word of the line
	Conjoined                 // 1 if it may be the same part of speech as the word that it is joined to
	Echo                      // 1 if elsewhere it comes after the same word
	Refrain                   // 1 if it does so after the same two

	FactCount
)

// A Choice is a candidate.
type Choice struct {
	Facts  [FactCount]float32
	Vector words.Vector
	Parts  grammar.TagSet     // that it may be
	Main   words.PartOfSpeech // that it most often is
	Mate   int                // the line that it answers, among those of its place
}

// MostMates is how many lines may wait for an answer at one place.
const MostMates = 5

// A Place is where a word is wanted. Vectors that are not known are 0.
type Place struct {
	Tag        grammar.Tag  // of the word before
	TagBefore  grammar.Tag  // of the one before that
	Before     words.Vector // the word before
	BeforeThat words.Vector // and the one before that
	Line       words.Vector // what the line speaks of
	Stanza     words.Vector // what the stanza speaks of
	Mates      [MostMates]words.Vector
}

// Columns for the parts of speech: groups of those that stand in the same
// places, and the one that a word most often is.
const (
	groupCount = 14
	partCount  = groupCount + 5
)

var groups = [groupCount][]grammar.Tag{
	{grammar.Noun},
	{grammar.NounPlural},
	{grammar.Verb},
	{grammar.VerbPast},
	{grammar.VerbParticiple},
	{grammar.VerbGerund},
	{grammar.VerbThird},
	{grammar.Adjective},
	{grammar.Comparative, grammar.Superlative},
	{grammar.Adverb},
	{grammar.Pronoun},
	{grammar.Preposition, grammar.Particle},
	{grammar.Determiner, grammar.Modal, grammar.WhPronoun, grammar.WhAdverb, grammar.Interjection},
	{grammar.Number},
}

var groupSets = buildGroupSets()

func buildGroupSets() (sets [groupCount]grammar.TagSet) {
	for i, tags := range groups {
		for _, tag := range tags {
			sets[i] |= 1 << tag
		}
	}
	return sets
}

// mainColumn is the column of the part that a word most often is.
func mainColumn(part words.PartOfSpeech) int {
	switch part {
	case words.Noun:
		return groupCount + 1
	case words.Verb:
		return groupCount + 2
	case words.Adjective:
		return groupCount + 3
	case words.Adverb:
		return groupCount + 4
	}
	return groupCount
}

// shares gives each group that a word may be of an equal share of 1, and 1 to
// the part that it most often is.
func (c *Choice) shares() (list [partCount]float32) {
	n := float32(0)
	for i, set := range groupSets {
		if c.Parts&set != 0 {
			list[i] = 1
			n++
		}
	}
	for i := range groupSets {
		list[i] /= max(n, 1)
	}
	list[mainColumn(c.Main)] = 1
	return list
}

// The weights lie one after the other: one for each fact; one for each
// dimension of a candidate's vector; a matrix for each vector of the place,
// whose rows are the place's dimensions and whose columns the candidate's; and
// for the parts of speech a row for each tag that may stand before, and
// for each dimension of the two words before.
const (
	dims           = words.Dimensions
	vectorAt       = int(FactCount)
	beforeAt       = vectorAt + dims
	beforeThatAt   = beforeAt + dims*dims
	lineAt         = beforeThatAt + dims*dims
	stanzaAt       = lineAt + dims*dims
	tagAt          = stanzaAt + dims*dims
	tagLimit       = 48
	partsBeforeAt  = tagAt + tagLimit*partCount
	partsFurtherAt = partsBeforeAt + dims*partCount
	tagBeforeAt    = partsFurtherAt + dims*partCount
	tagVectorAt    = tagBeforeAt + tagLimit*partCount
	matesAt        = tagVectorAt + tagLimit*dims
	weightCount    = matesAt + dims*dims
)

// A Model is what was learned. It never changes.
type Model struct{ w [weightCount]float32 }

//go:embed weights.bin
var learned string

// Learned reads the weights that are built in: float32, little-endian.
func Learned() *Model {
	var m Model
	for i := range m.w {
		m.w[i] = math.Float32frombits(binary.LittleEndian.Uint32([]byte(learned[4*i : 4*i+4])))
	}
	return &m
}

// Bytes are the weights as Learned reads them.
func (m *Model) Bytes() []byte {
	var b []byte
	for _, x := range m.w {
		b = binary.LittleEndian.AppendUint32(b, math.Float32bits(x))
	}
	return b
}

// A Palate is a model that has taken in a place: it scores the candidates for
// that place.
type Palate struct {
	model  *Model
	vector [MostMates]words.Vector // by the line answered
	parts  [partCount]float32
}

// At takes in a place.
func (m *Model) At(p *Place) Palate {
	out := Palate{model: m}
	var vector words.Vector
	copy(vector[:], m.w[vectorAt:])
	for _, term := range p.terms() {
		addRows(vector[:], m.w[term.at:], term.vector)
	}
	addRow(vector[:], m.w[tagVectorAt+int(p.Tag)*dims:])
	for i := range p.Mates {
		out.vector[i] = vector
		addRows(out.vector[i][:], m.w[matesAt:], &p.Mates[i])
	}
	addRow(out.parts[:], m.w[tagAt+int(p.Tag)*partCount:])
	addRow(out.parts[:], m.w[tagBeforeAt+int(p.TagBefore)*partCount:])
	addRows(out.parts[:], m.w[partsBeforeAt:], &p.Before)
	addRows(out.parts[:], m.w[partsFurtherAt:], &p.BeforeThat)
	return out
}

// A term is a vector of a place and where its matrix begins.
type term struct {
	at     int
	vector *words.Vector
}

func (p *Place) terms() [4]term {
	return [4]term{{beforeAt, &p.Before}, {beforeThatAt, &p.BeforeThat}, {lineAt, &p.Line}, {stanzaAt, &p.Stanza}}
}

// addRows adds to out the rows of a matrix, each as often as its element of by
// says.
func addRows(out, matrix []float32, by *words.Vector) {
	for i, x := range by {
		if x == 0 {
			continue
		}
		row := matrix[i*len(out):][:len(out)]
		for j := range out {
			out[j] += x * row[j]
		}
	}
}

// addRow adds the row that a matrix begins with.
func addRow(out, matrix []float32) {
	for j := range out {
		out[j] += matrix[j]
	}
}

// Score is a candidate's, in natural logarithms: 1 more is 2.7 times as likely
// to be chosen.
func (p *Palate) Score(c *Choice) float64 {
	sum := float32(0)
	for i, x := range c.Facts {
		sum += p.model.w[i] * x
	}
	vector := &p.vector[c.Mate]
	for i, x := range c.Vector {
		sum += vector[i] * x
	}
	n, parts := float32(0), float32(0)
	for i, set := range groupSets {
		if c.Parts&set != 0 {
			parts += p.parts[i]
			n++
		}
	}
	return float64(sum + parts/max(n, 1) + p.parts[mainColumn(c.Main)])
}
