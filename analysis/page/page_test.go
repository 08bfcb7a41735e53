package page_test

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"dandle/analysis"
	"dandle/analysis/critique"
	"dandle/analysis/page"
	"dandle/analysis/revision"
)

const hostile = "---\ntitle: \"</title><script>alert(1)</script>\"\npitch: \"<img src=x onerror=alert(1)> & more\"\n---\n\n## \"><script>x</script>\n\n" +
	"> <script>note</script>\n\nThe lamp on the headland <b>went</b> out with a cough,\nThe keeper was *sneezing* & had to be off, [</span><script>]\n" +
	"So the goat took the ladder and just polished the \"glass\",\n<!-- dandle: allow word --> And the gulls on the railing \x01all waited\u2028to pass.\n"

func parts(text string) critique.Parts {
	s := analysis.New(text, analysis.Options{})
	return critique.Parts{Manuscript: s.Manuscript(), Poem: s.Poem(), Stanzas: s.Stanzas(), Findings: s.Findings()}
}

func draft(text string) revision.Draft {
	s := analysis.New(text, analysis.Options{})
	return revision.Draft{Manuscript: s.Manuscript(), Poem: s.Poem(), Findings: s.Findings()}
}

// pages are both pages about a text, the second against the text without its
// last line.
func pages(t *testing.T, text string) map[string]string {
	t.Helper()
	p := parts(text)
	letter := page.Critique(critique.Write(p, critique.Full), p)
	shorter := text[:strings.LastIndexByte(strings.TrimRight(text, "\n"), '\n')+1]
	drafts := [2]revision.Draft{draft(text), draft(shorter)}
	compared := page.Revision(revision.Compare(drafts[0], drafts[1]), "<old>", `"new"`, drafts)
	return map[string]string{"critique": string(letter), "revision": string(compared)}
}

func texts(t *testing.T) map[string]string {
	t.Helper()
	all := map[string]string{"hostile": hostile, "empty": "", "one line": "The lamp went out."}
	files, err := filepath.Glob(filepath.Join("..", "..", "testdata", "manuscripts", "*.verse"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no manuscripts: %v", err)
	}
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		all[filepath.Base(f)] = string(data)
	}
	return all
}

// TestPages reads every page as markup: its elements close, its links lead
// somewhere, nothing comes from elsewhere and nothing runs.
func TestPages(t *testing.T) {
	for name, text := range texts(t) {
		for kind, markup := range pages(t, text) {
			t.Run(name+"/"+kind, func(t *testing.T) {
				ids, links := map[string]int{}, []string{}
				d := xml.NewDecoder(strings.NewReader(markup))
				d.Strict, d.AutoClose, d.Entity = false, xml.HTMLAutoClose, xml.HTMLEntity
				var open []string
				for {
					token, err := d.Token()
					if errors.Is(err, io.EOF) {
						break
					}
					if err != nil {
						t.Fatal(err)
					}
					switch e := token.(type) {
					case xml.StartElement:
						open = append(open, e.Name.Local)
						if e.Name.Local == "script" || e.Name.Local == "img" || e.Name.Local == "link" || e.Name.Local == "b" {
							t.Errorf("an element %s", e.Name.Local)
						}
						for _, a := range e.Attr {
							switch {
							case a.Name.Local == "id":
								ids[a.Value]++
							case a.Name.Local == "href":
								links = append(links, a.Value)
							case strings.HasPrefix(a.Name.Local, "on") || a.Name.Local == "src":
								t.Errorf("an attribute %s", a.Name.Local)
							}
						}
					case xml.EndElement:
						if len(open) == 0 || open[len(open)-1] != e.Name.Local {
							t.Fatalf("%s closes %v", e.Name.Local, open)
						}
						open = open[:len(open)-1]
					}
				}
				for id, n := range ids {
					if n > 1 {
						t.Errorf("id %s stands %d times", id, n)
					}
				}
				for _, link := range links {
					if target, inside := strings.CutPrefix(link, "#"); !inside || ids[target] == 0 {
						t.Errorf("a link to %q leads nowhere", link)
					}
				}
			})
		}
	}
}

