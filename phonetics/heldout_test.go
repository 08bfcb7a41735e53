package phonetics

import (
	"hash/fnv"
	"slices"
	"strings"
	"testing"

	"dandle/phonetics/lexicon"
)

// isHeldOut is the rule by which package spelling keeps a tenth of the
// dictionary from its training: FNV-1a of the word's bytes leaves 0 after
// division by 10.
func isHeldOut(word string) bool {
	h := fnv.New32a()
	h.Write([]byte(word))
	return h.Sum32()%10 == 0
}

// TestMorphologyIsAsGoodAsTheLetters says words as if the dictionary lacked
// them, by their endings, and compares with what package spelling says of
// them, which looks for kin in the dictionary but takes a hundred times as
// long. A word is right if one of its dictionary ways differs at most in the
// weak vowel and in degrees of stress.
func TestMorphologyIsAsGoodAsTheLetters(t *testing.T) {
	if testing.Short() {
		t.Skip("guesses at some thousand words")
	}
	r := NewReader(EnUS, nil)
	words, right, guessRight, stress, guessStress := 0, 0, 0, 0, 0
	for word, e := range lexicon.All() {
		if !isHeldOut(word) || len(word) < 4 || strings.ContainsAny(word, "'.-") {
			continue
		}
		list := r.inflected(word)
		if list == nil {
			continue
		}
		words++
		var ways []Sounds
		for _, s := range e.All() {
			ways = append(ways, s)
		}
		ours, guess := list[0].sounds, r.guessed(word)[0].sounds
		count := func(total *int, s Sounds, same func(a, b Sounds) bool) {
			if slices.ContainsFunc(ways, func(way Sounds) bool { return same(way, s) }) {
				*total++
			}
		}
		sameMain := func(a, b Sounds) bool {
			return a.SyllableCount() == b.SyllableCount() && mainStress(a) == mainStress(b)
		}
		count(&right, ours, soundAlike)
		count(&guessRight, guess, soundAlike)
		count(&stress, ours, sameMain)
		count(&guessStress, guess, sameMain)
	}
	percent := func(n int) float64 { return 100 * float64(n) / float64(words) }
	t.Logf("%d words: sounds right in %.1f %% (by letters %.1f %%), syllables and main stress in %.1f %% (%.1f %%)",
		words, percent(right), percent(guessRight), percent(stress), percent(guessStress))
	if percent(right) < 94 || percent(stress) < 97 {
		t.Error("below the record")
	}
}
