package scansion

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"dandle/analysis/manuscript"
	"dandle/analysis/scansion/ear"
)

// A standard is what the lines of a part are held to: its form, and the
// evidence that most of its lines stay within.
type standard struct {
	form  form
	usual Evidence
}

// An Alternative is another way to read a line.
type Alternative struct {
	Foot    Foot
	Beats   int
	Pattern string  // one character a syllable
	Feet    string  // the pattern with its feet parted
	Cost    float64 // how much less likely than the best, in natural logarithms: 0.7 is half as likely
}

const (
	maxAlternatives = 3
	// plausible is the cost up to which a reader may well take another way (ours).
	plausible = 2.5
)

// Alternatives are the other ways in which a reader may well take a line,
// the likeliest first: with another number of beats, or in another foot. They
// are those of the line by itself, whatever the lines round it do.
func (p *Poem) Alternatives(line int) []Alternative {
	if line < 0 || line >= len(p.Lines) || p.Lines[line].heard == nil || !p.Lines[line].heard.ok {
		return nil
	}
	h := p.Lines[line].heard
	best := math.Inf(-1)
	for foot := range ear.FootCount {
		v, _ := h.free(foot)
		best = max(best, v)
	}
	seen := []string{p.Lines[line].Reading.Pattern()}
	var list []Alternative
	for foot := range ear.FootCount {
		for beats := 1; beats <= ear.MaxBeats; beats++ {
			score := h.scores[foot][beats]
			if cost := best - float64(score); ear.Possible(score) && cost <= plausible {
				a := h.answer(foot, beats)
				list = append(list, Alternative{
					Foot: footOf[foot], Beats: beats, Cost: cost,
					Pattern: inFeet(a.Beats, nil), Feet: inFeet(a.Beats, a.feet),
				})
			}
		}
	}
	slices.SortStableFunc(list, func(a, b Alternative) int { return cmp.Compare(a.Cost, b.Cost) })
	list = slices.DeleteFunc(list, func(a Alternative) bool {
		if slices.Contains(seen, a.Pattern) {
			return true
		}
		seen = append(seen, a.Pattern)
		return false
	})
	return list[:min(len(list), maxAlternatives)]
}

// A Trial is how a line would be read if it were written otherwise.
type Trial struct {
	Reading  Reading // its syllables' spans lie in the text that was tried
	Deviance float64
	// Plain is set where it has the beats of its place and nothing but the foot's
	// own gaps between them.
	Plain bool
	// Fits is set where the line would keep its place, and be no less plain than
	// the line that stands there now; in a part that keeps no meter, where its
	// beats would fall just as they do now.
	Fits bool
}

// Try reads a text in the place of a line, as if the rest of the poem stayed as
// it is. The second result is false where the text is no single line of verse.
func (p *Poem) Try(line int, text string) (Trial, bool) {
	if line < 0 || line >= len(p.Lines) || p.Lines[line].heard == nil || !p.Lines[line].heard.ok {
		return Trial{}, false
	}
	m := manuscript.Parse(text)
	if len(m.Lines) != 1 {
		return Trial{}, false
	}
	tags := lineTags(m, p.memo.tags)[0]
	h := p.memo.line(m.Lines[0].Words, tags)
	if !h.ok {
		return Trial{}, false
	}
	old := &p.Lines[line]
	l := Line{Words: h.join(m.Lines[0].Words, tags, make([]Word, len(tags)))}
	if old.standard == nil {
		return l.likeBefore(h, old), true
	}
	l.readAs(h, &old.standard.form, old.Beats)
	e := l.weigh(h, &old.standard.form)
	e.among(&old.standard.form)
	e.over(&old.standard.usual)
	d := e.deviance()
	plain := l.isPlain()
	return Trial{Reading: l.Reading, Deviance: d, Plain: plain, Fits: d < offAt && (plain || !old.isPlain())}, true
}

// Alone is a poem of one line, of which Try says what it says of that line in p. It
// holds on to nothing of the other lines.
func (p *Poem) Alone(line int) *Poem {
	l := p.Lines[line]
	l.Reading.Syllables = slices.Clone(l.Reading.Syllables)
	l.Words = slices.Clone(l.Words)
	for k := range l.Words {
		l.Words[k].Text = strings.Clone(l.Words[k].Text)
	}
	return &Poem{Meter: p.Meter, Lines: []Line{l}, memo: p.memo}
}

// likeBefore tries a line where no meter is kept: it should go as the old one
// goes.
func (l *Line) likeBefore(h *heard, old *Line) Trial {
	l.setReading(h, old.read.foot, old.read.beats)
	strain := h.strain(old.read.foot, old.read.beats)
	same := len(l.Reading.Syllables) > 0 && l.Reading.Pattern() == old.Reading.Pattern()
	return Trial{Reading: l.Reading, Plain: same, Fits: same && strain <= old.heard.strain(old.read.foot, old.read.beats)+spareable}
}
