package checks

import (
	"fmt"

	"dandle/analysis/manuscript"
)

const praisePageTurnDoc = `
The page turns on a question, a held breath or a sentence that is not over.

A page turn is the picture book's own suspense: the voice stops, the hand moves, the answer is
on the other side (WriteMentor; Pattison). Praised is a turn behind a question, a dash, a colon
or three dots, or in the middle of a sentence.

In 282 poems of Housman and Kipling, which mark no page turns, it never speaks.

    She lifted the lid of the basket, and there—

    ## Spread 5

    was somebody’s whiskers, and somebody’s hair.

Not here, where the sentence is over:

    She lifted the lid, and the basket was bare.

    ## Spread 5
`

var praisePageTurn = &Check{
	Code:     "praise/page-turn",
	Severity: Praise,
	Doc:      praisePageTurnDoc,
	Run: func(p *Pass) {
		m := p.Manuscript
		for s := 1; s < len(m.Spreads); s++ {
			i := m.Spreads[s].From - 1
			// The turn must lie between two spreads that both have verse.
			if m.Spreads[s-1].To != i+1 || m.Spreads[s-1].From > i || m.Spreads[s].From >= m.Spreads[s].To {
				continue
			}
			if how := suspense(m, i); how != "" {
				last := m.Lines[i].Words[len(m.Lines[i].Words)-1]
				p.Report(Finding{
					Span: last.Span, Line: i, Confidence: 0.7,
					Message: fmt.Sprintf("The page turns %s, behind %s: the listener has to know, and the hand with her.", how, quote(last.Text)),
				})
			}
		}
	},
}

// suspense is what a line leaves open at its end; "" where it leaves nothing.
func suspense(m *manuscript.Manuscript, line int) string {
	l := &m.Lines[line]
	if len(l.Words) == 0 {
		return ""
	}
	last := l.Words[len(l.Words)-1]
	for _, r := range m.Text[last.Span.End:l.Span.End] {
		switch r {
		case '?':
			return "on a question"
		case '—', '–', '…', ':':
			return "on a held breath"
		}
	}
	switch last.Break {
	case manuscript.HeavyBreak:
		return "on a held breath"
	case manuscript.NoBreak, manuscript.LightBreak:
		if line+1 < len(m.Lines) && len(m.Lines[line+1].Words) > 0 && runsAcross(m, line) {
			return "in the middle of a sentence"
		}
	case manuscript.FullBreak:
	}
	return ""
}

// runsAcross reports whether the sentence goes on in the next line, as far as
// its first letter or its stanza tells.
func runsAcross(m *manuscript.Manuscript, line int) bool {
	next := &m.Lines[line+1]
	return lowerStart(next.Words[0].Text) || next.Stanza == m.Lines[line].Stanza
}
