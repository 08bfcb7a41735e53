package suggest_test

import (
	"slices"
	"testing"

	"dandle/analysis/suggest"
	"dandle/phonetics"
)

// Rhymes of Southern British that General American lacks, and the other way
// round: Wells, Accents of English (1982), from memory.
func TestRhymesSpeakTheAccent(t *testing.T) {
	tests := []struct {
		word, other     string
		british, americ bool
	}{
		{"far", "star", true, true},
		{"path", "hearth", true, false},
		{"dawn", "born", true, false},
		{"umbrella", "cellar", true, false},
		{"father", "rather", true, false},
		{"path", "math", false, true},
		{"butter", "flutter", true, true},
		{"sorry", "story", false, false},
		{"again", "rain", true, true},
		{"again", "men", true, true},
		{"long", "song", true, true},
		{"moon", "tune", true, true},
	}
	for _, tt := range tests {
		for dialect, want := range map[phonetics.Dialect]bool{phonetics.EnGB: tt.british, phonetics.EnUS: tt.americ} {
			items := suggest.Rhymes(tt.word, phonetics.NewReader(dialect, nil), suggest.Options{Limit: 5000})
			got := slices.ContainsFunc(items, func(i suggest.Item) bool { return i.Text == tt.other })
			if got != want {
				t.Errorf("%v: %s is offered for %s: %v, want %v", dialect, tt.other, tt.word, got, want)
			}
		}
	}
}
