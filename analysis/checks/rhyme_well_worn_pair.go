package checks

import (
	"fmt"

	"dandle/analysis/rhyme"
)

const rhymeWellWornPairDoc = `
Two words that have rhymed so often that the reader hears the second before it comes.

Pope laughed at it three hundred years ago: where there is a *breeze* it “whispers through the
trees”, and streams that *creep* threaten the reader with *sleep* (An Essay on Criticism, 1711,
lines 350–353). The other pairs heard here are the stock examples of handbooks: *moon* and *June*,
*love* with *dove* or *above*, *heart* and *part*, *kiss* and *bliss*, *fire* and *desire* (common
practice). Small children like to guess the rhyme, so this is a hint: is it the word you want, or the
word that came? In 8,905 lines of Housman and Kipling it speaks 13 times.

    The otter lay down in the afternoon breeze
    And looked at the apples that hung in the trees.

In another line another word may answer:

    The otter lay down in the afternoon breeze
    And dreamed of a river of crackers and cheese.
`

// wornPairs are the pairs that the page names, each both ways.
var wornPairs = func() map[[2]string]bool {
	pairs := map[[2]string]bool{}
	for _, p := range [][2]string{
		{"breeze", "trees"},
		{"creep", "sleep"},
		{"moon", "june"},
		{"love", "dove"},
		{"love", "above"},
		{"heart", "part"},
		{"kiss", "bliss"},
		{"fire", "desire"},
	} {
		pairs[p] = true
		pairs[[2]string{p[1], p[0]}] = true
	}
	return pairs
}()

var rhymeWellWornPair = &Check{
	Code: "rhyme/well-worn-pair", Severity: Hint, Doc: rhymeWellWornPairDoc,
	Run: func(p *Pass) {
		for _, pair := range p.pairs() {
			if pair.match.Kind != rhyme.Perfect || !wornPairs[[2]string{pair.a.Word(), pair.b.Word()}] {
				continue
			}
			a, b := endsSaid(p, pair.first, pair.second)
			p.reportPair(pair.first, pair.second, 0.65, fmt.Sprintf("After %s the ear says %s before you do. Is it the word you want, or the word that came?", a, b))
		}
	},
}
