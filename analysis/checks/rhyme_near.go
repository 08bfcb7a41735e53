package checks

import (
	"encoding/binary"
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
		var joined []rhymePair
		for _, pair := range p.pairs() {
			if pair.isClose() && !apart(p, &pair) {
				joined = append(joined, pair)
			}
		}
		for _, pair := range slices.Concat(joined, p.owed(), chainPairs(p)) {
			if !pair.isClose() {
				continue
			}
			a, b := endsSaid(p, pair.first, pair.second)
			var message string
			switch pair.match.Kind {
			case rhyme.Near:
				message = fmt.Sprintf("%s and %s come close (%s), and the ear was waiting for the whole chime.", a, b, pair.match.Near)
			case rhyme.Eye:
				message = fmt.Sprintf("%s and %s rhyme to the eye; read aloud, their vowels part.", a, b)
			}
			if accent := p.elsewhere(&pair); accent != rhyme.OwnAccent {
				message = fmt.Sprintf("%s and %s rhyme in %s, and part in this one. Who will read it?", a, b, accent)
			}
			p.reportPair(pair.first, pair.second, 0.7, message)
		}
	},
}

// isClose reports whether two ends have something of a rhyme, and not all.
func (pair *rhymePair) isClose() bool {
	return pair.match.Kind == rhyme.Near || pair.match.Kind == rhyme.Eye
}

// elsewhere is the accent in which a pair rhymes, from memory where both lines were
// heard by one.
func (p *Pass) elsewhere(pair *rhymePair) rhyme.Accent {
	find := func() rhyme.Accent { return rhyme.Elsewhere(pair.a, pair.b) }
	a, b := p.sound(pair.first), p.sound(pair.second)
	if a == 0 || b == 0 {
		return find()
	}
	key := binary.LittleEndian.AppendUint64(binary.LittleEndian.AppendUint64(nil, uint64(a)), uint64(b))
	return recall(p, string(key), find)
}
