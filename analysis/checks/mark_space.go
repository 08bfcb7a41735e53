package checks

import (
	"fmt"
	"strings"

	"dandle/analysis/manuscript"
)

const markSpaceDoc = `
Two spaces stand where one parts the words.

Typewriters set two after a full stop; books set one (Chicago Manual of Style, 6.7, from
memory), and a second one between words is a slip that a typesetter has to hunt for. Where
three stops and more have two spaces, that is a habit, and said once for all. Four spaces and
more are taken to be meant, as when words drip down a page; so is an indent.

In 8,905 lines of Housman and Kipling it speaks 93 times, each at two spaces that are there.

Raised here, twice:

    The snail set out  on Monday noon.  The slug set out on Tuesday.

Not here:

    The drip    drip    drip of the tap kept time.
`

var markSpace = &Check{
	Code:     "mark/space",
	Severity: Hint,
	Doc:      markSpaceDoc,
	Run: func(p *Pass) {
		slips, habit := doubled(p.Manuscript)
		for _, d := range slips {
			p.Report(Finding{
				Span: d.span, Line: d.line, Confidence: 0.9,
				Message: "Two spaces stand here where one is enough; a typesetter would have to look for them.",
				Fixes:   []Fix{{Title: "Leave one space", Edits: []Edit{d.mended()}}},
			})
		}
		if len(habit) == 0 {
			return
		}
		all := Fix{Title: "Leave one space behind every stop"}
		for _, d := range habit {
			all.Edits = append(all.Edits, d.mended())
		}
		p.Report(Finding{
			Span: habit[0].span, Line: habit[0].line, Confidence: 0.9, Fixes: []Fix{all},
			Message: fmt.Sprintf("Your stops have two spaces behind them, here and in %s more; print has one.", counted(len(habit)-1, "place")),
		})
	},
}

// A doubledSpace is a run of two or three spaces in a line of verse.
type doubledSpace struct {
	span manuscript.Span
	line int
}

func (d doubledSpace) mended() Edit { return Edit{Span: d.span, Text: " "} }

// doubled are the doubled spaces of a manuscript: those that look like slips,
// and those behind stops where the writer's thumb does it every time.
func doubled(m *manuscript.Manuscript) (slips, habit []doubledSpace) {
	for i := range m.Lines {
		words := m.Lines[i].Words
		for k := range max(len(words)-1, 0) {
			for _, run := range doubledSpaces(m.Text, words[k].Span.End, words[k+1].Span.Start) {
				if words[k].Break == manuscript.FullBreak {
					habit = append(habit, doubledSpace{run, i})
				} else {
					slips = append(slips, doubledSpace{run, i})
				}
			}
		}
	}
	if len(habit) < leastThumbs {
		slips, habit = append(slips, habit...), nil
	}
	return slips, habit
}

// leastThumbs is the number of doubled spaces behind stops that make a habit.
const leastThumbs = 3

// meantSpaces is the number of spaces from which they are layout and no slip
// (ours).
const meantSpaces = 4

// doubledSpaces are the runs of two or three spaces in the gap [from, to)
// between two words. A gap with a note or a comment in it is left alone.
func doubledSpaces(text string, from, to int) []manuscript.Span {
	gap := text[from:to]
	if !strings.Contains(gap, "  ") || strings.ContainsAny(gap, "<[") {
		return nil
	}
	var runs []manuscript.Span
	for i := 0; i < len(gap); i++ {
		n := len(gap[i:]) - len(strings.TrimLeft(gap[i:], " "))
		if n > 1 && n < meantSpaces {
			runs = append(runs, manuscript.Span{Start: from + i, End: from + i + n})
		}
		i += n
	}
	return runs
}
