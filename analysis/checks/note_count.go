package checks

import (
	"fmt"

	"dandle/analysis/manuscript"
)

const noteCountDoc = `
There are more notes for the illustrator than spreads.

The illustrator is the book's other author. Notes are for what the text misleads about without
them (Marchini), and some editors want none at all (Pearson); more than one to a page turn
direct the pictures rather than help them. Six notes and more are counted, against the spreads,
or where none are marked against the stanzas (the figures are ours).

In 8,905 lines of Housman and Kipling, which have hardly a note in brackets, it is never raised.

Raised, at the first note, in a manuscript of seven notes and six spreads:

    [Captain = behind a barrel]

Not raised, in one of three notes and six spreads:

    [Captain = behind a barrel]
`

var noteCount = &Check{
	Code:     "note/count",
	Severity: Hint,
	Doc:      noteCountDoc,
	Run: func(p *Pass) {
		m := p.Manuscript
		places, name := len(m.Spreads), "spread"
		if places == 0 {
			places, name = len(m.Stanzas), "verse"
		}
		notes, first := 0, manuscript.Span{}
		for _, n := range m.Notes {
			if n.Kind != manuscript.ArtNote {
				continue
			}
			if notes == 0 {
				first = n.Span
			}
			notes++
		}
		if notes < manyNotes || notes <= places {
			return
		}
		p.Report(Finding{
			Span: first, Line: -1, Confidence: 0.7,
			Message: fmt.Sprintf("I count %d notes for %d %ss, this one the first. The pictures have an author too; which of them could be left for her to find?", notes, places, name),
		})
	},
}

// manyNotes is the number of notes below which none is too many.
const manyNotes = 6
