package checks

import (
	"fmt"

	"dandle/analysis/scansion"
)

const meterExtraBeatDoc = `
A line has more beats than its place in the stanza calls for.

The tune sets a number of steps, and the listener feels the last of them coming. A line that
walks on past it sounds like an afterthought, however good its words are. A longer line that
comes at the same place in each stanza is part of the tune.

The second line goes on after the ear has sat down:

    The heron wrote a letter on a leaf,
    And sent it down the river to his brother underneath the bridge.

This one closes on its beat:

    The heron wrote a letter on a leaf,
    And sent it down the river to the reef.

What helps: find the word that the picture can spare.
`

var meterExtraBeat = &Check{
	Code:     "meter/extra-beat",
	Severity: Warning,
	Doc:      meterExtraBeatDoc,
	Run: func(p *Pass) {
		reportBreaks(p, scansion.ExtraBeat, extraBeatMessage)
	},
}

func extraBeatMessage(b broken) string {
	want, heard := b.line.Beats, b.heard()
	switch {
	case heard <= want:
		return fmt.Sprintf("The tune has room for %s here, and %s asks for one more.", counted(want, "beat"), b.phrase())
	case b.at.To >= len(b.line.Reading.Syllables):
		return fmt.Sprintf("I counted %s where this place keeps %s: the ear has sat down, and the line goes on with %s.", counted(heard, "beat"), cardinal(want), b.phrase())
	}
	return fmt.Sprintf("I counted %s where this place keeps %s; %s is more than the tune has room for.", counted(heard, "beat"), cardinal(want), b.phrase())
}
