package checks

import (
	"fmt"
	"slices"

	"dandle/analysis/rhyme"
)

const rhymeNoneDoc = `
The scheme wants a rhyme here and the ear gets none.

Every stanza so far has taught the ear where the rhymes fall, so one that stays away sounds like a
step that is not there. A line that the form leaves free owes no rhyme, and neither does verse
that keeps no scheme.

    The heron had taken the kettle to town,
    The hen wore a hat with the brim upside down,
    The snail had a parcel to post before noon,
    And nobody told her the bridge was in bits.

Not here:

    The heron had taken the kettle to town,
    The hen wore a hat with the brim upside down,
    The snail had a parcel to post before noon,
    And whistled the whole of a wandering tune.
`

var rhymeNone = &Check{
	Code: "rhyme/none", Severity: Warning, Doc: rhymeNoneDoc,
	Run: func(p *Pass) {
		// The form may join two lines that the ear does not.
		joined := slices.DeleteFunc(wantedPairs(p, rhyme.NoRhyme), func(pair rhymePair) bool {
			return !pair.match.Unheard() || apart(p, &pair)
		})
		for _, pair := range slices.Concat(joined, p.owed(), chainPairs(p)) {
			if pair.match.Kind == rhyme.NoRhyme {
				a, b := endsSaid(p, pair.first, pair.second)
				p.reportPair(pair.first, pair.second, 0.9*pair.owed, noRhyme(a, b))
			}
		}
	},
}

func noRhyme(a, b string) string {
	return fmt.Sprintf("My ear waited for a rhyme with %s, and %s does not bring one. The other stanzas do.", a, b)
}
