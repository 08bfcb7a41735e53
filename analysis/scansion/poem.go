package scansion

import (
	"math"
	"slices"
	"strings"

	"dandle/analysis/manuscript"
	"dandle/analysis/scansion/ear"
)

// Scan hears the whole manuscript: its meter, and every line under it. The memo
// gives back what was heard in lines that have not changed.
// A meter that the front matter names is taken at its word.
func Scan(m *manuscript.Manuscript, memo *Memo) *Poem {
	declared, _ := ParseMeter(m.Front.Meter) // what cannot be read is as good as not given
	memo.age()
	poem := &Poem{Lines: make([]Line, len(m.Lines)), memo: memo}
	room := make([]Word, m.WordCount())
	var key []byte
	v := newVerse(len(m.Stanzas))
	for s, stanza := range m.Stanzas {
		heard := memo.stanza(m.Lines[stanza.From:stanza.To], &key)
		v.add(s, stanza.From, heard)
		for k, h := range heard.lines {
			i := stanza.From + k
			words := h.join(m.Lines[i].Words, heard.tags[k], room)
			room = room[len(words):]
			poem.Lines[i] = Line{Words: words, Fits: true, heard: h}
		}
	}
	v.seat()
	most := 0
	for _, g := range v.forms(declared) {
		n, regular := poem.judge(v, &g)
		part := Part{Meter: meterOf(&g.form), Stanzas: g.stanzas}
		part.Meter.Regular = regular
		if n > most {
			most, poem.Meter = n, part.Meter
		}
		poem.Parts = append(poem.Parts, part)
	}
	return poem
}

// judge reads the lines of one part under its form and says which are off. It
// returns the number of lines, and whether they keep the form at all.
func (p *Poem) judge(v *verse, g *group) (int, bool) {
	n := 0
	for _, s := range g.stanzas {
		n += len(v.index[s])
	}
	index, lines, evidence := make([]int, 0, n), make([]*heard, 0, n), make([]Evidence, 0, n)
	var room room
	for _, s := range g.stanzas {
		for k, i := range v.index[s] {
			h := v.lines[s][k]
			evidence = append(evidence, p.Lines[i].hold(h, &g.form, v.wanted(s, k, &g.form), &room))
			p.Lines[i].Continues = v.continues(s, k)
			index, lines = append(index, i), append(lines, h)
		}
	}
	g.form.opening = p.usualOpening(index)
	for k := range evidence {
		evidence[k].among(&g.form)
	}
	usual := usualEvidence(evidence)
	off, plain := 0, 0
	for k, i := range index {
		l := &p.Lines[i]
		l.Evidence = evidence[k]
		l.Evidence.over(&usual)
		l.Deviance = l.Evidence.deviance()
		if l.Deviance >= offAt {
			off++
		}
		if l.isPlain() {
			plain++
		}
	}
	g.form.plain = float64(plain) / float64(max(len(index), 1))
	if isLoose(off, len(index)) || !p.keeps(v, g, len(index)) {
		for _, i := range index {
			p.Lines[i].Expected = "" // there is nothing to expect
		}
		return len(index), false
	}
	held := &standard{form: g.form, usual: usual}
	for k, i := range index {
		l := &p.Lines[i]
		l.standard = held
		if l.Deviance >= offAt {
			l.Fits = false
			l.Break = l.cause(lines[k], &g.form)
			if l.Break.Cause == CrowdedStress && l.Break.To-l.Break.From < slow && l.Deviance < surelyOff && l.Evidence.Jammed <= 0 {
				// A strong word in a slack place is the commonest licence there is.
				l.Fits, l.Break = true, nil
				continue
			}
			if l.Break.Cause == PatternChange && l.Evidence.Foreign >= foreign {
				// What is heard there is the other meter.
				l.setReading(lines[k], l.Evidence.foreignFoot, l.Evidence.foreignBeats)
			}
		}
	}
	return len(index), true
}

