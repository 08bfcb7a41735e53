package checks

import (
	"fmt"

	"dandle/analysis/scansion"
)

const meterCrowdedStressDoc = `
Strong syllables jam where the meter needs slack between them.

Each stressed syllable wants time. Two beside each other across a pause are a drum stroke;
three or four with no light syllable between them stop the dance, because the reader cannot
tell which of them carries the beat. It may be just right where the tale slows down.

Four strong words stand in a row, though the line has the right number of syllables:

    The snail blew one low long slow note on his horn.

The same sense moves when light syllables part the strong ones:

    The snail blew a mellowing note on his horn.

What helps: one light word between, or a longer word that brings its own slack.
`

var meterCrowdedStress = &Check{
	Code:     "meter/crowded-stress",
	Severity: Warning,
	Doc:      meterCrowdedStressDoc,
	Run: func(p *Pass) {
		reportBreaks(p, scansion.CrowdedStress, crowdedStressMessage)
	},
}

func crowdedStressMessage(b broken) string {
	n := b.stressed()
	if n < 2 {
		return fmt.Sprintf("The line wants a light syllable at %s and gets a strong one, so the step is held up there.", b.phrase())
	}
	return fmt.Sprintf("%s strong syllables meet in %s. If the reader should slow down, keep it; if not, one light word between would do.", capital(cardinal(n)), b.phrase())
}
