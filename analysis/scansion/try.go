package scansion

import (
	"dandle/analysis/manuscript"
)

// A standard is what the lines of a part are held to: its form, and the
// evidence that most of its lines stay within.
type standard struct {
	form  form
	usual Evidence
}

// A Trial is how a line would be read if it were written otherwise.
type Trial struct {
	Reading  Reading // its syllables' spans lie in the text that was tried
	Deviance float64
	Fits     bool
}

// Try reads a text in the place of a line, as if the rest of the poem stayed as
// it is. The second result is false where the text is no single line of verse,
// or the line's part keeps no meter.
func (p *Poem) Try(line int, text string) (Trial, bool) {
	if line < 0 || line >= len(p.Lines) || p.Lines[line].standard == nil {
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
	l := Line{Words: p.memo.words(m.Lines[0].Words, tags, h)}
	l.readAs(h, &old.standard.form, old.Beats)
	e := h.evidence(&old.standard.form, &l)
	e.over(&old.standard.usual)
	d := e.deviance()
	return Trial{Reading: l.Reading, Deviance: d, Fits: d < offAt}, true
}
