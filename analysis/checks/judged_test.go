package checks_test

import (
	"flag"
	"testing"

	"dandle/analysis"
	"dandle/analysis/checks"
	"dandle/testdata/analysistest"
)

var kept = flag.Bool("kept", false, "judge by the manuscripts that are kept for the final figure")

func findings(text string) []checks.Finding {
	return analysis.New(text, analysis.Options{}).Findings()
}

// TestJudged measures the checks on manuscripts that were judged by hand. Run
// with -v it prints the figures and every difference.
func TestJudged(t *testing.T) {
	folder := "judged/dev"
	if *kept {
		folder = "judged/kept"
	}
	v := analysistest.Judge(t, folder, findings)
	t.Log("\n" + v.String())
	for _, note := range v.Apart {
		t.Log(note)
	}
}