// usualOpening is the number of slacks that most of some lines open with; -1
// where no number has three lines of five (ours).
func (p *Poem) usualOpening(index []int) int {
	var lines [8]int
	for _, i := range index {
		opening := strings.IndexByte(p.Lines[i].Reading.Pattern(), '/')
		if 0 <= opening && opening < len(lines) {
			lines[opening]++
		}
	}
	for opening, n := range lines {
		if 5*n >= 3*len(index) {
			return opening
		}
	}
	return -1
}

// isPlain reports whether a line has the beats of its place and nothing but
// its foot's own gaps between them; its ends may vary.
func (l *Line) isPlain() bool {
	for _, v := range l.Variations {
		switch v.Kind {
		case SilentBeat, ExtraSlack, LightFoot, Clash:
			if v.From > 0 {
				return false
			}
		}
	}
	return l.Reading.Beats() == l.Beats
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
	chosen := forms[best]
	second := math.Inf(-1)
	for foot := range ear.FootCount {
		if foot != best && forms[foot].score > second {
			second, chosen.second = forms[foot].score, footOf[foot]
		}
	}
	return chosen
}

// weigh gathers the evidence against a line that has been read. A silent beat
// at a pause counts as a beat, for less than a spoken one.
func (l *Line) weigh(h *heard, f *form) Evidence {
	before, found := l.rest(h, f.foot)
	if !found {
		return h.evidence(f, l, l.Beats)
	}
	l.setReading(h, f.foot, l.Beats-1)
	l.Variations = append(slices.Clone(l.Variations), Variation{SilentBeat, before - 1, before + 1})
	e := h.evidence(f, l, l.Beats-1)
	e.Forced += restCost
	return e
}

// readAs fills in how the line is best read under a form, where its place calls
// for so many beats.
func (l *Line) readAs(h *heard, f *form, wanted int) {
	l.Beats = wanted
	_, beats := h.fit(f.foot, l.Beats)
	l.setReading(h, f.foot, beats)
	if a := h.answer(f.foot, beats); a.ok {
		l.Expected = a.expected
		if beats != l.Beats {
			l.Expected = expected(a.Beats, f.foot, l.Beats)
		}
	}
}

// A holding is what comes of holding a line to a form, whatever its siblings do.
type holding struct {
	read       ask
	expected   string
	variations []Variation
	evidence   Evidence
}

// hold reads a line as a form wants it and gathers the evidence against it,
// from memory where it was held to it before.
func (l *Line) hold(h *heard, f *form, wanted int, room *room) Evidence {
	held := h.holding(ask{f.foot, wanted}, func() *holding {
		l.readAs(h, f, wanted)
		e := l.weigh(h, f)
		return &holding{l.read, l.Expected, l.Variations, e}
	})
	l.Beats, l.Expected = wanted, held.expected
	if a := h.answer(held.read.foot, held.read.beats); a.ok {
		l.take(a, held.read, room.take(len(a.syllables)))
	}
	l.Variations = held.variations
	return held.evidence
}

// A room is where the syllables of many lines go: one piece of memory for some
// of them costs less than one for each.
type room struct{ free []Syllable }

func (r *room) take(n int) []Syllable {
	const piece = 256
	if len(r.free) < n {
		r.free = make([]Syllable, max(n, piece))
	}
	taken := r.free[:n:n]
	r.free = r.free[n:]
	return taken
}

// setReading fills in the best reading under a foot with so many beats.
func (l *Line) setReading(h *heard, foot ear.Foot, beats int) {
	if a := h.answer(foot, beats); a.ok {
		l.take(a, ask{foot, beats}, make([]Syllable, len(a.syllables)))
	}
}

// take fills in a reading, its syllables into the room that there is for them.
func (l *Line) take(a *answer, read ask, room []Syllable) {
	l.read = read
	l.Variations = a.variations
	l.Reading = Reading{Ways: a.Ways, Score: float64(a.Score), Feet: a.feet, Syllables: room}
	copy(room, a.syllables)
	for i := range room {
		s := &room[i]
		start := l.Words[s.Word].Span.Start
		s.Span.Start, s.Span.End = start+s.Span.Start, start+s.Span.End
	}
}
