package checks_test

import (
	"strings"
	"testing"

	"dandle/analysis"
	"dandle/analysis/checks"
	"dandle/testdata/analysistest"
)

// BenchmarkRun measures all checks over a manuscript of about 600 words.
func BenchmarkRun(b *testing.B) {
	fixture := analysistest.Load(b, "checks/word/filler.verse").Text
	s := analysis.New(fixture+"\n"+strings.ReplaceAll(fixture, "mill", "barn"), analysis.Options{})
	pass := checks.Pass{Manuscript: s.Manuscript(), Poem: s.Poem(), Rhymes: s.Stanzas(), Reader: s.Reader()}
	b.ReportAllocs()
	for b.Loop() {
		checks.Run(pass)
	}
}
