// Package spelling guesses how a word sounds from its letters. It knows what
// 114,000 words of the CMU Pronouncing Dictionary taught it about English
// spelling, and nothing of any one word: whoever wants to know whether a word
// is known asks package lexicon first.
//
// The guesses are General American, with stress, in the notation of package
// arpabet. They come from two log-linear models over graphones, read from the
// embedded table in place; see package graphone for the models and package
// train, with gen.go, for how their weights are learnt.
package spelling

import (
	_ "embed"
	"sync"

	"dandle/phonetics/arpabet"
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
	// LogProb is the natural logarithm of the probability that the models
	// give this reading, at most 0. It compares readings of one word.
	LogProb float64
}

// Guess finds the likeliest ways to say a word, at most n of them, best first
// and no two alike. Case and accents are left out of account, and so are
// characters that are neither letters, apostrophes, hyphens nor points. A word
// with no letters has no guesses, and neither has one whose letters are all
// silent. Any bytes will do.
func Guess(word string, n int) []Reading {
	r, err := reader()
	if err != nil || n <= 0 {
		return nil // the test of the embedded weights rules the error out
	}
	var guesses []Reading
	for _, reading := range r.Read(graphone.Letters(word)) {
		if len(guesses) == n {
			break
		}
		if reading.Sounds != "" {
			guesses = append(guesses, Reading{reading.Sounds, min(reading.LogProb, 0)})
		}
	}
	return guesses
}
