package manuscript

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// FuzzParse asserts what everyone above relies on: any bytes parse, spans lie
// inside the text, come in order and do not overlap, and every index points at
// something.
func FuzzParse(f *testing.F) {
	for _, seed := range seeds(f) {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		checkInvariants(t, Parse(text))
	})
}

// FuzzParseHouse asserts that any bytes parse and problems lie inside them.
func FuzzParseHouse(f *testing.F) {
	for _, s := range []string{
		"", "dialect: en-GB\nages: 3-6\n", "\uFEFFweak: [nice]\r\nseverities: {word: off}",
		"a: &a [x]\nb: *a\n", "pronounce: {Oban: OH-bn}", "ages: [", "- - - - x", "\xff: 1", "a:\u2028b: c",
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		_, problems := ParseHouse(data)
		for _, p := range problems {
			checkSpan(t, string(data), "problem", p.Span)
		}
	})
}

func seeds(tb testing.TB) []string {
	out := []string{
		"", "\n", "\uFEFF---\ntitle: x\n---\n# T\n\n## Spread 1\r\nOne two,\rthree [note] four\n> aside\n",
		"---\na: &x [1]\nb: *x\n", "<!-- dandle: allow word/filler -->\nso ‘’tis “said” *so* un*believ*able <!-- x",
		"[a\nb]\n\\[not\\] a note\\\n", "\xff\x00\xc3 e\u0301 a\u00adb \U0001F410 $5 1,000 a.m. rock ’n’ roll --",
		"```\ncode\n```\n***\n___*_*__\n", "'''’’‘‘\"\"“”", strings.Repeat("[", 40), strings.Repeat("<!--", 40), strings.Repeat("*a_", 40),
	}
	files, err := filepath.Glob("../../testdata/manuscripts/*.verse")
	if err != nil {
		tb.Fatal(err)
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			tb.Fatal(err)
		}
		out = append(out, string(data))
	}
	return out
}

func checkSpan(t *testing.T, text, what string, s Span) {
	t.Helper()
	if s.Start < 0 || s.End < s.Start || s.End > len(text) {
		t.Fatalf("%s %v lies outside a text of %d bytes", what, s, len(text))
	}
}

func checkInvariants(t *testing.T, m *Manuscript) {
	t.Helper()
	text := m.Text
	inside := func(what string, s Span) { t.Helper(); checkSpan(t, text, what, s) }

	inside("front matter", m.Front.Span)
	inside("title", m.Title.Span)
	for _, k := range m.Front.Keys {
		inside("key", k.Span)
		inside("value", k.Value)
	}
	last := 0
	for i, l := range m.Lines {
		inside("line", l.Span)
		if l.Span.Start < last {
			t.Fatalf("line %d at %v starts before %d", i, l.Span, last)
		}
		if len(l.Words) == 0 {
			t.Fatalf("line %d has no words", i)
		}
		if m.FileLine(l.Span.Start) != l.Number-1 {
			t.Fatalf("line %d is number %d, and lies in line %d of the file", i, l.Number, m.FileLine(l.Span.Start)+1)
		}
		if got := m.LineAt(l.Span.Start); got != i {
			t.Fatalf("LineAt(%d) = %d, want %d", l.Span.Start, got, i)
		}
		at := l.Span.Start
		for j, w := range l.Words {
			inside("word", w.Span)
			if w.Span.Start < at || w.Span.End > l.Span.End || w.Span.Len() == 0 || w.Text == "" {
				t.Fatalf("word %d %q at %v overlaps, is empty or lies outside its line %v", j, w.Text, w.Span, l.Span)
			}
			if gl, gw, ok := m.WordAt(w.Span.Start); !ok || gl != i || gw != j {
				t.Fatalf("WordAt(%d) = %d, %d, %t, want %d, %d", w.Span.Start, gl, gw, ok, i, j)
			}
			at = w.Span.End
		}
		if l.Stanza < 0 || l.Stanza >= len(m.Stanzas) || m.Stanzas[l.Stanza].From+l.Place != i {
			t.Fatalf("line %d: stanza %d, place %d do not lead back to it", i, l.Stanza, l.Place)
		}
		last = l.Span.End
	}
	to := 0
	for i, s := range m.Stanzas {
		if s.From != to || s.To <= s.From {
			t.Fatalf("stanza %d is [%d, %d) after %d", i, s.From, s.To, to)
		}
		to = s.To
		inside("stanza", m.StanzaSpan(i))
		if got := m.StanzaAt(m.StanzaSpan(i).Start); got != i {
			t.Fatalf("StanzaAt = %d, want %d", got, i)
		}
	}
	if to != len(m.Lines) {
		t.Fatalf("stanzas end at line %d of %d", to, len(m.Lines))
	}
	from := 0
	for i, s := range m.Spreads {
		inside("spread", s.Heading.Span)
		if s.From < from || s.To < s.From || s.To > len(m.Lines) {
			t.Fatalf("spread %d is [%d, %d) after %d", i, s.From, s.To, from)
		}
		from = s.To
		if got := m.SpreadAt(s.Heading.Span.Start); got != i {
			t.Fatalf("SpreadAt = %d, want %d", got, i)
		}
	}
	last = 0
	for _, n := range m.Notes {
		inside("note", n.Span)
		if n.Span.Start < last || n.Line < -1 || n.Line >= max(len(m.Lines), 0) {
			t.Fatalf("note at %v, line %d, after %d", n.Span, n.Line, last)
		}
		last = n.Span.End
		for _, l := range m.Lines {
			for _, w := range l.Words {
				if w.Span.Start < n.Span.End && n.Span.Start < w.Span.End {
					t.Fatalf("word %q at %v lies in the note at %v", w.Text, w.Span, n.Span)
				}
			}
		}
	}
	for _, a := range m.Allowances {
		inside("allowance", a.Span)
		if a.Line < -1 || a.Line >= len(m.Lines) || len(a.Codes) == 0 {
			t.Fatalf("allowance for line %d of %d: %q", a.Line, len(m.Lines), a.Codes)
		}
	}
	for _, p := range m.Prose {
		inside("prose", p)
	}
	for _, p := range m.Problems {
		inside("problem", p.Span)
	}
	for i := range m.LineStarts {
		inside("file line", m.FileLineSpan(i))
	}
}
