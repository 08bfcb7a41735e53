package critique_test

import (
	"bytes"
	"flag"
	"fmt"
	"html"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"
	"github.com/yuin/goldmark"

	"dandle/analysis"
	"dandle/analysis/checks"
	"dandle/analysis/critique"
	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"
)

var update = flag.Bool("update", false, "rewrite golden files")

func parts(text string) critique.Parts {
	s := analysis.New(text, analysis.Options{})
	return critique.Parts{
		Manuscript: s.Manuscript(), Poem: s.Poem(), Stanzas: s.Stanzas(), Findings: s.Findings(),
		Again: func(text string) (*manuscript.Manuscript, *scansion.Poem) {
			again := s.With(text)
			return again.Manuscript(), again.Poem()
		},
	}
}

// labels are the comments with which the judged manuscripts say what an editor
// would mark.
var labels = regexp.MustCompile(`[ \t]*<!-- (want|trap) .*-->`)

// manuscripts are the project's own, by name, without their labels.
func manuscripts(t *testing.T) map[string]critique.Parts {
	t.Helper()
	all, err := read()
	if err != nil {
		t.Fatal(err)
	}
	return maps.Clone(all)
}

// read hears them once for all tests.
var read = sync.OnceValues(func() (map[string]critique.Parts, error) {
	all := map[string]critique.Parts{}
	for _, folder := range []string{"manuscripts", "judged/dev", "critique"} {
		files, err := filepath.Glob(filepath.Join("..", "..", "testdata", filepath.FromSlash(folder), "*.verse"))
		if err != nil || len(files) == 0 {
			return nil, fmt.Errorf("no manuscripts in %s: %w", folder, err)
		}
		for _, f := range files {
			data, err := os.ReadFile(f)
			if err != nil {
				return nil, err
			}
			all[filepath.Base(f)] = parts(labels.ReplaceAllString(string(data), ""))
		}
	}
	return all, nil
})

var tones = map[string]critique.Tone{"full": critique.Full, "brief": critique.Brief}

// TestNothingTwice looks for every finding in the letter: what asks for a change
// is told exactly once, and no praise twice.
func TestNothingTwice(t *testing.T) {
	for name, p := range manuscripts(t) {
		for tone, value := range tones {
			t.Run(name+"/"+tone, func(t *testing.T) {
				letter := critique.Write(p, value)
				told := map[int]int{}
				for _, s := range letter.Sections {
					for _, n := range s.Notes {
						for _, i := range n.Findings {
							told[i]++
						}
					}
				}
				for i, f := range p.Findings {
					want := 1
					if f.Severity == checks.Praise {
						want = min(told[i], 1)
					}
					if told[i] != want {
						t.Errorf("%s on line %d is told %d times", f.Code, f.Line, told[i])
					}
				}
				for i := range told {
					if i < 0 || i >= len(p.Findings) {
						t.Errorf("finding %d does not exist", i)
					}
				}
				lines := map[string]bool{}
				for _, line := range strings.Split(outsideFences(critique.Markdown(letter)), "\n") {
					// What is to be done may head the first notes and the rest as well.
					if len(line) > 40 && lines[line] && !strings.HasPrefix(line, "### ") {
						t.Errorf("said twice: %s", line)
					}
					lines[line] = true
				}
			})
		}
	}
}

// outsideFences is Markdown without its blocks of code.
func outsideFences(markdown string) string {
	var kept []string
	inside := false
	for _, line := range strings.Split(markdown, "\n") {
		if strings.HasPrefix(strings.TrimSpace(line), "```") {
			inside = !inside
		} else if !inside {
			kept = append(kept, line)
		}
	}
	return strings.Join(kept, "\n")
}

// TestLength holds letters to two pages for a manuscript of 500 words. A page of
// a letter has some 500 words, or 46 lines (common practice); the browser check
// under .ci/page counts printed pages.
func TestLength(t *testing.T) {
	for name, p := range manuscripts(t) {
		if p.Manuscript.WordCount() > 520 {
			continue
		}
		full := critique.Markdown(critique.Write(p, critique.Full))
		brief := critique.Markdown(critique.Write(p, critique.Brief))
		if n := len(strings.Fields(outsideFences(full))); n > 900 {
			t.Errorf("%s: the letter has %d words", name, n)
		}
		if n, m := len(brief), len(full); n >= m {
			t.Errorf("%s: the brief letter has %d bytes, the full one %d", name, n, m)
		}
	}
}

// harsh are words that a letter never uses of a writer's lines (common
// practice of critique groups).
var harsh = regexp.MustCompile(`(?i)\b(wrong|bad|badly|fails?|failed|obviously|mistakes?|errors?|poor|must|never)\b`)

// TestKindness reads what the letter says in its own words; quotations are the
// writer's.
func TestKindness(t *testing.T) {
	quotations := regexp.MustCompile(`“[^”]*”`)
	for name, p := range manuscripts(t) {
		for _, s := range critique.Write(p, critique.Full).Sections {
			own := append([]string{s.Heading, s.Closing}, s.Paragraphs...)
			own = append(own, s.Steps...)
			for _, n := range s.Notes {
				if !n.Reviewer {
					own = append(own, n.Text, n.Action)
				}
			}
			for _, sentence := range own {
				if word := harsh.FindString(quotations.ReplaceAllString(sentence, "")); word != "" {
					t.Errorf("%s: %q in %q", name, word, sentence)
				}
			}
		}
	}
}

