package phonetics_test

import (
	"slices"
	"testing"

	"dandle/phonetics"
	"dandle/phonetics/arpabet"
)

// Rhyming words after the CMU Pronouncing Dictionary, and for Southern British
// after Wells, Accents of English (1982), from memory.
func TestRhyming(t *testing.T) {
	tests := []struct {
		dialect   phonetics.Dialect
		tail      string
		has, lack []string
	}{
		{phonetics.EnUS, "AY1 T", []string{"light", "tonight", "height"}, []string{"ride", "limit"}},
		{phonetics.EnUS, "IY1", []string{"sea", "agree"}, []string{"happy", "see-saw"}},
		{phonetics.EnUS, "AE1 TH", []string{"path", "math"}, []string{"hearth"}},
		{phonetics.EnGB, "AA1 TH", []string{"path", "hearth"}, []string{"math"}},
	}
	for _, tt := range tests {
		r := phonetics.NewReader(tt.dialect, nil)
		tail, err := arpabet.Parse(tt.tail)
		if err != nil {
			t.Fatal(err)
		}
		list := r.Rhyming(tail)
		has := func(word string) bool {
			return slices.ContainsFunc(list, func(e phonetics.Ending) bool { return e.Word == word })
		}
		for _, word := range tt.has {
			if !has(word) {
				t.Errorf("%v: %s does not rhyme on %s", tt.dialect, word, tt.tail)
			}
		}
		for _, word := range tt.lack {
			if has(word) {
				t.Errorf("%v: %s rhymes on %s", tt.dialect, word, tt.tail)
			}
		}
		var again []phonetics.Ending
		for e := range r.EndingIn(tail) {
			if e.Stressed() {
				again = append(again, e)
			}
		}
		if got := r.Rhyming(tail); !slices.Equal(got, again) {
			t.Errorf("%v: on %s %d words are remembered, %d heard again", tt.dialect, tt.tail, len(got), len(again))
		}
	}
}
