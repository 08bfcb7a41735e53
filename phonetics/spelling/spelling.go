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
// The weights have learnt from nine tenths of the CMU dictionary's words. The
// others, one word in ten by a hash of its spelling (train.HeldOut), measure
// them; TestAccuracy holds the figures. Proper names, which are more than half
// of that dictionary, are in.
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
	return guess(word, n, lexicon.Lookup)
}

// guess is Guess with the dictionary that kin are looked for in; nil leaves it
// to the letters alone.
func guess(word string, n int, known graphone.Dictionary) []Reading {
	r, err := reader()
	if err != nil || n <= 0 {
		return nil // the test of the embedded weights rules the error out
	}
	var guesses []Reading
	for _, reading := range r.Read(graphone.Letters(word), known) {
		if len(guesses) == n {
			break
		}
		if reading.Sounds != "" {
			guesses = append(guesses, Reading{reading.Sounds, min(reading.LogProb, 0)})
		}
	}
	return guesses
}
