package phonetics

import (
	"iter"
	"slices"

	"dandle/phonetics/arpabet"
	"dandle/phonetics/lexicon"
)

// An Ending is a word of the dictionary that ends in some sounds, as it is said.
type Ending struct {
	Word   string // in the dictionary's form
	Sounds Sounds
	At     int // where the end begins in Sounds
}

// Stressed reports whether the end's first vowel is stressed, or the only one.
func (e *Ending) Stressed() bool {
	return e.Sounds.At(e.At).Stress() != arpabet.Unstressed || e.Sounds.SyllableCount() == 1
}

// EndingIn yields the words of the dictionary that end in the phones of a tail,
// which begins with a vowel, in the reader's dialect and whatever their stresses.
// A word comes once for each way to say it.
func (r *Reader) EndingIn(tail Sounds) iter.Seq[Ending] {
	return func(yield func(Ending) bool) {
		for _, source := range sources(tail, r.dialect) {
			for word, sounds := range lexicon.EndingInPhones(source) {
				said := r.Accent(word, sounds)
				if at := len(said) - len(tail); at >= 0 && said[at:].SamePhones(tail) && !yield(Ending{word, said, at}) {
					return
				}
			}
		}
	}
}

// Rhyming lists those of EndingIn that are stressed at the tail: what rhymes with
// a stressed end. It remembers some hundred tails, for the ends of a verse are
// asked for again and again, and of a common one there are thousands.
func (r *Reader) Rhyming(tail Sounds) []Ending {
	if list, known := r.memory.rhymes.find(tail); known {
		return list
	}
	var list []Ending
	for e := range r.EndingIn(tail) {
		if e.Stressed() {
			list = append(list, e)
		}
	}
	r.memory.rhymes.keep(tail, slices.Clip(list))
	return list
}

// origins are the sounds of General American, which the dictionary has, that
// may have become a sound of Southern British: see phonetics.Feature. The first
// of each is the sound itself. An R in it stands behind a vowel only.
var origins = map[arpabet.Phone][]string{
	arpabet.AA: {"AA", "AA R", "AE"},           // palm, start, bath
	arpabet.OH: {"AA", "AO"},                   // lot, cloth
	arpabet.AO: {"AO", "AO R", "OW R"},         // thought, north, force
	arpabet.AH: {"AH", "ER", "AO", "OW", "EH"}, // comma, letter, territory, ceremony, secretary
	arpabet.IH: {"IH", "IY", "AH"},             // kit, near, rabbit
	arpabet.UH: {"UH", "UW"},                   // foot, cure
	arpabet.EH: {"EH", "EY"},                   // dress, square
	arpabet.AE: {"AE", "EH"},                   // trap, marry
	arpabet.AY: {"AY", "AH"},                   // price, fragile
	arpabet.ER: {"ER"},
}

// mostSources bounds the ends that are looked up for one tail.
const mostSources = 48

// sources are the ends in the dictionary, which speaks General American, that
// a dialect may turn into a tail. Those that it does not are for the caller to
// leave out.
func sources(tail Sounds, d Dialect) []Sounds {
	if d == EnUS {
		return []Sounds{tail}
	}
	list := []Sounds{""}
	for i := range len(tail) {
		var longer []Sounds
		for _, s := range list {
			for _, next := range originsOf(tail, i) {
				longer = append(longer, s+next)
			}
		}
		list = longer[:min(len(longer), mostSources)]
	}
	return list
}

// originsOf are what the sound at a place may come from.
func originsOf(tail Sounds, i int) []Sounds {
	s, own := tail.At(i), tail[i:i+1]
	if s.Phone() == arpabet.R && i > 0 && tail.At(i-1).Phone() != arpabet.AA {
		return []Sounds{own, ""} // the r of "hurry" is part of its vowel in America
	}
	var list []Sounds
	for _, text := range origins[s.Phone()] {
		phones, err := arpabet.Parse(text)
		if err != nil {
			continue // a test reads them all
		}
		list = append(list, Sounds([]byte{byte(arpabet.Make(phones.At(0).Phone(), s.Stress()))})+phones[1:])
	}
	if list == nil {
		return []Sounds{own}
	}
	return list
}
