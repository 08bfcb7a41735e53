package analysis

import (
	"fmt"
	"slices"
	"strings"

	"dandle/analysis/checks"
	"dandle/analysis/suggest"
)

// mostInstead is how many other words a finding offers: more is a list, and no
// longer advice.
const mostInstead = 3

// worded are the codes of findings that another word may mend.
var worded = []checks.Code{"word/filler", "word/padding-do", "word/weak"}

// Fixes are the ways to mend a finding, best first: those that its check knows
// and, for a word that pads or shows nothing, other words that scan in its
// place. These are looked for only when they are asked for, since each is a line
// heard anew.
func (s *Snapshot) Fixes(f *checks.Finding) []checks.Fix {
	if f.Line < 0 || f.Line >= len(s.Poem().Lines) || !slices.Contains(worded, f.Code) {
		return f.Fixes
	}
	from, to := -1, -1
	for i, w := range s.Poem().Lines[f.Line].Words {
		if f.Span.Start <= w.Span.Start && w.Span.End <= f.Span.End {
			if from < 0 {
				from = i
			}
			to = i + 1
		}
	}
	if from < 0 {
		return f.Fixes
	}
	fixes := f.Fixes[:len(f.Fixes):len(f.Fixes)]
	found := suggest.Instead(s.Place(f.Span.Start), f.Line, from, to)
	for _, item := range found[:min(len(found), mostInstead)] {
		fixes = append(fixes, checks.Fix{
			Title: fmt.Sprintf("Write “%s” (%s)", item.Text, strings.ReplaceAll(item.Feet, "|", " | ")),
			Edits: []checks.Edit{{Span: item.Span, Text: item.Text}},
		})
	}
	return fixes
}

// Place is a place in the manuscript for which words are wanted, at an offset in
// bytes.
func (s *Snapshot) Place(offset int) suggest.Place {
	weak := checks.NewWeak(s.options.House)
	return suggest.Place{
		Manuscript: s.manuscript, Poem: s.Poem(), Reader: s.Reader(), Stanzas: s.Stanzas(), Offset: offset,
		Judges: checks.Judges, Empty: weak.Has,
	}
}
