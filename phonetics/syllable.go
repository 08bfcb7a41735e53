package phonetics

import (
	"strings"

	"dandle/phonetics/arpabet"
	"dandle/phonetics/lexicon"
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
		if len(way.seams) == 0 {
			return []Syllable{{Nucleus: heldIn(sounds), To: len(sounds), End: len(spelling), Stress: arpabet.Primary}}
		}
		return shushed(spelling, way)
	}
	if (way.source == FromLexicon || way.source == FromInflection) && len(way.seams) == 0 && count > 1 {
		way.seams = halves(spelling, sounds)
	}
	w := aligned{spelling: spelling, sounds: sounds}
	if n := len(way.seams); n > 0 {
		w.part = way.seams[n-1].letter
	}
	if count > 1 && way.source != FromNumber { // digits spell no sounds
		w.starts, w.ok = align(strings.TrimRight(spelling, "'"), sounds)
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
			if at, ok := way.seamWithin(before.Nucleus, i); ok {
				s.From, s.Start = at.sound, at.letter
			} else {
				s.From = w.onsetStart(before.Nucleus, i)
				s.Start = w.cutBefore(s.From, i)
				if !w.ok {
					s.Start = len(spelling) * len(list) / count
				}
			}
			// Every syllable has a letter where there are letters enough.
			if n := len(list); len(spelling) >= count {
				s.Start = min(max(s.Start, before.Start+1), len(spelling)-count+n)
			}
			s.Start = min(max(s.Start, before.Start), len(spelling))
			before.To, before.End = s.From, s.Start
		}
		list = append(list, s)
	}
	return list
}

// halves finds where a word of the dictionary is two words of it, said as they
// are by themselves: cart-wheel, with-in. The second bears a stress of its own,
// which keeps "window" whole.
func halves(spelling string, sounds Sounds) []seam {
	for cut := shortestPart; cut <= len(spelling)-2; cut++ {
		first := lexicon.Lookup(spelling[:cut])
		if first.Len() == 0 {
			continue
		}
		second := lexicon.Lookup(spelling[cut:])
		for i := range first.Len() {
			n := len(first.At(i))
			if n == 0 || n >= len(sounds) || !first.At(i).SamePhones(sounds[:n]) || !isStressed(sounds[n:]) {
				continue
			}
			for k := range second.Len() {
				if second.At(k).SamePhones(sounds[n:]) {
					return []seam{{n, cut}}
				}
			}
		}
	}
	return nil
}

