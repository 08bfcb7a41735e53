package checks

import (
	"fmt"
	"slices"
	"strings"

	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"
	"dandle/phonetics/arpabet"
)

// A broken line is what the checks of area meter speak of: a line that loses
// the meter, and the place where it does.
type broken struct {
	text string // of the manuscript
	line *scansion.Line
	at   *scansion.Break
}

// reportBreaks reports the lines that the ear loses for one cause. A line in a
// part that keeps no meter has nothing to lose, so it stays silent; so does one
// that another check speaks of, which unless tells.
func reportBreaks(p *Pass, cause scansion.Cause, say func(broken) string, unless ...func(*scansion.Line) bool) {
	reportBreaksAt(p, cause, broken.span, say, unless...)
}

// reportBreaksAt is reportBreaks with a say in where the note stands.
func reportBreaksAt(p *Pass, cause scansion.Cause, at func(broken) manuscript.Span, say func(broken) string, unless ...func(*scansion.Line) bool) {
	for i, line := range p.lines() {
		if line.Break == nil || line.Break.Cause != cause || line.Fits || line.Expected == "" {
			continue
		}
		b := broken{text: p.Manuscript.Text, line: line, at: line.Break}
		if len(line.Reading.Syllables) == 0 || slices.ContainsFunc(unless, func(is func(*scansion.Line) bool) bool { return is(line) }) {
			continue
		}
		p.Report(Finding{
			Span:       at(b),
			Line:       i,
			Message:    say(b),
			Expected:   line.Expected,
			Heard:      line.Reading.FeetPattern(),
			Confidence: p.deviance(line),
			Fixes:      mends(p, i),
		})
	}
}

// askedLength is how many syllables a line's place asks for.
func askedLength(line *scansion.Line) int {
	return len(line.Expected) - strings.Count(line.Expected, "|")
}

// mends are the small changes that let a line keep its meter; each has been
// read again.
func mends(p *Pass, line int) []Fix {
	text := p.Manuscript.Text
	var list []Fix
	p.lean()
	for _, m := range p.Poem.Mends(text, line) {
		old := quote(strings.TrimSpace(m.Span.In(text)))
		title := fmt.Sprintf("Say %s instead of %s", quote(m.Text), old)
		switch m.Kind {
		case scansion.Drop:
			title = fmt.Sprintf("Do without %s", quote(m.Dropped))
		case scansion.Swap:
			title = fmt.Sprintf("Turn %s round: %s", old, quote(m.Text))
		}
		list = append(list, Fix{Title: title + " · " + m.Feet, Edits: []Edit{{Span: m.Span, Text: m.Text}}})
	}
	return list
}

// syllables is the break's stretch [from, to), inside the reading.
func (b broken) syllables() (from, to int) {
	n := len(b.line.Reading.Syllables)
	from = min(max(b.at.From, 0), n)
	return from, min(max(b.at.To, from), n)
}

// span is the break's own, or where that is empty, the word that the ear
// stumbles at: nobody sees a mark under nothing.
func (b broken) span() manuscript.Span {
	if b.at.Span.Len() > 0 {
		return b.at.Span
	}
	return b.line.Words[b.wordAt(b.at.From)].Span
}

// wordAt is the word that a syllable belongs to; past the end, the last.
func (b broken) wordAt(syllable int) int {
	s := b.line.Reading.Syllables
	return s[min(max(syllable, 0), len(s)-1)].Word
}

// atEnd reports whether no beat is heard after the break: the line stops there.
func (b broken) atEnd() bool {
	_, to := b.syllables()
	for _, s := range b.line.Reading.Syllables[to:] {
		if s.Beat {
			return false
		}
	}
	return true
}

// atStart reports whether the break is where the line begins.
func (b broken) atStart() bool { return b.at.From <= 0 }

// phrase is the words of the break as they stand, on one line, in quotes.
func (b broken) phrase() string { return quote(b.span().In(b.text)) }

// lastWord is the line's last word, in quotes.
func (b broken) lastWord() string { return quote(b.line.Words[len(b.line.Words)-1].Text) }

// heard is the number of beats that the ear gets.
func (b broken) heard() int { return b.line.Reading.Beats() }

// stressed counts the break's syllables that the voice leans on.
func (b broken) stressed() int {
	from, to := b.syllables()
	n := 0
	for _, s := range b.line.Reading.Syllables[from:to] {
		if s.Stress != arpabet.Unstressed {
			n++
		}
	}
	return n
}

// slackRun is the run of syllables [from, to) without a beat that the break
// stands in; empty where it stands on a beat.
func (b broken) slackRun() (from, to int) {
	list := b.line.Reading.Syllables
	from, end := b.syllables()
	for from < end && list[from].Beat {
		from++ // the break may begin with the word whose end is slack
	}
	to = from
	for from > 0 && !list[from-1].Beat {
		from--
	}
	for to < len(list) && !list[to].Beat {
		to++
	}
	return from, to
}

// spoken and asked are the broken word with its strong syllables in capitals:
// as the voice says it, and as the meter would have it.
func (b broken) spoken() string {
	return b.sung(func(s scansion.Syllable) bool { return s.Stress == arpabet.Primary })
}

func (b broken) asked() string {
	return b.sung(func(s scansion.Syllable) bool { return s.Beat })
}

func (b broken) sung(strong func(scansion.Syllable) bool) string {
	word := b.wordAt(b.at.From)
	var parts []string
	for _, s := range b.line.Reading.Syllables {
		if s.Word != word {
			continue
		}
		part := strings.ToLower(s.Span.In(b.text))
		if strong(s) {
			part = strings.ToUpper(part)
		}
		parts = append(parts, part)
	}
	return quote(strings.Join(parts, "-"))
}

// feet is a pattern with room between its feet, as it is shown to readers.
func feet(pattern string) string { return strings.ReplaceAll(pattern, "|", " | ") }
