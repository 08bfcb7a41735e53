package suggest

import (
	"dandle/phonetics"
	"dandle/phonetics/arpabet"
)

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
func sources(tail arpabet.Sounds, d phonetics.Dialect) []arpabet.Sounds {
	if d == phonetics.EnUS {
		return []arpabet.Sounds{tail}
	}
	list := []arpabet.Sounds{""}
	for i := range len(tail) {
		var longer []arpabet.Sounds
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
func originsOf(tail arpabet.Sounds, i int) []arpabet.Sounds {
	s, own := tail.At(i), tail[i:i+1]
	if s.Phone() == arpabet.R && i > 0 && tail.At(i-1).Phone() != arpabet.AA {
		return []arpabet.Sounds{own, ""} // the r of "hurry" is part of its vowel in America
	}
	var list []arpabet.Sounds
	for _, text := range origins[s.Phone()] {
		phones, err := arpabet.Parse(text)
		if err != nil {
			continue // a test reads them all
		}
		list = append(list, arpabet.Sounds([]byte{byte(arpabet.Make(phones.At(0).Phone(), s.Stress()))})+phones[1:])
	}
	if list == nil {
		return []arpabet.Sounds{own}
	}
	return list
}
