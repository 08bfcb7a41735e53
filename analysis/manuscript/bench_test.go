package manuscript

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"unicode/utf8"
)

func BenchmarkParse(b *testing.B) {
	data, err := os.ReadFile("../../testdata/manuscripts/hedgehog-and-the-clock.verse")
	if err != nil {
		b.Fatal(err)
	}
	front, body, _ := strings.Cut(string(data), "\n# ")
	text := front + "\n# " + body
	for n := Parse(text).WordCount(); n < 1000; n = Parse(text).WordCount() {
		text += body
	}
	b.ReportAllocs()
	b.ReportMetric(float64(Parse(text).WordCount()), "words")
	for b.Loop() {
		Parse(text)
	}
}

// TestWorkGrowsWithTheText feeds what would cost a careless parser the square
// of its length. A quadratic pass over a quarter of a megabyte would take many seconds each, and the
// test binary's own limit would end it.
func TestWorkGrowsWithTheText(t *testing.T) {
	const size = 1 << 18
	for _, unit := range []string{
		"[", "[a] b ", "[a]\n", "[\n", "<", "<!--", "<!-- dandle: allow x -->", "*a", "*", "_ *", "'", "a' ", "‘a ", "“a\n\n", "\"a\n\n",
		">\n", "> a\n", "```\n", "```x\n", "---\n", "# \n", "## a\n\nb\n\n", "\r", "a", "a-", "1,000", "a.", "\xff", "&", "\\", "\u00ad", "-",
		"Dear a,\n\n", "\u0301", "’", "a’-a",
	} {
		text := strings.Repeat(unit, size/len(unit))
		for _, prefix := range []string{"", "“a\n\n", "a ", "---\n"} {
			m := Parse(prefix + text)
			if len(m.Text) != len(prefix)+len(text) {
				t.Fatalf("%q: text changed", unit)
			}
		}
	}
}

// TestYAMLIsBounded feeds front matter that unfolds, nests or runs on.
func TestYAMLIsBounded(t *testing.T) {
	var bomb strings.Builder
	bomb.WriteString("a0: &a0 [x, x, x, x, x, x, x, x, x, x]\n")
	for i := range 12 {
		fmt.Fprintf(&bomb, "a%d: &a%d [%s]\n", i+1, i+1, strings.Repeat(fmt.Sprintf("*a%d, ", i), 9))
	}
	bomb.WriteString("allow: *a12\ntitle: Kept\n")
	m := Parse("---\n" + bomb.String() + "---\nA line.\n")
	if len(m.Front.Allow) != 0 || m.Front.Title != "Kept" || len(m.Problems) == 0 {
		t.Errorf("bomb: allow %d, title %q, %d problems", len(m.Front.Allow), m.Front.Title, len(m.Problems))
	}
	for name, yaml := range map[string]string{
		"brackets":  "a: " + strings.Repeat("[", 5000),
		"dashes":    strings.Repeat("- ", 5000) + "x",
		"questions": strings.Repeat("? ", 5000) + "x",
		"too long":  "a: " + strings.Repeat("x", longestYAML),
	} {
		m := Parse("---\n" + yaml + "\n---\nA line.\n")
		if len(m.Problems) == 0 {
			t.Errorf("%s: no problem is told", name)
		}
		if len(m.Lines) != 1 {
			t.Errorf("%s: %d lines, want the one behind the front matter", name, len(m.Lines))
		}
		for _, p := range m.Problems {
			if utf8.RuneCountInString(p.Message) > 400 {
				t.Errorf("%s: message of %d characters", name, len(p.Message))
			}
		}
	}
	flat := "a: [" + strings.Repeat("x,", 30000) + "]"
	if m := Parse("---\n" + flat + "\n---\n"); len(m.Problems) != 0 {
		t.Errorf("flat list: %v", m.Problems)
	}
}
