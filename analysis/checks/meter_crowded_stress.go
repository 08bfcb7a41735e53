package checks

import (
	"fmt"

	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"
	"dandle/phonetics/grammar"
)

const meterCrowdedStressDoc = `
Strong syllables jam where the meter needs slack between them.

Each stressed syllable wants time. Two beside each other across a pause are a drum stroke;
three or four with no light syllable between them stop the dance, because the reader cannot
tell which of them carries the beat. In triple meter two are enough, where both must bear a beat
to fill the line: _the mole told the tiller a short tale_. It may be just right where the tale
slows down.

Four strong words stand in a row, though the line has the right number of syllables:

    The snail blew one low long slow note on his horn.

The same sense moves when light syllables part the strong ones:

    The snail blew a mellowing note on his horn.

What helps: one light word between, or a longer word that brings its own slack.
`

var meterCrowdedStress = &Check{
	Code:     "meter/crowded-stress",
	Severity: Warning,
	Reach:    OneStanza,
	Doc:      meterCrowdedStressDoc,
	Run: func(p *Pass) {
		reportBreaks(p, scansion.CrowdedStress, crowdedStressMessage)
		for i, line := range p.lines() {
			if line.Expected == "" || line.Break != nil && p.deviance(line) >= p.Threshold {
				continue
			}
			from, to := crowd(line)
			if n := to - from; n >= crowded {
				span := manuscript.Span{Start: line.Words[from].Span.Start, End: line.Words[to-1].Span.End}
				p.Report(Finding{
					Span: span, Line: i, Expected: line.Expected, Heard: line.Reading.FeetPattern(),
					Message:    crowdMessage(n, quote(span.In(p.Manuscript.Text))),
					Confidence: min(0.62+0.08*float64(n-crowded), 0.9),
				})
			}
		}
	},
}

// crowded is the number of strong words in a row at which a reader stops even
// where the meter would carry him over them (craft, ours).
const crowded = 4

// crowd is the longest run of words [from, to) which are one stressed syllable
// each, with no pause among them, inside one phrase: "one low long slow note".
// A meter may demote some of them, and the line still fits; the voice has no
// time to. Where a verb stands among them the voice has a joint to rest at.
func crowd(line *scansion.Line) (from, to int) {
	syllables := make([]int, len(line.Words))
	for _, s := range line.Reading.Syllables {
		syllables[s.Word]++
	}
	start := 0
	for i := range line.Words {
		w := &line.Words[i]
		if syllables[i] != 1 || !strong(w) {
			start = i + 1
			continue
		}
		if i+1-start > to-from {
			from, to = start, i+1
		}
		if w.Break != manuscript.NoBreak {
			start = i + 1
		}
	}
	return from, to
}

// strong reports whether the voice leans on a word of one syllable: on what
// names or describes.
func strong(w *scansion.Word) bool {
	lower := plain(w.Text)
	return w.Tag.IsNoun() || w.Tag.IsAdjective() || w.Tag == grammar.Number || (w.Tag.IsVerb() || w.Tag == grammar.Adverb) && grammar.CanBe(lower, grammar.Adjective)
}

func crowdedStressMessage(b broken) string {
	n := b.stressed()
	if n < 2 {
		return fmt.Sprintf("The line wants a light syllable at %s and gets a strong one, so the step is held up there.", b.phrase())
	}
	return crowdMessage(n, b.phrase())
}

func crowdMessage(n int, words string) string {
	return fmt.Sprintf("%s strong syllables meet in %s. If the reader should slow down, keep it; if not, one light word between would do.", capital(cardinal(n)), words)
}