// TestPraiseFirst holds what every letter owes: praise before the first note,
// three steps at its end.
func TestPraiseFirst(t *testing.T) {
	for name, p := range manuscripts(t) {
		letter := critique.Write(p, critique.Full)
		order := map[critique.SectionKind]int{}
		for i, s := range letter.Sections {
			if _, twice := order[s.Kind]; twice {
				t.Errorf("%s: section %q comes twice", name, s.Heading)
			}
			order[s.Kind] = i + 1
		}
		if order[critique.Works] == 0 || order[critique.First] > 0 && order[critique.First] < order[critique.Works] {
			t.Errorf("%s: the letter does not praise before it asks", name)
		}
		last := letter.Sections[len(letter.Sections)-1]
		if last.Kind != critique.NextSteps || len(last.Steps) != 3 {
			t.Errorf("%s: the letter ends in %q with %d steps", name, last.Heading, len(last.Steps))
		}
	}
}

// TestPartingIsTrue holds the last words of a letter to what was heard in the
// line that they are about.
func TestPartingIsTrue(t *testing.T) {
	line := regexp.MustCompile(`line (\d+)`)
	all := manuscripts(t)
	all["sounds"] = parts("An otter named Tilda lived down by the weir\nWith a shelf full of jars that she'd filled through the year.\n" +
		"She held up a jar and she opened the lid,\nAnd quick as a wink there was thunder that hid.\n" +
		"It rattled and grumbled and shook with a roar,\nAnd Tilda ran home and she shut the front door.\n")
	partings := 0
	for name, p := range all {
		sections := critique.Write(p, critique.Full).Sections
		parting := sections[len(sections)-1].Closing
		number := line.FindStringSubmatch(parting)
		if number == nil {
			continue
		}
		partings++
		bends := slices.ContainsFunc(p.Findings, func(f checks.Finding) bool {
			return f.Code == "praise/variation" && strconv.Itoa(p.Manuscript.Lines[f.Line].Number) == number[1]
		})
		if says := strings.Contains(parting, "meter bends"); says != bends {
			t.Errorf("%s: %q, and the meter bends there: %v", name, parting, bends)
		}
	}
	if partings < 2 {
		t.Errorf("%d letters part with praise", partings)
	}
}

// TestWaysScan hears every way again that the letter offers for a meter that is
// lost: the line must fit.
func TestWaysScan(t *testing.T) {
	ways := 0
	for name, p := range manuscripts(t) {
		for _, s := range critique.Write(p, critique.Full).Sections {
			for _, n := range s.Notes {
				for _, way := range n.Ways {
					if n.Code.Area() != "meter" || way.Line == "" {
						continue
					}
					ways++
					again := analysis.New(strings.Replace(p.Manuscript.Text, p.Manuscript.Lines[n.Places[0].Verse].Span.In(p.Manuscript.Text), way.Line, 1), analysis.Options{})
					at := n.Places[0].Verse
					if !again.Poem().Lines[at].Fits {
						t.Errorf("%s: line %d: %q does not fit its place", name, n.Places[0].Line, way.Line)
					}
				}
			}
		}
	}
	t.Logf("%d ways heard again", ways)
}

