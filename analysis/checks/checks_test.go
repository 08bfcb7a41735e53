package checks_test

import (
	"maps"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"dandle/analysis"
	"dandle/analysis/checks"
	"dandle/testdata/analysistest"
)

var codeForm = regexp.MustCompile(`^[a-z]+/[a-z]+(-[a-z]+)*$`)

func TestEveryCheckIsDocumented(t *testing.T) {
	for _, c := range checks.All {
		t.Run(string(c.Code), func(t *testing.T) {
			if !codeForm.MatchString(string(c.Code)) {
				t.Error("the code is not area/name")
			}
			if c.Run == nil {
				t.Error("nothing runs")
			}
			if s := c.Summary(); !strings.HasSuffix(s, ".") || len(s) > 120 {
				t.Errorf("the page opens with %q; want one sentence of at most 120 bytes", s)
			}
			if n := strings.Count(c.Doc, "\n\n    "); n < 2 {
				t.Errorf("the page shows %d examples; want one that is raised and one that is not", n)
			}
			if (c.Code.Area() == "praise") != (c.Severity == checks.Praise) {
				t.Error("praise has the severity of praise, and nothing else has")
			}
			page, found := checks.Explain(c.Code)
			if !found || !strings.Contains(page, string(c.Code)) || !strings.Contains(page, c.Summary()) {
				t.Errorf("the page does not explain the code: %q", page)
			}
		})
	}
}

// A fixture under a name that no check has would never be read.
func TestEveryFixtureHasItsCheck(t *testing.T) {
	read := map[string]bool{}
	for _, c := range checks.All {
		for _, fixture := range analysistest.Fixtures(t, c.Code) {
			read[fixture] = true
		}
	}
	all, err := filepath.Glob(filepath.Join(analysistest.Dir(t), "checks", "*", "*.verse"))
	if err != nil || len(all) == 0 {
		t.Fatalf("%d fixtures: %v", len(all), err)
	}
	for _, file := range all {
		name := path.Join("checks", filepath.Base(filepath.Dir(file)), filepath.Base(file))
		if !read[name] {
			t.Errorf("%s belongs to no check", name)
		}
	}
}

// A page names the severities that its findings have, and no others.
func TestSeveritiesAreTheirPages(t *testing.T) {
	for _, c := range checks.All {
		seen := map[checks.Severity]bool{}
		for _, fixture := range analysistest.Fixtures(t, c.Code) {
			f := analysistest.Load(t, fixture)
			for _, found := range analysis.New(f.Text, analysis.Options{}).Findings() {
				if found.Code == c.Code {
					seen[found.Severity] = true
				}
			}
		}
		want := map[checks.Severity]bool{c.Severity: true}
		if c.Sometimes != checks.Praise {
			want[c.Sometimes] = true
		}
		if !maps.Equal(seen, want) {
			t.Errorf("%s: its fixtures' findings are %v, its page says %v", c.Code, seen, want)
		}
	}
}

func TestAllIsSorted(t *testing.T) {
	if !slices.IsSortedFunc(checks.All, func(a, b *checks.Check) int {
		return strings.Compare(string(a.Code), string(b.Code))
	}) {
		t.Error("All is not in the order of codes")
	}
	for i, c := range checks.All {
		if i > 0 && c.Code == checks.All[i-1].Code {
			t.Errorf("%s stands twice", c.Code)
		}
	}
	if _, found := checks.Explain("meter/none-such"); found {
		t.Error("an unknown code is explained")
	}
}

// Every check has a fixture with verse of both kinds: lines that are raised,
// and at least as many that look alike and are not.
func TestEveryCheckHasAFixture(t *testing.T) {
	for _, c := range checks.All {
		t.Run(string(c.Code), func(t *testing.T) {
			raised, silent := 0, 0
			for _, path := range analysistest.Fixtures(t, c.Code) {
				f := analysistest.Load(t, path)
				at := map[int]bool{}
				for _, w := range f.Wants {
					if w.Code == string(c.Code) {
						at[w.Line] = true
					}
				}
				raised += len(at)
				for i, line := range strings.Split(f.Text, "\n") {
					if strings.TrimSpace(line) != "" && !at[i+1] {
						silent++
					}
				}
			}
			if raised == 0 || silent < raised {
				t.Errorf("%d lines are raised and %d stay silent; want some of both, and as many silent", raised, silent)
			}
		})
	}
}

func TestFixtures(t *testing.T) {
	for _, c := range checks.All {
		t.Run(string(c.Code), func(t *testing.T) {
			analysistest.Run(t, c.Code)
		})
	}
}

func TestPageIsCurrent(t *testing.T) {
	analysistest.Golden(t, "README.md", checks.Page())
}

func FuzzFindings(f *testing.F) {
	f.Add("The goat trimmed the wick\nand polished the glass\n")
	f.Add("[Goat = hat]\n“Oh\xff, well,” -- said —\r\n\r\n‘tis so very\n")
	f.Add(strings.Repeat("Hush, said the owl, there is a moth.\n\n", 20) + "Hush; said the owl, there is a moth.\n")
	for _, c := range checks.All {
		for _, path := range analysistest.Fixtures(f, c.Code) {
			f.Add(analysistest.Load(f, path).Text)
		}
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, finding := range analysis.New(text, analysis.Options{}).Findings() {
			spans := []struct {
				what       string
				start, end int
			}{{"finding", finding.Span.Start, finding.Span.End}}
			for _, fix := range finding.Fixes {
				for _, e := range fix.Edits {
					spans = append(spans, struct {
						what       string
						start, end int
					}{"edit", e.Span.Start, e.Span.End})
				}
			}
			for _, s := range spans {
				if s.start < 0 || s.end < s.start || s.end > len(text) {
					t.Errorf("%s: the %s's span [%d, %d) lies outside %d bytes", finding.Code, s.what, s.start, s.end, len(text))
				}
			}
			if finding.Confidence < 0 || finding.Confidence > 1 {
				t.Errorf("%s: confidence %v", finding.Code, finding.Confidence)
			}
		}
	})
}
