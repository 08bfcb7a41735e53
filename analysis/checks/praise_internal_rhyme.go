package checks

import (
	"fmt"

	"dandle/analysis/manuscript"
)

const praiseInternalRhymeDoc = `
A beat inside the line rhymes with another, or with its end.

It gives the ear a rhyme before it is due. Perfect rhymes only, on beats, between words that
differ.

In 8,905 lines of Housman and Kipling it praises 259, once in 34.

    The kettle was black on the back of the stove.

Not here, where the vowels alone agree:

    The kettle was hot on the top of the stove.
`

var praiseInternalRhyme = &Check{
	Code:     "praise/internal-rhyme",
	Severity: Praise,
	Reach:    OneStanza,
	Doc:      praiseInternalRhymeDoc,
	Run: func(p *Pass) {
		for i, line := range p.lines() {
			a, b, found := internalRhyme(p.strong(i))
			if !found {
				continue
			}
			first, second := line.Words[a], line.Words[b]
			confidence := 0.7
			if first.Break != manuscript.NoBreak {
				confidence = 0.85 // before a pause it rings
			}
			p.Report(Finding{
				Span: between(line, a, b), Line: i, Confidence: confidence,
				Message: fmt.Sprintf("%s and %s rhyme inside the line, before the ear has asked for it.", quote(first.Text), quote(second.Text)),
			})
		}
	},
}

// internalRhyme is the first pair of words in a line whose strong syllables on
// beats rhyme.
func internalRhyme(list []strongSyllable) (a, b int, found bool) {
	for i := range list {
		for j := i + 1; j < len(list); j++ {
			x, y := list[i], list[j]
			if x.beat && y.beat && x.last && y.last && x.word != y.word && x.tail == y.tail && x.onset != y.onset {
				return x.word, y.word, true
			}
		}
	}
	return 0, 0, false
}
