package phonetics

import (
	"slices"
	"strings"

	"dandle/phonetics/arpabet"
)

// A suffix is an ending that a known word may bear.
type suffix struct {
	letters string
	// spellings undo what the ending did to the word's last letters; they are
	// tried in order.
	spellings []respelt
	say       func(Sounds) Sounds
}

// A respelt undoes one change of letters before an ending.
type respelt uint8

const (
	unchanged  respelt = iota
	doubled            // hop, hopping
	droppedE           // hope, hoping
	yToI               // happy, happier
	addsS              // foxes, foxes'
	addsLe             // wobble, wobbly
	addsK              // picnic, picnicking
	droppedY           // giggly, giggliness keeps i: see yToI; sunny, sunnily
	dropsFinal         // full, fully: the ending's own l is the word's
)

// undo gives the word that the spelling makes of a stem, or nothing.
func (how respelt) undo(stem string) string {
	n := len(stem)
	switch how {
	case doubled:
		if n > 2 && stem[n-1] == stem[n-2] && !isVowelLetter(stem[n-1]) {
			return stem[:n-1]
		}
		return ""
	case droppedE:
		return stem + "e"
	case yToI:
		if stem[n-1] == 'i' {
			return stem[:n-1] + "y"
		}
		return ""
	case addsS:
		return stem + "s"
	case addsLe:
		return stem + "le"
	case addsK:
		if stem[n-1] == 'k' {
			return stem[:n-1]
		}
		return ""
	case droppedY:
		return stem + "y"
	case dropsFinal:
		return stem + "l"
	}
	return stem
}

var (
	asIs        = []respelt{unchanged}
	beforeS     = []respelt{unchanged, droppedE, yToI}
	beforeVowel = []respelt{unchanged, doubled, droppedE, yToI, addsK}
	beforeCons  = []respelt{unchanged, yToI}
)

// suffixes are the endings of English that leave the word's stress alone
// (class II suffixes: Kiparsky 1982, Siegel 1974; from memory), with those
// of older verse. Longer ones stand before those that end them.
var suffixes = []suffix{
	{"'s", asIs, addS}, {"s'", []respelt{addsS}, unaltered}, {"s's", []respelt{addsS}, addS},
	{"ies", []respelt{droppedY}, addS}, {"es", []respelt{unchanged, droppedE, doubled}, addS}, {"s", asIs, addS},
	{"ed", beforeVowel, addD}, {"'d", beforeVowel, addD},
	{"ing", beforeVowel, adds("IH0 NG")}, {"ings", beforeVowel, adds("IH0 NG Z")},
	{"edst", beforeVowel, func(s Sounds) Sounds { return addD(s) + sound("S T") }},
	{"est", beforeVowel, adds("AH0 S T")}, {"'st", beforeVowel, adds("S T")},
	{"eth", beforeVowel, adds("AH0 TH")},
	{"iness", []respelt{droppedY}, adds("N AH0 S")}, {"ness", beforeCons, adds("N AH0 S")},
	{"less", beforeCons, adds("L AH0 S")}, {"lessly", beforeCons, adds("L AH0 S L IY0")},
	{"ful", beforeCons, adds("F AH0 L")}, {"fully", beforeCons, adds("F AH0 L IY0")}, {"fuls", beforeCons, adds("F AH0 L Z")},
	{"ishly", beforeVowel, adds("IH0 SH L IY0")}, {"ish", beforeVowel, adds("IH0 SH")},
	{"ically", []respelt{unchanged}, adds("IH0 K L IY0")},
	{"ibly", asIs, adds("AH0 B L IY0")}, {"ably", beforeVowel, adds("AH0 B L IY0")}, {"able", beforeVowel, adds("AH0 B AH0 L")},
	{"ily", []respelt{droppedY}, addLy}, {"ly", []respelt{unchanged, dropsFinal, addsLe}, addLy},
	{"er", beforeVowel, addEr("ER0")}, {"ers", beforeVowel, addEr("ER0 Z")}, {"erer", beforeVowel, addEr("ER0 ER0")},
	{"ier", []respelt{droppedY}, adds("ER0")}, {"iest", []respelt{droppedY}, adds("AH0 S T")},
	{"like", asIs, adds("L AY2 K")}, {"ward", asIs, adds("W ER0 D")}, {"wards", asIs, adds("W ER0 D Z")},
	{"wise", asIs, adds("W AY2 Z")}, {"some", beforeCons, adds("S AH0 M")}, {"hood", beforeCons, adds("HH UH2 D")},
	{"dom", asIs, adds("D AH0 M")}, {"ship", asIs, adds("SH IH2 P")}, {"fold", asIs, adds("F OW2 L D")}, {"most", asIs, adds("M OW2 S T")},
	{"let", asIs, adds("L AH0 T")}, {"lets", asIs, adds("L AH0 T S")}, {"ling", asIs, adds("L IH0 NG")}, {"lings", asIs, adds("L IH0 NG Z")},
	{"kin", asIs, adds("K IH0 N")}, {"kins", asIs, adds("K IH0 N Z")}, {"ette", asIs, adds("EH1 T")},
	{"ment", beforeCons, adds("M AH0 N T")}, {"ster", asIs, adds("S T ER0")},
	{"ie", beforeVowel, adds("IY0")}, {"ies", beforeVowel, adds("IY0 Z")}, {"y", []respelt{unchanged, doubled, droppedE, addsLe}, addY},
	{"th", asIs, adds("TH")},
}

