package scansion

import (
	"math"
	"slices"

	"dandle/analysis/scansion/ear"
)

// Evidence is what speaks for a line's being off, each part in the units of
// the ear's score (natural logarithms) and measured against the line's
// siblings: 0 is what half the lines of the poem have.
type Evidence struct {
	// Forced is what it costs to give the line the beats of its place, over
	// the number that it would have by itself.
	Forced float64
	// Foreign is what it costs to read it in the poem's foot at all, over the
	// foot that would suit it best.
	Foreign float64
	// Strained is how much its syllables together want to be otherwise than
	// the meter has them.
	Strained float64
	// Worst is the most that one syllable does.
	Worst float64
	// Uneven is what its openings, gaps and ending cost over the plainest line.
	Uneven float64
	// Odd counts the gaps between beats that are not the foot's own.
	Odd float64
}

const evidenceSize = 6

func (e *Evidence) vector() [evidenceSize]float64 {
	return [evidenceSize]float64{e.Forced, e.Foreign, e.Strained, e.Worst, e.Uneven, e.Odd}
}

// farOff stands for what no reading allows.
const farOff = 12

// evidence gathers it for a line by itself, before it is set against its
// siblings.
func (h *heard) evidence(f *form, wanted int) Evidence {
	var e Evidence
	forced := float64(h.scores[f.foot][min(wanted, ear.MaxBeats)])
	free, _ := h.free(f.foot)
	best := math.Inf(-1)
	for foot := range ear.FootCount {
		if v, _ := h.free(foot); v > best {
			best = v
		}
	}
	r, ok := h.read(f.foot, wanted)
	if !ok || !ear.Possible(float32(forced)) {
		return Evidence{Forced: farOff, Foreign: farOff, Strained: farOff, Worst: farOff / 2, Uneven: farOff, Odd: 3}
	}
	e.Forced = min(free-forced, farOff)
	e.Foreign = min(best-forced, farOff)
	for i, beat := range r.Beats {
		off := float64(r.Lifts[i])
		if beat {
			off = -off
		}
		if off > 0 {
			e.Strained += off
			e.Worst = max(e.Worst, off)
		}
	}
	e.Uneven = -float64(r.Shape)
	e.Odd = float64(oddGaps(r.Beats, f.foot))
	return e
}

// oddGaps counts the gaps between beats that are not the foot's own.
func oddGaps(beats []bool, foot ear.Foot) int {
	own := 2
	switch foot {
	case ear.Iambic, ear.Trochaic:
		own = 1
	case ear.Mixed:
		own = 0
	}
	last, odd := -1, 0
	for i, b := range beats {
		if !b {
			continue
		}
		if last >= 0 {
			gap := i - last - 1
			if own > 0 && gap != own || own == 0 && gap != 1 && gap != 2 {
				odd++
			}
		}
		last = i
	}
	return odd
}

// against sets each line's evidence against the middle of its siblings.
func against(all []Evidence) {
	if len(all) == 0 {
		return
	}
	columns := make([][]float64, evidenceSize)
	for i := range all {
		for k, v := range all[i].vector() {
			columns[k] = append(columns[k], v)
		}
	}
	var middle [evidenceSize]float64
	for k := range columns {
		slices.Sort(columns[k])
		middle[k] = columns[k][len(columns[k])/2]
	}
	for i := range all {
		e := &all[i]
		for k, p := range []*float64{&e.Forced, &e.Foreign, &e.Strained, &e.Worst, &e.Uneven, &e.Odd} {
			*p -= middle[k]
		}
	}
}

// deviance is how surely a line is off, 0 … 1.
func (e *Evidence) deviance() float64 {
	sum := devianceBias
	for k, v := range e.vector() {
		sum += devianceWeights[k] * v
	}
	return 1 / (1 + math.Exp(-sum))
}

// offAt is the deviance from which on a line does not fit.
const offAt = 0.5

var (
	devianceBias    = -4.0
	devianceWeights = [evidenceSize]float64{1, 0.3, 0.3, 0.2, 0.3, 0.3}
)
