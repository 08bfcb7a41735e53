package manuscript

import (
	"strings"
	"testing"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/text"
)

// These tests hold the parts of the format that are CommonMark's to goldmark, a
// reference reader of CommonMark that passes the examples of its specification.

// combinations calls f with every string of the pieces that has at most n of them.
func combinations(pieces []string, n int, f func(string)) {
	f("")
	if n == 0 {
		return
	}
	for _, p := range pieces {
		combinations(pieces, n-1, func(rest string) { f(p + rest) })
	}
}

func commonMark(source string) ast.Node {
	return goldmark.DefaultParser().Parse(text.NewReader([]byte(source)))
}

func TestEmphasisIsCommonMarks(t *testing.T) {
	tried, stressed := 0, 0
	combinations([]string{"so", " ", "*", "_", "**", "."}, 6, func(s string) {
		// Words before and behind keep the marks from being a list or a rule,
		// and the line from being all under emphasis.
		s = "a " + s + " b"
		want := map[int]bool{} // offsets of bytes under emphasis
		err := ast.Walk(commonMark(s), func(n ast.Node, entering bool) (ast.WalkStatus, error) {
			t, ok := n.(*ast.Text)
			if !ok || !entering {
				return ast.WalkContinue, nil
			}
			for up := n.Parent(); up != nil; up = up.Parent() {
				if up.Kind() == ast.KindEmphasis {
					for i := t.Segment.Start; i < t.Segment.Stop; i++ {
						want[i] = true
					}
				}
			}
			return ast.WalkContinue, nil
		})
		if err != nil {
			t.Fatal(err)
		}
		tried++
		for _, w := range Parse(s).Lines[0].Words {
			marked := false
			for i := w.Span.Start; i < w.Span.End; i++ {
				marked = marked || want[i] && s[i] != '*'
			}
			if w.Emphasis != marked {
				t.Errorf("%q: word %q at %v: emphasis %t, CommonMark has %t", s, w.Text, w.Span, w.Emphasis, marked)
			}
			if marked {
				stressed++
			}
		}
	})
	if tried < 10_000 || stressed < 1000 {
		t.Errorf("only %d texts with %d words under emphasis were tried", tried, stressed)
	}
}

func TestHeadingsAreCommonMarks(t *testing.T) {
	tried, found := 0, 0
	combinations([]string{"#", " ", "\t", "a", "\\"}, 7, func(s string) {
		if strings.TrimSpace(s) == "" || strings.Contains(s, "\\") && !strings.HasPrefix(s, "#") {
			return
		}
		want := Heading{}
		if h, ok := commonMark(s).FirstChild().(*ast.Heading); ok {
			want.Level = h.Level
			if h.Lines().Len() > 0 {
				segment := h.Lines().At(0)
				want.Text = string(segment.Value([]byte(s)))
			}
			found++
		}
		tried++
		m := Parse(s)
		var got Heading
		switch {
		case m.Title.Level > 0:
			got = m.Title
		case len(m.Spreads) > 0:
			got = m.Spreads[0].Heading
		case len(m.Lines) == 0 && strings.HasPrefix(strings.TrimSpace(s), "###"):
			return // a heading of a part, or a line without words: neither is kept
		}
		if indent := len(s) - len(strings.TrimLeft(s, " \t")); indent >= 4 || strings.Contains(s[:indent], "\t") {
			return // code in CommonMark (section 4.4), verse that is indented here
		}
		if want.Level > 2 {
			return
		}
		if got.Level != want.Level || got.Text != strings.TrimSpace(want.Text) {
			t.Errorf("%q: level %d, text %q; CommonMark has %d, %q", s, got.Level, got.Text, want.Level, want.Text)
		}
	})
	if tried < 10_000 || found < 1000 {
		t.Errorf("only %d texts with %d headings were tried", tried, found)
	}
}

func TestRulesAreCommonMarks(t *testing.T) {
	found := 0
	combinations([]string{"-", "*", "_", " ", "\t", "a"}, 6, func(s string) {
		s = strings.TrimLeft(s, " \t")
		if s == "" {
			return
		}
		_, want := commonMark(s).FirstChild().(*ast.ThematicBreak)
		if got := isRule(s); got != want {
			t.Errorf("%q: rule %t, CommonMark has %t", s, got, want)
		}
		if want {
			found++
		}
	})
	if found < 50 {
		t.Errorf("only %d rules were tried", found)
	}
}

// TestCommentsAreCommonMarks compares where an inline comment ends.
func TestCommentsAreCommonMarks(t *testing.T) {
	found := 0
	combinations([]string{"<!--", "-->", "-", ">", " a ", "<!-->"}, 5, func(s string) {
		s = "so " + s + " it"
		if strings.Count(s, "<!--") != strings.Count(s, "<!-->")+strings.Count(strings.ReplaceAll(s, "<!-->", ""), "<!--") {
			return
		}
		hidden := map[int]bool{}
		err := ast.Walk(commonMark(s), func(n ast.Node, entering bool) (ast.WalkStatus, error) {
			if raw, ok := n.(*ast.RawHTML); ok && entering {
				for i := range raw.Segments.Len() {
					for j := raw.Segments.At(i).Start; j < raw.Segments.At(i).Stop; j++ {
						hidden[j] = true
					}
				}
			}
			return ast.WalkContinue, nil
		})
		if err != nil {
			t.Fatal(err)
		}
		m := Parse(s)
		if len(m.Problems) > 0 {
			return // a comment that is never closed ends with its line here
		}
		seen := map[int]bool{}
		for _, w := range m.Lines[0].Words {
			seen[w.Span.Start] = true
		}
		for i := range len(s) {
			if s[i] != 'a' {
				continue
			}
			found++
			if seen[i] == hidden[i] {
				t.Errorf("%q: the word at %d is read: %t; CommonMark hides it: %t", s, i, seen[i], hidden[i])
			}
		}
	})
	if found < 100 {
		t.Errorf("only %d words were tried", found)
	}
}
