package suggest

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"
	"dandle/analysis/suggest/words"
	"dandle/phonetics/grammar"
)

// A change puts other words in the place of a stretch of a line, in bytes of the
// manuscript; an empty stretch is where they are put in.
type change struct {
	at   manuscript.Span
	with string
}

// A rewrite says a line otherwise, in more than one place.
type rewrite struct {
	changes []change // in order
	score   float64
	why     string
}

// rewrites reads rewrites of a line, best first, and keeps the first that leave it
// in step: so many at most, and no more readings than that allows. Those that walk
// best come first then.
func (p *Place) rewrites(line int, list []rewrite, most, reads int) []Item {
	slices.SortStableFunc(list, func(a, b rewrite) int { return cmp.Compare(b.score, a.score) })
	var items []heard
	for i := range list {
		if len(items) == most || i == reads {
			break
		}
		if item, ok := p.rewritten(line, &list[i]); ok && !slices.ContainsFunc(items, func(o heard) bool { return o.Text == item.Text }) {
			items = append(items, item)
		}
	}
	return walkingBest(items)
}

// A heard item was read in its line: what speaks for it, less what the line stumbles.
type heard struct {
	Item
	worth float64
}

const (
	// smooth is the deviance below which no ear hears a stumble, and stumbles what
	// each whole of deviance above it costs an offer (ours, by ear: two strong words
	// that jam, as in "out the hot tea", deviate by some 0.15).
	smooth   = 0.06
	stumbles = 12
)

// walking is what speaks for an offer with the line as it would then go.
func walking(score, deviance float64) float64 {
	return score - stumbles*max(0, deviance-smooth)
}

// walkingBest puts those first that are worth most in their line.
func walkingBest(list []heard) []Item {
	slices.SortStableFunc(list, func(a, b heard) int { return cmp.Compare(b.worth, a.worth) })
	items := make([]Item, len(list))
	for i := range list {
		items[i] = list[i].Item
	}
	return items
}

// rewritten reads one rewrite in the line. The item covers the line from the first
// change to the last, and the whole word at either side of what is only left out.
func (p *Place) rewritten(line int, r *rewrite) (heard, bool) {
	l := &p.Poem.Lines[line]
	text := p.Manuscript.Text
	start, end := l.Words[0].Span.Start, l.Words[len(l.Words)-1].Span.End
	var b strings.Builder
	at := start
	for _, c := range r.changes {
		if c.at.Start < at || c.at.End > end {
			return heard{}, false
		}
		b.WriteString(text[at:c.at.Start])
		b.WriteString(c.with)
		at = c.at.End
	}
	b.WriteString(text[at:end])
	whole := b.String()
	t, ok := p.Poem.Try(line, whole)
	if !ok || !keepsStep(l, &t) {
		return heard{}, false
	}
	span, with := differing(text[start:end], whole)
	span.Start += start
	span.End += start
	feet := t.Reading.FeetPattern()
	return heard{Item{
		Text: with, Span: span, Pattern: t.Reading.Pattern(), Feet: feet, Detail: r.why,
		Doc: fmt.Sprintf("The line would go %s.", feet), Score: min(1, max(0, r.score/4)),
	}, walking(r.score, t.Deviance)}, true
}

// differing is the stretch of a line in which another differs from it, widened to
// whole words, and what stands there in the other.
func differing(old, other string) (manuscript.Span, string) {
	head := 0
	for head < min(len(old), len(other)) && old[head] == other[head] {
		head++
	}
	for head > 0 && old[head-1] != ' ' {
		head--
	}
	tail := 0
	for tail < min(len(old), len(other))-head && old[len(old)-1-tail] == other[len(other)-1-tail] {
		tail++
	}
	for tail > 0 && old[len(old)-tail] != ' ' {
		tail--
	}
	if head+tail > 0 && head == len(old)-tail && head > 0 {
		// Nothing but new words: the word before them goes with them.
		head = strings.LastIndexByte(old[:head-1], ' ') + 1
	}
	return manuscript.Span{Start: head, End: len(old) - tail}, other[head : len(other)-tail]
}

// without is the change that leaves out the words from … to-1 of a line, with the
// marks that only they asked for.
func (p *Place) without(line, from, to int) []change {
	list := p.Poem.Lines[line].Words
	if to == len(list) {
		return []change{{at: manuscript.Span{Start: list[from-1].Span.End, End: list[to-1].Span.End}}}
	}
	gone := manuscript.Span{Start: list[from].Span.Start, End: list[to].Span.Start}
	text := p.Manuscript.Text
	if strings.Trim(text[list[to-1].Span.End:gone.End], " \t,") != "" {
		return nil
	}
	if from > 0 && to-from == 1 && list[from].Tag == grammar.Pronoun && list[from-1].Tag.IsNoun() && list[from-1].Break == manuscript.LightBreak && !isAside(list, from-1) {
		return []change{{manuscript.Span{Start: list[from-1].Span.End, End: gone.End}, " "}} // "the moon, it was" pauses for it alone
	}
	if from > 0 && list[from-1].Break != manuscript.NoBreak && list[to-1].Break != manuscript.NoBreak && list[to].Tag != grammar.Pronoun &&
		strings.TrimSpace(text[list[from-1].Span.End:list[from].Span.Start]) == "," {
		// Both marks stood for the words between them: "of brass, indeed, and wood".
		return []change{{manuscript.Span{Start: list[from-1].Span.End, End: gone.End}, " "}}
	}
	if from > 0 {
		s := spot{place: p, line: line, tag: list[to].Tag}
		if article, changed := s.articleFor(list[from-1].Text, lower(list[to].Text)); changed {
			return []change{{list[from-1].Span, article}, {at: gone}}
		}
		return []change{{at: gone}}
	}
	if !isUpper(list[from].Text) {
		return []change{{at: gone}}
	}
	_, size := utf8.DecodeRuneInString(list[to].Text)
	gone.End += size
	return []change{{gone, strings.ToUpper(list[to].Text[:size])}}
}

// isAside reports whether the noun at word i stands between commas: "the teacher, a newt, she was".
func isAside(list []scansion.Word, i int) bool {
	i = phraseFrom(list, i)
	return i > 0 && list[i-1].Break == manuscript.LightBreak
}

func isUpper(word string) bool {
	r, _ := utf8.DecodeRuneInString(word)
	return unicode.IsUpper(r)
}

// syllables is how many the words from … to-1 of a line have as it is read.
func (p *Place) syllables(line, from, to int) int {
	n := 0
	for _, y := range p.Poem.Lines[line].Reading.Syllables {
		if from <= y.Word && y.Word < to {
			n++
		}
	}
	return n
}

// merged sorts two sets of changes of one line by their places; false where they
// overlap.
func merged(a, b []change) ([]change, bool) {
	list := append(slices.Clone(a), b...)
	slices.SortStableFunc(list, func(x, y change) int { return cmp.Compare(x.at.Start, y.at.Start) })
	for i := 1; i < len(list); i++ {
		if list[i].at.Start < list[i-1].at.End {
			return nil, false
		}
	}
	return list, true
}

// nounAt is the noun that word i of a line is, in the singular; None where it is
// none, or only the first half of one, as "apple" is in "apple pie".
func (p *Place) nounAt(line, i int) words.Word {
	list := p.Poem.Lines[line].Words
	if !list[i].Tag.IsNoun() || p.isEmpty(lower(list[i].Text)) || isName(list[i].Tag) || i+1 < len(list) && list[i].Break == manuscript.NoBreak && list[i+1].Tag.IsNoun() {
		return words.None
	}
	return nounOf(list[i])
}
