package checks

import "fmt"

const bookSpreadsDoc = `
The number of spreads does not fit the pages of a book.

Picture books are bound in multiples of eight pages, most of them in 32. Where the endpapers
are sheets of their own (separate ends), title and small print take the first three pages, which
leaves 14 openings and a page (KiteTales, SCBWI 2016); where the endpapers are pages of the book
(self-ended), they take six more, and 12 or 13 openings are left (common practice). 24 pages
leave nine or ten, 40 leave 17 or 18, 48 leave 21 or 22. A manuscript with fewer than eight
spreads is taken to be still growing.

In 282 poems of Housman and Kipling, which mark no page turns, it never speaks.

Raised, since 16 openings fall between 32 pages and 40:

    ## Spread 16

Not raised, where it is the last:

    ## Spread 14
`

var bookSpreads = &Check{
	Code:     "book/spreads",
	Severity: Hint,
	Doc:      bookSpreadsDoc,
	Run: func(p *Pass) {
		n := len(p.Manuscript.Spreads)
		if n < growing || fits(n) {
			return
		}
		last := p.Manuscript.Spreads[n-1].Heading.Span
		p.Report(Finding{
			Span:       last,
			Line:       -1,
			Message:    fmt.Sprintf("I count %d spreads; a book of %d pages has room for %s, with endpapers of its own or without. A page turn could move.", n, pagesFor(n), roomIn(n)),
			Confidence: 0.8,
		})
	},
}

// growing is the number of spreads below which a manuscript is not yet a book.
const growing = 8

// fits reports whether a book of 24, 32, 40 or 48 pages has so many spreads,
// with the liberty that front matter gives (KiteTales; common practice).
func fits(n int) bool {
	switch {
	case 9 <= n && n <= 10, 12 <= n && n <= 15, 17 <= n && n <= 18, 21 <= n && n <= 22:
		return true
	}
	return false
}

// pagesFor is the book nearest to so many spreads.
func pagesFor(n int) int {
	switch {
	case n < 11:
		return 24
	case n <= 16:
		return 32
	case n <= 19:
		return 40
	}
	return 48
}

func roomIn(n int) string {
	switch pagesFor(n) {
	case 24:
		return "9 or 10"
	case 32:
		return "12 to 15"
	case 40:
		return "17 or 18"
	}
	return "21 or 22"
}
