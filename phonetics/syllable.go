package phonetics

import (
	"strings"

	"dandle/phonetics/arpabet"
)

// syllabify parts sounds into syllables and finds each one's letters. The
// spelling is in lower case, and the spans are in its bytes.
func syllabify(spelling string, way reading) []Syllable {
	sounds := way.sounds
	count := sounds.SyllableCount()
	if count == 0 {
		if way.source == FromElision || isClitic(spelling) {
			return nil // th', t': its consonants open the next word
		}
		return []Syllable{vowelless(spelling, sounds)}
	}
	list := make([]Syllable, 0, count)
	for i := range len(sounds) {
		v := sounds.At(i)
		if !v.IsVowel() {
			continue
		}
		s := Syllable{Nucleus: i, To: len(sounds), End: len(spelling), Stress: v.Stress()}
		if len(list) > 0 {
			before := &list[len(list)-1]
			s.From = onsetStart(sounds, before.Nucleus, i)
			if at, ok := way.seamWithin(before.Nucleus, i); ok {
				s.From = at.sound
			}
			before.To = s.From
		}
		list = append(list, s)
	}
	if count > 1 {
		placeCuts(spelling, way, list)
	}
	return list
}

func isClitic(spelling string) bool { return strings.HasSuffix(spelling, "'") && len(spelling) <= 3 }

// seamWithin finds the seam between two vowels. A part without a vowel makes
// no syllable, so the last seam is the one that counts.
func (way *reading) seamWithin(vowel, next int) (seam, bool) {
	for i := len(way.seams) - 1; i >= 0; i-- {
		if at := way.seams[i]; vowel < at.sound && at.sound <= next {
			return at, true
		}
	}
	return seam{}, false
}

// vowelless is the one syllable of shh, psst or hmm: its longest-sounding
// consonant stands in for the vowel.
func vowelless(spelling string, sounds Sounds) Syllable {
	s := Syllable{To: len(sounds), End: len(spelling), Stress: arpabet.Primary}
	for i := range len(sounds) {
		switch sounds.At(i).Phone() {
		case arpabet.S, arpabet.SH, arpabet.Z, arpabet.ZH, arpabet.M, arpabet.N, arpabet.NG, arpabet.L, arpabet.R, arpabet.F, arpabet.V, arpabet.TH:
			s.Nucleus = i
			return s
		}
	}
	return s
}

// onsetStart finds where the syllable of the vowel at next begins: the
// longest onset that English allows, save that a stressed short vowel keeps
// one consonant for its own (rob-in, not ro-bin), since it cannot stand open.
func onsetStart(sounds Sounds, vowel, next int) int {
	start := next
	for start > vowel+1 && legalOnset(sounds[start-1:next]) {
		start--
	}
	if start == vowel+1 && start < next && isChecked(sounds.At(vowel)) && sounds.At(next).Stress() == arpabet.Unstressed {
		start++
	}
	return start
}

// isChecked reports whether a vowel is stressed and short.
func isChecked(v arpabet.Sound) bool {
	if v.Stress() == arpabet.Unstressed {
		return false
	}
	switch v.Phone() {
	case arpabet.AE, arpabet.AH, arpabet.EH, arpabet.IH, arpabet.UH, arpabet.AA, arpabet.OH:
		return true
	}
	return false
}

// onsetPairs and onsetTriples are the consonant clusters that open English
// syllables (Roach, English Phonetics and Phonology, tables of initial
// clusters; from memory).
const (
	onsetPairs   = "PL PR PY BL BR BY TR TW TY DR DW DY KL KR KW KY GL GR GW FL FR FY VY THR THW SHR HHY MY NY SP ST SK SM SN SL SW SF LY "
	onsetTriples = "SPL SPR SPY STR STY SKR SKW SKY "
)

func legalOnset(cluster Sounds) bool {
	switch len(cluster) {
	case 0:
		return true
	case 1:
		p := cluster.At(0).Phone()
		return !p.IsVowel() && p != arpabet.NG
	case 2, 3:
		var name [8]byte
		b := name[:0]
		for i := range len(cluster) {
			b = append(b, cluster.At(i).Phone().String()...)
		}
		b = append(b, ' ')
		list := onsetPairs
		if len(cluster) == 3 {
			list = onsetTriples
		}
		at := strings.Index(list, string(b))
		return at == 0 || at > 0 && list[at-1] == ' '
	}
	return false
}

// placeCuts gives each syllable its letters.
func placeCuts(spelling string, way reading, list []Syllable) {
	starts, ok := align(spelling, way.sounds)
	if way.source == FromNumber {
		ok = false // digits spell no sounds
	}
	for i := 1; i < len(list); i++ {
		cut := 0
		if at, isSeam := way.seamWithin(list[i-1].Nucleus, list[i].Nucleus); isSeam {
			cut = at.letter
		} else if ok {
			cut = cutBefore(spelling, starts[:], list[i])
		} else {
			cut = len(spelling) * i / len(list)
		}
		// Every syllable has a letter where there are letters enough.
		if len(spelling) >= len(list) {
			cut = min(max(cut, list[i-1].Start+1), len(spelling)-len(list)+i)
		}
		cut = min(max(cut, list[i-1].Start), len(spelling))
		list[i].Start, list[i-1].End = cut, cut
	}
}

// cutBefore is the letter at which a syllable begins.
func cutBefore(spelling string, starts []uint8, s Syllable) int {
	cut := int(starts[s.From])
	// A doubled consonant is parted, whether it opens the syllable (hap-py)
	// or closes the one before (rob-bin).
	switch {
	case s.From < s.Nucleus && isDouble(spelling, cut) && int(starts[s.From+1])-cut == 2:
		cut++
	case s.From == s.Nucleus && cut >= 2 && isDouble(spelling, cut-2) && s.From > 0 && int(starts[s.From-1]) == cut-2:
		cut--
	}
	return cut
}

func isDouble(spelling string, at int) bool {
	return at+1 < len(spelling) && spelling[at] == spelling[at+1] && !isVowelLetter(spelling[at])
}
