package phonetics

import (
	"strings"

	"dandle/phonetics/arpabet"
)

// guessed says a word by the commonest sound of its letters.
func guessed(word string) []reading {
	var b []byte
	vowels := 0
	for i := 0; i < len(word); {
		n := 1
		for _, rule := range letterRules {
			if strings.HasPrefix(word[i:], rule.letters) {
				n = len(rule.letters)
				if rule.letters == "e" && i == len(word)-1 && vowels > 0 {
					break
				}
				s, err := arpabet.Parse(rule.sounds)
				if err != nil {
					break
				}
				for j := range len(s) {
					v := s.At(j)
					if v.IsVowel() {
						if vowels == 0 {
							v = arpabet.Make(v.Phone(), arpabet.Primary)
						}
						vowels++
					}
					b = append(b, byte(v))
				}
				break
			}
		}
		i += n
	}
	if len(b) == 0 {
		return nil
	}
	return []reading{{sounds: Sounds(b), source: FromSpelling}}
}

var letterRules = []struct{ letters, sounds string }{
	{"tch", "CH"}, {"igh", "AY"}, {"sh", "SH"}, {"ch", "CH"}, {"th", "TH"}, {"ph", "F"}, {"wh", "W"}, {"ck", "K"}, {"ng", "NG"},
	{"qu", "K W"}, {"ee", "IY"}, {"ea", "IY"}, {"oo", "UW"}, {"oa", "OW"}, {"ow", "OW"}, {"ou", "AW"}, {"ai", "EY"}, {"ay", "EY"},
	{"oi", "OY"}, {"oy", "OY"}, {"au", "AO"}, {"aw", "AO"}, {"er", "ER"}, {"ir", "ER"}, {"ur", "ER"}, {"ar", "AA R"}, {"or", "AO R"},
	{"bb", "B"}, {"dd", "D"}, {"ff", "F"}, {"gg", "G"}, {"ll", "L"}, {"mm", "M"}, {"nn", "N"}, {"pp", "P"}, {"rr", "R"}, {"ss", "S"}, {"tt", "T"}, {"zz", "Z"},
	{"a", "AE"}, {"b", "B"}, {"c", "K"}, {"d", "D"}, {"e", "EH"}, {"f", "F"}, {"g", "G"}, {"h", "HH"}, {"i", "IH"}, {"j", "JH"},
	{"k", "K"}, {"l", "L"}, {"m", "M"}, {"n", "N"}, {"o", "AA"}, {"p", "P"}, {"q", "K"}, {"r", "R"}, {"s", "S"}, {"t", "T"},
	{"u", "AH"}, {"v", "V"}, {"w", "W"}, {"x", "K S"}, {"y", "IY"}, {"z", "Z"},
}
