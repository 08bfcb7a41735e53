package checks

import (
	"fmt"

	"dandle/analysis/rhyme"
)

const rhymeSameWordDoc = `
A word is rhymed with itself.

The ear waits for a second word and gets the first again. In a refrain, or where a whole phrase
comes back, that is the point, and nothing is said.

    The mole dug a tunnel right under the wall,
    And out came a carrot in front of the wall.

Not here:

    The mole dug a tunnel right under the wall,
    And out came a carrot in front of them all.
`

var rhymeSameWord = &Check{
	Code: "rhyme/same-word", Severity: Information, Doc: rhymeSameWordDoc,
	Run: func(p *Pass) {
		for _, pair := range p.pairs() {
			if pair.match.Kind != rhyme.Identical || samePhrase(p, pair.first, pair.second) || isAnswered(p, &pair) {
				continue
			}
			a, _ := endsSaid(p, pair.first, pair.second)
			p.reportPair(pair.first, pair.second, 0.7, fmt.Sprintf("%s rhymes with itself here. Another word would give the ear its answer.", a))
		}
	},
}

// samePhrase reports whether two lines end in the same two words, or begin in
// them: a figure that repeats on purpose.
func samePhrase(p *Pass, first, second int) bool {
	a, b := p.Manuscript.Lines[first].Words, p.Manuscript.Lines[second].Words
	if len(a) < 2 || len(b) < 2 {
		return true // a line of one word says it again
	}
	return plain(a[len(a)-2].Text) == plain(b[len(b)-2].Text) && plain(a[0].Text) == plain(b[0].Text)
}
