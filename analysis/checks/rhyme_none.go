package checks

import (
	"fmt"
	"slices"

	"dandle/analysis/rhyme"
)

const rhymeNoneDoc = `
The scheme wants a rhyme here and the ear gets none.

Every stanza so far has taught the ear where the rhymes fall, so one that stays away sounds like a
step that is not there. A line that the form leaves free owes no rhyme, and neither does verse
that keeps no scheme. Where nearly all lines rhyme inside themselves too, one that does not is
mentioned, as a hint.

    The heron had taken the kettle to town,
    The hen wore a hat with the brim upside down,
    The snail had a parcel to post before noon,
    And nobody told her the bridge was in bits.

Not here:

    The heron had taken the kettle to town,
    The hen wore a hat with the brim upside down,
    The snail had a parcel to post before noon,
    And whistled the whole of a wandering tune.
`

var rhymeNone = &Check{
	Code: "rhyme/none", Severity: Warning, Sometimes: Hint, Doc: rhymeNoneDoc,
	Run: func(p *Pass) {
		// The form may join two lines that the ear does not.
		joined := wantedPairs(p, func(pair *rhymePair) bool { return pair.match.Unheard() && !apart(p, pair) })
		for _, pair := range slices.Concat(joined, p.owed(), chainPairs(p)) {
			if pair.match.Kind == rhyme.NoRhyme {
				a, b := endsSaid(p, pair.first, pair.second)
				p.reportPair(pair.first, pair.second, 0.9*pair.owed, noRhyme(a, b))
			}
		}
		p.reportUnchimed()
	},
}

func noRhyme(a, b string) string {
	return fmt.Sprintf("My ear waited for a rhyme with %s, and %s does not bring one. The other stanzas do.", a, b)
}

// What makes a rhyme inside the line part of the form (ours): so many lines, and
// such a share of them.
const (
	leastChimed = 6
	mostChimed  = 0.75
	// Of the first lines a quarter chime, or no more are listened to.
	firstLines = 16
)

// reportUnchimed hints at lines that do not rhyme inside themselves where nearly
// all at their place in the stanza do: "The mole in his hole", in every long line.
func (p *Pass) reportUnchimed() {
	chimes := make([]bool, len(p.Manuscript.Lines))
	var all tally
	byPlace := map[int]*tally{}
	for i := range p.Manuscript.Lines {
		if p.Poem.Lines[i].Reading.Beats() == 0 {
			continue
		}
		_, _, chimes[i] = internalRhyme(p.strong(i))
		place := p.Manuscript.Lines[i].Place
		if byPlace[place] == nil {
			byPlace[place] = &tally{}
		}
		byPlace[place].count(chimes[i])
		if all.count(chimes[i]); all.all == firstLines && 4*all.held < firstLines {
			return
		}
	}
	for i, l := range p.Manuscript.Lines {
		here := byPlace[l.Place]
		if here == nil || chimes[i] || p.Poem.Lines[i].Reading.Beats() == 0 {
			continue
		}
		if here.all < leastChimed {
			here = &all
		}
		if here.all < leastChimed || here.share() < mostChimed {
			continue
		}
		p.Report(Finding{
			Span: l.Span, Line: i, Severity: Hint, Confidence: here.share(),
			Message: "Nearly every line at this place rhymes inside itself, and this one does not; by now the ear has come to wait for it.",
		})
	}
}

// A tally counts how often something holds.
type tally struct{ all, held int }

func (t *tally) count(held bool) {
	t.all++
	if held {
		t.held++
	}
}

func (t *tally) share() float64 { return float64(t.held) / float64(t.all) }
