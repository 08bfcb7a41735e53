package phonetics

import (
	"strings"

	"dandle/phonetics/arpabet"
	"dandle/phonetics/lexicon"
)

// mostRuns bounds how many stretched letters of a word are tried both ways.
const mostRuns = 4

// imitation says a word that imitates a sound, or a voice that stretches a
// word: "sooooo", "whoooosh", "shhh", "brrr".
func (r *Reader) imitation(word string) []reading {
	if !hasVowelLetter(word) {
		return withoutVowel(word)
	}
	return nil
}

// stretches are the places of runs of three letters and more, as [from, to).
func stretches(word string) [][2]int {
	var runs [][2]int
	for i := 0; i < len(word); {
		j := i + 1
		for j < len(word) && word[j] == word[i] {
			j++
		}
		if j-i >= 3 && 'a' <= word[i] && word[i] <= 'z' {
			runs = append(runs, [2]int{i, j})
		}
		i = j
	}
	return runs
}

// stretched finds the word that was stretched. Each run of letters stands for
// one letter or for two: the likeliest known word wins.
func (r *Reader) stretched(word string, runs [][2]int) []reading {
	var best []reading
	score := -1
	free := min(len(runs), mostRuns)
	for choice := range 1 << free {
		short := shortened(word, runs, choice)
		if len(short) < 2 && !hasVowelLetter(short) {
			continue // a letter's name is no cry
		}
		list := r.base(short)
		if list == nil {
			list = r.contracted(short)
		}
		if list == nil {
			list = r.inflected(short)
		}
		if list == nil {
			continue
		}
		if s := lexicon.Lookup(short).Familiarity() + stretchBonus(word, runs, choice, short); s > score {
			best, score = list, s
		}
	}
	if best == nil && !hasVowelLetter(word) {
		best = withoutVowel(word)
	}
	if best == nil {
		plain := 0
		for i := range free {
			if c := word[runs[i][0]]; c == 'o' || c == 'e' {
				plain |= 1 << i
			}
		}
		best = r.readings(shortened(word, runs, plain), wordShape{})
	}
	for i := range best {
		best[i].source, best[i].seams = FromImitation, nil
	}
	return shout(best)
}

// shortened makes each run one letter, or two where the choice has its bit.
func shortened(word string, runs [][2]int, choice int) string {
	var b strings.Builder
	at := 0
	for i, run := range runs {
		b.WriteString(word[at : run[0]+1])
		if choice>>i&1 == 1 {
			b.WriteByte(word[run[0]])
		}
		at = run[1]
	}
	b.WriteString(word[at:])
	return b.String()
}

// stretchBonus favours oo and ee within a word, which are far commoner there
// than the bare letters stretched, and at a word's end oo unless the word in
// o is among the commonest ("so", "no", "go"): cows say moo, not mo.
func stretchBonus(word string, runs [][2]int, choice int, short string) int {
	bonus := 0
	for i, run := range runs {
		if i >= mostRuns || choice>>i&1 == 0 {
			continue
		}
		switch c := word[run[0]]; {
		case c != 'o' && c != 'e':
		case run[1] < len(word):
			bonus += 6
		case c == 'o' && lexicon.Lookup(strings.TrimSuffix(short, "o")).Familiarity() < 15:
			bonus += 25
		}
	}
	return bonus
}

// withoutVowel says a word of consonants alone. One that cannot be held, as
// in "dj", is named by its letters. An r after another consonant is the vowel
// of "her": brrr. The others have no vowel, and yet a syllable: see
// Syllable.Nucleus.
func withoutVowel(word string) []reading {
	var b []byte
	held := false
	for i := 0; i < len(word); {
		n, name := 1, ""
		for _, c := range consonantLetters {
			if strings.HasPrefix(word[i:], c[0]) {
				n, name = len(c[0]), c[1]
				break
			}
		}
		i += n
		if name == "" {
			continue
		}
		if name == "R" && len(b) > 0 {
			name = "ER1"
		}
		s := sound(name)
		if last := len(b) - 1; last >= 0 && b[last] == s[0] || name == "ER1" && last >= 0 && arpabet.Sound(b[last]).IsVowel() {
			continue
		}
		b = append(b, s...)
		held = held || isHeld(s.At(0).Phone())
	}
	if len(b) == 0 {
		return nil
	}
	if !held {
		return letters(word)
	}
	return []reading{{sounds: Sounds(b), source: FromImitation}}
}

// consonantLetters are the commonest sounds of consonants, digraphs first.
var consonantLetters = [...][2]string{
	{"sh", "SH"},
	{"ch", "CH"},
	{"th", "TH"},
	{"ph", "F"},
	{"ck", "K"},
	{"ng", "NG"},
	{"wh", "W"},
	{"b", "B"},
	{"c", "K"},
	{"d", "D"},
	{"f", "F"},
	{"g", "G"},
	{"h", "HH"},
	{"j", "JH"},
	{"k", "K"},
	{"l", "L"},
	{"m", "M"},
	{"n", "N"},
	{"p", "P"},
	{"q", "K"},
	{"r", "R"},
	{"s", "S"},
	{"t", "T"},
	{"v", "V"},
	{"w", "W"},
	{"x", "K S"},
	{"z", "Z"},
}

// isHeld reports whether a sound can be held, and so stand for a vowel.
func isHeld(p arpabet.Phone) bool {
	switch p {
	case arpabet.S, arpabet.SH, arpabet.Z, arpabet.ZH, arpabet.F, arpabet.V, arpabet.TH, arpabet.DH,
		arpabet.M, arpabet.N, arpabet.NG, arpabet.L, arpabet.R, arpabet.ER:
		return true
	}
	return false
}
