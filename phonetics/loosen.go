package phonetics

import (
	"strings"

	"dandle/phonetics/arpabet"
)

// What the optional syllables cost, in natural logarithms: about 0.3 for a
// form as usual as the full one, 0.7 for one half as usual, 1.5 for one that
// only verse takes. The classes are those of Wells (Longman Pronunciation
// Dictionary, on compression; from memory) and of the handbooks' elision
// (synaeresis, syncope); the figures are ours.
const (
	costFire    = 0.3 // fire, hour: one syllable or two
	costFlower  = 0.7 // flower, tower, where -er is written
	costSyncope = 0.6 // family, opening: a schwa before r, l, n and a weak vowel
	costGlide   = 0.6 // curious, usual: i and u as y and w
	costTowel   = 0.7 // towel, cruel, real: a vowel takes up a schwa before l
	costQuiet   = 1.2 // quiet, poem, being, lion: two vowels said as one
	costHeaven  = 1.5 // heaven, seven, spirit, prism: verse only
	costMany    = 1.2 // many a, merry as: the last vowel glides into the next word
)

// mostLoose bounds the forms that one reading is loosened into.
const mostLoose = 3

// loosen adds the ways in which a word gains or loses a weak syllable.
func loosen(word string, list []reading, beside *surroundings) []reading {
	n := len(list)
	for i := range n {
		way := list[i]
		if way.source == FromWriter || way.source == FromElision || len(list) >= mostReadings {
			continue
		}
		s := way.sounds
		made := 0
		for at := 0; at < len(s) && made < mostLoose; at++ {
			if !s.At(at).IsVowel() {
				continue
			}
			if _, ends := way.seamWithin(at, at+1); ends {
				continue // nothing is said across the parts of a word
			}
			if form, cost := loosenAt(word, way, at); cost != 0 && len(list) < mostReadings {
				form.cost = way.cost + cost
				list = append(list, form)
				made++
			}
		}
		if s.SyllableCount() > 1 && s.At(len(s)-1) == arpabet.Make(arpabet.IY, arpabet.Unstressed) && len(list) < mostReadings && opensWithWeakVowel(beside.after()) {
			form := way.replace(len(s)-1, 1, glideY)
			form.cost += costMany
			list = append(list, form)
		}
	}
	return settleUsual(word, list)
}

var (
	glideY = sound("Y")
	glideW = sound("W")
	soundR = sound("R")
	softER = sound("ER0")
	schwa  = sound("AH0")
)

// loosenAt gives the form that a reading has when its vowel at i is dropped
// or split, and what that costs; a cost of 0 is no such form.
func loosenAt(word string, way reading, i int) (reading, float32) {
	s := way.sounds
	v := s.At(i)
	next := phoneAt(s, i+1)
	if v.Stress() != arpabet.Unstressed {
		switch v.Phone() {
		case arpabet.AY, arpabet.AW:
			// fire, hour
			if next == arpabet.R && !isVowelAt(s, i+2) {
				return way.replace(i+1, 1, softER), costFire
			}
			if isSoftER(s, i+1) && !isVowelAt(s, i+2) {
				cost := float32(costFlower)
				switch {
				case strings.Contains(word, "ower"):
				case strings.Contains(word, "ir") || strings.Contains(word, "our"):
					cost = costFire
				default:
					cost = costQuiet // higher, liar: an ending's own syllable
				}
				return way.replace(i+1, 1, soundR), cost
			}
		case arpabet.IY:
			// real, ideal
			if next == arpabet.L && (strings.Contains(word, "real") || word == "ideal" || word == "ideals") {
				return way.replace(i+1, 0, schwa), costFire
			}
		}
		if isSchwa(s, i+1) && isWeakSyllableAfter(s, i+1) {
			if phoneAt(s, i+2) == arpabet.L {
				return way.replace(i+1, 1, ""), costTowel
			}
			if v.Phone() != arpabet.OW || phoneAt(s, i+2) != arpabet.NoPhone {
				return way.replace(i+1, 1, ""), costQuiet
			}
		}
		// heaven, given, evil
		if (next == arpabet.V || next == arpabet.R && v.Phone() == arpabet.IH) && isSchwa(s, i+2) && i+4 == len(s) &&
			(phoneAt(s, i+3) == arpabet.N || phoneAt(s, i+3) == arpabet.L || phoneAt(s, i+3) == arpabet.T && next == arpabet.R) {
			return way.replace(i+2, 1, ""), costHeaven
		}
		return way, 0
	}
	switch v.Phone() {
	case arpabet.ER:
		// wandering, memory
		if isWeakAt(s, i+1) && i > 1 {
			return way.replace(i, 1, soundR), costSyncope
		}
	case arpabet.AH, arpabet.IH:
		// prism, rhythm
		if next == arpabet.M && i+2 == len(s) && (phoneAt(s, i-1) == arpabet.Z || phoneAt(s, i-1) == arpabet.DH) && (strings.HasSuffix(word, "sm") || strings.HasSuffix(word, "thm")) {
			return way.replace(i, 1, ""), costHeaven
		}
		// family, opening, chocolate
		if (next == arpabet.R || next == arpabet.L || next == arpabet.N) && isWeakAt(s, i+2) && i > 1 && !isVowelAt(s, i-1) {
			return way.replace(i, 1, ""), costSyncope
		}
	case arpabet.IY:
		if isWeakAt(s, i+1) && i > 1 && !isVowelAt(s, i-1) {
			if isSoftER(s, i+1) && i+2 >= len(s) {
				return way.replace(i, 1, glideY), costQuiet // happier: the ending keeps its syllable
			}
			return way.replace(i, 1, glideY), costGlide
		}
	case arpabet.UW:
		if isWeakAt(s, i+1) && i > 1 {
			return way.replace(i, 1, glideW), costGlide
		}
	}
	return way, 0
}

