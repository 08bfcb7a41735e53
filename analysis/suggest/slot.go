package suggest

import (
	"math"

	"dandle/analysis/scansion"
	"dandle/phonetics/arpabet"
)

// A slot is what a line still wants after what stands in it.
type slot struct {
	// lead is how likely it is, as a logarithm, that so many syllables come
	// before the last beat.
	lead [slotLimit]float64
	// beat is how the syllables before the last beat alternate: beats stand
	// this many syllables apart; 0 where the verse keeps no meter.
	stride int
	// typed are the stresses of what stands before the slot, last first.
	typed []arpabet.Stress
	known bool
}

// slotLimit bounds what one word may fill.
const slotLimit = 7

// unlikely is the logarithm for a lead that nothing speaks for.
const unlikely = -4.5

// slotAt works out the slot of a line of which the first n words stand. Three
// things tell how long the line should be up to its last beat: the pattern
// that its place calls for, its mate, and other lines at its place.
func slotAt(poem *scansion.Poem, line, n int, peers []int) slot {
	var s slot
	for i := range s.lead {
		s.lead[i] = unlikely
	}
	l := &poem.Lines[line]
	have := 0
	for _, w := range l.Words[:n] {
		if len(w.Ways) > 0 {
			have += len(w.Ways[0].Syllables)
			for _, y := range w.Ways[0].Syllables {
				s.typed = append(s.typed, y.Stress)
			}
		}
	}
	var weight [40]float64
	add := func(length int, w float64) {
		if 0 <= length && length < len(weight) {
			weight[length] += w
			s.known = true
		}
	}
	if length, ok := lastBeat(l.Expected); ok {
		add(length, 2)
	}
	for i, p := range peers {
		if length, ok := beatLength(&poem.Lines[p]); ok {
			w := 1.0
			if i == 0 {
				w = 2 // the mate
			}
			add(length, w)
		}
	}
	if !s.known {
		return s
	}
	total := 0.0
	for _, w := range weight {
		total += w
	}
	for lead := range s.lead {
		// One syllable more or less is a licence; two are rare.
		p := 0.0
		for length, w := range weight {
			switch d := have + lead - length; d {
			case 0:
				p += w
			case 1, -1:
				p += 0.12 * w
			case 2, -2:
				p += 0.02 * w
			}
		}
		s.lead[lead] = max(unlikely, math.Log(p/total+1e-6))
	}
	switch poem.Meter.Foot {
	case scansion.Iambic, scansion.Trochaic:
		s.stride = 2
	case scansion.Anapestic, scansion.Dactylic, scansion.Amphibrachic:
		s.stride = 3
	}
	return s
}

// lastBeat is the number of syllables before the last beat of a pattern.
func lastBeat(pattern string) (int, bool) {
	n, last := 0, -1
	for _, c := range []byte(pattern) {
		switch c {
		case '/':
			last = n
			n++
		case 'x':
			n++
		}
	}
	return last, last >= 0
}

// beatLength is the number of syllables before the last beat of a line.
func beatLength(l *scansion.Line) (int, bool) {
	for i := len(l.Reading.Syllables) - 1; i >= 0; i-- {
		if l.Reading.Syllables[i].Beat {
			return i, true
		}
	}
	return 0, false
}
