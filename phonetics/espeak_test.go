package phonetics

import (
	"cmp"
	"fmt"
	"os/exec"
	"slices"
	"strings"
	"testing"

	"dandle/phonetics/arpabet"
	"dandle/phonetics/lexicon"
)

// espeakPhones are the phoneme mnemonics of espeak-ng's English voices
// (its documentation, phonemes.html) in our alphabet, for the US voice and
// the British one. A name that only marks a variant of pronunciation, such as
// the flapped t#, is that of the phoneme.
var espeakPhones = map[string][2]string{
	"n": {"N", "N"}, "t": {"T", "T"}, "d": {"D", "D"}, "s": {"S", "S"}, "l": {"L", "L"}, "k": {"K", "K"}, "m": {"M", "M"},
	"r": {"R", "R"}, "p": {"P", "P"}, "z": {"Z", "Z"}, "f": {"F", "F"}, "v": {"V", "V"}, "b": {"B", "B"}, "w": {"W", "W"},
	"S": {"SH", "SH"}, "dZ": {"JH", "JH"}, "N": {"NG", "NG"}, "g": {"G", "G"}, "j": {"Y", "Y"}, "D": {"DH", "DH"}, "tS": {"CH", "CH"},
	"h": {"HH", "HH"}, "T": {"TH", "TH"}, "Z": {"ZH", "ZH"}, "t#": {"T", "T"}, "t2": {"T", "T"}, "?": {"T", "T"}, "r-": {"R", "R"},
	"n-": {"AH N", "AH N"}, ";": {"", ""}, "l#": {"L", "L"}, "d#": {"D", "D"},
	"I": {"IH", "IH"}, "I#": {"IH", "IH"}, "I2": {"IH", "IH"}, "i": {"IY", "IY"}, "i:": {"IY", "IY"}, "E": {"EH", "EH"}, "E#": {"EH", "EH"}, "E2": {"EH", "EH"},
	"a": {"AE", "AE"}, "aa": {"AE", "AA"}, "a#": {"AH", "AH"}, "@": {"AH", "AH"}, "@2": {"AH", "AH"}, "@-": {"AH", "AH"}, "@5": {"AH", "AH"}, "@L": {"AH L", "AH L"},
	"V": {"AH", "AH"}, "0": {"AA", "OH"}, "0#": {"AA", "OH"}, "O2": {"AO", "OH"}, "O:": {"AO", "AO"}, "A:": {"AA", "AA"}, "A#": {"AA", "AA"}, "U": {"UH", "UH"},
	"u:": {"UW", "UW"}, "eI": {"EY", "EY"}, "aI": {"AY", "AY"}, "OI": {"OY", "OY"}, "aU": {"AW", "AW"}, "oU": {"OW", "OW"},
	"3": {"ER", "AH"}, "3:": {"ER", "ER"}, "A@": {"AA R", "AA"}, "O@": {"AO R", "AO"}, "o@": {"AO R", "AO"}, "U@": {"UH R", "UH R"},
	"i@": {"IY AH", "IY AH"}, "i@3": {"IH R", "IH R"}, "e@": {"EH R", "EH R"}, "aI3": {"AY R", "AY R"}, "aI@": {"AY AH", "AY R"}, "aU@": {"AW R", "AW R"}, "u:@": {"UH R", "UH R"},
}

// commonWords are the most familiar words of three letters and more.
func commonWords(n int) []string {
	type counted struct {
		word     string
		familiar int
	}
	var list []counted
	for word, e := range lexicon.All() {
		if len(word) > 2 && e.Familiarity() > 0 && !strings.ContainsAny(word, "'.-") {
			list = append(list, counted{word, e.Familiarity()})
		}
	}
	slices.SortStableFunc(list, func(a, b counted) int { return cmp.Compare(b.familiar, a.familiar) })
	words := make([]string, n)
	for i := range words {
		words[i] = list[i].word
	}
	return words
}

