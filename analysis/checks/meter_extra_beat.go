package checks

import (
	"fmt"

	"dandle/analysis/manuscript"
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
	Reach:    OneStanza,
	Doc:      meterExtraBeatDoc,
	Run: func(p *Pass) {
		reportBreaksAt(p, scansion.ExtraBeat, tooMuch, extraBeatMessage, keepsLength)
	},
}

// keepsLength reports whether a line is too short for one more beat with its slack: in "they come
// out, they go in, nice and slow" a strong word stands in a slack place, and a reader who has the
// tune takes it in the same stride.
func keepsLength(line *scansion.Line) bool {
	return line.Reading.Beats() > line.Beats && len(line.Reading.Syllables) < askedLength(line)+2
}

// tooMuch is what the line has too much: the word or the phrase that it could
// spare and then fit, and what follows it if that is but the last word; where it
// can spare none, what stands past the last beat that the place calls for, when
// the listener has sat down.
func tooMuch(b broken) manuscript.Span {
	last := b.line.Words[len(b.line.Words)-1].Span
	if b.at.Spare.Len() > 0 {
		span := b.span()
		if len(b.line.Words) > 1 && b.line.Words[len(b.line.Words)-2].Span.End == span.End {
			span.End = last.End
		}
		return span
	}
	beats := 0
	for _, s := range b.line.Reading.Syllables {
		if s.Beat {
			if beats++; beats > b.line.Beats {
				return manuscript.Span{Start: b.line.Words[s.Word].Span.Start, End: last.End}
			}
		}
	}
	return b.span()
}

func extraBeatMessage(b broken) string {
	want, heard := b.line.Beats, b.heard()
	switch {
	case heard <= want:
		return fmt.Sprintf("The tune has room for %s here, and %s asks for one more.", counted(want, "beat"), b.phrase())
	case b.at.Spare.Len() > 0:
		return fmt.Sprintf("I counted %s where this place keeps %s; without %s the line would be in step.",
			counted(heard, "beat"), cardinal(want), quote(b.at.Spare.In(b.text)))
	}
	return fmt.Sprintf("I counted %s where this place keeps %s: the ear has sat down, and the line goes on with %s.",
		counted(heard, "beat"), cardinal(want), quote(tooMuch(b).In(b.text)))
}
