package scansion

import (
	"dandle/analysis/manuscript"
	"dandle/analysis/scansion/ear"
)

// restCost is what a silent beat counts toward a line's being off, in units of
// the score: a pause can hold a beat, yet a reader must know to wait (ours).
const restCost = 1.5

// rest finds the pause in a line one beat short that a reader may fill with a
// silent beat: "The clock gave a cough — and stopped." A dash, a colon, an
// ellipsis or the end of a sentence parts the line there, no slack is left over
// from the foot that is not spoken, and everything else dances. It returns the
// syllable before which the silence falls.
func (l *Line) rest(h *heard, foot ear.Foot) (before int, found bool) {
	if _, beats := h.free(foot); beats != l.Beats-1 || foot == ear.Mixed {
		return 0, false
	}
	a := h.answer(foot, l.Beats-1)
	if !a.ok {
		return 0, false
	}
	o := outlineOf(a.Beats)
	for k := 0; k+1 < len(o.at); k++ {
		gap := o.gap(k)
		switch at, ok := l.pauseWithin(a.syllables, o.at[k]+1, o.at[k+1]); {
		case ok && gap <= ownGap(foot) && !found:
			before, found = at, true
		case gap != ownGap(foot):
			return 0, false
		}
	}
	return before, found
}

// pauseWithin is the first syllable in [from, to] that a heavy mark stands before.
func (l *Line) pauseWithin(s []Syllable, from, to int) (at int, found bool) {
	for i := from; i <= to; i++ {
		if breakBefore(l.Words, s, i) >= manuscript.HeavyBreak {
			return i, true
		}
	}
	return 0, false
}
