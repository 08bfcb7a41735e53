package phonetics

import (
	"slices"

	"dandle/phonetics/spelling"
)

const (
	mostGuesses = 3
	// faintestGuess is how much less likely than the best a guess may be, in
	// natural logarithms, to be worth a reading of its own: one in eight.
	faintestGuess = 2.1
	// longestGuess is how many letters are guessed at. The longest words of
	// unbroken letters in use have fewer; more is a key that stuck.
	longestGuess = 45
)

// guessed says a word by its letters. A word whose letters all seem silent is
// named letter by letter, so that no word is without a sound. Guesses are
// remembered, for one takes a hundred times as long as a look at the dictionary.
func (r *Reader) guessed(word string) []reading {
	word = word[:min(len(word), longestGuess)]
	list, known := r.memory.guesses.find(word)
	if !known {
		list = guess(word)
		r.memory.guesses.keep(word, list)
	}
	return slices.Clone(list)
}

func guess(word string) []reading {
	guesses := spelling.Guess(word, mostGuesses)
	var list []reading
	for _, guess := range guesses {
		fainter := guesses[0].LogProb - guess.LogProb
		isNew := !slices.ContainsFunc(list, func(k reading) bool { return soundAlike(k.sounds, guess.Sounds) && sameStress(k.sounds, guess.Sounds) })
		if fainter <= faintestGuess && isNew && guess.Sounds.SyllableCount() > 0 {
			list = append(list, reading{sounds: guess.Sounds, source: FromSpelling, cost: float32(fainter)})
		}
	}
	if list == nil {
		return letters(word)
	}
	return list
}

// sameStress reports whether two readings of one length bear the same stress.
func sameStress(a, b Sounds) bool {
	for i := range len(a) {
		if a.At(i).Stress() != b.At(i).Stress() {
			return false
		}
	}
	return true
}
