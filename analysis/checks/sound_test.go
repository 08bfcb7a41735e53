package checks_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"dandle/analysis"
	"dandle/analysis/checks"
)

// Whatever is offered for a tangle keeps the line's pattern and unties it.
func TestTangleFixes(t *testing.T) {
	const after = "\nHe bowed to the badger and tidied the stair,\nAnd lifted a lantern to see who was there.\n"
	tests := []struct{ name, line string }{
		{"a list", "The hare said, “I dash, skip and leap over hay,"},
		{"a pair", "The fox with a brush swept and mopped up the floor,"},
		{"a word", "The ghost gave a rich scream and went to the door,"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			text := tt.line + after
			before := analysis.New(text, analysis.Options{})
			tangle := tangleIn(before)
			if tangle == nil || len(tangle.Fixes) == 0 {
				t.Fatalf("no tangle with a fix: %v", tangle)
			}
			for _, fix := range tangle.Fixes {
				mended := analysis.New(apply(text, fix), analysis.Options{})
				if diff := cmp.Diff(before.Poem().Lines[0].Reading.Pattern(), mended.Poem().Lines[0].Reading.Pattern()); diff != "" {
					t.Errorf("%s scans otherwise (-want +got):\n%s", fix.Title, diff)
				}
				if again := tangleIn(mended); again != nil {
					t.Errorf("%s leaves %q", fix.Title, again.Message)
				}
				t.Log(fix.Title)
			}
		})
	}
}

func tangleIn(s *analysis.Snapshot) *checks.Finding {
	for _, f := range s.Findings() {
		if f.Code == "sound/tongue-tangle" && f.Line == 0 {
			return &f
		}
	}
	return nil
}