var (
	verseLine = regexp.MustCompile(`(?s)<span class="verse">(.*?)<span class="hidden">`)
	tag       = regexp.MustCompile(`<[^>]*>`)
)

// TestTextIsWhole holds the set manuscript to the writer's words, space by space.
func TestTextIsWhole(t *testing.T) {
	text := "The lamp on the *headland* went out with a cough,\nThe keeper was sneez·ing [Keeper = coat] and had to be off,\n" +
		"So the goat took the ladder, “Hoorah!” and polished the glass,\n<!-- dandle: allow word -->And the gulls on the railing—all waited to pass.\n"
	want := []string{
		"The lamp on the headland went out with a cough,", "The keeper was sneez·ing and had to be off,",
		"So the goat took the ladder, “Hoorah!” and polished the glass,", "And the gulls on the railing—all waited to pass.",
	}
	p := parts(text)
	markup := page.Critique(critique.Write(p, critique.Full), p)
	found := verseLine.FindAllStringSubmatch(string(markup), -1)
	if len(found) != len(want) {
		t.Fatalf("%d lines, want %d", len(found), len(want))
	}
	for i, f := range found {
		if got := strings.TrimSpace(tag.ReplaceAllString(f[1], "")); got != want[i] {
			t.Errorf("line %d reads %q, want %q", i+1, got, want[i])
		}
	}
}

var shade = regexp.MustCompile(`--(\w+): (#[0-9a-f]{3,6})`)

// TestContrast works out the contrast of every ink on both papers, as WCAG 2.2
// defines it (1.4.3, relative luminance): 4.5 to 1 at least, in each scheme.
func TestContrast(t *testing.T) {
	css, err := os.ReadFile("page.css")
	if err != nil {
		t.Fatal(err)
	}
	schemes := regexp.MustCompile(`(?s):root \{(.*?)\}`).FindAllStringSubmatch(string(css), -1)
	if len(schemes) != 3 {
		t.Fatalf("%d schemes, want light, dark and print", len(schemes))
	}
	for i, scheme := range schemes {
		inks := map[string]float64{}
		for _, m := range shade.FindAllStringSubmatch(scheme[1], -1) {
			inks[m[1]] = luminance(t, m[2])
		}
		for ink, l := range inks {
			if ink == "paper" || ink == "tint" || ink == "rule" {
				continue
			}
			for _, ground := range []string{"paper", "tint"} {
				a, b := max(l, inks[ground]), min(l, inks[ground])
				if ratio := (a + 0.05) / (b + 0.05); ratio < 4.5 {
					t.Errorf("scheme %d: %s on %s has a contrast of %.2f", i, ink, ground, ratio)
				}
			}
		}
	}
}

func luminance(t *testing.T, hex string) float64 {
	t.Helper()
	hex = strings.TrimPrefix(hex, "#")
	if len(hex) == 3 {
		hex = fmt.Sprintf("%c%c%c%c%c%c", hex[0], hex[0], hex[1], hex[1], hex[2], hex[2])
	}
	sum := 0.0
	for i, weight := range []float64{0.2126, 0.7152, 0.0722} {
		n, err := strconv.ParseUint(hex[2*i:2*i+2], 16, 8)
		if err != nil {
			t.Fatal(err)
		}
		c := float64(n) / 255
		if c <= 0.04045 {
			c /= 12.92
		} else {
			c = math.Pow((c+0.055)/1.055, 2.4)
		}
		sum += weight * c
	}
	return sum
}

// FuzzCritique holds the page about any text to being markup that closes.
func FuzzCritique(f *testing.F) {
	f.Add(hostile)
	f.Add("a *b* <!-- c --> [d] e_f\ng [h")
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 1000 {
			return
		}
		p := parts(text)
		markup := page.Critique(critique.Write(p, critique.Full), p)
		d := xml.NewDecoder(strings.NewReader(string(markup)))
		d.Strict, d.AutoClose, d.Entity = false, xml.HTMLAutoClose, xml.HTMLEntity
		for {
			if _, err := d.Token(); errors.Is(err, io.EOF) {
				return
			} else if err != nil {
				t.Fatal(err)
			}
		}
	})
}
