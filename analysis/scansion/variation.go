package scansion

import (
	"dandle/analysis/scansion/ear"
	"dandle/phonetics/arpabet"
)

// outline is a pattern as distances: slacks before the first beat, between
// beats, and after the last.
type outline struct {
	opening, ending int
	at              []int // the beats' places
}

func outlineOf(beats []bool) outline {
	o := outline{at: make([]int, 0, ear.MaxBeats)}
	for i, b := range beats {
		if b {
			o.at = append(o.at, i)
		}
	}
	if len(o.at) == 0 {
		return outline{opening: len(beats)}
	}
	o.opening = o.at[0]
	o.ending = len(beats) - 1 - o.at[len(o.at)-1]
	return o
}

// gap is the number of slacks between beat k and the next.
func (o *outline) gap(k int) int { return o.at[k+1] - o.at[k] - 1 }

// rising reports whether a foot ends on its beat.
func rising(f ear.Foot) bool { return f == ear.Iambic || f == ear.Anapestic || f == ear.Mixed }

// ownGap is the number of slacks between the beats of a plain line.
func ownGap(f ear.Foot) int {
	if f == ear.Iambic || f == ear.Trochaic {
		return 1
	}
	return 2
}

// plainOpening and plainEnding are the slacks at the ends of a plain line.
var (
	plainOpening = [ear.FootCount]int{1, 0, 2, 0, 1, 1}
	plainEnding  = [ear.FootCount]int{0, 1, 0, 2, 1, 0}
)

// variations names where a reading departs from its meter's plain line.
func variations(beats []bool, foot ear.Foot) []Variation {
	o := outlineOf(beats)
	if len(o.at) == 0 {
		return nil
	}
	var list []Variation
	add := func(k VariationKind, from, to int) { list = append(list, Variation{k, from, to}) }
	n := len(beats)
	skip := -1 // the gap that an inversion has used up
	switch want := plainOpening[foot]; {
	case foot == ear.Mixed || o.opening == want:
	case o.opening > want && want == 0:
		add(Anacrusis, 0, o.opening)
	case o.opening > want:
		add(ExtraSlack, 0, o.opening)
	case foot == ear.Iambic && len(o.at) > 1 && o.gap(0) == 2:
		add(Inversion, 0, 2)
		skip = 0
	case foot == ear.Anapestic && o.opening == 1:
		add(LightFoot, 0, 2)
	default:
		add(Headless, 0, 1)
	}
	for k := 0; k+1 < len(o.at); k++ {
		if k == skip {
			continue
		}
		gap, from, to := o.gap(k), o.at[k], o.at[k+1]+1
		switch {
		case foot == ear.Iambic && gap == 0 && k+2 < len(o.at) && o.gap(k+1) == 2:
			add(Inversion, o.at[k+1], o.at[k+1]+2)
			skip = k + 1
		case gap == 0:
			add(Clash, from, to)
		case foot == ear.Mixed:
		case gap > ownGap(foot):
			add(ExtraSlack, from+1, to)
		case gap < ownGap(foot):
			add(LightFoot, from+1, to)
		}
	}
	switch {
	case rising(foot) && o.ending == 1:
		add(FeminineEnding, n-1, n)
	case rising(foot) && o.ending > 1:
		add(TripleEnding, n-o.ending, n)
	case o.ending < plainEnding[foot]:
		add(Catalexis, n-1, n)
	case !rising(foot) && o.ending > plainEnding[foot]:
		add(ExtraSlack, n-o.ending, n)
	}
	return list
}

// lightEnding is the last beat where only the meter lifts it: the unstressed
// syllable that ends a longer word, as in "poetry" rhymed with "be" (Housman;
// the name from memory).
func lightEnding(s []Syllable) []Variation {
	last := len(s) - 1
	for last >= 0 && !s[last].Beat {
		last--
	}
	if last < 1 || s[last].Stress != arpabet.Unstressed || s[last-1].Word != s[last].Word {
		return nil
	}
	return []Variation{{LightEnding, last, last + 1}}
}
