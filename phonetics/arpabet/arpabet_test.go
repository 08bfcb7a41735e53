package arpabet

import (
	"fmt"
	"strings"
	"testing"
)

func TestParse(t *testing.T) {
	for _, test := range []struct{ text, want, reason string }{
		{"L AY1 T", "L AY1 T", ""},
		{" l  ay1\tt ", "L AY1 T", ""},
		{"AH", "AH0", ""},
		{"OH1 R", "OH1 R", ""},
		{"", "", "no sounds"},
		{"  ", "", "no sounds"},
		{"L1", "", "only a vowel bears a stress"},
		{"QQ", "", "is no ARPAbet sound"},
		{"AY3", "", "is no ARPAbet sound"},
		{"1", "", "is no ARPAbet sound"},
	} {
		got, err := Parse(test.text)
		switch {
		case test.reason == "" && (err != nil || got.String() != test.want):
			t.Errorf("Parse(%q) = %v, %v; want %s", test.text, got, err, test.want)
		case test.reason != "" && (err == nil || !strings.Contains(err.Error(), test.reason)):
			t.Errorf("Parse(%q) = %v, %v; want an error with %q", test.text, got, err, test.reason)
		}
	}
}

// The 39 phonemes, of which 15 are vowels, are those of the CMU Pronouncing
// Dictionary (its file cmudict.phones).
func TestPhones(t *testing.T) {
	vowels := 0
	for p := AA; p <= lastPhone; p++ {
		if p.IsVowel() {
			vowels++
		}
	}
	if lastPhone != 39 || vowels != 15 {
		t.Errorf("%d phonemes, %d of them vowels", lastPhone, vowels)
	}
	if !OH.IsVowel() || NoPhone.IsVowel() {
		t.Error("OH is a vowel, NoPhone is none")
	}
	for p := AA; p < phoneCount; p++ {
		for _, stress := range []Stress{Unstressed, Primary, Secondary} {
			if s := Make(p, stress); s.Phone() != p || s.Stress() != stress {
				t.Errorf("Make(%v, %v) comes back as %v, %v", p, stress, s.Phone(), s.Stress())
			}
		}
	}
	if got := Phone(63).String(); got != "Phone(63)" {
		t.Errorf("a phoneme that is none is written %s", got)
	}
}

func FuzzParse(f *testing.F) {
	for _, seed := range []string{"L AY1 T", "AH", "aa2 zh", "\xff", "1 2", "OH0"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, err := Parse(text)
		if err != nil {
			return
		}
		again, err := Parse(s.String())
		if err != nil || again != s {
			t.Errorf("Parse(%q) = %v, which reads back as %v, %v", text, s, again, err)
		}
	})
}

func ExampleParse() {
	sounds, err := Parse("L AE1 N T ER0 N")
	fmt.Println(sounds, sounds.SyllableCount(), sounds.Stresses(), err)
	// Output: L AE1 N T ER0 N 2 [1 0] <nil>
}