// inflected says a known word with an ending, or with two.
func (r *Reader) inflected(word string) []reading {
	// A word that the dictionary has beats one put together; so every ending
	// is tried on it first.
	if list := r.suffixed(word, r.base); list != nil {
		return list
	}
	return r.suffixed(word, r.inflectedOnce)
}

// inflectedOnce says a known word with one ending.
func (r *Reader) inflectedOnce(word string) []reading { return r.suffixed(word, r.base) }

// inflectedCompound says a compound, or a word with a prefix, and an ending.
func (r *Reader) inflectedCompound(word string) []reading {
	if list := r.suffixed(word, r.prefixed); list != nil {
		return list
	}
	return r.suffixed(word, r.sureCompound)
}

// suffixed takes an ending off and finds what it stood on.
func (r *Reader) suffixed(word string, find func(string) []reading) []reading {
	for i := range suffixes {
		e := &suffixes[i]
		stem, ok := strings.CutSuffix(word, e.letters)
		if !ok || len(stem) < 2 || !hasVowelLetter(stem) {
			continue
		}
		for _, how := range e.spellings {
			base := how.undo(stem)
			if len(base) < 2 {
				continue
			}
			if list := find(base); list != nil && isStem(base, list) {
				out := mapSounds(list, FromInflection, e.say)
				if e.letters == "'s" {
					seamBefore(out, list, len(stem))
				}
				return out
			}
		}
	}
	return nil
}

// seamBefore puts a seam before an ending that is a syllable of its own.
func seamBefore(out, bases []reading, letter int) {
	for i := range out {
		if base := bases[i].sounds; out[i].sounds.SyllableCount() > base.SyllableCount() {
			out[i].seams = append(slices.Clone(out[i].seams), seam{len(base), letter})
		}
	}
}

// isStem keeps names of two letters, and words of initials ("hiv"), from
// bearing endings.
func isStem(base string, list []reading) bool {
	s := list[0].sounds
	switch {
	case list[0].source == FromWriter:
		return true
	case len(base) > 2:
		return s.SyllableCount() > 0 && !isSpeltOut(base, s)
	}
	return strings.Contains(" go do be ax ox on up in ", " "+base+" ")
}

// isSpeltOut reports whether a word's sounds are the names of its letters.
func isSpeltOut(word string, s Sounds) bool {
	if s.SyllableCount() < len(word) {
		return false
	}
	for _, way := range letters(word) {
		return soundAlike(way.sounds, s)
	}
	return false
}

func hasVowelLetter(s string) bool { return strings.ContainsAny(s, "aeiouy") }

func unaltered(s Sounds) Sounds { return s }

func adds(text string) func(Sounds) Sounds {
	tail := sound(text)
	return func(s Sounds) Sounds { return s + tail }
}

// addS is the ending of plurals, of he walks and of possessives: it agrees in
// voice with the sound before it, and takes a vowel after a sibilant.
func addS(s Sounds) Sounds {
	switch s.At(len(s) - 1).Phone() {
	case arpabet.S, arpabet.Z, arpabet.SH, arpabet.ZH, arpabet.CH, arpabet.JH:
		return s + sibilantS
	case arpabet.P, arpabet.T, arpabet.K, arpabet.F, arpabet.TH:
		return s + voicelessS
	}
	return s + voicedS
}

// addD is the ending of the past: a syllable only after t and d.
func addD(s Sounds) Sounds {
	switch s.At(len(s) - 1).Phone() {
	case arpabet.T, arpabet.D:
		return s + syllabicD
	case arpabet.P, arpabet.K, arpabet.F, arpabet.TH, arpabet.S, arpabet.SH, arpabet.CH:
		return s + voicelessD
	}
	return s + voicedD
}

