package checks

import (
	"fmt"

	"dandle/analysis/scansion"
)

const meterPatternChangeDoc = `
A line moves in another foot than its place calls for.

After a few lines the listener dances along without thinking. A line with the right number of
beats can still lose him when it changes the step: lines that galloped, _da-da-DUM_, and then
one that walks, _da-DUM_. A new step that stays for a whole stanza is a change of tune, and a
good tool; it is not raised.

Three lines gallop and the fourth walks:

    The gulls on the harbour were folding their wings,
    The nets on the railing were knotted with strings,
    The moon on the water was counting its rings,
    The old grey seal was fast asleep.

The step is kept:

    And the seal on the sandbank was dreaming of kings.

What helps: read the three lines before it aloud, and let the fourth follow without stopping.
`

var meterPatternChange = &Check{
	Code:     "meter/pattern-change",
	Severity: Warning,
	Reach:    OneStanza,
	Doc:      meterPatternChangeDoc,
	Run: func(p *Pass) {
		reportBreaks(p, scansion.PatternChange, patternChangeMessage)
	},
}

func patternChangeMessage(b broken) string {
	expected, heard := feet(b.line.Expected), feet(b.line.Reading.FeetPattern())
	if b.atStart() {
		return fmt.Sprintf("The lines around this one move as %s; it sets out as %s, and the dance changes step.", expected, heard)
	}
	return fmt.Sprintf("Up to here the tune is %s; at %s it turns into %s, and the dance changes step.", expected, b.phrase(), heard)
}
