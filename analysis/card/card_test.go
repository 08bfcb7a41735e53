package card_test

import (
	"flag"
	"os"
	"strings"
	"testing"
	"unicode/utf8"

	"dandle/analysis"
	"dandle/analysis/card"
	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "rewrite golden files")

// reading makes a heard line of its syllables, parted by commas. Before each
// stands its mark, "x" or "/", and before that "‖" where a foot starts. A space
// ends a word.
func reading(t *testing.T, marked string) (string, manuscript.Line, scansion.Line) {
	t.Helper()
	var text strings.Builder
	var heard scansion.Line
	word := 0
	for i, piece := range strings.Split(marked, ",") {
		if foot, ok := strings.CutPrefix(piece, "‖"); ok {
			heard.Reading.Feet = append(heard.Reading.Feet, i)
			piece = foot
		}
		body := piece[1:]
		start := text.Len()
		text.WriteString(body)
		trimmed := strings.TrimRight(body, " ")
		heard.Reading.Syllables = append(heard.Reading.Syllables, scansion.Syllable{
			Word: word, Beat: piece[0] == '/', Span: manuscript.Span{Start: start, End: start + len(trimmed)},
		})
		// A space inside a piece joins two words in one syllable.
		word += strings.Count(body, " ")
	}
	line := manuscript.Line{Span: manuscript.Span{Start: 0, End: text.Len()}}
	start := 0
	for w := range strings.SplitSeq(text.String(), " ") {
		line.Words = append(line.Words, manuscript.Word{Text: w, Span: manuscript.Span{Start: start, End: start + len(w)}})
		start += len(w) + 1
	}
	return text.String(), line, heard
}

func TestLine(t *testing.T) {
	for _, test := range []struct{ name, marked, want string }{
		{
			"words of one syllable, and one divided", "xThe ,/lamp ,‖xon ,xthe ,/head,‖xland",
			`  x  /   | x    x  /    |  x
The lamp | on the head· | land
`,
		},
		{
			"words said as one syllable", "xwith ,/ma,xny an ,/oar",
			` x    /   x    /
with ma· ny‿an oar
`,
		},
		{
			"a hyphen divides by itself", "/mud-,xcaked ,/boots",
			` /    x     /
mud- caked boots
`,
		},
		{
			"what takes no column or two", "xthe ,/cafe\u0301 ,/🦉 ,xowl",
			`  x  /   /  x
the cafe` + "\u0301" + ` 🦉 owl
`,
		},
		{
			"an opening mark goes with its word", "xshe ,/said ,‖x“come ,/in”",
			`  x  /   |   x   /
she said | “come in”
`,
		},
		{
			"controls are not shown", "xa\u001b[31m ,/b",
			"x      /\na\ufffd[31m b\n",
		},
	} {
		t.Run(test.name, func(t *testing.T) {
			text, line, heard := reading(t, test.marked)
			if diff := cmp.Diff(test.want, card.Line(text, line, heard).String()); diff != "" {
				t.Errorf("(-want +got)\n%s", diff)
			}
		})
	}
}

func TestSpansOutsideTheTextLeaveTheBlockEmpty(t *testing.T) {
	heard := scansion.Line{Reading: scansion.Reading{Syllables: []scansion.Syllable{{Span: manuscript.Span{Start: 5, End: 9}}}}}
	if got := card.Line("abc", manuscript.Line{Span: manuscript.Span{Start: 5, End: 9}}, heard).String(); got != "" {
		t.Errorf("got %q", got)
	}
}

// The whole of a manuscript, as the hover and the command show it.
func TestGolden(t *testing.T) {
	text, err := os.ReadFile("testdata/lantern.verse")
	if err != nil {
		t.Fatal(err)
	}
	s := analysis.New(string(text), analysis.Options{})
	var b strings.Builder
	for n, l := range s.Manuscript().Lines {
		b.WriteString(card.Line(s.Manuscript().Text, l, s.Poem().Lines[n]).String())
	}
	const golden = "testdata/lantern.golden"
	if *update {
		if err := os.WriteFile(golden, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), b.String()); diff != "" {
		t.Errorf("(-want +got)\n%s", diff)
	}
}

// Whatever the line holds, both rows have their feet in the same columns, and
// every syllable has its mark.
func FuzzLine(f *testing.F) {
	f.Add("The lamp on the headland went out with a cough,")
	f.Add("O’er many an îsle—“Ev’ry‿owl” 🦉 “naïve” e\u0301")
	f.Add("\x00\xff | a|b ` * <b>")
	f.Fuzz(func(t *testing.T, text string) {
		s := analysis.New(text, analysis.Options{})
		m := s.Manuscript()
		for n, l := range m.Lines {
			heard := s.Poem().Lines[n]
			b := card.Line(m.Text, l, heard)
			if !utf8.ValidString(b.Marks) || !utf8.ValidString(b.Syllables) || strings.ContainsAny(b.Marks+b.Syllables, "\n\r\t\x1b") {
				t.Fatalf("%q", b)
			}
			marks := strings.Count(b.Marks, "x") + strings.Count(b.Marks, "/")
			if want := min(len(heard.Reading.Syllables), card.MaxSyllables); marks != want {
				t.Fatalf("%d marks for %d syllables: %q", marks, want, b.Marks)
			}
		}
	})
}

func BenchmarkLine(b *testing.B) {
	s := analysis.New("The lamp on the headland went out with a cough,\nthe goat in the galley had heard well enough.\n", analysis.Options{})
	m, poem := s.Manuscript(), s.Poem()
	b.ReportAllocs()
	for b.Loop() {
		_ = card.Line(m.Text, m.Lines[0], poem.Lines[0])
	}
}

// The carets stand under the syllables where the line loses the meter.
func TestBreakIsMarked(t *testing.T) {
	const text = "The lamp on the headland went out in the night,\nAnd nobody knew what had frightened the light.\n" +
		"The goat on the stair had a map in his hat,\nAnd he counted the boats with a cat.\n"
	s := analysis.New(text, analysis.Options{})
	m, poem := s.Manuscript(), s.Poem()
	block := card.Line(m.Text, m.Lines[3], poem.Lines[3])
	if poem.Lines[3].Break == nil {
		t.Fatal("the short line is not heard as short")
	}
	before, _, _ := strings.Cut(block.Syllables, "cat")
	if want := utf8.RuneCountInString(before); strings.Index(block.Break, "^") != want {
		t.Errorf("the mark does not stand under %q:\n%s", "cat", block)
	}
	for i := range 3 {
		if b := card.Line(m.Text, m.Lines[i], poem.Lines[i]); b.Break != "" {
			t.Errorf("line %d is marked:\n%s", i+1, b)
		}
	}
}
