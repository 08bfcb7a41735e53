package scansion

import (
	"strings"

	"dandle/analysis/scansion/ear"
)

// divide parts a pattern into feet: it gives for each foot the index of the
// syllable it ends before. Rising feet end on their beat, falling feet start
// with it; what is left over at either end stands alone.
func divide(beats []bool, foot ear.Foot) []int {
	var at []int // of the beats
	for i, b := range beats {
		if b {
			at = append(at, i)
		}
	}
	if len(at) == 0 {
		return nil
	}
	var ends []int
	cut := func(i int) {
		if i > 0 && i < len(beats) && (len(ends) == 0 || ends[len(ends)-1] < i) {
			ends = append(ends, i)
		}
	}
	switch foot {
	case ear.Trochaic, ear.Dactylic:
		for _, i := range at {
			cut(i)
		}
	case ear.Amphibrachic:
		for k, i := range at {
			switch {
			case k+1 == len(at):
				cut(i + 2)
			case at[k+1]-i > 1:
				cut(i + 2)
			default:
				cut(i + 1)
			}
		}
	default:
		for k, i := range at {
			inverted := foot == ear.Iambic && k+1 < len(at) && at[k+1]-i == 3 && (i == 0 || k > 0 && at[k-1] == i-1)
			if inverted {
				cut(i + 2) // "/x" for "x/", after which the next foot is plain
			} else {
				cut(i + 1)
			}
		}
	}
	return append(ends, len(beats))
}

// unit is the plain foot.
var unit = [ear.FootCount]string{"x/", "/x", "xx/", "/xx", "x/x", "x/"}

// plain is a meter's plain line of so many beats, in feet, with the opening
// and the ending that its poem prefers, as counts of slacks.
func plain(foot ear.Foot, beats, opening, ending int) string {
	gap := 2
	if foot == ear.Iambic || foot == ear.Trochaic || foot == ear.Mixed {
		gap = 1
	}
	var pattern []bool
	for range opening {
		pattern = append(pattern, false)
	}
	for b := range beats {
		if b > 0 {
			for range gap {
				pattern = append(pattern, false)
			}
		}
		pattern = append(pattern, true)
	}
	for range ending {
		pattern = append(pattern, false)
	}
	return joinFeet(pattern, divide(pattern, foot))
}

func joinFeet(beats []bool, ends []int) string {
	var b strings.Builder
	for i, beat := range beats {
		for len(ends) > 0 && ends[0] <= i {
			b.WriteByte('|')
			ends = ends[1:]
		}
		if beat {
			b.WriteByte('/')
		} else {
			b.WriteByte('x')
		}
	}
	return b.String()
}
