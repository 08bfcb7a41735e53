package checks

import (
	"fmt"

	"dandle/analysis/rhyme"
)

const rhymeHomophoneDoc = `
A word is rhymed with another that sounds just the same.

The rhyme is on the page alone: read aloud, the ear hears one word twice. As a pun it can be the
joke of the line, and may be accepted.

    The goose told the tailor a wonderful tale,
    And paid for her coat with a pin and a tail.

Not here:

    The goose told the tailor a wonderful tale,
    And paid for her coat with a shell and a snail.
`

var rhymeHomophone = &Check{
	Code: "rhyme/homophone", Severity: Information, Doc: rhymeHomophoneDoc,
	Run: func(p *Pass) {
		for _, pair := range p.pairs() {
			if pair.match.Kind != rhyme.Homophone {
				continue
			}
			a, b := endsSaid(p, pair.first, pair.second)
			p.reportPair(pair.first, pair.second, 0.75, fmt.Sprintf("%s and %s sound the same, so the ear hears one word twice. If it is a pun, keep it.", a, b))
		}
	},
}
