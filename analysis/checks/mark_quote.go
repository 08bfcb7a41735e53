package checks

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"dandle/analysis/manuscript"
)

const markQuoteDoc = `
Two kinds of quotation mark stand in one manuscript.

Typewriters have one straight mark for both ends of a speech; books have a curly one for each
(Chicago Manual of Style, Q&A). Either will do for a manuscript. Where it has both, as when verses
were pasted in from elsewhere, the rarer kind is raised, and set as the others are. An inch or a
second after a number is none.

In 8,905 lines of Housman and Kipling, typed with straight marks, it is never raised.

Raised here, at the straight marks:

    “Who’s there?” asked the badger. “The moon,” said the moth.
    "Come in," said the badger, and laid her a cloth.

Not here:

    “Who’s there?” asked the badger. “The moon,” said the moth.
    “Come in,” said the badger, and laid her a cloth.
`

var markQuote = &Check{
	Code:     "mark/quote",
	Severity: Hint,
	Doc:      markQuoteDoc,
	Run: func(p *Pass) {
		straightMarks, curlyMarks := quoteMarks(p.Manuscript)
		if len(straightMarks) == 0 || len(curlyMarks) == 0 {
			return
		}
		rarer, name := straightMarks, "curly"
		if len(curlyMarks) < len(straightMarks) {
			rarer, name = curlyMarks, "straight"
		}
		for _, q := range rarer {
			sign := `"`
			if name == "curly" {
				sign = curlyFor(p.Manuscript.Text, q.span)
			}
			p.Report(Finding{
				Span: q.span, Line: q.line, Confidence: 0.85,
				Message: fmt.Sprintf("Most quotation marks in this manuscript are %s, and this one is not; one kind throughout spares the typesetter.", name),
				Fixes:   []Fix{{Title: "Set it like the others", Edits: []Edit{{Span: q.span, Text: sign}}}},
			})
		}
	},
}

// A quoteMark is a double quotation mark in a line of verse.
type quoteMark struct {
	span manuscript.Span
	line int
}

// quoteMarks are the double marks of the verse, straight and curly, those in
// notes and comments left out.
func quoteMarks(m *manuscript.Manuscript) (straight, curly []quoteMark) {
	for i := range m.Lines {
		l := &m.Lines[i]
		at := l.Span.Start
		for k := 0; k <= len(l.Words); k++ {
			end := l.Span.End
			if k < len(l.Words) {
				end = l.Words[k].Span.Start
			}
			gap := m.Text[at:end]
			if strings.ContainsAny(gap, "<[") {
				gap = "" // a note or a comment
			}
			for j, r := range gap {
				span := manuscript.Span{Start: at + j, End: at + j + utf8.RuneLen(r)}
				switch r {
				case '"':
					if before, _ := utf8.DecodeLastRuneInString(m.Text[:span.Start]); !unicode.IsDigit(before) {
						straight = append(straight, quoteMark{span, i})
					}
				case '“', '”':
					curly = append(curly, quoteMark{span, i})
				}
			}
			if k < len(l.Words) {
				at = l.Words[k].Span.End
			}
		}
	}
	return straight, curly
}

// curlyFor is the curly mark in the place of a straight one: it opens where a
// word follows and none stands before.
func curlyFor(text string, s manuscript.Span) string {
	before, size := utf8.DecodeLastRuneInString(text[:s.Start])
	after, _ := utf8.DecodeRuneInString(text[s.End:])
	opens := size == 0 || unicode.IsSpace(before) || before == '—' || before == '–' || before == '('
	if opens && !unicode.IsSpace(after) {
		return "“"
	}
	return "”"
}
