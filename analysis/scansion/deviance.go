package scansion

import (
	"math"

	"dandle/analysis/manuscript"
	"dandle/analysis/scansion/ear"
)

// Evidence is what speaks for a line's being off, each part in the units of
// the ear's score (natural logarithms) and measured against the line's
// siblings: 0 is what most lines of its part stay within.
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
	// Crowded counts the strong syllables in a row, with no pause between,
	// over three.
	Crowded float64
	// Slack counts the slacks in a row over two.
	Slack float64
	// Wrenched is how much the longer words whose main stress stands in slack,
	// and another syllable on the beat, want it otherwise.
	Wrenched float64
	// Jammed counts the places where beats of triple meter stand side by side
	// with no pause between.
	Jammed float64
	// Hollow is 1 where the first of two light syllables is lifted to a beat
	// though most siblings open with two slacks; else 0.
	Hollow float64
	// Strange is Foreign again for a line that has none of its foot's own
	// gaps at all, and 0 for one that has some.
	Strange float64

	// licensed is set where the beats of its place fall where the voice would
	// put them anyway, with gaps that verse allows.
	licensed bool
	// The foot that would suit it best, and the beats it then has.
	foreignFoot  ear.Foot
	foreignBeats int
}

const evidenceSize = 12

func (e *Evidence) parts() [evidenceSize]*float64 {
	return [evidenceSize]*float64{&e.Forced, &e.Foreign, &e.Strained, &e.Worst, &e.Uneven, &e.Odd, &e.Crowded, &e.Slack, &e.Wrenched, &e.Jammed, &e.Hollow, &e.Strange}
}

// wrench is what a longer word out of its stress counts at least, whatever the
// verse of older poets has taught the ear to bear.
const wrench = 3

// willing is the most that a syllable may want to be otherwise in a line whose
// beats fall by themselves, and mostUneven what its gaps then count at most: a
// line of light feet is read at first sight (ours).
const (
	willing    = 1
	mostUneven = 3
)

// farOff stands for what no reading allows.
const farOff = 12

// evidence gathers it for a line by itself, before it is set against its
// siblings, as if its place wanted so many spoken beats.
func (h *heard) evidence(f *form, l *Line, wanted int) Evidence {
	var e Evidence
	forced := float64(h.scores[f.foot][min(wanted, ear.MaxBeats)])
	free, freeBeats := h.free(f.foot)
	best := math.Inf(-1)
	for foot := range ear.FootCount {
		if v, b := h.free(foot); v > best {
			best, e.foreignFoot, e.foreignBeats = v, foot, b
		}
	}
	a := h.answer(f.foot, wanted)
	r := &a.Reading
	if !a.ok || !ear.Possible(float32(forced)) {
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
	if wanted > 2 && int(e.Odd) == wanted-1 {
		e.Strange = e.Foreign
	}
	own, _ := h.read(f.foot, freeBeats)
	if from, to, _ := longestCrowd(l, own.Strong); to-from > 3 {
		e.Crowded = float64(to - from - 3)
	}
	o := outlineOf(r.Beats)
	for k := 0; ownGap(f.foot) > 1 && k+1 < len(o.at); k++ {
		if o.gap(k) == 0 && breakBefore(l.Words, a.syllables, o.at[k+1]) == manuscript.NoBreak {
			e.Jammed++
		}
	}
	if o.opening == 0 && len(o.at) > 1 && o.gap(0) == 1 && r.Light[0] && r.Light[1] {
		e.Hollow = 1
	}
	e.licensed = e.Worst <= willing && o.isLicensed(f.foot)
	run := 0
	for _, beat := range r.Beats {
		if run++; beat {
			run = 0
		}
		e.Slack = max(e.Slack, float64(run-2))
	}
	for i, beat := range r.Beats {
		if beat && l.wrenches(*r, i) {
			e.Wrenched += wrench + max(0, -float64(r.Lifts[i]))
		}
	}
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

// usualEvidence is what five lines of eight of a part stay within: a poem that
// takes liberties is held to its own measure, while three faults in a short
// piece do not pass for its measure yet.
func usualEvidence(all []Evidence) (usual Evidence) {
	if len(all) == 0 {
		return usual
	}
	column := make([]float64, len(all))
	for k, p := range usual.parts() {
		for i := range all {
			column[i] = *all[i].parts()[k]
		}
		*p = ranked(column, (len(column)-1)*5/8)
	}
	return usual
}

// isLicensed reports whether the gaps are the foot's own or a slack shorter.
func (o *outline) isLicensed(foot ear.Foot) bool {
	for k := 0; k+1 < len(o.at); k++ {
		if g := o.gap(k); g > ownGap(foot) || g < max(1, ownGap(foot)-1) {
			return false
		}
	}
	return true
}

// among drops what only some siblings make a fault of.
func (e *Evidence) among(f *form) {
	if f.opening != 2 {
		e.Hollow = 0
	}
}

// over leaves what goes beyond the usual.
func (e *Evidence) over(usual *Evidence) {
	limit := usual.parts()
	for k, p := range e.parts() {
		*p -= *limit[k]
	}
	if e.licensed {
		e.Uneven = min(e.Uneven, mostUneven)
	}
}

// deviance is how surely a line is off, 0 … 1.
func (e *Evidence) deviance() float64 {
	sum := devianceBias
	for k, p := range e.parts() {
		sum += devianceWeights[k] * *p
	}
	return 1 / (1 + math.Exp(-sum))
}

// offAt is the deviance from which on a line does not fit.
const offAt = 0.5

// The weights of a logistic function of the evidence. They were set by hand
// and compared by how well they tell lines broken on purpose from lines left
// alone in hand-scanned verse (area under the ROC curve 0.95 on the development
// half; weights from a logistic regression on breaks of our own making came to
// 0.94, since such breaks are more alike than writers' are). The bias calls one
// regular line of a hundred off.
const devianceBias = -3.55

var devianceWeights = [evidenceSize]float64{
	0.8,  // forced
	0.36, // foreign
	0.35, // strained
	0.1,  // worst
	0.3,  // uneven
	0.3,  // odd
	2.0,  // crowded
	1.7,  // slack
	0.8,  // wrenched
	2.2,  // jammed
	2.5,  // hollow
	0.3,  // strange
}
