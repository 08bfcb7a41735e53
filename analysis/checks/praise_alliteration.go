package checks

import (
	"fmt"

	"dandle/analysis/scansion"
)

const praiseAlliterationDoc = `
Stressed syllables near each other begin with one sound.

Heard are sounds and not letters, and a cluster only answers its like: _sp-_ to _sp-_. Three
in a line, or two content words side by side (Baum; the numbers are ours).

In 8,905 lines of Housman and Kipling it praises 1,325, once in 7.

    The badger went bumping his barrow along.

Not here, where the letters agree and the sounds do not:

    A chef with a cherry went climbing a chair.
`

var praiseAlliteration = &Check{
	Code:     "praise/alliteration",
	Severity: Praise,
	Reach:    OneStanza,
	Doc:      praiseAlliterationDoc,
	Run: praiseRecurrence(alliteration, 0.5, func(syllables, words string) string {
		return fmt.Sprintf("%s begin alike, and the line is the better to say for it: %s.", capital(syllables), words)
	}),
}

// alliteration is the longest chain of different words in a line whose strong
// syllables begin alike, no more than two strong syllables apart.
func alliteration(line *scansion.Line, list []strongSyllable) (best recurrence) {
	for a := range list {
		if list[a].onset == "" {
			continue
		}
		chain := []int{a}
		for b := a + 1; b < len(list) && b-chain[len(chain)-1] <= 2; b++ {
			before := list[chain[len(chain)-1]]
			if list[b].onset == list[a].onset && list[b].word != before.word && plain(line.Words[list[b].word].Text) != plain(line.Words[before.word].Text) {
				chain = append(chain, b)
			}
		}
		side := len(chain) == 2 && chain[1] == a+1 && list[a].beat && list[a+1].beat
		if (len(chain) >= 3 || side) && len(chain) > best.n {
			best = recurrence{list[chain[0]].word, list[chain[len(chain)-1]].word, len(chain)}
		}
	}
	return best
}
