package checks

import (
	"strings"

	"dandle/analysis/manuscript"
)

const noteInsideDoc = `
An art note stands in the middle of a line of verse.

Whoever reads the line aloud has to leap over it, and the step is lost. Art notes are set apart,
on a line of their own or at a line's end (SCBWI's format; common practice).

In 8,905 lines of Housman and Kipling, which have hardly a note in brackets, it is never raised.

Raised here:

    The captain was nowhere [behind the barrel] at all.

Not here:

    The captain was nowhere at all. [Behind the barrel]
`

var noteInside = &Check{
	Code:     "note/inside",
	Severity: Information,
	Doc:      noteInsideDoc,
	Run: func(p *Pass) {
		for _, n := range p.Manuscript.Notes {
			if n.Kind != manuscript.ArtNote || !n.Inside || strings.ContainsAny(n.Span.In(p.Manuscript.Text), "\r\n") {
				continue
			}
			p.Report(Finding{
				Span: n.Span, Line: -1, Confidence: 0.9,
				Message: "This note stands in the middle of its line, and a voice reading aloud has to leap over it; on a line of its own it would be out of the way. If the bracket belongs to the verse, write \\[ for it.",
				Fixes:   []Fix{{Title: "Set the note on a line of its own", Edits: setApart(p.Manuscript, n)}},
			})
		}
	},
}

// setApart moves a note from inside its line to the line below.
func setApart(m *manuscript.Manuscript, n manuscript.Note) []Edit {
	i := m.FileLine(n.Span.Start)
	line := m.FileLineSpan(i)
	gone := n.Span
	// One space stays between the words on either side, and none at the edge.
	rest := m.Text[gone.End:line.End]
	gone.End += len(rest) - len(strings.TrimLeft(rest, " \t"))
	if gone.Start > line.Start && gone.End == n.Span.End {
		before := m.Text[line.Start:gone.Start]
		gone.Start -= len(before) - len(strings.TrimRight(before, " \t"))
	}
	return []Edit{
		{Span: gone},
		{Span: manuscript.Span{Start: line.End, End: line.End}, Text: m.LineEnd() + n.Span.In(m.Text)},
	}
}
