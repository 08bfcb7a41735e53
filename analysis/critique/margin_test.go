package critique_test

import (
	"fmt"
	"strings"
	"testing"

	"dandle/analysis/checks"
	"dandle/analysis/critique"

	"github.com/google/go-cmp/cmp"
)

// TestMarginSaysTheLetter holds the notes in the margin to the letter: each of
// its findings stands beside its own words, none twice, and the three steps are
// told at the head.
func TestMarginSaysTheLetter(t *testing.T) {
	for name, p := range manuscripts(t) {
		letter := critique.Write(p, critique.Full)
		list := critique.Margin(letter, p)
		if len(p.Manuscript.Lines) == 0 {
			continue
		}
		whole := strings.Join(list[0].Paragraphs, "\n")
		beside := map[string]bool{}
		for i, r := range list {
			if r.Span.End > len(p.Manuscript.Text) || r.Span.Start >= r.Span.End || len(r.Paragraphs) == 0 {
				t.Errorf("%s: remark %d at %v says %q", name, i, r.Span, r.Paragraphs)
			}
			key := fmt.Sprint(r.Span, r.Paragraphs[0])
			if beside[key] {
				t.Errorf("%s: twice: %s", name, key)
			}
			beside[key] = true
		}
		for _, s := range letter.Sections {
			for _, step := range s.Steps {
				if !strings.Contains(whole, step) {
					t.Errorf("%s: the head lacks %q", name, step)
				}
			}
			for _, n := range s.Notes {
				for _, place := range n.Places {
					if n.Reviewer || n.Severity == checks.Praise || n.Code.Area() == "book" {
						continue
					}
					found := false
					for _, r := range list[1:] {
						found = found || r.Span == place.Span
					}
					if !found {
						t.Errorf("%s: nothing stands beside %q in line %d", name, place.Quote, place.Line)
					}
				}
			}
		}
	}
}

func TestMargin(t *testing.T) {
	const line = "The lamp on the headland went out with a very old cough,"
	p := parts("> Whose lamp?\n" + line + "\n" + line + "\n")
	span := p.Manuscript.Lines[0].Span
	letter := critique.Letter{Sections: []critique.Section{
		{Kind: critique.Meter, Heading: "The meter", Paragraphs: []string{"It gallops.", "Here it is:"}, Feet: make([]critique.Verse, 1)},
		{Kind: critique.First, Heading: "The one line", Notes: []critique.Note{{
			Code: "meter/extra-beat", Severity: checks.Warning, Text: "A beat over.", Expected: "x/|x/", Heard: "x/|x/|x/",
			Places: []critique.Place{{Span: span, Line: 2}}, Findings: []int{0},
			Ways: []critique.Way{{Title: "Do without it", Line: "The lamp went out"}, {Title: "Leave it out"}},
		}}},
		{Kind: critique.Reviewer, Heading: "The pencil", Notes: []critique.Note{{Reviewer: true, Text: "Whose lamp?", Places: make([]critique.Place, 1)}}},
		{Kind: critique.NextSteps, Heading: "Steps", Steps: []string{"Read it."}, Closing: "Keep the lamp."},
	}}
	p.Findings = []checks.Finding{{Code: "meter/extra-beat", Severity: checks.Warning, Span: span, Message: "A beat over."}}
	want := []critique.Remark{
		{Span: span, Paragraphs: []string{"THE METER", "It gallops.", "THE ONE LINE", "Line 2.", "STEPS", "1. Read it.", "Keep the lamp."}},
		{Span: span, Paragraphs: []string{"A beat over.", "I hear: x / | x / | x /", "Its place goes: x / | x /", "A way: “The lamp went out”", "Or: Leave it out."}},
	}
	if diff := cmp.Diff(want, critique.Margin(letter, p)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}
