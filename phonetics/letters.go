package phonetics

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"dandle/phonetics/arpabet"
)

// capitals say how a word uses its capitals.
type capitals uint8

const (
	noCapitals     capitals = iota
	initialCapital          // Word, and others that mix
	allCapitals             // WORD, of two letters and more
)

func shapeOf(text string) capitals {
	upper, lower, first := 0, 0, false
	for _, r := range text {
		switch {
		case unicode.IsUpper(r):
			first = first || upper+lower == 0
			upper++
		case unicode.IsLetter(r):
			lower++
		}
	}
	switch {
	case upper >= 2 && lower == 0:
		return allCapitals
	case first:
		return initialCapital
	}
	return noCapitals
}

func isCapitalised(text string) bool {
	r, _ := utf8.DecodeRuneInString(strings.TrimLeft(text, "\"'“‘*_("))
	return unicode.IsUpper(r)
}

// isShouted reports whether the text is in capitals or bears emphasis marks.
func isShouted(text string) bool {
	return shapeOf(text) == allCapitals || strings.HasPrefix(text, "*") || strings.HasPrefix(text, "_")
}

// shout keeps of a word's readings those that bear a stress; a word that has
// none is given one on its only syllable.
func shout(list []reading) []reading {
	var kept []reading
	for _, way := range list {
		if hasStress(way.sounds, arpabet.Primary) {
			kept = append(kept, way)
		}
	}
	if kept != nil {
		return kept
	}
	for i, way := range list {
		if way.sounds.SyllableCount() == 1 {
			list[i].sounds = restress(way.sounds, arpabet.Unstressed, arpabet.Primary)
		}
	}
	return list
}

// letterNames are the English names of the letters.
var letterNames = [26]Sounds{
	sound("EY1"), sound("B IY1"), sound("S IY1"), sound("D IY1"), sound("IY1"), sound("EH1 F"), sound("JH IY1"),
	sound("EY1 CH"), sound("AY1"), sound("JH EY1"), sound("K EY1"), sound("EH1 L"), sound("EH1 M"), sound("EH1 N"),
	sound("OW1"), sound("P IY1"), sound("K Y UW1"), sound("AA1 R"), sound("EH1 S"), sound("T IY1"), sound("Y UW1"),
	sound("V IY1"), sound("D AH1 B AH0 L Y UW0"), sound("EH1 K S"), sound("W AY1"), sound("Z IY1"),
}

// letters names a word's letters one by one. The last has the main stress, as
// in "TV" and "ABC" (dictionary entries of initials mostly do so).
func letters(word string) []reading {
	way := reading{source: FromLetters}
	plural := false
	for i := range len(word) {
		c := word[i]
		if i > 0 && c == 's' && word[i-1] == '\'' {
			plural = true
			continue
		}
		if c < 'a' || 'z' < c {
			continue
		}
		if way.sounds != "" {
			way.seams = append(way.seams, seam{len(way.sounds), i})
			way.sounds = restress(way.sounds, arpabet.Primary, arpabet.Secondary)
		}
		way.sounds += letterNames[c-'a']
	}
	if way.sounds == "" {
		return nil
	}
	if plural {
		way.sounds = addS(way.sounds)
	}
	return []reading{way}
}

// isInitialism reports whether a word in capitals that no other way knows is
// named by its letters: it has no vowel to be said with, nor the stretched or
// held sound of a cry.
func isInitialism(word string) bool {
	for i := range len(word) {
		if word[i] < 'a' || 'z' < word[i] {
			return false
		}
	}
	return len(word) <= 5 && !hasVowelLetter(word) && len(stretches(word)) == 0
}

// isSpelledWithPeriods reports whether a word is single letters each with a
// period: "q.e.d.".
func isSpelledWithPeriods(word string) bool {
	if len(word) < 4 || len(word)%2 != 0 {
		return false
	}
	for i := range len(word) {
		if isLetter := 'a' <= word[i] && word[i] <= 'z'; isLetter != (i%2 == 0) || i%2 == 1 && word[i] != '.' {
			return false
		}
	}
	return true
}

