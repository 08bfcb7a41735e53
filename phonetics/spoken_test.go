package phonetics

import (
	"strings"
	"testing"
)

func TestParseSpoken(t *testing.T) {
	for _, test := range []struct{ text, want string }{
		{"OH-bn", "OW1 B AH0 N"},
		{"mak-uh-ROH-nee", "M AE0 K AH0 R OW1 N IY0"},
		{"TUL-ee", "T AH1 L IY0"},
		{"MY-loh", "M AY1 L OW0"},
		{"shaw-NESS-ee", "SH AO0 N EH1 S IY0"},
		{"grum", "G R AH1 M"},
		{"KAR-tur", "K AA1 R T ER0"},
		{"yoo-NEEK", "Y UW0 N IY1 K"},
		{"OW1 B AH0 N", "OW1 B AH0 N"},
		{"ow1 b ah n", "OW1 B AH0 N"},
		{"B AE1 T", "B AE1 T"},
		{"/ˈoʊbən/", "OW1 B AH0 N"},
		{"ˈlaɪtˌhaʊs", "L AY1 T HH AW2 S"},
		{"[ʃiːp]", "SH IY1 P"},
		{"ˈbɒtl̩", "B OH1 T AH0 L"},
		{"shh", "SH"},
	} {
		got, err := ParseSpoken(test.text)
		if err != nil || got.String() != test.want {
			t.Errorf("ParseSpoken(%q) = %v, %v; want %s", test.text, got, err, test.want)
		}
	}
}

func TestParseSpokenSaysWhy(t *testing.T) {
	for _, test := range []struct{ text, reason string }{
		{"", "empty"},
		{"oh-bn", "no syllable is loud"},
		{"OHbn-EEoh", "more than one vowel"},
		{"OH-bt", "has no vowel"},
		{"OH-b!n", "'!'"},
		{"OW1 BB AH0 N", `"BB" is no ARPAbet sound`},
		{"B1 AE1", "only a vowel bears a stress"},
		{"/ʘbən/", "'ʘ' stands for no sound of English"},
		{"pt", "needs a vowel"},
		{strings.Repeat("oh-", 200), "longer than"},
		{"\xff", "not UTF-8"},
	} {
		if s, err := ParseSpoken(test.text); err == nil || !strings.Contains(err.Error(), test.reason) {
			t.Errorf("ParseSpoken(%q) = %v, %v; want an error with %q", test.text, s, err, test.reason)
		}
	}
}

func FuzzParseSpoken(f *testing.F) {
	for _, seed := range []string{"OH-bn", "OW1 B AH0 N", "/ˈoʊbən/", "a-B-\x80", "ˈ", "-", "1"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, err := ParseSpoken(text)
		if (err == nil) == (s == "") {
			t.Errorf("ParseSpoken(%q) = %q, %v", text, s, err)
		}
		if err == nil && s.SyllableCount() > 0 && !strings.ContainsRune(s.String(), '1') {
			t.Errorf("ParseSpoken(%q) = %v has no main stress", text, s)
		}
	})
}
