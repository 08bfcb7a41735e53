package grammar

import (
	_ "embed"
	"strings"
)

//go:generate go run gen.go -o grammar.bin

// The table is one string and read in place. Its parts, in order:
//
//	magic     "dandleg1"
//	sizes     3 bytes each, little-endian: features, words, sets
//	features  bucketed records: a hash's low 16 bits, a number of weights, and
//	          for each its class and its weight in twelfths
//	words     bucketed records: a hash's low 16 bits, and the number of a set
//	sets      9 bytes each: the classes a word may have as bits, and the one
//	          it has most
//
// A bucketed part begins with an index: for each value of a hash's high
// bucketBits the place of the bucket's first record, 3 bytes, and one more
// for the end. Two keys whose 30 bits agree are one key; a word which no
// list has is taken for another one in some 10,000 cases.
//
//go:embed grammar.bin
var table string

// The layout, which gen.go repeats.
const (
	magic      = "dandleg1"
	bucketBits = 14
	indexSize  = 3 * (1<<bucketBits + 1)
	setSize    = 9

	sizesAt    = len(magic)
	featuresAt = sizesAt + 9
)

func uint24(s string, at int) int {
	return int(s[at]) | int(s[at+1])<<8 | int(s[at+2])<<16
}

func featurePart() string { return table[featuresAt : featuresAt+uint24(table, sizesAt)] }

func wordPart() string {
	from := featuresAt + uint24(table, sizesAt)
	return table[from : from+uint24(table, sizesAt+3)]
}

func setPart() string { return table[len(table)-uint24(table, sizesAt+6):] }

// A class is a tag of the perceptron: finer than Tag for marks, and with two
// that stand before a sentence.
type class uint8

const (
	start class = iota
	start2
	cHash
	cDollar
	cQuote
	cOpen
	cClose
	cComma
	cStop
	cDash
	cCC
	cCD
	cDT
	cEX
	cFW
	cIN
	cJJ
	cJJR
	cJJS
	cLS
	cMD
	cNN
	cNNP
	cNNPS
	cNNS
	cPDT
	cPOS
	cPRP
	cPRPS
	cRB
	cRBR
	cRBS
	cRP
	cSYM
	cTO
	cUH
	cVB
	cVBD
	cVBG
	cVBN
	cVBP
	cVBZ
	cWDT
	cWP
	cWPS
	cWRB
	cQuoteOpen

	classCount
)

var tagOf = [classCount]Tag{
	cHash: Symbol, cDollar: Symbol, cQuote: Punctuation, cOpen: Punctuation, cClose: Punctuation, cComma: Punctuation,
	cStop: Punctuation, cDash: Punctuation, cCC: Conjunction, cCD: Number, cDT: Determiner, cEX: There, cFW: Foreign,
	cIN: Preposition, cJJ: Adjective, cJJR: Comparative, cJJS: Superlative, cLS: Symbol, cMD: Modal, cNN: Noun, cNNP: Name,
	cNNPS: NamePlural, cNNS: NounPlural, cPDT: Predeterminer, cPOS: PossessiveEnd, cPRP: Pronoun, cPRPS: Possessive,
	cRB: Adverb, cRBR: AdverbMore, cRBS: AdverbMost, cRP: Particle, cSYM: Symbol, cTO: To, cUH: Interjection, cVB: Verb,
	cVBD: VerbPast, cVBG: VerbGerund, cVBN: VerbParticiple, cVBP: VerbPresent, cVBZ: VerbThird, cWDT: WhDeterminer,
	cWP: WhPronoun, cWPS: WhPronoun, cWRB: WhAdverb, cQuoteOpen: Punctuation,
}

// classes is a set of classes as bits.
type classes uint64

func setOf(list ...class) classes {
	var s classes
	for _, c := range list {
		s |= 1 << c
	}
	return s
}

// A wordSet is what a word may be.
type wordSet struct {
	may  classes
	most class
}

// lookup finds a word as it stands.
func lookup(word string) (wordSet, bool) {
	if word == "" {
		return wordSet{}, false
	}
	h := newHash().text(word).done()
	part := wordPart()
	from, to := bucket(part, h)
	records := part[indexSize:]
	for ; from < to; from += 4 {
		if records[from] != byte(h) || records[from+1] != byte(h>>8) {
			continue
		}
		set := setPart()[setSize*(int(records[from+2])|int(records[from+3])<<8):][:setSize]
		var may classes
		for i := range 8 {
			may |= classes(set[i]) << (8 * i)
		}
		return wordSet{may, class(set[8])}, true
	}
	return wordSet{}, false
}

// bucket is where a hash's records begin and end behind the part's index.
func bucket(part string, h hash) (from, to int) {
	at := 3 * int(h>>(32-bucketBits))
	return uint24(part, at), uint24(part, at+3)
}

// A place is where a feature's record is looked for.
type place struct {
	records string
	low     uint16 // of its hash
	opened  byte   // what stands first, only to have it fetched
}

// find is the place of a feature.
func find(h hash) place {
	h = h.done()
	part := featurePart()
	from, to := bucket(part, h)
	return place{records: part[indexSize+from : indexSize+to], low: uint16(h)}
}

// open has the memory fetch the place.
func (p *place) open() {
	if p.records != "" {
		p.opened = p.records[0]
	}
}

// weights are the feature's: pairs of a class and a weight.
func (p place) weights() string {
	for r := p.records; len(r) >= 3; {
		end := 3 + 2*int(r[2])
		if uint16(r[0])|uint16(r[1])<<8 == p.low {
			return r[3:end]
		}
		r = r[end:]
	}
	return ""
}

// A hash is FNV-1a (Fowler, Noll, Vo; RFC 9923) in the making.
type hash uint32

func newHash() hash { return 2166136261 }

func (h hash) byte(b byte) hash { return (h ^ hash(b)) * 16777619 }

func (h hash) text(s string) hash {
	for i := range len(s) {
		h = h.byte(s[i])
	}
	return h
}

// done mixes the bits, so that both ends of the hash may be used.
func (h hash) done() hash {
	h ^= h >> 15
	h *= 0x2c1b3c6d
	return h ^ h>>13
}

// lower is a word in lower case with straight apostrophes.
func lower(word string) string {
	return strings.ToLower(straighten(word))
}

func straighten(word string) string {
	if strings.Contains(word, "’") || strings.Contains(word, "‘") {
		return apostrophes.Replace(word)
	}
	return word
}

var apostrophes = strings.NewReplacer("’", "'", "‘", "'")
