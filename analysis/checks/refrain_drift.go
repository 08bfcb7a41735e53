package checks

import (
	"fmt"
	"slices"
	"strings"

	"dandle/analysis/manuscript"
	"dandle/phonetics/grammar"
)

const refrainDriftDoc = `
A refrain differs outside the slot that is meant to change.

A refrain is a promise: children wait for it and say it along. One place in it may change from
verse to verse, and they listen for that place. Where another word changes too, or a mark, or the
number of beats, half the room says the old one. Nobody has to declare a refrain: a line, or a
whole stanza, that comes back three times is one, and two verses that agree are enough to hear
that the third does not. Words that only follow what the slot holds (_there is_, _there are_) may
change with it. The last time it comes it may turn the tables (Biebow); then accept the finding.

In 8,905 lines of Housman and Kipling it speaks 12 times, once in 742; most are slips of a
transcription or turns that the poet meant.

The third line drifts, at _cried_:

    Hush, said the owl, there’s a moth at the door.
    Hush, said the owl, there’s a mouse at the door.
    Hush, cried the owl, there’s a wind at the door.
    Hush, said the owl, there’s a star at the door.

Only its slot changes here:

    Hush, said the owl, there’s a moth at the door.
    Hush, said the owl, there’s a mouse at the door.
    Hush, said the owl, there’s a wind at the door.
`

var refrainDrift = &Check{
	Code:      "refrain/drift",
	Severity:  Information,
	Sometimes: Hint,
	Doc:       refrainDriftDoc,
	Run: func(p *Pass) {
		departed := map[int]bool{}
		for _, d := range departures(p.Manuscript, p.frames(), p.said()) {
			departed[d.line] = true
			driftingWords(p, &d)
		}
		for _, f := range p.frames() {
			driftingMarks(p, &f)
			driftingRhythm(p, &f, departed)
		}
	},
}

// driftingWords reports where a line leaves its refrain, at the first place.
func driftingWords(p *Pass, d *departure) {
	m := p.Manuscript
	changes := slices.DeleteFunc(slices.Clone(d.changes), func(c change) bool { return agrees(p, d, c) })
	if len(changes) == 0 {
		return
	}
	severity := Information
	if d.last || len(d.frame.lines) < frameTimes {
		severity = Hint
	}
	c := changes[0]
	span, here := d.place(m, c)
	message := fmt.Sprintf("The other verses have %s where this one has %s; a listener who says the refrain along would trip here.", quote(strings.Join(c.others, " ")), quote(here))
	switch {
	case len(c.others) == 0:
		message = fmt.Sprintf("The other verses go on here without %s; a listener who says the refrain along would trip.", quote(here))
	case c.to == c.from:
		message = fmt.Sprintf("The other verses have %s here, and this one goes on without; a listener who says the refrain along would trip.", quote(strings.Join(c.others, " ")))
	}
	if d.last {
		message += " If the last return is meant to turn the tables, keep it."
	}
	p.Report(Finding{
		Severity:   severity,
		Span:       span,
		Line:       d.line,
		Message:    message,
		Confidence: d.confidence(m, changes),
		Related:    []Related{{Span: m.Lines[d.frame.lines[0]].Span, Message: "the refrain"}},
		Fixes:      d.restored(m, changes),
	})
}

// agrees reports whether a change only follows what the slot holds: "there are
// bears" after "there is a bear".
func agrees(p *Pass, d *departure, c change) bool {
	if slotWords(&d.frame, p.said()) == nil {
		return false
	}
	follows := func(w string) bool {
		return forms.be[w] || forms.have[w] || grammar.CanBe(w, grammar.Determiner) || grammar.CanBe(w, grammar.Possessive) || grammar.CanBe(w, grammar.Pronoun)
	}
	for _, w := range c.others {
		if !follows(w) {
			return false
		}
	}
	for _, w := range p.Manuscript.Lines[d.line].Words[c.from:c.to] {
		if !follows(plain(w.Text)) {
			return false
		}
	}
	return true
}

// confidence weighs a departure: every verse that keeps the refrain makes it
// surer, and so does a second line that comes back with it. One content word
// for another may be what the verse is about (ours).
func (d *departure) confidence(m *manuscript.Manuscript, changes []change) float64 {
	c := 0.5 + 0.06*float64(len(d.frame.lines)-2)
	if d.flanked {
		c += 0.1
	}
	joins := false
	for _, change := range changes {
		for _, w := range change.others {
			joins = joins || !contentWord(w)
		}
		for _, w := range m.Lines[d.line].Words[change.from:change.to] {
			joins = joins || !contentWord(w.Text)
		}
	}
	if joins {
		c += 0.08
	}
	if d.last {
		c -= 0.04
	}
	return min(c, 0.9)
}

// place is where a change stands, and its words; where words are missing, the
// word before them or after.
func (d *departure) place(m *manuscript.Manuscript, c change) (manuscript.Span, string) {
	words := m.Lines[d.line].Words
	from, to := c.from, c.to
	if from == to {
		from, to = max(from-1, 0), max(from, 1)
	}
	span := manuscript.Span{Start: words[from].Span.Start, End: words[to-1].Span.End}
	return span, span.In(m.Text)
}