func phoneAt(s Sounds, i int) arpabet.Phone {
	if i < 0 || i >= len(s) {
		return arpabet.NoPhone
	}
	return s.At(i).Phone()
}

func isVowelAt(s Sounds, i int) bool { return phoneAt(s, i).IsVowel() }

func isWeakAt(s Sounds, i int) bool {
	return isVowelAt(s, i) && s.At(i).Stress() == arpabet.Unstressed
}

func isSoftER(s Sounds, i int) bool { return phoneAt(s, i) == arpabet.ER && isWeakAt(s, i) }

func isSchwa(s Sounds, i int) bool {
	return isWeakAt(s, i) && (s.At(i).Phone() == arpabet.AH || s.At(i).Phone() == arpabet.IH)
}

// isWeakSyllableAfter reports whether the weak vowel at i closes with a
// consonant, as in quiet and being; idea and Noah keep their two syllables.
func isWeakSyllableAfter(s Sounds, i int) bool { return i+1 < len(s) && !isVowelAt(s, i+1) }

// replace changes n sounds at i, and moves the seams behind them.
func (way reading) replace(i, n int, by Sounds) reading {
	way.sounds = way.sounds[:i] + by + way.sounds[i+n:]
	if shift := len(by) - n; shift != 0 && len(way.seams) > 0 {
		seams := make([]seam, len(way.seams))
		copy(seams, way.seams)
		for j := range seams {
			if seams[j].sound > i {
				seams[j].sound += shift
			}
		}
		way.seams = seams
	}
	return way
}

// opensWithWeakVowel reports whether the next word is one of grammar that
// begins with a vowel.
func opensWithWeakVowel(word string) bool {
	switch strings.ToLower(word) {
	case "a", "an", "and", "as", "at", "in", "of", "is", "it", "on", "or", "are", "our", "i", "if", "another", "one", "us", "am":
		return true
	}
	return false
}

// shortForms are the words whose short form is the usual one (marked so in
// Wells; from memory), and that the full one costs.
var shortForms = map[string]float32{
	"every": 0.7, "everything": 0.7, "everyone": 0.7, "everybody": 0.7, "everywhere": 0.7, "everyday": 0.7,
	"family": 0.3, "families": 0.3, "chocolate": 0.9, "chocolates": 0.9, "camera": 0.4, "cameras": 0.4, "different": 0.5, "differently": 0.5,
	"evening": 1.5, "evenings": 1.5, "several": 0.5, "business": 2, "favorite": 0.5, "favourite": 0.5, "favorites": 0.5, "favourites": 0.5,
	"vegetable": 0.7, "vegetables": 0.7, "comfortable": 0.7, "interesting": 0.4, "interest": 0.7, "interested": 0.7, "temperature": 0.4,
	"average": 0.5, "restaurant": 0.5, "general": 0.4, "generally": 0.5, "natural": 0.4, "naturally": 0.6, "separate": 0.3, "desperate": 0.5,
	"aspirin": 0.7, "broccoli": 0.2, "fire": 0.4, "fires": 0.4, "hour": 0.4, "hours": 0.4, "ours": 0.4, "tired": 0.4, "wire": 0.4, "sour": 0.4,
	"flour": 0.4, "scour": 0.4, "choir": 0.4, "desire": 0.4, "squire": 0.4, "spire": 0.4, "hire": 0.4, "hired": 0.4, "fired": 0.4,
	"opening": 0.3, "listening": 0.4, "marriage": 2, "carriage": 2, "parliament": 2, "miniature": 0.4, "actually": 0.4, "usually": 0.3,
}

// settleUsual puts the short form first where it is the usual one.
func settleUsual(word string, list []reading) []reading {
	cost, ok := shortForms[word]
	if !ok {
		return list
	}
	least := list[0].sounds.SyllableCount()
	for _, way := range list {
		least = min(least, way.sounds.SyllableCount())
	}
	if least == list[0].sounds.SyllableCount() {
		return list
	}
	first := true
	for i := range list {
		switch {
		case list[i].sounds.SyllableCount() > least:
			list[i].cost += cost
		case first:
			list[i].cost, first = 0, false
		}
	}
	return list
}