// TestLetter compares a letter with the one that was read aloud. Its findings
// are given here, so that it changes only with the letter's own words.
func TestLetter(t *testing.T) {
	path := filepath.Join("..", "..", "testdata", "critique", "kite-on-the-chimney.verse")
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	p := parts(text)
	p.Findings = nil
	for _, f := range []struct {
		code     checks.Code
		severity checks.Severity
		words    string
		message  string
	}{
		{"praise/alliteration", checks.Praise, "came with a chair", "Alike."},
		{"meter/pattern-change", checks.Warning, "And it caught on the chimney, ribbons and all", "The lines around this one gallop; it breaks its step at “ribbons”."},
		{"word/filler", checks.Warning, "just", "“Just” keeps time and shows nothing."},
		{"mark/dash", checks.Information, "boxes", "A dash here would let the reader breathe."},
		{"praise/assonance", checks.Praise, "groan and the postman", "One vowel."},
		{"praise/alliteration", checks.Praise, "boxes and buckets", "Two alike."},
		{"word/filler", checks.Warning, "ever so", "“Ever so” keeps time and shows nothing."},
	} {
		start := strings.Index(text, f.words)
		if start < 0 {
			t.Fatalf("no %q", f.words)
		}
		p.Findings = append(p.Findings, checks.Finding{
			Code: f.code, Severity: f.severity, Message: f.message, Confidence: 0.8,
			Span: manuscript.Span{Start: start, End: start + len(f.words)}, Line: p.Manuscript.LineAt(start),
		})
	}
	for tone, value := range tones {
		golden := strings.TrimSuffix(path, ".verse") + "." + tone + ".md"
		got := critique.Markdown(critique.Write(p, value))
		if *update {
			if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(golden)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(string(want), got); diff != "" {
			t.Errorf("%s (-want +got):\n%s", golden, diff)
		}
	}
}

// TestMarkdownReads renders letters with a kept reader of CommonMark and looks
// for everything that is said in what it shows.
func TestMarkdownReads(t *testing.T) {
	hostile := "---\ntitle: \"*A* _B_ <script>x</script> [c](d) `e` & 1. # f\"\npitch: \"- A `goat`, a *lamp* and <b>more</b>\"\n---\n\n" +
		"> # A note with *stars* and <!-- more --> of it\n\nThe lamp on the headland went out with a cough,\n<b>The keeper</b> was *sneezing* & had to be off,\n" +
		"So the goat [of the house] took the `ladder` and just polished the glass,\n1. And the gulls on the railing all waited to pass.\n"
	all := manuscripts(t)
	all["hostile"] = parts(hostile)
	for name, p := range all {
		for _, value := range tones {
			letter := critique.Write(p, value)
			var b bytes.Buffer
			if err := goldmark.Convert([]byte(critique.Markdown(letter)), &b); err != nil {
				t.Fatal(err)
			}
			shown := seen(b.String())
			if got := strings.Count(b.String(), "<h2"); got != len(letter.Sections) {
				t.Errorf("%s: %d headings for %d sections", name, got, len(letter.Sections))
			}
			for _, s := range letter.Sections {
				said := append([]string{s.Heading, s.Closing}, s.Paragraphs...)
				said = append(said, s.Steps...)
				for _, n := range s.Notes {
					said = append(said, n.Text)
					if critique.Grouped(s.Kind) {
						said = append(said, n.Action)
					}
				}
				for _, sentence := range said {
					if !strings.Contains(shown, strings.Join(strings.Fields(string([]rune(sentence))), " ")) {
						t.Errorf("%s: %q does not read the same", name, sentence)
					}
				}
			}
		}
	}
}

var tags = regexp.MustCompile(`<[^>]*>`)

// seen is what a reader of HTML sees, with single spaces.
func seen(markup string) string {
	return strings.Join(strings.Fields(html.UnescapeString(tags.ReplaceAllString(markup, ""))), " ")
}

func TestEmpty(t *testing.T) {
	for _, text := range []string{"", "\n", "---\ntitle: Nothing\n---\n", "> Only a note.\n"} {
		letter := critique.Write(parts(text), critique.Full)
		if len(letter.Sections) == 0 || letter.Sections[0].Kind != critique.Aim {
			t.Errorf("%q: %+v", text, letter)
		}
	}
}

// FuzzEscape holds escaped text to reading as itself in a kept reader of
// CommonMark.
func FuzzEscape(f *testing.F) {
	for _, seed := range []string{"a *b* c", "1. x", "# x", "- x", "<a>", "&amp;", "[x](y)", "`", "\\", "***", "===", "2) y", "+ x", "https://x.y", "a  \nb", "\t x", "~~~", ">", "|a|"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if !utf8.ValidString(text) || strings.ContainsRune(text, 0) {
			return
		}
		var b bytes.Buffer
		if err := goldmark.Convert([]byte("§ "+critique.Escape(text)+" §\n\n"+critique.Escape(text)), &b); err != nil {
			t.Fatal(err)
		}
		plain := strings.Join(strings.Fields(strings.Map(func(r rune) rune {
			if r < ' ' || r == 0x7f || 0x80 <= r && r < 0xa0 || r == 0x2028 || r == 0x2029 {
				return ' '
			}
			return r
		}, text)), " ")
		want := "§ " + plain + " § " + plain
		if got := seen(b.String()); strings.TrimSpace(got) != strings.TrimSpace(strings.Join(strings.Fields(want), " ")) {
			t.Errorf("reads %q, want %q; markup %q", got, want, b.String())
		}
	})
}

// FuzzWrite holds letters about any text to standing on their own feet.
func FuzzWrite(f *testing.F) {
	f.Add("The lamp on the headland went out with a cough,\nThe keeper was sneezing and had to be off.\n\n> A note\n")
	f.Add("## One\n\n*Very* nice [art] <!-- dandle: allow word -->\n> x\nold cold wet feet\n")
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 2000 {
			return
		}
		p := parts(text)
		for _, value := range tones {
			letter := critique.Write(p, value)
			if len(letter.Sections) == 0 {
				t.Error("an empty letter")
			}
			if critique.Markdown(letter) == "" {
				t.Error("nothing written")
			}
			for _, s := range letter.Sections {
				for _, n := range s.Notes {
					for _, place := range n.Places {
						if place.Span.Start < 0 || place.Span.End > len(text) || place.Span.Start > place.Span.End {
							t.Errorf("a place outside the text: %v", place)
						}
					}
				}
			}
		}
	})
}

func BenchmarkWrite(b *testing.B) {
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "manuscripts", "hedgehog-and-the-clock.verse"))
	if err != nil {
		b.Fatal(err)
	}
	p := parts(string(data))
	b.ReportAllocs()
	for b.Loop() {
		critique.Markdown(critique.Write(p, critique.Full))
	}
}
