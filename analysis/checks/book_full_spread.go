package checks

import (
	"fmt"

	"dandle/analysis/book"
)

const bookFullSpreadDoc = `
One spread carries far more words than the others.

The picture and the words share a page, and a spread that is full of words leaves the picture
the margin. A book breathes: a line alone on the page where something happens is good, and never
raised. Raised is a spread of at least thirty words more than the one in the middle, and two and
a half times as many, where six spreads and more have words (common practice; the figures are
ours).

In 282 poems of Housman and Kipling, which mark no page turns, it never speaks.

Raised, at the fifth spread, in a book whose others have about twenty words:

    ## Spread 5

Not raised, where it has forty:

    ## Spread 5
`

var bookFullSpread = &Check{
	Code:     "book/full-spread",
	Severity: Hint,
	Doc:      bookFullSpreadDoc,
	Run: func(p *Pass) {
		figures := book.Measure(p.Manuscript, p.Poem)
		filled := 0
		for _, s := range figures.Spreads {
			if s.Words > 0 {
				filled++
			}
		}
		middle := figures.Median()
		if filled < leastFilled {
			return
		}
		for i, s := range figures.Spreads {
			if s.Words < middle+wordsOver || float64(s.Words) < timesOver*float64(middle) {
				continue
			}
			p.Report(Finding{
				Span: p.Manuscript.Spreads[i].Heading.Span, Line: -1, Confidence: 0.7,
				Message: fmt.Sprintf("This spread has %d words in %s, and most of the others about %d; could the page turn sooner, and give the picture room?", s.Words, counted(s.Stanzas, "verse"), middle),
			})
		}
	},
}

const (
	leastFilled = 6
	wordsOver   = 30
	timesOver   = 2.5
)
