// Package lexicon is the CMU Pronouncing Dictionary, embedded and read in
// place: 126,000 English words with their pronunciations in General American.
// It knows these words and no others, and guesses nothing.
//
// The table is one string, built by gen.go. Nothing is parsed when a program
// starts, and a look-up allocates nothing. Its parts, in order:
//
//	magic    "dandlex1"
//	counts   3 bytes each, little-endian: words, pronunciations
//	hash     1<<hashBits slots of 3 bytes: 0, or 1 + the place of a record;
//	         open addressing, linear probing
//	endings  for each pronunciation 3 bytes, sorted by its phonemes from the
//	         last to the first: the place of its record (the low
//	         placeBits) and the number of its variant (the high bits)
//	records  sorted by word: length, word, number of variants (the low 3
//	         bits) with the word's familiarity, and for each variant its
//	         length and its sounds
package lexicon

import (
	_ "embed"
	"iter"
	"strings"

	"dandle/phonetics/arpabet"
)

//go:generate go run gen.go -o lexicon.bin

//go:embed lexicon.bin
var table string // a string: read-only, mapped, never copied

// The layout, which gen.go repeats.
const (
	magic     = "dandlex1"
	hashBits  = 18
	placeBits = 22 // a record's place; the 2 bits above hold the variant

	wordsAt   = len(magic)
	soundsAt  = wordsAt + 3
	hashAt    = soundsAt + 3
	endingsAt = hashAt + 3<<hashBits
)

// Len is the number of words.
func Len() int { return uint24(wordsAt) }

func endingsLen() int { return uint24(soundsAt) }

func recordsAt() int { return endingsAt + 3*endingsLen() }

func uint24(at int) int {
	return int(table[at]) | int(table[at+1])<<8 | int(table[at+2])<<16
}

// Entries are the ways a word is said, in the dictionary's order. The zero
// value is empty: the dictionary lacks the word.
type Entries struct {
	variants string // length and sounds, again and again
	n        uint8
	familiar uint8
}

// Len is the number of ways.
func (e Entries) Len() int { return int(e.n) }

// Familiarity says how often the word is written, from 0, not among the
// 277,000 words counted, to 31, the commonest word: each step is a factor of
// 1.6 in rank. 12 is about rank 6,000. It is counted in an encyclopedia, which
// knows more names and fewer puddles than a nursery does.
func (e Entries) Familiarity() int { return int(e.familiar) }

// At is way i, counted from 0.
func (e Entries) At(i int) arpabet.Sounds {
	v := e.variants
	for ; i > 0; i-- {
		v = v[1+int(v[0]):]
	}
	return arpabet.Sounds(v[1 : 1+int(v[0])])
}

// All yields each way with its number.
func (e Entries) All() iter.Seq2[int, arpabet.Sounds] {
	return func(yield func(int, arpabet.Sounds) bool) {
		v := e.variants
		for i := range e.Len() {
			end := 1 + int(v[0])
			if !yield(i, arpabet.Sounds(v[1:end])) {
				return
			}
			v = v[end:]
		}
	}
}

// Lookup finds a word in lower case, with the straight apostrophe. It
// allocates nothing.
func Lookup(word string) Entries {
	if word == "" || len(word) > 255 {
		return Entries{}
	}
	records := table[recordsAt():]
	for slot := hash(word); ; slot = (slot + 1) & (1<<hashBits - 1) {
		place := uint24(hashAt + 3*int(slot))
		if place == 0 {
			return Entries{}
		}
		record := records[place-1:]
		if int(record[0]) == len(word) && record[1:1+len(word)] == word {
			_, e := read(record)
			return e
		}
	}
}

// Has reports whether the dictionary has a word.
func Has(word string) bool { return Lookup(word).n > 0 }

// hash is FNV-1a (Fowler, Noll, Vo; RFC 9923), folded to hashBits.
func hash(word string) uint32 {
	h := uint32(2166136261)
	for i := range len(word) {
		h = (h ^ uint32(word[i])) * 16777619
	}
	return (h>>hashBits ^ h) & (1<<hashBits - 1)
}

// read takes the first record of a run of records apart. The entries'
// variants run on to the table's end; their number bounds them.
func read(record string) (string, Entries) {
	end := 1 + int(record[0])
	return record[1:end], Entries{variants: record[end+1:], n: record[end] & 7, familiar: record[end] >> 3}
}

// All yields every word, in the order of its bytes, with its entries.
func All() iter.Seq2[string, Entries] {
	return func(yield func(string, Entries) bool) {
		for at := table[recordsAt():]; at != ""; {
			word, e := read(at)
			if !yield(word, e) {
				return
			}
			at = e.variants
			for range e.n {
				at = at[1+int(at[0]):]
			}
		}
	}
}

// EndingIn yields every word and pronunciation whose last sounds are the
// tail's, stresses included, in the order of their phonemes from the last to
// the first. The search takes a few microseconds and each answer less than
// one; a tail should therefore begin at a stressed vowel, which is how rhymes
// begin, rather than be one weak vowel that thousands of words share.
func EndingIn(tail arpabet.Sounds) iter.Seq2[string, arpabet.Sounds] {
	return func(yield func(string, arpabet.Sounds) bool) {
		for word, s := range EndingInPhones(tail) {
			if strings.HasSuffix(string(s), string(tail)) && !yield(word, s) {
				return
			}
		}
	}
}

// EndingInPhones is EndingIn with the stresses left out of account: a tail of
// EH1 N D also finds the end of "weekend", which is EH2 N D.
func EndingInPhones(tail arpabet.Sounds) iter.Seq2[string, arpabet.Sounds] {
	return func(yield func(string, arpabet.Sounds) bool) {
		n := endingsLen()
		low, high := 0, n
		for low < high {
			mid := int(uint(low+high) / 2)
			if _, s := ending(mid); compareEnds(s, tail) < 0 {
				low = mid + 1
			} else {
				high = mid
			}
		}
		for ; low < n; low++ {
			word, s := ending(low)
			if compareEnds(s, tail) != 0 || !yield(word, s) {
				return
			}
		}
	}
}

// ending is entry i of the index of endings.
func ending(i int) (string, arpabet.Sounds) {
	packed := uint24(endingsAt + 3*i)
	word, e := read(table[recordsAt()+packed&(1<<placeBits-1):])
	return word, e.At(packed >> placeBits)
}

// compareEnds compares the last phonemes of s with those of the tail, from
// the last to the first. It is 0 where s ends in the tail.
func compareEnds(s, tail arpabet.Sounds) int {
	for i := 1; i <= len(tail); i++ {
		if i > len(s) {
			return -1
		}
		a, b := s.At(len(s)-i).Phone(), tail.At(len(tail)-i).Phone()
		if a != b {
			return int(a) - int(b)
		}
	}
	return 0
}
