package checks

import (
	"fmt"

	"dandle/analysis/scansion"
)

const praiseAssonanceDoc = `
Stressed syllables near each other share a vowel.

It binds a line together under the rhyme. Counted are stressed syllables of different words,
three within eight syllables; what rhymes outright is another matter (the numbers are ours).

In 8,905 lines of Housman and Kipling it praises 149, once in 60.

    The mole in his coat rowed home through the fog.

Not here, with two letters alike and no two vowels:

    The mole took a pot from the wood to the road.
`

var praiseAssonance = &Check{
	Code:     "praise/assonance",
	Severity: Praise,
	Reach:    OneStanza,
	Doc:      praiseAssonanceDoc,
	Run: praiseRecurrence(assonance, 0.36, func(syllables, words string) string {
		return fmt.Sprintf("One vowel rings through %s: %s.", syllables, words)
	}),
}

// assonanceReach is how many syllables apart an echo is still heard (ours).
const assonanceReach = 8

// assonance is the richest stretch of a line in one stressed vowel, of three
// syllables and more.
func assonance(line *scansion.Line, list []strongSyllable) (best recurrence) {
	for a := range list {
		words := map[string]bool{}
		tails := map[string]bool{}
		last := a
		for b := a; b < len(list) && list[b].index < list[a].index+assonanceReach; b++ {
			if list[b].vowel != list[a].vowel {
				continue
			}
			text := plain(line.Words[list[b].word].Text)
			if words[text] || tails[list[b].tail] && list[b].last {
				continue
			}
			words[text], tails[list[b].tail] = true, true
			last = b
		}
		if len(words) >= 3 && len(words) > best.n {
			best = recurrence{list[a].word, list[last].word, len(words)}
		}
	}
	return best
}
