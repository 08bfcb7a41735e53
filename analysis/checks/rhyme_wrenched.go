package checks

import (
	"fmt"

	"dandle/analysis/rhyme"
)

const rhymeWrenchedDoc = `
The rhyme falls on a syllable that is not stressed.

To make it chime a reader must move the stress of a word, as old ballads sometimes ask and a
parent at bedtime will not.

    The robin got up and began to sing,
    And woke the whole of the house that morning.

Not here, where the voice lands on the rhyme by itself:

    The robin got up and began to sing,
    And woke the whole of the house in spring.
`

var rhymeWrenched = &Check{
	Code: "rhyme/wrenched", Severity: Information, Doc: rhymeWrenchedDoc,
	Run: func(p *Pass) {
		for _, pair := range wantedPairs(p, func(pair *rhymePair) bool { return pair.match.Kind == rhyme.Wrenched }) {
			a, b := endsSaid(p, pair.first, pair.second)
			p.reportPair(pair.first, pair.second, 0.7, fmt.Sprintf("To rhyme %s with %s the voice must lean on a syllable that it leaves light.", a, b))
		}
	},
}
