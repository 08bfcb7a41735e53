package checks

import (
	"fmt"
	"strings"

	"dandle/analysis/scansion"
	"dandle/phonetics"
	"dandle/phonetics/arpabet"
	"dandle/phonetics/grammar"
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
	Reach:    OneStanza,
	Doc:      meterWrenchedStressDoc,
	Run: func(p *Pass) {
		reportBreaks(p, scansion.WrenchedStress, wrenchedStressMessage)
		for i, line := range p.lines() {
			if line.Expected == "" || line.Break != nil && p.deviance(line) >= p.Threshold && !countsRight(line) {
				continue
			}
			if w := wrenched(line); w >= 0 {
				b := broken{text: p.Manuscript.Text, line: line, at: &scansion.Break{Cause: scansion.WrenchedStress, From: firstSyllable(line, w), Span: line.Words[w].Span}}
				p.Report(Finding{
					Span: line.Words[w].Span, Line: i, Expected: line.Expected, Heard: line.Reading.FeetPattern(),
					Message: wrenchedStressMessage(b), Confidence: 0.72,
				})
			}
		}
	},
}

// countsRight reports whether a line that loses the meter has as many beats as
// its place calls for, and a word wrenched to make them. Then the wrench is
// what the ear hears, not a beat that goes missing beside it.
func countsRight(line *scansion.Line) bool {
	return line.Break.Cause == scansion.MissingBeat && line.Reading.Beats() == line.Beats && wrenched(line) >= 0
}

// wrenched is the first word whose beat falls on a syllable with no stress
// while its stressed one goes without, though the line as a whole fits; -1
// where there is none. A word whose sound is only guessed from its letters
// gives no ground for it.
func wrenched(line *scansion.Line) int {
	light, passed := -1, -1 // the words of the last such syllables
	for _, s := range line.Reading.Syllables {
		// Small words of two syllables, as under and upon, bend to the meter;
		// a name is said as its bearer likes.
		switch line.Words[s.Word].Tag {
		case grammar.Preposition, grammar.Particle, grammar.Pronoun, grammar.Conjunction, grammar.Name, grammar.Number:
			continue
		}
		ways := line.Words[s.Word].Ways
		if s.Word >= len(line.Reading.Ways) {
			continue
		}
		if k := line.Reading.Ways[s.Word]; k >= len(ways) || ways[k].Source == phonetics.FromSpelling {
			continue
		}
		// "A nearby blackBIRD": the second half of a compound may not carry the rhyme alone.
		rhymes := s.Word == len(line.Words)-1 && line.Words[s.Word].Tag.IsNoun() && s.Stress == arpabet.Secondary && !strings.Contains(line.Words[s.Word].Text, "-")
		if s.Beat && (s.Stress == arpabet.Unstressed || rhymes) {
			light = s.Word
		}
		if !s.Beat && s.Stress == arpabet.Primary {
			passed = s.Word
		}
		if light >= 0 && light == passed {
			return light
		}
	}
	return -1
}

func firstSyllable(line *scansion.Line, word int) int {
	for i, s := range line.Reading.Syllables {
		if s.Word == word {
			return i
		}
	}
	return 0
}

func wrenchedStressMessage(b broken) string {
	if spoken, asked := b.spoken(), b.asked(); spoken != asked {
		return fmt.Sprintf("The tune asks for %s here, and the voice says %s; moved by a syllable, the word could keep its own stress.", asked, spoken)
	}
	return fmt.Sprintf("The beat falls where the voice would pass lightly over %s; another order of words might let it land.", b.phrase())
}
