package checks

import (
	"fmt"

	"dandle/analysis/scansion"
)

const meterWrenchedStressDoc = `
The meter forces a word out of its spoken stress.

A word of two syllables or more has one that the voice leans on. Where the beat falls on
another, a reader must either break the tune or say the word as nobody says it. At a line's
start, and after a pause, English verse lets a strong first syllable come early; that is an
inversion and is not raised.

The tune asks for _lan-TERN_:

    The owl upon the old lantern
    Was watching as the fog came in.

Moved by one place, the word keeps its own stress:

    The owl upon the lantern sat
    And watched the fog come in.

What helps: move the word by a syllable, or give its place to one of the other shape.
`

var meterWrenchedStress = &Check{
	Code:     "meter/wrenched-stress",
	Severity: Warning,
	Doc:      meterWrenchedStressDoc,
	Run: func(p *Pass) {
		reportBreaks(p, scansion.WrenchedStress, wrenchedStressMessage)
	},
}

func wrenchedStressMessage(b broken) string {
	if spoken, asked := b.spoken(), b.asked(); spoken != asked {
		return fmt.Sprintf("The tune asks for %s here, and the voice says %s; moved by a syllable, the word could keep its own stress.", asked, spoken)
	}
	return fmt.Sprintf("The beat falls where the voice would pass lightly over %s; another order of words might let it land.", b.phrase())
}
