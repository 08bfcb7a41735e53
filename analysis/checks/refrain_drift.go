package checks

import (
	"fmt"

	"dandle/analysis/manuscript"
)

const refrainDriftDoc = `
A refrain differs outside the slot that is meant to change.

A refrain is a promise: children wait for it and say it along. One place in it may change from
verse to verse, and they listen for that place. Where another word changes too, half the room
says the old one. The last time it comes it may turn the tables (Biebow); then accept the
finding.

The third line drifts, at _cried_:

    Hush, said the owl, there’s a moth at the door.
    Hush, said the owl, there’s a mouse at the door.
    Hush, cried the owl, there’s a wind at the door.
    Hush, said the owl, there’s a star at the door.

Only its slot changes here:

    Hush, said the owl, there’s a moth at the door.
    Hush, said the owl, there’s a mouse at the door.
    Hush, said the owl, there’s a wind at the door.
`

var refrainDrift = &Check{
	Code:     "refrain/drift",
	Severity: Information,
	Doc:      refrainDriftDoc,
	Run: func(p *Pass) {
		for _, f := range p.frames() {
			driftingWords(p, &f)
			driftingMarks(p, &f)
		}
	},
}

// driftingWords reports lines at the refrain's place that change a word of it.
func driftingWords(p *Pass, f *frame) {
	m := p.Manuscript
	type drifting struct {
		line, from, to int
		others         string
	}
	var drifts []drifting
	for i, line := range p.said() {
		if from, to, others, ok := f.drift(line.words); ok && atPlaceOf(m, i, f.lines) {
			drifts = append(drifts, drifting{i, from, to, others})
		}
	}
	// Where two verses and more change a word, it is a slot of its own.
	if len(drifts) != 1 {
		return
	}
	i, from, to, others := drifts[0].line, drifts[0].from, drifts[0].to, drifts[0].others
	confidence := 0.62 + 0.06*float64(len(f.lines)-frameTimes)
	if i > f.lines[len(f.lines)-1] {
		confidence -= 0.06 // the last may turn the tables
	}
	here := m.Lines[i].Words
	span := manuscript.Span{Start: here[from].Span.Start, End: here[to-1].Span.End}
	p.Report(Finding{
		Span:       span,
		Line:       i,
		Message:    fmt.Sprintf("The other verses have %s where this one has %s; a listener who says the refrain along would trip here.", quote(others), quote(span.In(m.Text))),
		Confidence: min(confidence, 0.9),
		Related:    []Related{{Span: m.Lines[f.lines[0]].Span, Message: "the refrain"}},
		Fixes:      []Fix{{Title: fmt.Sprintf("Say %s here too", quote(others)), Edits: []Edit{{Span: span, Text: matchCase(others, span.In(m.Text))}}}},
	})
}

// atPlaceOf reports whether a line stands where a refrain's lines stand in
// their stanzas, counted from either end.
func atPlaceOf(m *manuscript.Manuscript, line int, refrain []int) bool {
	back := func(i int) int { return m.Stanzas[m.Lines[i].Stanza].To - i }
	for _, r := range refrain {
		if m.Lines[r].Stanza != m.Lines[line].Stanza && (m.Lines[r].Place == m.Lines[line].Place || back(r) == back(line)) {
			return true
		}
	}
	return false
}

// driftingMarks reports a mark inside the refrain that one verse alone has
// otherwise.
func driftingMarks(p *Pass, f *frame) {
	m := p.Manuscript
	// From the line's start over the words before the slot, then from its end:
	// the last word's mark belongs to the sentence and not to the refrain.
	for at := range f.words() - 1 {
		count := map[string]int{}
		word := func(i int) (int, bool) {
			if at < len(f.before) {
				// The word that the slot follows has its mark from the slot.
				return at, at+1 < len(f.before) || len(f.after) == 0
			}
			return len(m.Lines[i].Words) - (f.words() - at), true
		}
		for _, i := range f.lines {
			if k, held := word(i); held {
				count[markAfter(m, i, k)]++
			}
		}
		if len(count) != 2 || len(f.lines) < 4 {
			continue
		}
		for _, i := range f.lines {
			k, _ := word(i)
			mark := markAfter(m, i, k)
			if count[mark] != 1 {
				continue
			}
			w := m.Lines[i].Words[k]
			p.Report(Finding{
				Severity:   Hint,
				Span:       w.Span,
				Line:       i,
				Message:    fmt.Sprintf("After %s the other verses of this refrain are marked another way; if nothing is meant by it, one mark throughout keeps its tune.", quote(w.Text)),
				Confidence: min(0.6+0.05*float64(len(f.lines)-4), 0.9),
				Related:    []Related{{Span: m.Lines[f.lines[0]].Span, Message: "the refrain"}},
			})
		}
	}
}

// markAfter is the mark between two words of a line, without spaces and quotes.
func markAfter(m *manuscript.Manuscript, line, word int) string {
	words := m.Lines[line].Words
	if word < 0 || word+1 >= len(words) {
		return ""
	}
	var b []rune
	for _, r := range m.Text[words[word].Span.End:words[word+1].Span.Start] {
		switch r {
		case ' ', '\t', '"', '“', '”', '‘', '*', '_':
		default:
			b = append(b, r)
		}
	}
	return string(b)
}
