package checks

import (
	"fmt"

	"dandle/analysis/manuscript"
)

const bookWordCountDoc = `
The manuscript is longer than publishers take for its age.

Counted are the words of the story alone, without notes and headings (common practice). The
ranges are those which agents and editors give: board books, to three years, 100 words and at
most 250 (Ross; At Home Author); picture books, three to seven, best under 500 and at most
1,000 (Ross; Blabbermouth); early readers, five to eight, to 3,500 (Ross). The age comes from
_ages_ in the front matter or in the house rules; without it the widest range for a picture
book holds.

Of 282 poems of Housman and Kipling it finds 7 too long for a picture book, which they are.

Raised, in a manuscript of 320 words:

    ages: 0-3

Not raised, in the same:

    ages: 3-6
`

var bookWordCount = &Check{
	Code:     "book/word-count",
	Severity: Information,
	Doc:      bookWordCountDoc,
	Run: func(p *Pass) {
		band := bandOf(agesOf(p))
		words := p.Manuscript.WordCount()
		if words <= band.most {
			return
		}
		message := fmt.Sprintf("The story has %d words; publishers take %s of up to %d. Where does the tale wait?", words, band.name, band.most)
		p.Report(Finding{Span: bookSpan(p.Manuscript), Line: -1, Message: message, Confidence: 0.9})
	},
}

// A band is a kind of book by the age of its readers.
type band struct {
	name string
	most int // words
}

// bandOf picks the kind of book for an age. A book that may be of two kinds is
// of the longer one, since a false alarm costs more.
func bandOf(a manuscript.Ages) band {
	switch {
	case a == (manuscript.Ages{}):
		return band{"picture books", 1000} // Ross; Blabbermouth
	case a.To <= 3:
		return band{"board books", 250} // At Home Author
	case a.To <= 7:
		return band{"picture books", 1000}
	case a.To <= 8:
		return band{"early readers", 3500} // Ross
	}
	return band{"chapter books", 15000} // Ross
}

// bookSpan is where a note about the whole book stands: its ages, its title, or
// its first line.
func bookSpan(m *manuscript.Manuscript) manuscript.Span {
	if ages := valueOf(m, "ages"); ages.Len() > 0 {
		return ages
	}
	if m.Title.Span.Len() > 0 {
		return m.Title.Span
	}
	if len(m.Lines) > 0 {
		return m.Lines[0].Span
	}
	return manuscript.Span{}
}
