package scansion

import (
	"dandle/analysis/manuscript"
	"dandle/analysis/scansion/ear"
)

// crowd is the number of strong syllables in a row, with no pause between,
// that a reader cannot dance through (ours: three are slow, four stop).
const crowd = 4

// cause finds where an off line loses the meter, and how. l has been read
// already; h is what was heard in it.
func (l *Line) cause(h *heard, f *form) *Break {
	_, heardBeats := h.free(f.foot)
	forced, ok := h.read(f.foot, l.Beats)
	own, _ := h.read(f.foot, heardBeats)
	if from, to, found := longestCrowd(l, own.Strong); found && to-from >= crowd {
		return l.broken(CrowdedStress, from, to)
	}
	switch {
	case !ok && len(l.Reading.Syllables) < l.Beats || heardBeats < l.Beats:
		from, to := l.hole(own.Beats, f.foot)
		return l.broken(MissingBeat, from, to)
	case heardBeats > l.Beats:
		from, to := l.surplus(f)
		return l.broken(ExtraBeat, from, to)
	}
	return l.local(forced, f)
}

// broken makes the break out of the syllables that it lies in.
func (l *Line) broken(c Cause, from, to int) *Break {
	s := l.Reading.Syllables
	from = max(0, min(from, len(s)-1))
	to = max(from+1, min(to, len(s)))
	span := manuscript.Span{
		Start: l.Words[s[from].Word].Span.Start,
		End:   l.Words[s[to-1].Word].Span.End,
	}
	return &Break{Cause: c, From: from, To: to, Span: span}
}

// longestCrowd is the longest run of strong syllables with no pause in it.
func longestCrowd(l *Line, strong []bool) (from, to int, found bool) {
	if len(strong) != len(l.Reading.Syllables) {
		return 0, 0, false
	}
	start := 0
	for i := range strong {
		if !strong[i] {
			start = i + 1
			continue
		}
		if i > start && l.pauseBefore(i) {
			start = i
		}
		if i+1-start > to-from {
			from, to, found = start, i+1, true
		}
	}
	return from, to, found
}

// pauseBefore reports whether punctuation stands before a syllable.
func (l *Line) pauseBefore(i int) bool {
	s := l.Reading.Syllables
	return i > 0 && s[i-1].Word != s[i].Word && l.Words[s[i-1].Word].Break != manuscript.NoBreak
}

// hole is where a beat is missing: the widest gap that is wider than the
// foot's own, else the line's end.
func (l *Line) hole(beats []bool, foot ear.Foot) (from, to int) {
	n := len(l.Reading.Syllables)
	if len(beats) != n {
		return n - 1, n
	}
	o := outlineOf(beats)
	widest := ownGap(foot)
	from, to = n-1, n
	for k := 0; k+1 < len(o.at); k++ {
		if g := o.gap(k); g > widest {
			widest, from, to = g, o.at[k]+1, o.at[k+1]
		}
	}
	return from, to
}

// surplus is the word that the line has too much: the one without which it
// would fit its place best.
func (l *Line) surplus(f *form) (from, to int) {
	bestScore, best := -1e9, len(l.Words)-1
	rest := make([]Word, 0, len(l.Words))
	for w := range l.Words {
		if w == len(l.Words)-1 && len(l.Words) > 1 {
			break // the last word bears the rhyme
		}
		rest = append(append(rest[:0], l.Words[:w]...), l.Words[w+1:]...)
		h := hear(rest)
		if !h.ok {
			continue
		}
		v := float64(h.scores[f.foot][min(l.Beats, ear.MaxBeats)])
		if v > bestScore {
			bestScore, best = v, w
		}
	}
	from, to = len(l.Reading.Syllables), 0
	for i, s := range l.Reading.Syllables {
		if s.Word == best {
			from, to = min(from, i), i+1
		}
	}
	return from, to
}

// local finds the worst place of a line that has its beats but does not dance.
func (l *Line) local(r ear.Reading, f *form) *Break {
	s := l.Reading.Syllables
	if len(r.Beats) != len(s) {
		return l.broken(PatternChange, 0, len(s))
	}
	worst, at := 0.0, Break{Cause: PatternChange, From: 0, To: len(s)}
	consider := func(weight float64, c Cause, from, to int) {
		if weight > worst {
			worst, at = weight, Break{Cause: c, From: from, To: to}
		}
	}
	for i := range s {
		lift := float64(r.Lifts[i])
		switch {
		case r.Beats[i] && lift < 0 && l.wrenches(r, i):
			from, to := l.wordOf(i)
			consider(-lift+1, WrenchedStress, from, to)
		case !r.Beats[i] && lift > 0 && r.Strong[i]:
			from, to := l.around(i)
			consider(lift, CrowdedStress, from, to)
		}
	}
	o := outlineOf(r.Beats)
	for k := 0; k+1 < len(o.at); k++ {
		switch g := o.gap(k); {
		case g > ownGap(f.foot) && (g > 2 || ownGap(f.foot) > 1):
			consider(float64(g), SlackRun, o.at[k]+1, o.at[k+1])
		case g == 0 && !l.pauseBefore(o.at[k+1]):
			consider(2, CrowdedStress, o.at[k], o.at[k+1]+1)
		}
	}
	if o.opening > plainOpening[f.foot]+1 {
		consider(float64(o.opening), SlackRun, 0, o.opening)
	}
	if odd := oddGaps(r.Beats, f.foot); odd >= 2 && l.Evidence.Foreign > worst {
		at = Break{Cause: PatternChange, From: 0, To: len(s)}
	}
	return l.broken(at.Cause, at.From, at.To)
}

// wrenches reports whether a beat on syllable i takes a longer word out of its
// spoken stress: the word's main stress stands in slack.
func (l *Line) wrenches(r ear.Reading, i int) bool {
	from, to := l.wordOf(i)
	if to-from < 2 || l.Reading.Syllables[i].Stress != 0 {
		return false
	}
	for k := from; k < to; k++ {
		if l.Reading.Syllables[k].Stress == 1 && !r.Beats[k] {
			return true
		}
	}
	return false
}

// wordOf is the syllables of the word that syllable i belongs to.
func (l *Line) wordOf(i int) (from, to int) {
	s := l.Reading.Syllables
	from, to = i, i+1
	for from > 0 && s[from-1].Word == s[i].Word {
		from--
	}
	for to < len(s) && s[to].Word == s[i].Word {
		to++
	}
	return from, to
}

// around is a crowded syllable with the strong neighbours that crowd it.
func (l *Line) around(i int) (from, to int) {
	s := l.Reading.Syllables
	from, to = i, i+1
	for from > 0 && s[from-1].Beat && !l.pauseBefore(from) {
		from--
	}
	for to < len(s) && s[to].Beat && !l.pauseBefore(to) {
		to++
	}
	return from, to
}
