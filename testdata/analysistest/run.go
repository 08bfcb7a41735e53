package analysistest

import (
	"os"
	"path"
	"path/filepath"
	"slices"
	"sort"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"dandle/analysis"
	"dandle/analysis/checks"
)

// Fixtures lists the fixtures of a code, by their paths below testdata:
// checks/<area>/<name>.verse, and any <name>_more.verse beside it.
func Fixtures(t testing.TB, code checks.Code) []string {
	t.Helper()
	area, name, _ := strings.Cut(string(code), "/")
	entries, err := os.ReadDir(filepath.Join(Dir(t), "checks", area))
	if err != nil {
		t.Fatal(err)
	}
	var paths []string
	for _, e := range entries {
		base, isVerse := strings.CutSuffix(e.Name(), ".verse")
		if isVerse && (base == name || strings.HasPrefix(base, name+"_")) {
			paths = append(paths, path.Join("checks", area, e.Name()))
		}
	}
	return paths
}

// Run reads the fixtures of a code and asserts that its findings are those
// expected, and no others.
func Run(t *testing.T, code checks.Code) {
	t.Helper()
	paths := Fixtures(t, code)
	if len(paths) == 0 {
		t.Fatalf("no fixture testdata/checks/%s.verse", code)
	}
	wanted := 0
	for _, fixture := range paths {
		f := Load(t, fixture)
		want := only(f.Wants, code)
		wanted += len(want)
		got := only(Marks(f.Text, analysis.New(f.Text, analysis.Options{}).Findings()), code)
		if diff := cmp.Diff(want, got, cmpopts.EquateEmpty()); diff != "" {
			t.Errorf("%s (-want +got):\n%s", fixture, diff)
		}
	}
	if wanted == 0 {
		t.Errorf("the fixtures of %s expect no finding", code)
	}
}

// Marks are findings in the form of expectations.
func Marks(text string, findings []checks.Finding) []Mark {
	var marks []Mark
	for _, f := range findings {
		marks = append(marks, Mark{
			Line: 1 + strings.Count(text[:f.Span.Start], "\n"),
			Code: string(f.Code),
			Text: f.Span.In(text),
		})
	}
	return marks
}

// only keeps the marks of a code, in the order of their lines and texts.
func only(marks []Mark, code checks.Code) []Mark {
	var kept []Mark
	for _, m := range slices.Clone(marks) {
		if m.Code == string(code) {
			kept = append(kept, m)
		}
	}
	sort.Slice(kept, func(i, j int) bool {
		if kept[i].Line != kept[j].Line {
			return kept[i].Line < kept[j].Line
		}
		return kept[i].Text < kept[j].Text
	})
	return kept
}
