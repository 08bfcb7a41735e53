package checks

import (
	"strings"

	"dandle/analysis/scansion"
	"dandle/phonetics/arpabet"
)

// slipPairs are the sounds that slip into each other most (Shattuck-Hufnagel and
// Klatt 1979, second hand).
var slipPairs = map[[2]arpabet.Phone]bool{
	{arpabet.L, arpabet.R}: true, {arpabet.S, arpabet.SH}: true, {arpabet.F, arpabet.P}: true, {arpabet.W, arpabet.R}: true,
}

// slips reports whether two onsets differ in one sound alone, and the tongue
// takes one for the other: l and r, but fl and fr as well.
func slips(a, b string) bool {
	if len(a) != len(b) {
		return false
	}
	differ := 0
	for i := range len(a) {
		if a[i] == b[i] {
			continue
		}
		x, y := arpabet.Phone(a[i]), arpabet.Phone(b[i])
		if differ++; differ > 1 || !slipPairs[[2]arpabet.Phone{x, y}] && !slipPairs[[2]arpabet.Phone{y, x}] {
			return false
		}
	}
	return differ == 1
}

// seeSaw finds four strong syllables in a row whose onsets change places: ABAB
// or ABBA of two onsets that slip into each other. A word that comes twice is
// said the same way twice, and makes nobody slip (Wilshire 1999).
func seeSaw(line *scansion.Line, list []strongSyllable) (from, to int, sounds string) {
	for i := 0; i+3 < len(list); i++ {
		a, b, c, d := list[i].onset, list[i+1].onset, list[i+2].onset, list[i+3].onset
		if !slips(a, b) || !(c == a && d == b || c == b && d == a) {
			continue
		}
		if repeats(line, list[i:i+4]) {
			continue
		}
		var names []string
		for _, s := range list[i : i+4] {
			names = append(names, onsetName(s.onset))
		}
		return list[i].word, list[i+3].word, strings.Join(names, "–")
	}
	return 0, 0, ""
}

// repeats reports whether some of the syllables are of one word, or of one that
// comes again.
func repeats(line *scansion.Line, list []strongSyllable) bool {
	seen := map[string]bool{}
	for _, s := range list {
		seen[plain(line.Words[s.word].Text)] = true
	}
	return len(seen) < len(list)
}

// onsetName is an onset in small letters: "l", "fr".
func onsetName(onset string) string {
	var b strings.Builder
	for i := range len(onset) {
		b.WriteString(strings.ToLower(arpabet.Phone(onset[i]).String()))
	}
	return b.String()
}
