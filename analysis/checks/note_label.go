package checks

import (
	"fmt"
	"regexp"
	"strings"
	"unicode/utf8"

	"dandle/analysis/manuscript"
)

const noteLabelDoc = `
An art note begins with a label that its brackets make needless.

Brackets say that this is for the illustrator (SCBWI's format; common practice); _Art:_ or
_Illo:_ in front says it twice, once for every note in the book.

In 8,905 lines of Housman and Kipling, which have hardly a note in brackets, it is never raised.

Raised here:

    [Art: the parrot is cross]

Not here:

    [The parrot is cross]
    [Note pinned to the door]
`

var noteLabel = &Check{
	Code:     "note/label",
	Severity: Hint,
	Doc:      noteLabelDoc,
	Run: func(p *Pass) {
		text := p.Manuscript.Text
		for _, n := range p.Manuscript.Notes {
			at := label.FindStringIndex(n.Span.In(text))
			if n.Kind != manuscript.ArtNote || at == nil || n.Span.Start+at[1] >= n.Span.End-1 {
				continue
			}
			span := manuscript.Span{Start: n.Span.Start + len("["), End: n.Span.Start + at[1]}
			_, size := utf8.DecodeRuneInString(text[span.End:])
			first := text[span.End : span.End+size]
			gone := manuscript.Span{Start: span.Start, End: span.End + size}
			span.End = span.Start + len(strings.TrimRight(span.In(text), " \t\r\n"))
			p.Report(Finding{
				Span: span, Line: -1, Confidence: 0.85,
				Message: fmt.Sprintf("The brackets tell the illustrator already that this is a note; it can begin behind %s.", quote(span.In(text))),
				Fixes:   []Fix{{Title: "Leave the label out", Edits: []Edit{{Span: gone, Text: strings.ToUpper(first)}}}},
			})
		}
	},
}

// label is what a note begins with where it says what it is.
var label = regexp.MustCompile(`(?i)^\[\s*(?:` + strings.Join(strings.Fields(section("noteLabel")), "|") + `)(?:\s+notes?|\s+directions?)?\s*(?::|–|—|\s-)\s*`)
