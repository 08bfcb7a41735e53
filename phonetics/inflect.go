package phonetics

import (
	"slices"
	"strings"

	"dandle/phonetics/arpabet"
	"dandle/phonetics/lexicon"
)

// A suffix is an ending that a known word may bear.
type suffix struct {
	letters string
	// spellings undo what the ending did to the word's last letters; they are
	// tried in order.
	spellings []respelt
	say       func(Sounds) Sounds
	// certainty is how far the letters are to be believed: many a word ends
	// in -er or -y that is no known word with an ending ("brigadier").
	certainty certainty
}

// certainty says whether an ending found is one.
type certainty uint8

const (
	sure     certainty = iota
	doubtful           // only where the letters say the same
)

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
	addsIc             // magic, magically
	addsIcal           // musical, musically
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
		if stem[n-1] == 'e' {
			return ""
		}
		return stem + "e"
	case yToI:
		if stem[n-1] == 'i' {
			return stem[:n-1] + "y"
		}
		return ""
	case addsS:
		return stem + "s"
	case addsLe:
		if isVowelLetter(stem[n-1]) {
			return ""
		}
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
	case addsIc:
		return stem + "ic"
	case addsIcal:
		return stem + "ical"
	}
	return stem
}

var (
	asIs        = []respelt{unchanged}
	beforeVowel = []respelt{unchanged, doubled, droppedE, yToI, addsK}
	beforeCons  = []respelt{unchanged, yToI}
)

