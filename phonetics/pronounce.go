package phonetics

import (
	"strings"

	"dandle/phonetics/arpabet"
	"dandle/phonetics/lexicon"
)

// A reading is a pronunciation before its syllables are found.
type reading struct {
	sounds Sounds
	source Source
	cost   float32
}

// variantCost is what each later entry of the dictionary costs more than the
// one before it.
const variantCost = 0.3

// Pronounce lists the ways to say a word as written, most usual first. It is
// empty only where the text holds no letter, digit or readable sign.
func (r *Reader) Pronounce(text string, c Context) []Pronunciation {
	word := fold(text)
	readings := r.readings(word.text)
	list := make([]Pronunciation, 0, len(readings))
	for _, way := range readings {
		p := Pronunciation{Sounds: way.sounds, Source: way.source, Cost: way.cost, Syllables: syllabify(word.text, way.sounds)}
		for i := range p.Syllables {
			s := &p.Syllables[i]
			s.Start, s.End = word.place(s.Start), word.place(s.End)
		}
		if n := len(p.Syllables); n > 0 {
			p.Syllables[0].Start, p.Syllables[n-1].End = 0, len(text)
		}
		list = append(list, p)
	}
	return list
}

func (r *Reader) readings(word string) []reading {
	if s, ok := r.taught[word]; ok {
		return []reading{{sounds: s, source: FromWriter}}
	}
	if list := known(word); list != nil {
		return list
	}
	bare := strings.Trim(word, ".,;:!?\"()[]")
	if bare != word {
		return r.readings(bare)
	}
	if list := r.inflected(word); list != nil {
		return list
	}
	if list := r.elided(word); list != nil {
		return list
	}
	if list := r.hyphenated(word); list != nil {
		return list
	}
	if unquoted := strings.Trim(word, "'"); unquoted != word {
		return r.readings(unquoted)
	}
	if list := numeral(word); list != nil {
		return list
	}
	return guessed(word)
}

// known are the dictionary's ways.
func known(word string) []reading {
	entries := lexicon.Lookup(word)
	if entries.Len() == 0 {
		return nil
	}
	list := make([]reading, 0, entries.Len())
	for i, s := range entries.All() {
		list = append(list, reading{s, FromLexicon, variantCost * float32(i)})
	}
	return list
}

// elisions are the contracted words of verse that no rule yields: the words
// of older poetry and of speech (from memory).
var elisions = map[string]string{
	"o'er": "AO1 R", "ne'er": "N EH1 R", "e'er": "EH1 R", "e'en": "IY1 N", "th'": "DH", "ol'": "OW1 L",
	"'tis": "T IH1 Z", "'twas": "T W AA1 Z", "'twere": "T W ER1", "'twill": "T W IH1 L", "'twould": "T W UH1 D",
	"'neath": "N IY1 TH", "'gainst": "G EH1 N S T", "'mid": "M IH1 D", "'mongst": "M AH1 NG S T", "'n'": "AH0 N",
	"o'": "AH0", "whate'er": "W AH0 T EH1 R", "where'er": "W EH0 R EH1 R", "howe'er": "HH AW0 EH1 R",
	"ta'en": "T EY1 N", "i'": "IH0", "wi'": "W IH0", "t'": "T", "ma'am": "M AE1 M", "o'clock": "AH0 K L AA1 K",
}

func (r *Reader) elided(word string) []reading {
	if s, ok := elisions[word]; ok {
		if sounds, err := arpabet.Parse(s); err == nil {
			return []reading{{sounds: sounds, source: FromElision}}
		}
	}
	// goin', singin'
	if base, ok := strings.CutSuffix(word, "in'"); ok {
		if list := r.readings(base + "ing"); list[0].source != FromSpelling {
			return mapSounds(list, FromElision, func(s Sounds) Sounds {
				return s[:len(s)-1] + Sounds([]byte{byte(arpabet.N)})
			})
		}
	}
	// An apostrophe inside stands for a vowel, or for v and a vowel: ev'ry,
	// heav'n, wand'ring.
	if i := strings.IndexByte(word, '\''); i > 0 && i < len(word)-1 {
		for _, vowel := range []string{"e", "i", "o", "u", "a"} {
			list := known(word[:i] + vowel + word[i+1:])
			if list == nil {
				list = r.inflected(word[:i] + vowel + word[i+1:])
			}
			if list != nil {
				return mapSounds(list[:1], FromElision, dropMiddleVowel)
			}
		}
	}
	return nil
}

// dropMiddleVowel drops the last unstressed schwa that does not end the word.
func dropMiddleVowel(s Sounds) Sounds {
	for i := len(s) - 2; i > 0; i-- {
		v := s.At(i)
		if !v.IsVowel() || v.Stress() != arpabet.Unstressed {
			continue
		}
		switch v.Phone() {
		case arpabet.AH, arpabet.IH:
			return s[:i] + s[i+1:]
		case arpabet.ER:
			return s[:i] + Sounds([]byte{byte(arpabet.R)}) + s[i+1:]
		}
	}
	return s
}

