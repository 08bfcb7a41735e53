package analysis_test

import (
	"strings"
	"testing"

	"dandle/analysis"
)

// TestInPlaceOfSaysWhatItWants holds the words offered at a line's end to say so where
// they break its rhyme, as the fixes of the finding there do.
func TestInPlaceOfSaysWhatItWants(t *testing.T) {
	const text = `Round and round the batter turned,
Dropped the plumpest raisins in,
Soon the shop was smelling good,
And the baker gave a grin.

Soon the lamps along the wood
Shone on every roof of tin,
Every window, where it stood,
Let a little evening in.
`
	s := analysis.New(text, analysis.Options{})
	offset := strings.Index(text, "good")
	items := s.InPlaceOf(2, 5, offset)
	if len(items) == 0 {
		t.Fatal("nothing is offered for a word that only judges")
	}
	for _, item := range items {
		said := strings.Contains(item.Detail, "a rhyme")
		if said != (item.Wants != "") {
			t.Errorf("%q wants a rhyme for %q, and its detail is %q", item.Text, item.Wants, item.Detail)
		}
	}
}
