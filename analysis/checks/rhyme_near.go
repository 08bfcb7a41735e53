package checks

import (
	"fmt"
	"slices"

	"dandle/analysis/rhyme"
)

const rhymeNearDoc = `
The scheme wants a rhyme here and the ear gets one that is only near.

The vowels agree and a consonant does not, or the letters agree and the sounds do not. Children
hear it at once, and lose the pleasure of guessing the word. In a poem of near rhymes throughout
it is a manner, and may be accepted for the whole text.

    The otter came home with a bucket of beans,
    And danced on the table in somebody's dreams.

Not here, where all sounds agree from the vowel on:

    The otter came home with a bucket of beans,
    And danced in the kitchen in velveteen jeans.
`

var rhymeNear = &Check{
	Code: "rhyme/near", Severity: Information, Doc: rhymeNearDoc,
	Run: func(p *Pass) {
		joined := slices.DeleteFunc(slices.Clone(p.pairs()), func(pair rhymePair) bool { return apart(p, &pair) })
		for _, pair := range slices.Concat(joined, p.owed(), chainPairs(p)) {
			a, b := endsSaid(p, pair.first, pair.second)
			var message string
			switch pair.match.Kind {
			case rhyme.Near:
				message = fmt.Sprintf("%s and %s come close (%s), and the ear was waiting for the whole chime.", a, b, pair.match.Near)
			case rhyme.Eye:
				message = fmt.Sprintf("%s and %s rhyme to the eye; read aloud, their vowels part.", a, b)
			default:
				continue
			}
			if accent := rhyme.Elsewhere(pair.a, pair.b); accent != rhyme.OwnAccent {
				message = fmt.Sprintf("%s and %s rhyme in %s, and part in this one. Who will read it?", a, b, accent)
			}
			p.reportPair(pair.first, pair.second, 0.7, message)
		}
	},
}