func isStressed(s Sounds) bool {
	return hasStress(s, arpabet.Primary) || hasStress(s, arpabet.Secondary)
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

// shushed are the syllables of a hyphenated word without a vowel: each part
// is one, as in psst-psst.
func shushed(spelling string, way reading) []Syllable {
	list := []Syllable{{Stress: arpabet.Primary}}
	for _, at := range way.seams {
		last := &list[len(list)-1]
		last.To, last.End = at.sound, at.letter
		list = append(list, Syllable{From: at.sound, Start: at.letter, Stress: arpabet.Secondary})
	}
	last := &list[len(list)-1]
	last.To, last.End = len(way.sounds), len(spelling)
	for i := range list {
		list[i].Nucleus = list[i].From + heldIn(way.sounds[list[i].From:list[i].To])
	}
	return list
}

// heldIn finds the consonant that stands in for the vowel in shh, psst or
// hmm: the first that can be held.
func heldIn(sounds Sounds) int {
	for i := range len(sounds) {
		if isHeld(sounds.At(i).Phone()) {
			return i
		}
	}
	return 0
}

// aligned are a word's sounds laid to its letters.
type aligned struct {
	spelling string
	sounds   Sounds
	starts   [longestAligned + 1]uint8
	ok       bool
	part     int // the letter at which the last part of a compound begins
}

// letters are those of sound i, or nothing where they are not known.
func (w *aligned) letters(i int) string {
	if !w.ok {
		return ""
	}
	return w.spelling[w.starts[i]:w.starts[i+1]]
}

// onsetStart finds where the syllable of the vowel at next begins. It takes
// the longest onset that English allows, with three exceptions that both the
// ear and the printer make:
//   - a stressed short vowel keeps one consonant for its own (rob-in, not
//     ro-bin), since it cannot stand open, save sh and zh spelt with an i
//     (na-tion), and the consonant of -ble (cou-ple);
//   - s and a stop part (mis-ter), save behind a prefix (re-spect);
//   - nothing else.
func (w *aligned) onsetStart(vowel, next int) int {
	sounds := w.sounds
	start := next
	for start > vowel+1 && legalOnset(sounds[start-1:next]) {
		start--
	}
	if start == next {
		return start
	}
	first := sounds.At(start).Phone()
	if start == vowel+1 && w.isChecked(vowel) && !w.opensAnyway(start, next) {
		return start + 1
	}
	if start == vowel+1 && first == arpabet.S && next-start > 1 && isPlosive(sounds.At(start+1).Phone()) && !w.isPrefixVowel(vowel, next) {
		return start + 1
	}
	return start
}

func isPlosive(p arpabet.Phone) bool { return p == arpabet.P || p == arpabet.T || p == arpabet.K }

// isPrefixVowel reports whether a vowel is that of re-, de-, be-, pre- or a-
// before a stressed syllable.
func (w *aligned) isPrefixVowel(vowel, next int) bool {
	if w.sounds.At(vowel).Stress() != arpabet.Unstressed || w.sounds.At(next).Stress() == arpabet.Unstressed || !w.ok {
		return false
	}
	switch w.spelling[:w.starts[vowel+1]] {
	case "re", "de", "be", "pre", "a", "pro":
		return true
	}
	return false
}

// isChecked reports whether the vowel at i is stressed and short. The long a
// of "father" shares its phoneme with the short o of "robin"; the letter
// tells them apart, as it tells the e of "period" from the i of "spirit".
func (w *aligned) isChecked(i int) bool {
	v := w.sounds.At(i)
	if v.Stress() == arpabet.Unstressed {
		return false
	}
	switch v.Phone() {
	case arpabet.AE, arpabet.AH, arpabet.EH, arpabet.UH, arpabet.OH:
		return !(v.Phone() == arpabet.UH && phoneAt(w.sounds, i+1) == arpabet.R)
	case arpabet.IH:
		return phoneAt(w.sounds, i+1) != arpabet.R || !strings.HasPrefix(w.letters(i), "e")
	case arpabet.AA:
		return !strings.HasPrefix(w.letters(i), "a") && phoneAt(w.sounds, i+1) != arpabet.R
	}
	return false
}

// opensAnyway reports whether the consonant at i opens the next syllable even
// behind a stressed short vowel.
func (w *aligned) opensAnyway(i, next int) bool {
	switch w.sounds.At(i).Phone() {
	case arpabet.SH, arpabet.ZH:
		return w.letters(i) != "sh"
	}
	return i+1 == next && next+2 == len(w.sounds) && strings.HasSuffix(w.spelling, "le") && len(w.letters(i)) == 1
}

// onsetPairs and onsetTriples are the consonant clusters that open English
// syllables (Roach, English Phonetics and Phonology, tables of initial
// clusters; from memory).
const (
	onsetPairs   = "PL PR PY BL BR BY TR TW TY DR DW DY KL KR KW KY GL GR GW FL FR FY VY THR THW SHR HHY MY NY SP ST SK SM SN SL SW LY "
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

// cutBefore is the letter at which the syllable begins whose first sound and
// vowel these are.
func (w *aligned) cutBefore(from, nucleus int) int {
	if !w.ok {
		return 0
	}
	cut := int(w.starts[from])
	spelling := w.spelling
	switch {
	case strings.HasSuffix(spelling, "ing") && nucleus+2 == len(w.sounds) && from >= nucleus-1 && w.keepsStem():
		return len(spelling) - 3 // jump-ing, tell-ing
	case strings.HasSuffix(spelling, "ing") && nucleus+2 == len(w.sounds) && from == nucleus-1 && !isDouble(spelling, len(spelling)-5) && lexicon.Has(w.stem()+"e"):
		return len(spelling) - 3 // smil-ing
	case from < nucleus && len(w.letters(from)) == 2 && spelling[cut] == 'l' && spelling[cut+1] != 'l' && spelling[cut+1] != 'e':
		return cut + 1 // talk-ing: the l is silent
	case from == nucleus && cut >= 2 && (spelling[cut-2:cut] == "dg" || spelling[cut-2:cut] == "pb"):
		return cut - 1 // bad-ger, cup-board
	case from < nucleus && isDouble(spelling, cut) && len(w.letters(from)) == 2:
		return cut + 1 // hap-py
	case from == nucleus && cut >= 2 && isDouble(spelling, cut-2) && len(w.letters(from-1)) == 2:
		return cut - 1 // rob-bin
	case cut < len(spelling) && spelling[cut] == 'x' && from < nucleus:
		return cut + 1 // ex-am-ple
	case from == nucleus && w.sounds.At(from-1).Phone() == arpabet.ER && cut >= 2 && spelling[cut-1] == 'r':
		// The r of a vowel before another may open the next syllable.
		if spelling[cut-2] == 'r' || spelling[cut-2] == 'u' || w.sounds.At(nucleus).Stress() != arpabet.Unstressed {
			return cut - 1 // cur-rent, nat-u-ral, di-rect
		}
	}
	return cut
}

// keepsStem reports whether the letters before -ing are a word: jump-ing,
// tell-ing. Where they doubled their last for it, the word without is better
// known: tap-ping, though a Tapp is in the dictionary.
func (w *aligned) keepsStem() bool {
	stem := w.stem()
	entries := lexicon.Lookup(stem)
	if entries.Len() == 0 {
		return false
	}
	n := len(stem)
	return n < 4 || !isDouble(stem, n-2) || lexicon.Lookup(stem[:n-1]).Familiarity() < entries.Familiarity()
}

// stem is the last part of the word without its -ing.
func (w *aligned) stem() string {
	end := len(w.spelling) - 3
	return w.spelling[min(w.part, end):end]
}

func isDouble(spelling string, at int) bool {
	return at >= 0 && at+1 < len(spelling) && spelling[at] == spelling[at+1] && !isVowelLetter(spelling[at])
}