func mapSounds(list []reading, source Source, change func(Sounds) Sounds) []reading {
	out := make([]reading, 0, len(list))
	for _, way := range list {
		out = append(out, reading{change(way.sounds), source, way.cost})
	}
	return out
}

// inflected says a known word with an ending.
func (r *Reader) inflected(word string) []reading {
	for _, e := range endings {
		stem, ok := strings.CutSuffix(word, e.letters)
		if !ok || len(stem) < 2 {
			continue
		}
		for _, base := range e.bases(stem) {
			if list := r.stem(base); list != nil {
				return mapSounds(list, FromInflection, e.say)
			}
		}
	}
	return nil
}

func (r *Reader) stem(base string) []reading {
	if s, ok := r.taught[base]; ok {
		return []reading{{sounds: s, source: FromWriter}}
	}
	return known(base)
}

type suffix struct {
	letters string
	bases   func(stem string) []string
	say     func(Sounds) Sounds
}

var endings = []suffix{
	{"'s", same, addS}, {"s'", plusS, same2}, {"ies", withY, addS}, {"es", sameOrE, addS}, {"s", same, addS},
	{"'d", same, addD}, {"ied", withY, addD}, {"èd", same, addD}, {"ed", sameDoubledOrE, addD},
	{"ing", sameDoubledOrE, adds("IH0 NG")}, {"iest", withY, adds("AH0 S T")}, {"est", sameDoubledOrE, adds("AH0 S T")},
	{"ier", withY, adds("ER0")}, {"er", sameDoubledOrE, adds("ER0")}, {"ily", withY, adds("L IY0")},
	{"ly", same, adds("L IY0")}, {"ness", same, adds("N AH0 S")}, {"less", same, adds("L AH0 S")},
	{"ful", same, adds("F AH0 L")}, {"ish", sameDoubledOrE, adds("IH0 SH")}, {"y", sameDoubledOrE, adds("IY0")},
	{"eth", sameDoubledOrE, adds("AH0 TH")}, {"st", same, adds("S T")},
}

func same(stem string) []string    { return []string{stem} }
func plusS(stem string) []string   { return []string{stem + "s"} }
func withY(stem string) []string   { return []string{stem + "y"} }
func sameOrE(stem string) []string { return []string{stem, stem + "e"} }
func same2(s Sounds) Sounds        { return s }
func sameDoubledOrE(stem string) []string {
	list := []string{stem, stem + "e"}
	if n := len(stem); n > 2 && stem[n-1] == stem[n-2] {
		list = append(list, stem[:n-1])
	}
	return list
}

func adds(text string) func(Sounds) Sounds {
	tail, err := arpabet.Parse(text)
	if err != nil {
		panic(err)
	}
	return func(s Sounds) Sounds { return s + tail }
}

func addS(s Sounds) Sounds {
	switch last := s.At(len(s) - 1).Phone(); last {
	case arpabet.S, arpabet.Z, arpabet.SH, arpabet.ZH, arpabet.CH, arpabet.JH:
		return s + Sounds([]byte{byte(arpabet.IH), byte(arpabet.Z)})
	case arpabet.P, arpabet.T, arpabet.K, arpabet.F, arpabet.TH:
		return s + Sounds([]byte{byte(arpabet.S)})
	}
	return s + Sounds([]byte{byte(arpabet.Z)})
}

func addD(s Sounds) Sounds {
	switch last := s.At(len(s) - 1).Phone(); last {
	case arpabet.T, arpabet.D:
		return s + Sounds([]byte{byte(arpabet.IH), byte(arpabet.D)})
	case arpabet.P, arpabet.K, arpabet.F, arpabet.TH, arpabet.S, arpabet.SH, arpabet.CH:
		return s + Sounds([]byte{byte(arpabet.T)})
	}
	return s + Sounds([]byte{byte(arpabet.D)})
}

// hyphenated joins the parts of a hyphenated word: the first keeps its main
// stress, and the others' become secondary.
func (r *Reader) hyphenated(word string) []reading {
	first, rest, ok := strings.Cut(word, "-")
	if !ok || first == "" || rest == "" {
		if trimmed := strings.Trim(word, "-"); trimmed != word && trimmed != "" {
			return r.readings(trimmed)
		}
		return nil
	}
	a, b := r.readings(first), r.readings(rest)
	if len(a) == 0 || len(b) == 0 {
		return append(a, b...)
	}
	return []reading{{a[0].sounds + demote(b[0].sounds), FromCompound, 0}}
}

func demote(s Sounds) Sounds {
	b := []byte(s)
	for i, c := range b {
		if v := arpabet.Sound(c); v.IsVowel() && v.Stress() == arpabet.Primary {
			b[i] = byte(arpabet.Make(v.Phone(), arpabet.Secondary))
		}
	}
	return Sounds(b)
}
