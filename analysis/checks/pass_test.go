package checks

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"
	"dandle/phonetics/arpabet"
)

// heard makes a line as the ear would hear it: words in order, their syllables
// parted by hyphens, a beat in capitals, the spoken stress marked ' in front.
func heard(t *testing.T, notation string) (text string, line scansion.Line) {
	t.Helper()
	for w, word := range strings.Fields(notation) {
		if w > 0 {
			text += " "
		}
		start := len(text)
		for _, part := range strings.Split(word, "-") {
			part, stressed := strings.CutPrefix(part, "'")
			s := scansion.Syllable{Word: w, Beat: part == strings.ToUpper(part)}
			if stressed {
				s.Stress = arpabet.Primary
			}
			s.Span = manuscript.Span{Start: len(text), End: len(text) + len(part)}
			text += strings.ToLower(part)
			line.Reading.Syllables = append(line.Reading.Syllables, s)
		}
		line.Words = append(line.Words, scansion.Word{Word: manuscript.Word{
			Span: manuscript.Span{Start: start, End: len(text)}, Text: text[start:],
		}})
	}
	return text, line
}

func TestMeterMessages(t *testing.T) {
	tests := []struct {
		name     string
		line     string
		at       string // the words of the break; empty: behind the line
		cause    scansion.Cause
		expected string
		beats    int
		want     string
	}{
		{
			"a beat short at the end", "he 'LIT the 'LAMP", "", scansion.MissingBeat, "x/|x/|x/|x/", 3,
			"My ear wanted a third beat; the line stops after “lamp”.",
		},
		{
			"two beats short", "he 'LIT the 'LAMP", "", scansion.MissingBeat, "x/|x/|x/|x/", 4,
			"My ear wanted four beats and heard two; the line stops early, after “lamp”.",
		},
		{
			"a beat lost inside", "the 'BAD-ger was on the 'STAIR", "was on the", scansion.MissingBeat, "x/|x/|x/|x/", 4,
			"My ear wanted four beats and heard two; a step goes missing at “was on the”, where one more stressed word would carry it.",
		},
		{
			"a late start", "he 'LIT the 'LAMP", "he", scansion.MissingBeat, "x/|x/|x/", 3,
			"My ear wanted three beats and heard two: the line comes in late, at “he”.",
		},
		{
			"an eighth beat", "a 'A a 'A a 'A a 'A a 'A a 'A a 'A", "", scansion.MissingBeat, "x/|x/|x/|x/|x/|x/|x/|x/", 8,
			"My ear wanted an eighth beat; the line stops after “a”.",
		},
		{
			"a tail", "he 'LIT the 'LAMP at 'NIGHT", "night", scansion.ExtraBeat, "x/|x/", 2,
			"I counted three beats where this place keeps two: the ear has sat down, and the line goes on with “night”.",
		},
		{
			"three in a row", "on the 'OLD 'stone 'STEP", "old stone step", scansion.CrowdedStress, "xx/|xx/", 2,
			"Three strong syllables meet in “old stone step”. If the reader should slow down, keep it; if not, one light word between would do.",
		},
		{
			"three slacks", "a 'HAT for the 'HER-on and a 'SCARF", "heron and a", scansion.SlackRun, "x/|xx/|xx/", 3,
			"Three light syllables run together in “heron and a” before a beat can land; one fewer would bring the step back.",
		},
		{
			"a wrenched word", "the 'OLD 'lan-TERN", "lantern", scansion.WrenchedStress, "x/|x/", 2,
			"The tune asks for “lan-TERN” here, and the voice says “LAN-tern”; moved by a syllable, the word could keep its own stress.",
		},
		{
			"another foot", "the 'OLD 'GREY 'SEAL", "old grey seal", scansion.PatternChange, "xx/|xx/", 2,
			"Up to here the tune is xx/ | xx/; at “old grey seal” it turns into x///, and the dance changes step.",
		},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			text, line := heard(t, tt.line)
			line.Expected, line.Beats, line.Deviance = tt.expected, tt.beats, 0.9
			line.Break = breakAt(t, text, &line, tt.cause, tt.at)
			got := Run(passOf(text, line))
			if len(got) != 1 {
				t.Fatalf("%d findings, want 1: %v", len(got), got)
			}
			if diff := cmp.Diff(tt.want, got[0].Message); diff != "" {
				t.Errorf("message (-want +got):\n%s", diff)
			}
			if tt.at != "" && got[0].Span.In(text) != tt.at {
				t.Errorf("span is %q, want %q", got[0].Span.In(text), tt.at)
			}
			if got[0].Expected != tt.expected || got[0].Heard != line.Reading.FeetPattern() {
				t.Errorf("relied on %q and %q", got[0].Expected, got[0].Heard)
			}
		})
	}
}

