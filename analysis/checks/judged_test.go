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

// goals are the least precision and recall that the checks of words must keep
// on the judged manuscripts; a change that falls below them is no progress.
var goals = map[checks.Code]struct{ precision, recall float64 }{
	"word/filler":         {0.85, 0.75},
	"word/weak":           {0.85, 0.75},
	"word/padding-do":     {0.9, 0.75},
	"word/inverted-order": {0.9, 0.5},
}

// linesPerAlarm is how many lines must pass for each warning that an editor
// would not give.
const linesPerAlarm = 40

// TestJudged measures the checks on manuscripts that were judged by hand. Run
// with -v it prints the figures and, of those for development, every difference.
func TestJudged(t *testing.T) {
	folder := "judged/dev"
	if *kept {
		folder = "judged/kept"
	}
	v := analysistest.Judge(t, folder, findings)
	if v.Manuscripts == 0 {
		t.Fatalf("no manuscripts in %s", folder)
	}
	t.Log("\n" + v.String())
	if !*kept { // what is kept back is measured and not read
		for _, note := range v.Apart {
			t.Log(note)
		}
	}
	for code, goal := range goals {
		s := v.Scores[code]
		if s == nil {
			t.Errorf("%s is neither found nor wanted", code)
			continue
		}
		if s.Precision() < goal.precision || s.Recall() < goal.recall {
			t.Errorf("%s: precision %.2f, recall %.2f; want at least %.2f, %.2f", code, s.Precision(), s.Recall(), goal.precision, goal.recall)
		}
		if s.Trapped > 0 {
			t.Errorf("%s is raised in %d traps", code, s.Trapped)
		}
	}
	if v.Warned*linesPerAlarm > v.Lines {
		t.Errorf("%d warnings in %d lines that an editor would not give", v.Warned, v.Lines)
	}
}
