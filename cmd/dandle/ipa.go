package main

import (
	"strings"

	"dandle/phonetics"
	"dandle/phonetics/arpabet"
)

// ipaOf writes a pronunciation in the International Phonetic Alphabet, with the stress mark
// before each stressed syllable of a word that has more than one.
func ipaOf(p phonetics.Pronunciation) string {
	var b strings.Builder
	for _, syllable := range p.Syllables {
		if len(p.Syllables) > 1 {
			switch syllable.Stress {
			case arpabet.Primary:
				b.WriteString("ˈ")
			case arpabet.Secondary:
				b.WriteString("ˌ")
			}
		}
		for i := syllable.From; i < syllable.To; i++ {
			b.WriteString(letter(p.Sounds.At(i)))
		}
	}
	return b.String()
}

// letters are the IPA's letters for the sounds of General American, and for
// the vowel of British "lot" (from memory; the r is the approximant).
var letters = map[arpabet.Phone]string{
	arpabet.AA: "ɑ", arpabet.AE: "æ", arpabet.AH: "ʌ", arpabet.AO: "ɔ", arpabet.AW: "aʊ", arpabet.AY: "aɪ",
	arpabet.EH: "ɛ", arpabet.ER: "ɝ", arpabet.EY: "eɪ", arpabet.IH: "ɪ", arpabet.IY: "i", arpabet.OW: "oʊ",
	arpabet.OY: "ɔɪ", arpabet.UH: "ʊ", arpabet.UW: "u", arpabet.OH: "ɒ",
	arpabet.B: "b", arpabet.CH: "tʃ", arpabet.D: "d", arpabet.DH: "ð", arpabet.F: "f", arpabet.G: "ɡ",
	arpabet.HH: "h", arpabet.JH: "dʒ", arpabet.K: "k", arpabet.L: "l", arpabet.M: "m", arpabet.N: "n",
	arpabet.NG: "ŋ", arpabet.P: "p", arpabet.R: "ɹ", arpabet.S: "s", arpabet.SH: "ʃ", arpabet.T: "t",
	arpabet.TH: "θ", arpabet.V: "v", arpabet.W: "w", arpabet.Y: "j", arpabet.Z: "z", arpabet.ZH: "ʒ",
}

func letter(s arpabet.Sound) string {
	if s.Stress() == arpabet.Unstressed {
		switch s.Phone() {
		case arpabet.AH:
			return "ə"
		case arpabet.ER:
			return "ɚ"
		}
	}
	return letters[s.Phone()]
}
