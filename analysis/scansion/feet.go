package scansion

import "dandle/analysis/scansion/ear"

// divide parts a pattern into feet: it gives for each foot the index of the
// syllable it ends before. Rising feet end on their beat, falling feet start
// with it; what is left over at either end stands alone.
func divide(beats []bool, foot ear.Foot) []int {
	at := make([]int, 0, ear.MaxBeats) // of the beats
	for i, b := range beats {
		if b {
			at = append(at, i)
		}
	}
	if len(at) == 0 {
		return nil
	}
	ends := make([]int, 0, len(at)+2)
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

// expected is the plain line of a meter, in feet, with the opening and the
// ending of a reading where these are licensed: a line is told of its fault
// and not of its freedom.
func expected(beats []bool, foot ear.Foot, wanted int) string {
	o := outlineOf(beats)
	opening, ending := plainOpening[foot], plainEnding[foot]
	if (foot == ear.Anapestic || foot == ear.Mixed) && o.opening == 1 || foot == ear.Mixed && o.opening == 2 {
		opening = o.opening
	}
	if o.ending == 1 || o.ending < ending {
		ending = o.ending
	}
	pattern := make([]bool, 0, ear.MaxSyllables)
	slacks := func(n int) {
		for range n {
			pattern = append(pattern, false)
		}
	}
	slacks(opening)
	for b := range wanted {
		if b > 0 {
			slacks(ownGap(foot))
		}
		pattern = append(pattern, true)
	}
	slacks(ending)
	return inFeet(pattern, divide(pattern, foot))
}

// inFeet writes a pattern with its feet parted by bars.
func inFeet(beats []bool, ends []int) string {
	return pattern(len(beats), func(i int) bool { return beats[i] }, ends)
}
