package checks

import (
	"fmt"

	"dandle/analysis/rhyme"
	"dandle/phonetics/arpabet"
)

const rhymeOverusedSoundDoc = `
One rhyme sound comes too often in a manuscript.

A sound that more than one pair in six lands on stops being a surprise. Refrains do not count,
and short poems, which have few sounds to spend, are left alone.

    The owl put a lamp in the window that night,
    … and five more pairs of a dozen on *light*, *bright*, *sight*, *kite* and *white*.

Not here:

    The owl put a lamp in the window that night,
    … and the other pairs each find a sound of their own.
`

// A sound is overused from the fourth pair on, if more than one pair in six has
// it, in a text of ten pairs and more. Ours.
const (
	overusedPairs = 4
	overusedShare = 6
	fewestPairs   = 10
)

var rhymeOverusedSound = &Check{
	Code: "rhyme/overused-sound", Severity: Information, Doc: rhymeOverusedSoundDoc,
	Run: func(p *Pass) {
		bySound := map[arpabet.Sounds][]*rhymePair{}
		var order []arpabet.Sounds
		total := 0
		pairs := p.pairs()
		for i := range pairs {
			pair := &pairs[i]
			if k := pair.match.Kind; k != rhyme.Perfect && k != rhyme.Homophone {
				continue
			}
			total++
			key := pair.match.A.Unstressed()
			if bySound[key] == nil {
				order = append(order, key)
			}
			bySound[key] = append(bySound[key], pair)
		}
		if total < fewestPairs {
			return
		}
		for _, key := range order {
			list := bySound[key]
			if len(list) < overusedPairs || len(list)*overusedShare <= total {
				continue
			}
			last := list[len(list)-1]
			a, b := endsSaid(p, last.first, last.second)
			p.reportPair(last.first, last.second, 0.65, fmt.Sprintf(
				"%s and %s bring this sound for %s time, in %d pairs of rhymes. The ear begins to foresee it.", a, b, ordinal(len(list)), total))
		}
	},
}
