package checks

import (
	"fmt"
	"strings"

	"dandle/analysis/manuscript"
)

const noteTooLongDoc = `
An art note says more than the illustrator needs.

A note is there for what the words cannot tell and the picture must: a joke, a secret, who is
speaking. Each further word is a word of the illustrator's, who is the book's other author
and likes to find things (Marchini; some editors want no notes at all, Pearson). More than 15
words are long; the figure is ours.

In 8,905 lines of Housman and Kipling, which have hardly a note in brackets, it is never raised.

Raised here:

    The captain was nowhere at all to be seen.
    [We see the captain, a large brown otter in a striped jersey, hiding behind the
    third barrel from the left with his paws over his eyes.]

Not here:

    The captain was nowhere at all to be seen.
    [Captain = behind a barrel]
`

var noteTooLong = &Check{
	Code:     "note/too-long",
	Severity: Information,
	Doc:      noteTooLongDoc,
	Run: func(p *Pass) {
		for _, n := range p.Manuscript.Notes {
			if n.Kind != manuscript.ArtNote {
				continue
			}
			words := len(noteWords(n.Text))
			if words <= longNote {
				continue
			}
			var fixes []Fix
			if short := asEquation(withoutLabel(n.Text)); short != "" {
				fixes = []Fix{{Title: "Write " + quote("["+short+"]"), Edits: []Edit{{Span: n.Span, Text: "[" + short + "]"}}}}
			}
			p.Report(Finding{
				Span:       n.Span,
				Line:       -1,
				Fixes:      fixes,
				Message:    fmt.Sprintf("This note has %d words, and the picture has an author too; what must the page show that the verse does not say? “Who = what” is often enough.", words),
				Confidence: min(0.7+0.02*float64(words-longNote), 0.95),
			})
		}
	},
}

// longNote is the most words that a note needs (craft, ours).
const longNote = 15

// noteWords are a note's words, without the label that its brackets make
// needless.
func noteWords(text string) []string {
	return strings.FieldsFunc(withoutLabel(text), func(r rune) bool { return strings.ContainsRune(" \t\r\n=:,;.!?()—–\"“”/", r) })
}

// withoutLabel is a note's text behind its label, if it has one.
func withoutLabel(text string) string {
	bracketed := "[" + text
	if at := label.FindStringIndex(bracketed); at != nil {
		return bracketed[at[1]:]
	}
	return text
}
