package analysis

import (
	"fmt"
	"strings"

	"dandle/analysis/checks"
	"dandle/analysis/suggest"
)

// mostInstead is how many other words a finding offers: more is a list, and no
// longer advice.
const mostInstead = 3

// instead are the codes of findings that other words may mend, each with where
// they come from.
var instead = map[checks.Code]func(p suggest.Place, line, from, to int) []suggest.Item{
	"word/filler":         suggest.Padding,
	"word/weak":           suggest.Shown,
	"word/padding-do":     func(p suggest.Place, line, from, _ int) []suggest.Item { return suggest.PaddedVerb(p, line, from) },
	"word/inverted-order": func(p suggest.Place, line, _, _ int) []suggest.Item { return suggest.Turned(p, line) },
}

// Fixes are the ways to mend a finding, best first: those that its check knows
// and, for a word that pads or shows nothing, other words that scan in its
// place. These are looked for only when they are asked for, since each is a line
// heard anew.
func (s *Snapshot) Fixes(f *checks.Finding) []checks.Fix {
	found := s.instead(f)
	var fixes, limping []checks.Fix
	for _, fix := range f.Fixes {
		if len(found) > 0 && s.limps(f.Line, &fix) {
			limping = append(limping, fix)
		} else {
			fixes = append(fixes, fix)
		}
	}
	for _, item := range found[:min(len(found), mostInstead)] {
		fixes = append(fixes, checks.Fix{
			Title: titleOf(&item),
			Edits: []checks.Edit{{Span: item.Span, Text: item.Text}},
		})
	}
	return append(fixes, limping...)
}

// limping is the deviance from which a line that lost a word is felt to miss it, though
// it keeps its beats: two strong words jam where the word stood between them (ours).
const limping = 0.12

// limps reports whether a line would stumble with a fix that only leaves words out of
// it: then other words in their place come first.
func (s *Snapshot) limps(line int, fix *checks.Fix) bool {
	if line < 0 || line >= len(s.Poem().Lines) {
		return false
	}
	span, text := s.manuscript.Lines[line].Span, s.manuscript.Text
	var mended strings.Builder
	at := span.Start
	for _, e := range fix.Edits {
		if e.Span.Start < at || e.Span.End > span.End {
			return false
		}
		mended.WriteString(text[at:e.Span.Start] + e.Text)
		at = e.Span.End
	}
	mended.WriteString(text[at:span.End])
	trial, ok := s.Poem().Try(line, mended.String())
	return ok && trial.Deviance > limping
}

// titleOf says what an item puts in, how the line goes then, and what it then wants.
func titleOf(item *suggest.Item) string {
	feet := strings.ReplaceAll(item.Feet, "|", " | ")
	if item.Wants != "" {
		return fmt.Sprintf("Write “%s” (%s), and find “%s” a rhyme", item.Text, feet, item.Wants)
	}
	return fmt.Sprintf("Write “%s” (%s)", item.Text, feet)
}

// instead is what another word or a few would say in the place of a finding.
func (s *Snapshot) instead(f *checks.Finding) []suggest.Item {
	ask := instead[f.Code]
	if ask == nil || f.Line < 0 || f.Line >= len(s.Poem().Lines) {
		return nil
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
		return nil
	}
	return ask(s.Place(f.Span.Start), f.Line, from, to)
}

// InPlaceOf is what would do in the place of the word at an offset: what is offered
// for a finding there, else words near it in sense or sound.
func (s *Snapshot) InPlaceOf(line, word, offset int) []suggest.Item {
	findings := s.Findings()
	for i := range findings {
		f := &findings[i]
		if f.Line != line || instead[f.Code] == nil || offset < f.Span.Start || f.Span.End <= offset {
			continue
		}
		var there []suggest.Item
		for _, item := range s.instead(f) {
			if item.Span.Start <= offset && offset <= item.Span.End {
				if item.Wants != "" {
					item.Detail += fmt.Sprintf(" · and find “%s” a rhyme", item.Wants)
				}
				there = append(there, item)
			}
		}
		if len(there) > 0 {
			return there
		}
	}
	return suggest.Replacements(s.Place(offset), line, word)
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