// suffixes are the endings of English that leave the word's stress alone
// (class II suffixes: Kiparsky 1982, Siegel 1974; from memory), with those
// of older verse. Longer ones stand before those that end them.
var suffixes = []suffix{
	{"'s", asIs, addS, sure},
	{"s'", []respelt{addsS}, unaltered, sure},
	{"s's", []respelt{addsS}, addS, sure},
	{"ies", []respelt{droppedY}, addS, sure},
	{"es", []respelt{unchanged, droppedE, doubled}, addS, sure},
	{"s", asIs, addS, sure},
	{"ed", beforeVowel, addD, sure},
	{"'d", beforeVowel, addD, sure},
	{"ing", beforeVowel, adds("IH0 NG"), sure},
	{"ings", beforeVowel, adds("IH0 NG Z"), sure},
	{"edst", beforeVowel, func(s Sounds) Sounds { return addD(s) + sound("S T") }, sure},
	{"iest", []respelt{droppedY}, adds("AH0 S T"), sure},
	{"est", beforeVowel, adds("AH0 S T"), doubtful},
	{"'st", beforeVowel, adds("S T"), doubtful},
	{"eth", beforeVowel, adds("AH0 TH"), doubtful},
	{"iness", []respelt{droppedY}, adds("N AH0 S"), sure},
	{"ness", beforeCons, adds("N AH0 S"), sure},
	{"less", beforeCons, adds("L AH0 S"), sure},
	{"lessly", beforeCons, adds("L AH0 S L IY0"), sure},
	{"ful", beforeCons, adds("F AH0 L"), sure},
	{"fully", beforeCons, adds("F AH0 L IY0"), sure},
	{"fuls", beforeCons, adds("F AH0 L Z"), sure},
	{"ishly", beforeVowel, adds("IH0 SH L IY0"), sure},
	{"ish", beforeVowel, adds("IH0 SH"), sure},
	{"ically", []respelt{addsIc, addsIcal}, addCly, sure},
	{"ibly", asIs, adds("AH0 B L IY0"), doubtful},
	{"ably", beforeVowel, adds("AH0 B L IY0"), doubtful},
	{"able", beforeVowel, adds("AH0 B AH0 L"), doubtful},
	{"ily", []respelt{droppedY}, addIly, sure},
	{"ly", []respelt{unchanged, dropsFinal, addsLe}, addLy, sure},
	{"ier", []respelt{droppedY}, adds("ER0"), sure},
	{"er", beforeVowel, adds("ER0"), doubtful},
	{"ers", beforeVowel, adds("ER0 Z"), doubtful},
	{"erer", beforeVowel, adds("ER0 ER0"), doubtful},
	{"like", asIs, adds("L AY2 K"), sure},
	{"ward", asIs, adds("W ER0 D"), sure},
	{"wards", asIs, adds("W ER0 D Z"), sure},
	{"wise", asIs, adds("W AY2 Z"), sure},
	{"some", beforeCons, adds("S AH0 M"), sure},
	{"hood", beforeCons, adds("HH UH2 D"), sure},
	{"dom", asIs, adds("D AH0 M"), doubtful},
	{"ship", asIs, adds("SH IH2 P"), sure},
	{"fold", asIs, adds("F OW2 L D"), doubtful},
	{"most", asIs, adds("M OW2 S T"), doubtful},
	{"let", asIs, adds("L AH0 T"), doubtful},
	{"lets", asIs, adds("L AH0 T S"), doubtful},
	{"ling", asIs, adds("L IH0 NG"), doubtful},
	{"lings", asIs, adds("L IH0 NG Z"), doubtful},
	{"kin", asIs, adds("K IH0 N"), doubtful},
	{"kins", asIs, adds("K IH0 N Z"), doubtful},
	{"ette", asIs, adds("EH1 T"), doubtful},
	{"ment", beforeCons, adds("M AH0 N T"), doubtful},
	{"ster", asIs, adds("S T ER0"), doubtful},
	{"ie", beforeVowel, adds("IY0"), doubtful},
	{"ies", beforeVowel, adds("IY0 Z"), sure},
	{"y", []respelt{unchanged, doubled, droppedE, addsLe}, adds("IY0"), doubtful},
	{"th", asIs, adds("TH"), doubtful},
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

// suffixed takes an ending off and finds what it stood on. Where the letters
// leave two words open ("planed", of "plane" or of "plan"), the rules of
// spelling decide, and then the more familiar word.
func (r *Reader) suffixed(word string, find func(string) []reading) []reading {
	for i := range suffixes {
		e := &suffixes[i]
		stem, ok := strings.CutSuffix(word, e.letters)
		if !ok || len(stem) < 2 || !hasVowelLetter(stem) {
			continue
		}
		var best []reading
		base, score := "", -1
		for _, how := range e.spellings {
			word := how.undo(stem)
			if len(word) < 2 || how == unchanged && !standsBefore(stem, e.letters) {
				continue
			}
			known := lexicon.Lookup(word).Familiarity()
			if list := find(word); known > score && list != nil && isStem(word, list) {
				best, base, score = list, word, known
			}
		}
		if best != nil {
			if isVowelLetter(e.letters[0]) || e.letters == "ly" {
				best = beforeEnding(best, base, e.letters)
			}
			out := mapSounds(best, FromInflection, e.say)
			if e.letters == "'s" {
				seamBefore(out, best, len(stem))
			}
			if e.certainty == doubtful {
				out = r.besideGuess(word, out)
			}
			return out
		}
	}
	return nil
}

// beforeEnding is how a word sounds before an ending that begins with a vowel,
// or -ly: the -le of "fiddle" gives up its schwa (fiddling, wobbly), the -re of
// "hire" too (hiring), and a word with two places of stress has the verb's
// before the endings of verbs (converting).
func beforeEnding(ways []reading, base, ending string) []reading {
	out := slices.Clone(ways)
	latest := 0
	for i, way := range out {
		s := way.sounds
		n := len(s)
		switch {
		case strings.HasPrefix(ending, "e") && ending != "er" && ending != "ers":
			// fiddled and nimblest keep it
		case strings.HasSuffix(base, "le") && strings.HasSuffix(string(s), string(schwaL)) && n > 2 && !isVowelAt(s, n-3):
			out[i].sounds = s[:n-2] + lateral
		case strings.HasSuffix(base, "re") && isSoftER(s, n-1) && isVowelAt(s, n-2) && ending != "ly":
			out[i].sounds = s[:n-1] + soundR
		}
		if s.SyllableCount() == ways[0].sounds.SyllableCount() && mainStress(s) > mainStress(ways[latest].sounds) {
			latest = i
		}
	}
	switch ending {
	case "ed", "ing", "ings", "able", "er", "ers":
		if latest > 0 {
			for i := range out {
				out[i].cost += otherStressCost
			}
			out[latest].cost = 0
			out[0], out[latest] = out[latest], out[0]
		}
	}
	return out
}

// otherStressCost is what the noun's stress costs in a verb's inflection.
const otherStressCost = 1

// standsBefore reports whether an ending may follow a stem's letters as they
// are: -s not behind s, -es only behind a sibilant or o, and an ending in a
// vowel not behind one short vowel and one consonant ("planed" is of
// "plane", for "plan" would double its n).
func standsBefore(stem, ending string) bool {
	n := len(stem)
	last := stem[n-1]
	switch ending {
	case "s":
		return last != 's' && last != 'i'
	case "es":
		return strings.IndexByte("sxzo", last) >= 0 || strings.HasSuffix(stem, "ch") || strings.HasSuffix(stem, "sh")
	}
	if isVowelLetter(ending[0]) && (last == 'e' || strings.IndexByte("aou", last) >= 0 && ending != "ing" && ending != "er") {
		return ending == "ing" && strings.IndexByte("eyo", stem[n-2]) >= 0 || strings.HasPrefix(ending, "i") && ending != "ing"
	}
	if isVowelLetter(ending[0]) && n >= 2 && n <= 4 && !isVowelLetter(last) && last != 'x' && isVowelLetter(stem[n-2]) && stem[n-2] != 'w' {
		return n >= 3 && isVowelLetter(stem[n-3]) || countVowels(stem) > 1
	}
	return true
}

func countVowels(s string) int {
	n := 0
	for i := range len(s) {
		if isVowelLetter(s[i]) {
			n++
		}
	}
	return n
}

// costUnlike is what a doubtful inflection costs beside a guess that differs.
const costUnlike = 1

// besideGuess keeps an inflection first where the letters say the same, and
// puts it after what they say otherwise.
func (r *Reader) besideGuess(word string, list []reading) []reading {
	guess := r.guessed(word)
	if len(guess) == 0 || list[0].source == FromWriter {
		return list
	}
	letters, ours := lateralized(guess[0].sounds), lateralized(list[0].sounds)
	if soundAlike(letters, ours) && mainStress(letters) == mainStress(ours) {
		return list
	}
	for _, way := range list {
		way.cost += costUnlike
		guess = append(guess, way)
	}
	return guess
}

// lateralized drops the schwa that a voice may put before the l of "nibblers".
func lateralized(s Sounds) Sounds {
	return Sounds(strings.ReplaceAll(string(s), string(schwaL), string(lateral)))
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

// addLy says one l where two meet: fully, totally.
func addLy(s Sounds) Sounds {
	return Sounds(strings.TrimSuffix(string(s), string(lateral))) + lateral + finalY
}

// addCly makes -ically of -ic or -ical: both lose the al.
func addCly(s Sounds) Sounds {
	return Sounds(strings.TrimSuffix(string(s), string(schwaL))) + lateral + finalY
}

// addIly makes -ily of -y, whose vowel weakens.
func addIly(s Sounds) Sounds { return s[:len(s)-1] + schwa + lateral + finalY }

// prefixes leave the word's main stress where it is, and bear a second one.
// Longer ones stand before those that begin them.
var prefixes = []struct {
	letters string
	sounds  Sounds
}{
	{"o'er", sound("AO2 R")},
	{"under", sound("AH2 N D ER0")},
	{"super", sound("S UW2 P ER0")},
	{"inter", sound("IH2 N T ER0")},
	{"ultra", sound("AH2 L T R AH0")},
	{"semi", sound("S EH2 M IY0")},
	{"anti", sound("AE2 N T IY0")},
	{"over", sound("OW2 V ER0")},
	{"fore", sound("F AO2 R")},
	{"mega", sound("M EH2 G AH0")},
	{"mini", sound("M IH2 N IY0")},
	{"out", sound("AW2 T")},
	{"mis", sound("M IH0 S")},
	{"non", sound("N AA2 N")},
	{"dis", sound("D IH0 S")},
	{"pre", sound("P R IY2")},
	{"ker", sound("K ER0")},
	{"ka", sound("K AH0")},
	{"un", sound("AH0 N")},
	{"re", sound("R IY0")},
	{"be", sound("B IH0")},
	{"a", sound("AH0")},
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
		out[0].seams = append([]seam{{len(p.sounds), len(word) - len(stem)}}, out[0].shifted(len(p.sounds), len(word)-len(stem))...)
		if strings.ContainsAny(word, "'-") {
			return out
		}
		return r.besideGuess(word, out)
	}
	return nil
}