var (
	sibilantS  = sound("IH0 Z")
	voicelessS = sound("S")
	voicedS    = sound("Z")
	syllabicD  = sound("IH0 D")
	voicelessD = sound("T")
	voicedD    = sound("D")
	schwaL     = sound("AH0 L")
	lateral    = sound("L")
	finalY     = sound("IY0")
)

// markedEd says a word whose -èd is marked: the word without the mark, its
// ending a syllable.
func (r *Reader) markedEd(word string) []reading {
	plain := strings.ReplaceAll(word, "E", "e")
	list := r.base(plain)
	if list == nil {
		list = r.inflected(plain)
	}
	if len(list) == 0 {
		return nil
	}
	for _, way := range list {
		if n := len(way.sounds); n > 2 && isSchwa(way.sounds, n-2) {
			return []reading{{sounds: way.sounds, source: FromInflection}}
		}
	}
	return mapSounds(list[:1], FromInflection, func(s Sounds) Sounds { return s[:len(s)-1] + syllabicD })
}

// addLy drops the schwa of -le and one of two l's: wobbly, simply, fully.
func addLy(s Sounds) Sounds {
	if stem, ok := strings.CutSuffix(string(s), string(schwaL)); ok && len(stem) > 0 && !Sounds(stem).At(len(stem)-1).IsVowel() && isStop(Sounds(stem).At(len(stem)-1).Phone()) {
		return Sounds(stem) + lateral + finalY
	}
	return Sounds(strings.TrimSuffix(string(s), string(lateral))) + lateral + finalY
}

// addY drops the schwa of -le before it: crinkly.
func addY(s Sounds) Sounds {
	if stem, ok := strings.CutSuffix(string(s), string(schwaL)); ok && stem != "" && isStop(Sounds(stem).At(len(stem)-1).Phone()) {
		return Sounds(stem) + lateral + finalY
	}
	return s + finalY
}

// addEr likewise: a giggler, a wobbler.
func addEr(text string) func(Sounds) Sounds {
	tail := sound(text)
	return func(s Sounds) Sounds {
		if stem, ok := strings.CutSuffix(string(s), string(schwaL)); ok && stem != "" && isStop(Sounds(stem).At(len(stem)-1).Phone()) {
			return Sounds(stem) + lateral + tail
		}
		return s + tail
	}
}

func isStop(p arpabet.Phone) bool {
	switch p {
	case arpabet.P, arpabet.B, arpabet.T, arpabet.D, arpabet.K, arpabet.G, arpabet.Z, arpabet.S, arpabet.F:
		return true
	}
	return false
}

// prefixes leave the word's main stress where it is, and bear a second one.
// Longer ones stand before those that begin them.
var prefixes = []struct {
	letters string
	sounds  Sounds
}{
	{"o'er", sound("AO2 R")}, {"under", sound("AH2 N D ER0")}, {"super", sound("S UW2 P ER0")}, {"inter", sound("IH2 N T ER0")},
	{"ultra", sound("AH2 L T R AH0")}, {"semi", sound("S EH2 M IY0")}, {"anti", sound("AE2 N T IY0")},
	{"over", sound("OW2 V ER0")}, {"fore", sound("F AO2 R")}, {"mega", sound("M EH2 G AH0")}, {"mini", sound("M IH2 N IY0")},
	{"out", sound("AW2 T")}, {"mis", sound("M IH0 S")}, {"non", sound("N AA2 N")}, {"dis", sound("D IH0 S")},
	{"pre", sound("P R IY2")}, {"ker", sound("K ER0")}, {"ka", sound("K AH0")}, {"un", sound("AH0 N")}, {"re", sound("R IY0")}, {"be", sound("B IH0")}, {"a", sound("AH0")},
}

// prefixed says a known word of four letters and more behind a prefix, the
// word bearing an ending or not: unsnuffled.
func (r *Reader) prefixed(word string) []reading {
	for _, p := range prefixes {
		stem, ok := strings.CutPrefix(word, p.letters)
		if !ok || len(stem) < 4 {
			continue
		}
		stem, _ = strings.CutPrefix(stem, "-")
		list := r.base(stem)
		if list == nil {
			list = r.inflectedOnce(stem)
		}
		// The shortest prefixes begin many a word by chance.
		if list == nil || len(p.letters) < 2 && !strings.HasSuffix(stem, "ing") {
			continue
		}
		out := mapSounds(list[:1], FromInflection, func(s Sounds) Sounds { return p.sounds + s })
		out[0].seams = []seam{{len(p.sounds), len(word) - len(stem)}}
		return out
	}
	return nil
}
