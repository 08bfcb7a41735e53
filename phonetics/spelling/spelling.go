// Package spelling guesses how a word sounds from its letters, and from the
// sounds of dictionary words that share its beginning or its end. It does not
// look for the word itself in the dictionary: whoever wants to know whether a
// word is known asks package lexicon first.
//
// The guesses are General American, with stress, in the notation of package
// arpabet. Two log-linear models over graphones propose them, one reading
// forwards and one backwards, and a judge compares them with the word's kin.
// All weights are embedded and read in place; see package graphone for the
// models, and package train, with gen.go, for how the weights are learnt.
//
// # Accuracy
//
// The weights have learnt from nine tenths of the dictionary's words. The
// others, one word in ten by a hash of its spelling (train.HeldOut), measure
// them; they are hidden from the search for kin as well. Proper names are in,
// on both sides. Any pronunciation that the dictionary lists counts as right,
// and stress counts in the third column only. In per cent, for 12,513 words:
//
//	                    phones wrong  words wrong  with stress  syllable count  main stress
//	letters alone               5.75        23.90        28.92           97.04        92.84
//	letters and kin             5.47        22.62        27.38           97.18        93.29
//
// The main stress is right when it falls on the same syllable, counted from
// the start or from the end, of words of two syllables and more; with the right
// number of syllables besides, it is so in 89.95 and 90.57 per cent of them.
//
// Others report for this dictionary, on splits and editions of their own and
// so to be compared with care (phones wrong, words wrong, stress left out):
//
//   - joint-sequence n-grams: 5.88, 24.53 (Bisani and Ney, Speech Communication
//     50, 2008; figures from memory)
//   - bidirectional LSTM over aligned letters: 5.45, 23.55 (Yao and Zweig,
//     Interspeech 2015, arXiv:1506.00196)
//   - LSTM joined with n-grams: words 21.3 (Rao and others, ICASSP 2015)
//   - ensemble of encoder-decoders with attention: words 20.24 (Toshniwal and
//     Livescu, SLT 2016, arXiv:1610.06540)
//   - transformer: 5.23, 22.1 (Yolchuyeva, Németh and Gyires-Tóth, Interspeech
//     2019; figures from memory)
//
// What it gets most wrong, of the words that nobody has heard: initials read as
// a word (the caller should spell them), then names that keep the sounds of
// Italian, French, Spanish, Polish or Sinhalese, then rare learned words whose
// stress moves. Nearly two in three misses are of a single phone, and half of
// those are of a vowel without stress: the dictionary itself writes AH0 in one
// word and IH0 in its like.
package spelling

import (
	_ "embed"
	"sync"

	"dandle/phonetics/arpabet"
	"dandle/phonetics/lexicon"
	"dandle/phonetics/spelling/internal/graphone"
)

//go:generate go run gen.go -o weights.bin

//go:embed weights.bin
var weights string // a string: read-only, mapped, never copied

// reader opens the weights, which takes some microseconds.
var reader = sync.OnceValues(func() (*graphone.Reader, error) {
	return graphone.OpenReader(weights)
})

// A Reading is one way that a word may sound.
type Reading struct {
	Sounds arpabet.Sounds
	// LogProb is the natural logarithm of this reading's share of the
	// probability of all readings that were considered, at most 0. It compares
	// readings of one word, and near 0 it says that no other came close.
	LogProb float64
}

// Guess finds the likeliest ways to say a word, at most n of them, best first
// and no two alike. Case and accents are left out of account, and so are
// characters that are neither letters, apostrophes, hyphens nor points. A word
// with no letters has no guesses, and neither has one whose letters are all
// silent. Any bytes will do.
func Guess(word string, n int) []Reading {
	return guess(word, n, ways)
}

// ways are the dictionary's ways to say a word.
func ways(word string) []arpabet.Sounds {
	entries := lexicon.Lookup(word)
	if entries.Len() == 0 {
		return nil
	}
	list := make([]arpabet.Sounds, 0, entries.Len())
	for _, s := range entries.All() {
		list = append(list, s)
	}
	return list
}

// guess is Guess with the dictionary that kin are looked for in; nil leaves it
// to the letters alone.
func guess(word string, n int, known graphone.Dictionary) []Reading {
	r, err := reader()
	if err != nil || n <= 0 {
		return nil // the test of the embedded weights rules the error out
	}
	var guesses []Reading
	for _, reading := range r.Read(graphone.Letters(word), known, graphone.Quick) {
		if len(guesses) == n {
			break
		}
		if reading.Sounds != "" {
			guesses = append(guesses, Reading{reading.Sounds, min(reading.LogProb, 0)})
		}
	}
	return guesses
}