// restored is the line in the words of the others, where each change has words
// for words.
func (d *departure) restored(m *manuscript.Manuscript, changes []change) []Fix {
	var edits []Edit
	var others []string
	for _, c := range changes {
		if len(c.others) == 0 || c.from == c.to {
			return nil
		}
		span, here := d.place(m, c)
		text := strings.Join(c.others, " ")
		edits = append(edits, Edit{Span: span, Text: matchCase(text, here)})
		others = append(others, quote(text))
	}
	return []Fix{{Title: fmt.Sprintf("Say %s here too", strings.Join(others, " and ")), Edits: edits}}
}

// driftingMarks reports a mark inside the refrain that one verse alone has
// otherwise.
func driftingMarks(p *Pass, f *frame) {
	m := p.Manuscript
	// From the line's start over the words before the slot, then from its end:
	// the last word's mark belongs to the sentence and not to the refrain.
	for at := range f.words() - 1 {
		count := map[string]int{}
		word := func(i int) (int, bool) {
			if at < len(f.before) {
				// The word that the slot follows has its mark from the slot.
				return at, at+1 < len(f.before) || len(f.after) == 0
			}
			return len(m.Lines[i].Words) - (f.words() - at), true
		}
		for _, i := range f.lines {
			if k, held := word(i); held {
				count[markAfter(m, i, k)]++
			}
		}
		if len(count) != 2 || len(f.lines) < frameTimes {
			continue
		}
		for _, i := range f.lines {
			k, _ := word(i)
			mark := markAfter(m, i, k)
			if count[mark] != 1 {
				continue
			}
			w := m.Lines[i].Words[k]
			other := f.lines[slices.IndexFunc(f.lines, func(o int) bool { o2, _ := word(o); return o != i && markAfter(m, o, o2) != mark })]
			theirs, _ := word(other)
			p.Report(Finding{
				Severity:   Hint,
				Span:       w.Span,
				Line:       i,
				Message:    fmt.Sprintf("After %s the other verses of this refrain have %s, and this one has %s; if nothing is meant by it, one mark throughout keeps its tune.", quote(w.Text), markName(markAfter(m, other, theirs)), markName(mark)),
				Confidence: min(0.56+0.05*float64(len(f.lines)-frameTimes), 0.9),
				Related:    []Related{{Span: m.Lines[other].Span, Message: "the refrain"}},
				Fixes:      []Fix{{Title: "Mark it like the others", Edits: []Edit{{Span: gapAfter(m, i, k), Text: gapAfter(m, other, theirs).In(m.Text)}}}},
			})
		}
	}
}

// markAfter is the mark between two words of a line, without spaces and quotes.
func markAfter(m *manuscript.Manuscript, line, word int) string {
	words := m.Lines[line].Words
	if word < 0 || word+1 >= len(words) {
		return ""
	}
	var b []rune
	for _, r := range m.Text[words[word].Span.End:words[word+1].Span.Start] {
		switch r {
		case ' ', '\t', '"', '“', '”', '‘', '*', '_':
		default:
			b = append(b, r)
		}
	}
	return string(b)
}

// markName is a mark as a sentence can speak of it.
func markName(mark string) string {
	if mark == "" {
		return "none"
	}
	return quote(mark)
}

// gapAfter is what stands between a word of a line and the next.
func gapAfter(m *manuscript.Manuscript, line, word int) manuscript.Span {
	words := m.Lines[line].Words
	return manuscript.Span{Start: words[word].Span.End, End: words[word+1].Span.Start}
}

// driftingRhythm reports the one verse in which a refrain goes to another
// number of beats than everywhere else, whatever its slot holds. Where its words
// depart, these are the cause and told already.
func driftingRhythm(p *Pass, f *frame, departed map[int]bool) {
	count := map[int]int{}
	for _, i := range f.lines {
		if i < len(p.Poem.Lines) {
			count[p.Poem.Lines[i].Reading.Beats()]++
		}
	}
	if len(count) != 2 {
		return
	}
	for _, i := range f.lines {
		here := &p.Poem.Lines[i]
		beats := here.Reading.Beats()
		if count[beats] != 1 || len(f.lines) < frameTimes || departed[i] {
			continue
		}
		other := f.lines[slices.IndexFunc(f.lines, func(o int) bool { return p.Poem.Lines[o].Reading.Beats() != beats })]
		theirs := &p.Poem.Lines[other]
		p.Report(Finding{
			Severity:   Hint,
			Span:       p.Manuscript.Lines[i].Span,
			Line:       i,
			Message:    fmt.Sprintf("This refrain goes to %s in the other verses and to %s here; the room may clap on without this line.", counted(theirs.Reading.Beats(), "beat"), counted(beats, "beat")),
			Expected:   theirs.Reading.FeetPattern(),
			Heard:      here.Reading.FeetPattern(),
			Confidence: min(0.58+0.05*float64(len(f.lines)-frameTimes), 0.9),
			Related:    []Related{{Span: p.Manuscript.Lines[other].Span, Message: "the refrain"}},
		})
	}
}