// abbreviations are titles and the like, written with a period or without.
// Their full words are said.
var abbreviations = map[string]string{
	"mr": "mister", "mrs": "missus", "ms": "miz", "dr": "doctor", "prof": "professor", "capt": "captain", "sgt": "sergeant",
	"lt": "lieutenant", "jr": "junior", "sr": "senior", "etc": "et cetera", "vs": "versus", "ave": "avenue", "blvd": "boulevard",
	"esq": "esquire", "mme": "madame", "mt": "mount", "messrs": "messieurs",
}

// withPeriod are abbreviations that are words of their own without it.
var withPeriod = map[string]string{
	"col.": "colonel", "gen.": "general", "rev.": "reverend", "hon.": "honorable", "fr.": "father", "rd.": "road",
	"gov.": "governor", "ft.": "feet", "oz.": "ounces", "lb.": "pounds", "lbs.": "pounds", "hr.": "hour", "hrs.": "hours",
	"min.": "minutes", "sec.": "seconds", "tbsp.": "tablespoon", "tsp.": "teaspoon", "approx.": "approximately",
}

// abbreviated says a title, a unit or a roman numeral, where the word beside
// it bears it out.
func abbreviated(word string, shape wordShape) []reading {
	bare := strings.TrimSuffix(word, ".")
	switch {
	case bare == "st" && shape.capitals != noCapitals:
		if isCapitalised(shape.beside.after()) || shape.beside.after() == "" && !isCapitalised(shape.beside.before()) {
			return []reading{
				{sounds: sound("S EY1 N T"), source: FromLexicon},
				{sounds: sound("S AH0 N T"), source: FromLexicon, cost: 1},
			}
		}
		return say("street", FromLexicon)
	case word == "no." && shape.beside.after() != "" && '0' <= shape.beside.after()[0] && shape.beside.after()[0] <= '9':
		return say("number", FromLexicon)
	case bare == "dr" && !isCapitalised(shape.beside.after()) && isCapitalised(shape.beside.before()) && shape.capitals != noCapitals:
		return say("drive", FromLexicon)
	}
	if full, ok := withPeriod[word]; ok && word != bare {
		return say(full, FromLexicon)
	}
	// "ms" and "mt" without capitals are more likely letters or slips.
	if full, ok := abbreviations[bare]; ok && (word != bare || shape.capitals != noCapitals || bare == "etc" || bare == "vs") {
		if bare == "ms" {
			return []reading{{sounds: sound("M IH1 Z"), source: FromLexicon}}
		}
		if bare == "mrs" {
			return []reading{{sounds: sound("M IH1 S IH0 Z"), source: FromLexicon}}
		}
		return say(full, FromLexicon)
	}
	if shape.capitals != noCapitals {
		if n := roman(bare); n > 0 {
			return romanNumeral(n, bare, shape)
		}
	}
	return nil
}

// romanNumeral says "the eighth" after a name and "eight" after such a word
// as chapter. A lone I, V or X stays a letter elsewhere, and so does any
// other that no name stands before and that is a known word.
func romanNumeral(n int, word string, shape wordShape) []reading {
	before := strings.ToLower(shape.beside.before())
	switch before {
	case "chapter", "part", "book", "act", "scene", "volume", "canto", "psalm", "page", "verse", "spread", "war", "number", "figure":
		return say(numberWords(n), FromNumber)
	}
	_, isFunction := functionWords[before]
	if isCapitalised(shape.beside.before()) && !isFunction && word != "i" && len(before) > 2 {
		return say("the "+ordinalWords(n), FromNumber)
	}
	if len(word) > 1 && shape.capitals == allCapitals && known(word) == nil {
		return say(numberWords(n), FromNumber)
	}
	return nil
}

// roman reads a roman numeral up to 39, the kings' and chapters' range, in
// lower case; it is 0 for anything else.
func roman(word string) int {
	if len(word) > 7 {
		return 0
	}
	for n := 1; n < 40; n++ {
		if word == romanTens[n/10]+romanOnes[n%10] {
			return n
		}
	}
	return 0
}

var (
	romanTens = [...]string{"", "x", "xx", "xxx"}
	romanOnes = [...]string{"", "i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix"}
)
