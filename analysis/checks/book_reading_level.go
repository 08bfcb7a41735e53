package checks

import (
	"fmt"

	"dandle/analysis/book"
	"dandle/analysis/manuscript"
)

const bookReadingLevelDoc = `
The sentences are harder to read than the ages on the cover.

The grade is that of the Flesch–Kincaid formula (Kincaid, Fishburne, Rogers and Chissom, 1975):
0.39 times the words to a sentence, plus 11.8 times the syllables to a word, less 15.59; a first
grade is six to seven years old. A picture book is read to a child by somebody who can read, and
may be richer than the child's own reading, so only books whose readers are five at least and
read by themselves are held to it, where a hundred words and more lie three grades above the
oldest age. That distance is ours.

In 282 poems of Housman and Kipling, which name no ages, it is never raised.

Raised, where the verse reads at grade 6:

    ages: 5-7

Not raised, for the same verse:

    ages: 3-7
`

var bookReadingLevel = &Check{
	Code:     "book/reading-level",
	Severity: Hint,
	Doc:      bookReadingLevelDoc,
	Run: func(p *Pass) {
		ages := agesOf(p)
		if ages == (manuscript.Ages{}) || ages.From < readsAlone {
			return
		}
		figures := book.Measure(p.Manuscript, p.Poem)
		grade, known := figures.Grade()
		expected := float64(ages.To - firstGrade + 1)
		if !known || figures.Words < leastRead || grade < expected+gradesAbove {
			return
		}
		p.Report(Finding{
			Span: bookSpan(p.Manuscript), Line: -1, Confidence: 0.7,
			Message: fmt.Sprintf("By sentence and syllable this reads like grade %.0f, and readers of %d are in grade %.0f; shorter sentences would bring it nearer, if children are to read it by themselves.", grade, ages.To, expected),
		})
	},
}

const (
	readsAlone  = 5   // years, from which a child may read by herself
	firstGrade  = 6   // years, at which the first grade begins
	leastRead   = 100 // words, fewer of which tell nothing (the formula's own samples had a hundred)
	gradesAbove = 3.0
)

// agesOf is whom the book is for: its own front matter before the house's rule.
func agesOf(p *Pass) manuscript.Ages {
	if ages := p.Manuscript.Front.Ages; ages != (manuscript.Ages{}) {
		return ages
	}
	return p.House.Ages
}
