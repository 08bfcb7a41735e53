package phonetics

import (
	"slices"
	"strings"

	"dandle/phonetics/arpabet"
)

// elisions are the contracted words of verse and speech that no rule yields
// (Webster's Unabridged Dictionary of 1913 has most; the rest from memory).
var elisions = parseForms(`
o'er AO1 R
ne'er N EH1 R
e'er EH1 R
e'en IY1 N
'tis T IH1 Z
'tisn't T IH1 Z AH0 N T
'twas T W AA1 Z, T W AH1 Z 0.1
'twere T W ER1
'twill T W IH1 L
'twould T W UH1 D
'twixt T W IH1 K S T
'twasn't T W AA1 Z AH0 N T
'neath N IY1 TH
'gainst G EH1 N S T
'gan G AE1 N
'mid M IH1 D
'midst M IH1 D S T
'mongst M AH1 NG S T
'pon P AA1 N
'scape S K EY1 P
'n' AH0 N
'n AH0 N
n' AH0 N
an' AH0 N, AE1 N 0.4
'em AH0 M
'im IH0 M
'er ER0
'e IY0
'ere HH IH1 R
'cause K AH0 Z, K AO1 Z 0.2
'cos K AH0 Z
'til T IH1 L
'till T IH1 L
'round R AW1 N D
'bout B AW1 T
'fore F AO1 R
'way W EY1
'nother N AH1 DH ER0
'nough N AH1 F
'most M OW1 S T
'kay K EY1
'specially S P EH1 SH AH0 L IY0
'fraid F R EY1 D
'course K AO1 R S
'tater T EY1 T ER0
'taters T EY1 T ER0 Z
tho' DH OW1
altho' AO2 L DH OW1
thro' TH R UW1
i' IH0
wi' W IH0
t' T
ha' HH AE1
ma'am M AE1 M
o'clock AH0 K L AA1 K
y'all Y AO1 L
s'pose S P OW1 Z
s'posed S P OW1 Z D
c'mon K AH0 M AA1 N
d'you D Y UW1, JH UW1 0.5
g'night G N AY1 T
ta'en T EY1 N
lil' L IH1 L
li'l L IH1 L
howe'er HH AW0 EH1 R
whate'er W AH0 T EH1 R
where'er W EH0 R EH1 R
whene'er W EH0 N EH1 R
whoe'er HH UW0 EH1 R
let's L EH1 T S
'll AH0 L
've AH0 V
're ER0
dunno D AH0 N OW1
gonna G AH1 N AH0, G AH0 N AH0 0.4
thou'rt DH AW1 R T
thou'lt DH AW1 L T
thou'dst DH AW1 D S T
`)

// elided says a word in which an apostrophe stands for a sound.
func (r *Reader) elided(word string) []reading {
	// goin', singin', and evenin', whose -ing is no ending.
	if stem, ok := strings.CutSuffix(word, "in'"); ok {
		list := r.base(stem + "ing")
		if list == nil {
			list = r.inflected(stem + "ing")
		}
		if list != nil {
			return mapSounds(list[:1], FromElision, func(s Sounds) Sounds {
				return s[:len(s)-1] + Sounds(rune(arpabet.N))
			})
		}
	}
	// whate'er, whatsoe'er, soe'er
	if stem, ok := strings.CutSuffix(word, "e'er"); ok {
		for _, way := range r.base(stem + "ever") {
			if n := len(way.sounds); n > 3 && way.sounds.At(n-2).Phone() == arpabet.V {
				return []reading{{sounds: way.sounds[:n-2] + soundR, source: FromElision}}
			}
		}
	}
	// th'old, t'other: the little word leans on the next.
	for _, c := range clitics {
		if rest, ok := strings.CutPrefix(word, c.letters); ok && len(rest) > 1 && (len(c.letters) > 2 || isVowelLetter(rest[0]) || rest[0] == 'h') {
			if list := r.readings(rest, wordShape{}); len(list) > 0 {
				return mapSounds(list, FromElision, func(s Sounds) Sounds { return c.sounds + s })
			}
		}
	}
	at := strings.IndexByte(word, '\'')
	switch {
	case at == 0 && len(word) > 3:
		// 'lectric, 'splain: the word without its weak first syllable.
		for _, opening := range []string{"e", "a", "be", "ex", "re", "es", "im", "un", "to"} {
			for _, way := range r.base(opening + word[1:]) {
				if cut, ok := dropFirst(way.sounds); ok {
					return []reading{{sounds: cut, source: FromElision}}
				}
			}
		}
	case at > 0 && at < len(word)-1:
		return r.elidedInside(word, at)
	}
	return nil
}

// clitics are little words shrunk to the consonant before the next.
var clitics = []struct {
	letters string
	sounds  Sounds
}{{"o'er", sound("AO2 R")}, {"th'", sound("DH")}, {"t'", sound("T")}, {"d'", sound("D")}}

