package checks

import (
	"fmt"

	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"
)

const meterMissingBeatDoc = `
A line has fewer beats than its place in the stanza calls for.

A reader who has found the tune steps from beat to beat. Where a line runs out of them, the
foot comes down on nothing, and the voice stops or stretches a word to fill the gap. A short
line that comes back at the same place in each stanza is part of the tune and is never
raised. A word or two that stand alone as a sentence of one beat, "Creak.", are mostly meant: a
hint asks for the silence after them, no more.

The ear wants a fourth beat here, and the second line stops one short:

    The badger hung his wooden spoons
    Above the copper pan.

A stanza that keeps four and three, place by place, is quite at home:

    The badger hung his wooden spoons
    Above the copper pan,
    And hummed a dozen sleepy tunes
    Before the rain began.

What helps: one more stressed word that shows something, seldom a small word such as _so_.
`

var meterMissingBeat = &Check{
	Code:      "meter/missing-beat",
	Severity:  Warning,
	Sometimes: Hint,
	Reach:     OneStanza,
	Doc:       meterMissingBeatDoc,
	Run: func(p *Pass) {
		reportBreaks(p, scansion.MissingBeat, missingBeatMessage, countsRight, isOutcry, isFull)
		for i, line := range p.lines() {
			if line.Break != nil && line.Break.Cause == scansion.MissingBeat && !line.Fits && isOutcry(line) {
				p.Report(Finding{
					Span: wholeLine(line), Line: i, Severity: Hint, Expected: line.Expected, Heard: line.Reading.FeetPattern(), Confidence: p.deviance(line),
					Message: fmt.Sprintf("One beat stands alone where the others have %s; if the silence after it is meant, leave it room.", cardinal(line.Beats)),
				})
			}
		}
	},
}

// isFull reports whether a line has all the syllables that its place asks for: in "she said she was
// all alone", among trochees, a reader who has the tune lets it lift the small words.
func isFull(line *scansion.Line) bool {
	return len(line.Reading.Syllables) >= askedLength(line)
}

// isOutcry reports whether a line is a sentence of a word or two and one beat by
// itself: "Creak.", "A frog!". Nobody writes that by miscounting.
func isOutcry(line *scansion.Line) bool {
	return len(line.Words) <= 2 && line.Reading.Beats() == 1 && line.Words[len(line.Words)-1].Break == manuscript.FullBreak
}

func wholeLine(line *scansion.Line) manuscript.Span {
	return manuscript.Span{Start: line.Words[0].Span.Start, End: line.Words[len(line.Words)-1].Span.End}
}

func missingBeatMessage(b broken) string {
	want, heard := b.line.Beats, b.heard()
	switch {
	case heard >= want:
		// Every beat has its syllable, but one that the voice passes over.
		return fmt.Sprintf("A beat is due at %s, and the voice finds nothing there to lean on; a stressed word would hold it.", b.phrase())
	case b.atStart() && !b.atEnd():
		return fmt.Sprintf("My ear wanted %s and heard %s: the line comes in late, at %s.", counted(want, "beat"), cardinal(heard), b.phrase())
	case b.atEnd() && want-heard == 1:
		return fmt.Sprintf("My ear wanted %s beat; the line stops after %s.", ordinal(want), b.lastWord())
	case b.atEnd():
		return fmt.Sprintf("My ear wanted %s and heard %s; the line stops early, after %s.", counted(want, "beat"), cardinal(heard), b.lastWord())
	}
	return fmt.Sprintf("My ear wanted %s and heard %s; a step goes missing at %s, where one more stressed word would carry it.", counted(want, "beat"), cardinal(heard), b.phrase())
}
