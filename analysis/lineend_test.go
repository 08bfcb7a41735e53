package analysis_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"dandle/analysis"
)

// TestLineEndsChangeNothing reads every manuscript as Windows would have saved
// it: what is found, and at which words, stays the same.
func TestLineEndsChangeNothing(t *testing.T) {
	type note struct {
		Code, Message, Words string
		Line, Fixes          int
	}
	notes := func(text string) []note {
		s := analysis.New(text, analysis.Options{})
		var list []note
		for _, f := range s.Findings() {
			words := strings.ReplaceAll(f.Span.In(text), "\r\n", "\n")
			list = append(list, note{string(f.Code), strings.ReplaceAll(f.Message, "\r\n", "\n"), words, f.Line, len(f.Fixes)})
		}
		return list
	}
	files, err := filepath.Glob("../testdata/*/*.verse")
	if err != nil || len(files) == 0 {
		t.Fatalf("no manuscripts: %v", err)
	}
	fixtures, err := filepath.Glob("../testdata/checks/*/*.verse")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range append(files, fixtures...) {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		text := strings.ReplaceAll(string(data), "\r\n", "\n")
		if diff := cmp.Diff(notes(text), notes(strings.ReplaceAll(text, "\n", "\r\n"))); diff != "" {
			t.Errorf("%s (-LF +CRLF)\n%s", name, diff)
		}
	}
}
