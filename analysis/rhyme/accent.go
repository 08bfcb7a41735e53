package rhyme

import (
	"dandle/phonetics"
	"dandle/phonetics/arpabet"
)

// An Accent is a feature of some accents of English that makes a rhyme.
type Accent uint8

// The accents that make rhymes, each by one feature of its own. Where they are
// at home: Wells, Accents of English, 1982, lexical sets and mergers (from
// memory).
const (
	OwnAccent       Accent = iota // the writer's own
	CotCaught                     // "dawn" as "Don": Scotland, Canada, western United States
	NonRhotic                     // no r but before a vowel: most of England, Wales, Australia
	SouthernEnglish               // non-rhotic, and "bath" with the vowel of "father"
	PinPen                        // "them" as "him": southern United States
	FootStrut                     // "cut" with the vowel of "foot": northern England
	MaryMerry                     // "carry" as "Kerry": much of the United States

	accentCount
)

var accentNames = [accentCount]string{
	"the writer's own accent",
	"accents that say “cot” and “caught” alike",
	"accents without an r after the vowel",
	"the south of England",
	"the south of the United States",
	"the north of England",
	"accents that say “Mary” and “merry” alike",
}

// String names the accent within a sentence: "the north of England".
func (a Accent) String() string { return accentNames[a] }

// Elsewhere finds an accent, other than the writer's own, in which two ends
// rhyme perfectly; OwnAccent where there is none.
func Elsewhere(a, b *End) Accent {
	for accent := CotCaught; accent < accentCount; accent++ {
		x, y := a.in(accent), b.in(accent)
		switch Compare(&x, &y).Kind {
		case Perfect, Mosaic, Homophone:
			return accent
		}
	}
	return OwnAccent
}

// in is the end as another accent says it.
func (e *End) in(accent Accent) End {
	words := make([]Word, len(e.words))
	for i, w := range e.words {
		words[i] = Word{Text: w.Text, Ways: make([]phonetics.Pronunciation, len(w.Ways))}
		for j, way := range w.Ways {
			words[i].Ways[j] = phonetics.Pronunciation{Sounds: accent.say(way.Sounds), Cost: way.Cost}
		}
	}
	return NewEnd(words)
}

// say turns sounds into what this accent makes of them.
func (a Accent) say(s arpabet.Sounds) arpabet.Sounds {
	b := make([]byte, 0, len(s))
	for i := range len(s) {
		p, stress := s.At(i).Phone(), s.At(i).Stress()
		next, before := arpabet.NoPhone, arpabet.NoPhone
		if i+1 < len(s) {
			next = s.At(i + 1).Phone()
		}
		if i > 0 {
			before = s.At(i - 1).Phone()
		}
		switch a {
		case CotCaught:
			if (p == arpabet.AO || p == arpabet.OH) && next != arpabet.R {
				p = arpabet.AA
			}
		case PinPen:
			if p == arpabet.EH && (next == arpabet.N || next == arpabet.M) {
				p = arpabet.IH
			}
		case FootStrut:
			if p == arpabet.AH && stress != arpabet.Unstressed {
				p = arpabet.UH
			}
		case MaryMerry:
			if (p == arpabet.AE || p == arpabet.EY) && next == arpabet.R {
				p = arpabet.EH
			}
		case NonRhotic, SouthernEnglish:
			if p == arpabet.R && !next.IsVowel() {
				// What the r leaves after a high vowel is a weak one: "fear"
				// ends as "idea" does.
				if before != arpabet.IH && before != arpabet.IY && before != arpabet.UH {
					continue
				}
				p = arpabet.AH
			}
			if p == arpabet.ER && stress == arpabet.Unstressed {
				p = arpabet.AH
			}
			if p == arpabet.IY && (next == arpabet.AH || next == arpabet.ER) {
				p = arpabet.IH
			}
			if a == SouthernEnglish && p == arpabet.AE && (next == arpabet.F || next == arpabet.TH || next == arpabet.S) {
				p = arpabet.AA
			}
		}
		b = append(b, byte(arpabet.Make(p, stress)))
	}
	return arpabet.Sounds(b)
}
