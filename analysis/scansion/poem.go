package scansion

import (
	"math"

	"dandle/analysis/manuscript"
	"dandle/analysis/scansion/ear"
)

// Scan hears the whole manuscript: its meter, and every line under it. The memo
// gives back what was heard in lines that have not changed.
func Scan(m *manuscript.Manuscript, memo *Memo) *Poem {
	memo.age()
	lines := make([]*heard, len(m.Lines))
	poem := &Poem{Lines: make([]Line, len(lines))}
	var sound []*heard
	var places []int
	for i, tags := range lineTags(m) {
		h := memo.line(m.Lines[i].Words, tags)
		lines[i] = h
		words := make([]Word, len(tags))
		for k, w := range m.Lines[i].Words {
			words[k] = Word{Word: w, Tag: tags[k], Ways: h.ways[k]}
		}
		poem.Lines[i] = Line{Words: words, Fits: true}
		if h.ok {
			sound = append(sound, h)
			places = append(places, m.Lines[i].Place)
		}
	}
	if len(sound) == 0 {
		return poem
	}
	best := chooseForm(sound, places)
	poem.Meter = Meter{Foot: footOf[best.foot], Beats: best.beats, Confidence: best.steady}
	evidence := make([]Evidence, 0, len(sound))
	for i, h := range lines {
		if h.ok {
			l := &poem.Lines[i]
			l.read(h, &best, m.Lines[i].Place)
			evidence = append(evidence, h.evidence(&best, l))
		}
	}
	against(evidence)
	for i, h := range lines {
		if h.ok {
			l := &poem.Lines[i]
			l.Evidence, evidence = evidence[0], evidence[1:]
			l.Deviance = l.Evidence.deviance()
			if l.Fits = l.Deviance < offAt; !l.Fits {
				l.Break = l.cause(h, &best)
			}
		}
	}
	return poem
}

// chooseForm finds the form that explains the lines best. Feet of one family
// put the same number of slacks between beats, and are told apart as editors
// do, by how most lines begin and end: there each line has one voice, however
// loud it speaks.
func chooseForm(lines []*heard, places []int) form {
	var forms [ear.FootCount]form
	best := ear.Foot(0)
	for foot := range ear.FootCount {
		forms[foot] = bestForm(foot, lines, places)
		if forms[foot].score > forms[best].score {
			best = foot
		}
	}
	var votes [ear.FootCount]float64
	for i, h := range lines {
		first, second, winner := math.Inf(-1), math.Inf(-1), best
		for foot := range ear.FootCount {
			if !ear.SameFamily(foot, best) {
				continue
			}
			switch v, _ := h.fit(foot, forms[foot].wanted(places[i])); {
			case v > first:
				first, second, winner = v, first, foot
			case v > second:
				second = v
			}
		}
		votes[winner] += min(1, first-second)
	}
	for foot, v := range votes {
		if v > votes[best] {
			best = ear.Foot(foot)
		}
	}
	return forms[best]
}

// read fills in how the line is best read under a form.
func (l *Line) read(h *heard, f *form, place int) {
	l.Beats = f.wanted(place)
	_, beats := h.fit(f.foot, l.Beats)
	r, ok := h.read(f.foot, beats)
	if !ok {
		return
	}
	l.Reading = Reading{Ways: r.Ways, Score: float64(r.Score), Feet: divide(r.Beats, f.foot)}
	l.Variations = variations(r.Beats, f.foot)
	l.Expected = expected(r.Beats, f.foot, l.Beats)
	l.Reading.Syllables = make([]Syllable, 0, len(r.Beats))
	for w := range l.Words {
		if len(l.Words[w].Ways) == 0 {
			continue
		}
		start := l.Words[w].Span.Start
		for _, s := range l.Words[w].Ways[r.Ways[w]].Syllables {
			l.Reading.Syllables = append(l.Reading.Syllables, Syllable{
				Word: w, Span: manuscript.Span{Start: start + s.Start, End: start + s.End}, Stress: s.Stress,
				Beat: r.Beats[len(l.Reading.Syllables)],
			})
		}
	}
}