// breakAt makes the break over some words of a line.
func breakAt(t *testing.T, text string, line *scansion.Line, cause scansion.Cause, words string) *scansion.Break {
	t.Helper()
	n := len(line.Reading.Syllables)
	if words == "" {
		return &scansion.Break{Cause: cause, From: n, To: n}
	}
	start := strings.Index(text, words)
	if start < 0 {
		t.Fatalf("%q is not in %q", words, text)
	}
	b := &scansion.Break{Cause: cause, From: -1, Span: manuscript.Span{Start: start, End: start + len(words)}}
	for i, s := range line.Reading.Syllables {
		if b.Span.Contains(s.Span.Start) {
			if b.From < 0 {
				b.From = i
			}
			b.To = i + 1
		}
	}
	return b
}

func passOf(text string, line scansion.Line) Pass {
	written := manuscript.Line{Span: manuscript.Span{Start: 0, End: len(text)}, Number: 1}
	for _, w := range line.Words {
		written.Words = append(written.Words, w.Word)
	}
	return Pass{
		Manuscript: &manuscript.Manuscript{
			Text: text, Lines: []manuscript.Line{written}, Stanzas: []manuscript.Stanza{{From: 0, To: 1}}, LineStarts: []int{0},
		},
		Poem: &scansion.Poem{Lines: []scansion.Line{line}},
	}
}

func TestRunHonoursWhatIsAllowed(t *testing.T) {
	short := func() (string, scansion.Line) {
		text, line := heard(t, "he 'LIT the 'LAMP")
		line.Expected, line.Beats, line.Deviance = "x/|x/|x/", 3, 0.9
		line.Break = breakAt(t, text, &line, scansion.MissingBeat, "")
		return text, line
	}
	tests := []struct {
		name   string
		change func(*Pass)
		want   []Severity
	}{
		{"nothing said", func(*Pass) {}, []Severity{Warning}},
		{"unsure", func(p *Pass) { p.Poem.Lines[0].Deviance = 0.4 }, nil},
		{"a lower threshold", func(p *Pass) { p.Poem.Lines[0].Deviance, p.Threshold = 0.4, 0.3 }, []Severity{Warning}},
		{"no meter to lose", func(p *Pass) { p.Poem.Lines[0].Expected = "" }, nil},
		{"it fits", func(p *Pass) { p.Poem.Lines[0].Fits = true }, nil},
		{"front matter", func(p *Pass) { p.Manuscript.Front.Allow = []string{"meter/missing-beat"} }, nil},
		{"front matter, area", func(p *Pass) { p.Manuscript.Front.Allow = []string{"meter"} }, nil},
		{"front matter, another code", func(p *Pass) { p.Manuscript.Front.Allow = []string{"meter/missing"} }, []Severity{Warning}},
		{"house", func(p *Pass) { p.House.Allow = []string{"meter/missing-beat"} }, nil},
		{"directive on the line", func(p *Pass) {
			p.Manuscript.Allowances = []manuscript.Allowance{{Codes: []string{"meter/missing-beat"}, Line: 0}}
		}, nil},
		{"directive on another line", func(p *Pass) {
			p.Manuscript.Allowances = []manuscript.Allowance{{Codes: []string{"meter/missing-beat"}, Line: 1}}
		}, []Severity{Warning}},
		{"directive for the file", func(p *Pass) {
			p.Manuscript.Allowances = []manuscript.Allowance{{Codes: []string{"meter"}, Line: -1}}
		}, nil},
		{"severity", func(p *Pass) {
			p.House.Severities = map[string]string{"meter/missing-beat": "hint", "meter": "off"}
		}, []Severity{Hint}},
		{"off by area", func(p *Pass) { p.House.Severities = map[string]string{"meter": "off"} }, nil},
		{"an unknown severity changes nothing", func(p *Pass) {
			p.House.Severities = map[string]string{"meter": "grave"}
		}, []Severity{Warning}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			pass := passOf(short())
			tt.change(&pass)
			var got []Severity
			for _, f := range Run(pass) {
				if f.Code != "meter/missing-beat" {
					t.Errorf("raised %s", f.Code)
				}
				got = append(got, f.Severity)
			}
			if diff := cmp.Diff(tt.want, got); diff != "" {
				t.Errorf("severities (-want +got):\n%s", diff)
			}
		})
	}
}

func TestFindingsComeInOrder(t *testing.T) {
	reports := func(code Code, spans ...manuscript.Span) *Check {
		return &Check{Code: code, Severity: Hint, Run: func(p *Pass) {
			for _, s := range spans {
				p.Report(Finding{Span: s, Line: -1, Confidence: 1})
			}
		}}
	}
	pass := passOf("he lit the lamp", scansion.Line{})
	h := listen(pass, []*Check{
		reports("word/b", manuscript.Span{Start: 7, End: 10}, manuscript.Span{Start: 0, End: 2}),
		reports("word/a", manuscript.Span{Start: 7, End: 10}),
	})
	got := h.Raised()
	var order []string
	for _, f := range got {
		order = append(order, string(f.Code)+" "+f.Span.In(pass.Manuscript.Text))
	}
	if diff := cmp.Diff([]string{"word/b he", "word/a the", "word/b the"}, order); diff != "" {
		t.Errorf("order (-want +got):\n%s", diff)
	}
}