// elidedInside tries which vowel the apostrophe inside a word stands for:
// ev'ry, heav'n, wand'ring, list'ning.
func (r *Reader) elidedInside(word string, at int) []reading {
	for i := range 2 * len(elidedLetters) {
		full := word[:at] + elidedLetters[i%len(elidedLetters)] + word[at+1:]
		var list []reading
		if i < len(elidedLetters) {
			list = r.base(full) // a word of the dictionary goes before one with an ending
		} else {
			list = r.inflected(full)
		}
		if list == nil {
			continue
		}
		// The dictionary may have the short form among its ways.
		short := list[0].sounds
		for _, way := range list[1:] {
			if way.sounds.SyllableCount() < short.SyllableCount() {
				short = way.sounds
			}
		}
		if short.SyllableCount() > vowelGroups(word) {
			short = dropWeakVowel(short, at, len(word))
		}
		return []reading{{sounds: short, source: FromElision}}
	}
	return nil
}

// elidedLetters are what an apostrophe inside a word may stand for.
var elidedLetters = [...]string{"e", "i", "o", "u", "a", "ow", "v"}

// vowelGroups counts the runs of vowel letters that can each be a syllable,
// without a silent e at the end.
func vowelGroups(word string) int {
	n := 0
	for i := range len(word) {
		if isVowelLetter(word[i]) && word[i] != 'w' && (i == 0 || !isVowelLetter(word[i-1])) && !(word[i] == 'e' && i == len(word)-1 && n > 0) {
			n++
		}
	}
	return n
}

// dropFirst cuts a weak first syllable's vowel off, and what stands before it.
func dropFirst(s Sounds) (Sounds, bool) {
	for i := range len(s) {
		if v := s.At(i); v.IsVowel() {
			return s[i+1:], v.Stress() == arpabet.Unstressed && i+1 < len(s)
		}
	}
	return s, false
}

// dropWeakVowel drops the schwa that stands as far into the sounds as the
// apostrophe stands into the letters.
func dropWeakVowel(s Sounds, letter, letters int) Sounds {
	best, away := -1, 1<<30
	for i := 1; i < len(s); i++ {
		v := s.At(i)
		if !v.IsVowel() || v.Stress() != arpabet.Unstressed {
			continue
		}
		switch v.Phone() {
		case arpabet.AH, arpabet.IH, arpabet.ER, arpabet.IY, arpabet.UW, arpabet.OW:
			if d := abs(i*letters - letter*len(s)); d <= away {
				best, away = i, d
			}
		}
	}
	if best < 0 {
		return s
	}
	return weakened(s, best)
}

// weakened drops the vowel at i; a schwa with r leaves its r, and a vowel of
// i or u before another leaves its glide.
func weakened(s Sounds, i int) Sounds {
	left := ""
	switch v := s.At(i).Phone(); {
	case v == arpabet.ER:
		left = string(rune(arpabet.R))
	case v == arpabet.IY && i+1 < len(s) && s.At(i+1).IsVowel():
		left = string(rune(arpabet.Y))
	case v == arpabet.UW && i+1 < len(s) && s.At(i+1).IsVowel():
		left = string(rune(arpabet.W))
	}
	return s[:i] + Sounds(left) + s[i+1:]
}

func abs(n int) int { return max(n, -n) }

func withSource(list []reading, source Source) []reading {
	return mapSounds(list, source, func(s Sounds) Sounds { return s })
}

// contractions are the endings that verbs shrink to, after a vowel and after
// a consonant.
var contractions = []struct {
	letters                    string
	afterVowel, afterConsonant Sounds
}{
	{"n't", sound("N T"), sound("AH0 N T")},
	{"'ll", sound("L"), sound("AH0 L")},
	{"'ve", sound("V"), sound("AH0 V")},
	{"'re", sound("ER0"), sound("ER0")},
	{"'d", sound("D"), sound("D")},
	{"'m", sound("M"), sound("AH0 M")},
	{"'t", sound("T"), sound("T")},      // was't, in't: it
	{"'st", sound("S T"), sound("S T")}, // might'st: the apostrophe says no vowel
}

// contracted says I'd've, who'll, shouldn't've: a word with its verbs shrunk.
func (r *Reader) contracted(word string) []reading {
	if !strings.Contains(word, "'") {
		return nil
	}
	for _, c := range contractions {
		stem, ok := strings.CutSuffix(word, c.letters)
		if !ok || stem == "" {
			continue
		}
		list := r.base(stem)
		if list == nil {
			list = elisions[stem]
		}
		if list == nil {
			list = r.contracted(stem)
		}
		if list == nil {
			list = r.inflected(stem)
		}
		if list == nil {
			continue
		}
		way := list[0]
		s := way.sounds
		way.source = FromInflection
		last := s.At(len(s) - 1)
		switch {
		case c.letters == "'d":
			way.sounds = addD(s)
		case last.IsVowel() || c.letters == "'ll" && last.Phone() == arpabet.R:
			way.sounds = s + c.afterVowel
		default:
			way.sounds = s + c.afterConsonant
		}
		if way.sounds.SyllableCount() > s.SyllableCount() {
			way.seams = append(slices.Clone(way.seams), seam{len(s), len(stem)})
		}
		return []reading{way}
	}
	return nil
}
