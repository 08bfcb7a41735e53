package critique

import (
	"testing"

	"dandle/analysis/checks"
)

// TestEveryCodeHasWords fails when a check is added and the letter has no
// heading, no label and no plural for it.
func TestEveryCodeHasWords(t *testing.T) {
	for _, c := range checks.All {
		r := remedyOf(c.Code)
		if r.action == others || r.label == "" {
			t.Errorf("%s has no entry among the remedies", c.Code)
		}
	}
	for _, r := range remedies {
		for n := 2; r.several != nil && n < 15; n++ {
			if r.several(n) == "" {
				t.Errorf("%s says nothing of %d", r.code, n)
			}
		}
	}
}

func TestWords(t *testing.T) {
	for got, want := range map[string]string{
		counted(1, "line"): "one line", counted(12, "line"): "twelve lines", counted(40, "line"): "40 lines", counted(0, "line"): "no lines",
		listed([]string{"a", "b", "c"}): "a, b and c", listed(nil): "",
		capital("“just” adds"): "“just” adds", capital("étude"): "Étude", capital(""): "",
		quoted("“Hush,” she said"): "“‘Hush,’ she said”", quoted("up tight.”"): "“up tight.”",
		lineNumbers([]Place{{Line: 3}, {Line: 3}, {Line: 9}}): "lines 3 and 9",
	} {
		if got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}
