package train

import (
	"bytes"
	"testing"

	"github.com/google/go-cmp/cmp"

	"dandle/phonetics/arpabet"
	"dandle/phonetics/lexicon"
)

// fewWords is one word in n of the embedded dictionary.
func fewWords(n int) map[string][]arpabet.Sounds {
	words := map[string][]arpabet.Sounds{}
	i := 0
	for word, entries := range lexicon.All() {
		if i++; i%n == 0 {
			words[word] = ways(entries)
		}
	}
	return words
}

// TestTrainingRepeatsItself is the small form of gen.go -check: the same words
// give the same bytes, though the parts are trained side by side.
func TestTrainingRepeatsItself(t *testing.T) {
	s := Standard()
	s.Models.Most = 20_000
	s.Trials.Most = 20_000
	var packed [2][]byte
	for i := range packed {
		var err error
		if packed[i], err = Reader(fewWords(60), Known, s); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(packed[0], packed[1]) {
		t.Error("two trainings on the same words differ")
	}
	// Two thousand words teach something: well over half of all phones.
	score, err := Evaluate(string(packed[0]), Known, func(word string) bool { return Part(word) == 0 && len(word)%7 == 0 }, true)
	if err != nil {
		t.Fatal(err)
	}
	if score.PhoneError() > 40 {
		t.Errorf("phone error %.1f %% after training on few words", score.PhoneError())
	}
}

func TestPartsAreTenths(t *testing.T) {
	var count [10]int
	for word := range lexicon.All() {
		count[Part(word)]++
	}
	for part, n := range count {
		if share := float64(n) / float64(lexicon.Len()); share < 0.095 || share > 0.105 {
			t.Errorf("part %d holds %.3f of the words", part, share)
		}
	}
	// FNV-1a's published test vector for "a" is 0xe40c292c (Noll's test suite,
	// RFC 9923 appendix), which leaves 4.
	if got := Part("a"); got != 0xe40c292c%10 {
		t.Errorf(`Part("a") = %d`, got)
	}
}

func sounds(t *testing.T, arpa string) arpabet.Sounds {
	t.Helper()
	s, err := arpabet.Parse(arpa)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestAlign(t *testing.T) {
	examples := Examples(fewWords(20), func(string) bool { return true })
	// Enough of each that no output counts as rare.
	for range rare {
		examples = append(examples,
			Example{"box", sounds(t, "B AA1 K S"), 1},
			Example{"phone", sounds(t, "F OW1 N"), 1})
	}
	aligned, inv := Align(examples)
	last := aligned[len(aligned)-2:]
	for i, want := range [][]string{{"B", "AA1", "K S", ""}, {"F", "", "OW1", "N", ""}} {
		var got []string
		for j, l := range last[i].Letters {
			got = append(got, inv[l][last[i].Outputs[j]].String())
		}
		if i == 0 {
			want = want[:3]
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("alignment (-want +got)\n%s", diff)
		}
	}
	for _, a := range aligned {
		for j, l := range a.Letters {
			if int(a.Outputs[j]) >= len(inv[l]) {
				t.Fatalf("output %d of %d", a.Outputs[j], len(inv[l]))
			}
		}
	}
}

func TestScore(t *testing.T) {
	for _, test := range []struct {
		name, guess string
		answers     []string
		want        Score
	}{
		{"right", "L AE1 N T ER0 N", []string{"L AE1 N T ER0 N"}, Score{1, 1, 1, 6, 0, 1, 1, 1, 1}},
		{"any answer counts", "IY1 DH ER0", []string{"AY1 DH ER0", "IY1 DH ER0"}, Score{1, 1, 1, 3, 0, 1, 1, 1, 1}},
		{"stress alone wrong", "R EH1 K ER0 D", []string{"R EH0 K ER1 D"}, Score{1, 0, 1, 5, 0, 1, 1, 0, 0}},
		{"a syllable too many, stress counted from the end", "AH0 B L UW1", []string{"B L UW1"}, Score{1, 0, 0, 3, 1, 0, 0, 0, 0}},
		{"a syllable too few", "P AA1 P AH0", []string{"P AH0 P AA1 P AH0"}, Score{1, 0, 0, 6, 2, 0, 1, 1, 0}},
		{"no guess", "", []string{"B IY1"}, Score{1, 0, 0, 2, 2, 0, 0, 0, 0}},
	} {
		var guess arpabet.Sounds
		if test.guess != "" {
			guess = sounds(t, test.guess)
		}
		var answers []arpabet.Sounds
		for _, a := range test.answers {
			answers = append(answers, sounds(t, a))
		}
		var got Score
		got.Add(guess, answers)
		if diff := cmp.Diff(test.want, got); diff != "" {
			t.Errorf("%s (-want +got)\n%s", test.name, diff)
		}
	}
}