// TestDialectsAgreeWithEspeak compares 500 common words with espeak-ng's
// voices. Weak vowels count as one, since the voices choose among them by
// rules of their own; a word agrees where one of our readings does.
func TestDialectsAgreeWithEspeak(t *testing.T) {
	if _, err := exec.LookPath("espeak-ng"); err != nil {
		t.Skip("espeak-ng is not installed (Debian: espeak-ng)")
	}
	words := commonWords(500)
	for _, d := range []struct {
		dialect Dialect
		voice   string
		column  int
		floor   float64
	}{{EnUS, "en-us", 0, 0.93}, {EnGB, "en-gb", 1, 0.93}} {
		cmd := exec.Command("espeak-ng", "-q", "-x", "--sep=_", "-v", d.voice, "--stdin")
		cmd.Stdin = strings.NewReader(strings.Join(words, ".\n") + ".\n")
		out, err := cmd.Output()
		if err != nil {
			t.Fatal(err)
		}
		lines := strings.Split(strings.TrimSpace(string(out)), "\n")
		if len(lines) != len(words) {
			t.Fatalf("%d answers to %d words", len(lines), len(words))
		}
		r := NewReader(d.dialect, nil)
		agreed, counts := 0, 0
		var odd []string
		for i, word := range words {
			theirs := fromEspeak(t, lines[i], d.column)
			var ours []string
			sameCount := false
			for _, p := range r.Pronounce(word, Context{}) {
				ours = append(ours, weakless(p.Sounds))
				sameCount = sameCount || vowelCount(theirs) == vowelCount(weakless(p.Sounds))
			}
			if sameCount {
				counts++
			}
			if slices.Contains(ours, theirs) {
				agreed++
			} else {
				odd = append(odd, fmt.Sprintf("%s: %s, not %s", word, ours[0], theirs))
			}
		}
		rate := float64(agreed) / float64(len(words))
		t.Logf("%v: %.1f %% of %d words have the voice's sounds, %.1f %% its number of syllables", d.dialect, 100*rate, len(words), 100*float64(counts)/float64(len(words)))
		if rate < d.floor {
			t.Errorf("%v: below %.0f %%:\n%s", d.dialect, 100*d.floor, strings.Join(odd, "\n"))
		}
	}
}

// A phone that a comparison sees: its name, and whether it is a vowel that
// bears no stress.
type heard struct {
	name string
	weak bool
}

func fromEspeak(t *testing.T, line string, column int) string {
	var phones []heard
	for _, name := range strings.Split(strings.TrimSpace(line), "_") {
		bare := strings.Trim(name, "',%=| ")
		if bare == "" {
			continue
		}
		mapped, ok := espeakPhones[bare]
		if !ok {
			t.Errorf("the mnemonic %q in %q has no phoneme of ours", bare, line)
			continue
		}
		for _, phone := range strings.Fields(mapped[column]) {
			phones = append(phones, heard{phone, !strings.ContainsAny(name, "',")})
		}
	}
	return compared(phones)
}

// weakless is a reading as the comparison sees it.
func weakless(s Sounds) string {
	var phones []heard
	for i := range len(s) {
		phones = append(phones, heard{s.At(i).Phone().String(), s.At(i).Stress() == arpabet.Unstressed})
	}
	return compared(phones)
}

// compared writes weak vowels "@". A word's only vowel counts as stressed.
func compared(phones []heard) string {
	var out []string
	vowels := 0
	for _, p := range phones {
		if s, err := arpabet.Parse(p.name); err == nil && s.At(0).IsVowel() {
			vowels++
		}
	}
	for i, p := range phones {
		switch {
		case p.weak && vowels > 1 && (p.name == "AH" || p.name == "IH" || p.name == "UH"):
			p.name = "@"
		case p.weak && vowels > 1 && p.name == "IY" && i == len(phones)-1:
			p.name = "@" // the British voice ends "happy" in the vowel of "kit"
		case p.name == "R" && i > 0 && (phones[i-1].name == "R" || phones[i-1].name == "ER"):
			continue // the voices write the r of "serious" twice
		}
		out = append(out, p.name)
	}
	return strings.Join(out, " ")
}

func vowelCount(names string) int {
	n := 0
	for name := range strings.FieldsSeq(names) {
		if name == "@" {
			n++
		} else if s, err := arpabet.Parse(name); err == nil && s.At(0).IsVowel() {
			n++
		}
	}
	return n
}
