package phonetics

import (
	"strings"

	"dandle/phonetics/arpabet"
)

// ipaUS and ipaGB are the phonemes in the International Phonetic Alphabet, as
// dictionaries of the two dialects write them, broadly: with r for the
// English r (Wells, Longman Pronunciation Dictionary; from memory). What the
// stress changes in a vowel's sign is in ipaSign.
var (
	ipaUS = [...]string{
		arpabet.AA: "ɑː", arpabet.AE: "æ", arpabet.AH: "ʌ", arpabet.AO: "ɔː", arpabet.AW: "aʊ", arpabet.AY: "aɪ", arpabet.EH: "ɛ",
		arpabet.ER: "ɝː", arpabet.EY: "eɪ", arpabet.IH: "ɪ", arpabet.IY: "iː", arpabet.OW: "oʊ", arpabet.OY: "ɔɪ", arpabet.UH: "ʊ", arpabet.UW: "uː",
		arpabet.B: "b", arpabet.CH: "tʃ", arpabet.D: "d", arpabet.DH: "ð", arpabet.F: "f", arpabet.G: "ɡ", arpabet.HH: "h", arpabet.JH: "dʒ",
		arpabet.K: "k", arpabet.L: "l", arpabet.M: "m", arpabet.N: "n", arpabet.NG: "ŋ", arpabet.P: "p", arpabet.R: "r", arpabet.S: "s",
		arpabet.SH: "ʃ", arpabet.T: "t", arpabet.TH: "θ", arpabet.V: "v", arpabet.W: "w", arpabet.Y: "j", arpabet.Z: "z", arpabet.ZH: "ʒ",
		arpabet.OH: "ɒ",
	}
	ipaGB = func() [len(ipaUS)]string {
		table := ipaUS
		table[arpabet.ER], table[arpabet.OW], table[arpabet.EH] = "ɜː", "əʊ", "e"
		return table
	}()
)

// IPA writes a pronunciation in the International Phonetic Alphabet, without
// slashes, with ˈ and ˌ before the syllables of main and second stress of a
// word that has several: "ˈlaɪtˌhaʊs".
func (p Pronunciation) IPA(d Dialect) string {
	var b strings.Builder
	for i := range len(p.Sounds) {
		if len(p.Syllables) > 1 {
			for _, s := range p.Syllables {
				if s.From != i {
					continue
				}
				switch s.Stress {
				case arpabet.Primary:
					b.WriteString("ˈ")
				case arpabet.Secondary:
					b.WriteString("ˌ")
				}
			}
		}
		b.WriteString(ipaSign(p.Sounds, i, d))
	}
	return b.String()
}

// ipaSign is the sign of sound i among its neighbours.
func ipaSign(s Sounds, i int, d Dialect) string {
	sound := s.At(i)
	p := sound.Phone()
	weak := sound.Stress() == arpabet.Unstressed
	switch {
	case p == arpabet.AH && weak:
		return "ə"
	case p == arpabet.IY && weak:
		return "i"
	case p == arpabet.UW && weak && isVowelAt(s, i+1):
		return "u"
	case p == arpabet.ER && weak && d.Has(Rhotic):
		return "ɚ"
	}
	if !d.Has(Rhotic) {
		glides := phoneAt(s, i+1) == arpabet.R && !isVowelAt(s, i+2)
		switch {
		case glides && p == arpabet.EH:
			return "eə"
		case p == arpabet.R && !isVowelAt(s, i+1):
			if i > 0 && s.At(i-1).Phone() == arpabet.EH {
				return "" // its glide stands in the vowel's sign
			}
			return "ə"
		}
		return ipaGB[p]
	}
	return ipaUS[p]
}

// ipaPhones are the signs that ParseSpoken reads, in this and other usual
// transcriptions, with the ARPAbet names they stand for. Longer signs win.
var ipaPhones = map[string]string{
	"ɑː": "AA", "ɑ": "AA", "a": "AE", "æ": "AE", "ʌ": "AH", "ɐ": "AH", "ə": "AH", "ɔː": "AO", "ɔ": "AO", "aʊ": "AW", "aw": "AW", "aɪ": "AY", "aj": "AY",
	"ɛ": "EH", "e": "EH", "ɜː": "ER", "ɜ": "ER", "ɝ": "ER", "ɚ": "ER", "ɝː": "ER", "ɜːr": "ER", "ər": "ER", "eɪ": "EY", "ej": "EY", "ɪ": "IH", "i": "IY", "iː": "IY", "ɨ": "IH",
	"oʊ": "OW", "əʊ": "OW", "o": "OW", "oː": "OW", "ɔɪ": "OY", "ʊ": "UH", "u": "UW", "uː": "UW", "ʉ": "UW", "ʉː": "UW", "ɒ": "OH",
	"eə": "EH R", "ɛə": "EH R", "ɪə": "IH R", "ʊə": "UH R",
	"b": "B", "tʃ": "CH", "t͡ʃ": "CH", "d": "D", "ð": "DH", "f": "F", "ɡ": "G", "g": "G", "h": "HH", "dʒ": "JH", "d͡ʒ": "JH", "k": "K", "l": "L", "ɫ": "L",
	"m": "M", "n": "N", "ŋ": "NG", "p": "P", "r": "R", "ɹ": "R", "s": "S", "ʃ": "SH", "t": "T", "ɾ": "T", "θ": "TH", "v": "V", "w": "W", "ʍ": "W", "j": "Y",
	"z": "Z", "ʒ": "ZH", "x": "K", "n̩": "AH N", "l̩": "AH L", "m̩": "AH M", "ɬ": "L",
}
