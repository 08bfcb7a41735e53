package pictures_test

import (
	"slices"
	"strings"
	"testing"

	"dandle/analysis/suggest/pictures"
	"dandle/analysis/suggest/words"
)

// The kinds that WordNet 3.1 puts these nouns under, as its hypernyms lead up: a poncho
// is a cloak and so clothing, a falcon a bird, a dinghy a boat, a marigold a flower.
func TestOf(t *testing.T) {
	for noun, want := range map[string]string{
		"poncho": "clothing", "falcon": "bird", "dinghy": "boat", "marigold": "flower", "turban": "hat",
		"brown": "colour", "swallow": "bird", "kite": "toy",
	} {
		if k, ok := pictures.Of(noun); !ok || k.Name != want {
			t.Errorf("%s is of the kind %v, want %s", noun, k, want)
		}
	}
	if k, ok := pictures.Of("because"); ok {
		t.Errorf("because is of the kind %s", k.Name)
	}
}

// No word of the lists is unfit for a child's book.
func TestListsAreFit(t *testing.T) {
	check := func(text string) {
		for w := range strings.FieldsFuncSeq(text, func(r rune) bool { return strings.ContainsRune(" ,-_", r) }) {
			if found := words.Find(w); found != words.None && found.Fitness() != words.Fit {
				t.Errorf("%q is not fit", w)
			}
		}
	}
	for _, k := range pictures.Kinds() {
		for _, s := range k.Sights {
			check(s.Text)
		}
	}
	for _, c := range pictures.Closings() {
		check(c.Lead + c.Last)
	}
	for _, phrase := range slices.Concat(pictures.Openings(), pictures.Settings()) {
		check(phrase)
	}
}

// Every kind shows something to a head that praises and to one that does not judge.
func TestEveryKindShows(t *testing.T) {
	for _, k := range pictures.Kinds() {
		n := 0
		for _, s := range k.Sights {
			if s.Side != pictures.Blames {
				n++
			}
			if s.Text == "" {
				t.Errorf("%s: an empty sight", k.Name)
			}
		}
		if n < 3 {
			t.Errorf("%s: %d sights", k.Name, n)
		}
	}
}

func TestFirm(t *testing.T) {
	cold := pictures.Firm("cold")
	if !slices.Contains(cold.Alone, "icy") || !slices.Contains(cold.Beside, "damp") && !slices.Contains(cold.Beside, "dark") || !slices.Contains(cold.Before, "stone-") {
		t.Errorf("cold: %+v", cold)
	}
	if f := pictures.Firm("because"); len(f.Alone)+len(f.Beside)+len(f.Before) > 0 {
		t.Errorf("because: %+v", f)
	}
}

func TestManners(t *testing.T) {
	if got := pictures.Manners("walk", "slowly"); !slices.Contains(got, "trudge") {
		t.Errorf("walk slowly: %v", got)
	}
	if got := pictures.Manners("think", "slowly"); got != nil {
		t.Errorf("think slowly: %v", got)
	}
}
