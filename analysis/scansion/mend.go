package scansion

import (
	"cmp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"dandle/analysis/manuscript"
	"dandle/phonetics/grammar"
)

// A Mend is a small change of a line's words that lets it keep its meter. It
// has been read again: it fits.
type Mend struct {
	Kind MendKind
	Span manuscript.Span // what is replaced, in the manuscript
	Text string          // by what; empty where words go
	// Dropped is the words that go.
	Dropped string
	Line    string // the whole line after it
	Feet    string // how it is then read: "xx/|xx/"

	deviance float64
}

// A MendKind is what a mend does.
type MendKind uint8

// The kinds, the gentlest first.
const (
	Shorten MendKind = iota // two words run together, as in speech: it is, it's
	Lengthen
	Reword // another form of the same word: on, upon
	Swap   // two words change places, or an adverb its side of the verb
	Drop   // a word goes
)

// pairs are forms of one word that differ by a syllable, the shorter first:
// what English runs together in speech and parts in care, and prepositions and
// adverbs that come in two lengths (closed classes; Quirk and others, A
// Comprehensive Grammar of the English Language, 1985, from memory).
var pairs = []struct {
	short, long string
	kind        MendKind
}{
	{"i'm", "I am", Shorten},
	{"you're", "you are", Shorten},
	{"we're", "we are", Shorten},
	{"they're", "they are", Shorten},
	{"he's", "he is", Shorten},
	{"she's", "she is", Shorten},
	{"it's", "it is", Shorten},
	{"that's", "that is", Shorten},
	{"there's", "there is", Shorten},
	{"what's", "what is", Shorten},
	{"who's", "who is", Shorten},
	{"here's", "here is", Shorten},
	{"i'll", "I will", Shorten},
	{"you'll", "you will", Shorten},
	{"he'll", "he will", Shorten},
	{"she'll", "she will", Shorten},
	{"it'll", "it will", Shorten},
	{"we'll", "we will", Shorten},
	{"they'll", "they will", Shorten},
	{"i've", "I have", Shorten},
	{"you've", "you have", Shorten},
	{"we've", "we have", Shorten},
	{"they've", "they have", Shorten},
	{"i'd", "I had", Shorten},
	{"he'd", "he had", Shorten},
	{"she'd", "she had", Shorten},
	{"we'd", "we had", Shorten},
	{"they'd", "they had", Shorten},
	{"he'd", "he would", Shorten},
	{"she'd", "she would", Shorten},
	{"they'd", "they would", Shorten},
	{"you'd", "you would", Shorten},
	{"don't", "do not", Shorten},
	{"can't", "cannot", Shorten},
	{"won't", "will not", Shorten},
	{"didn't", "did not", Reword},
	{"on", "upon", Reword},
	{"till", "until", Reword},
	{"round", "around", Reword},
	{"though", "although", Reword},
	{"by", "beside", Reword},
}

const (
	maxMends = 3
	// mended is the deviance that a mend may leave at most: well below where
	// a line is called off, lest one doubt be traded for another (ours).
	mended = 0.3
)

// Mends lists small changes that would let a line fit its place, the best
// first. The last word stays, for it bears the rhyme. text is the manuscript's.
// It is empty where the line fits, or nothing so small mends it.
func (p *Poem) Mends(text string, line int) []Mend {
	if line < 0 || line >= len(p.Lines) || p.Lines[line].Fits || p.Lines[line].standard == nil {
		return nil
	}
	l := &p.Lines[line]
	first, last := l.Words[0].Span.Start, l.Words[len(l.Words)-1].Span.End
	var found []Mend
	consider := func(kind MendKind, span manuscript.Span, with string) {
		whole := text[first:span.Start] + with + text[span.End:last]
		t, ok := p.Try(line, whole)
		if !ok || !t.Fits || !t.Plain || t.Deviance > mended {
			return
		}
		found = append(found, Mend{
			Kind: kind, Span: span, Text: with, Line: whole, Feet: t.Reading.FeetPattern(), deviance: t.Deviance,
		})
	}
	drop := func(c stretch) {
		span, with := l.without(text, c)
		n := len(found)
		consider(Drop, span, with)
		if len(found) > n {
			found[n].Dropped = text[l.Words[c.from].Span.Start:l.Words[c.to-1].Span.End]
		}
	}
	for _, c := range l.spare() {
		drop(c)
	}
	for w := 0; w+1 < len(l.Words); w++ {
		l.otherForms(text, w, consider)
		if span, with, ok := l.swapped(text, w); ok {
			consider(Swap, span, with)
		}
		if l.Words[w].Tag == grammar.Conjunction && w > 0 && l.Words[w-1].Break != manuscript.NoBreak {
			drop(stretch{w, w + 1})
		}
	}
	slices.SortStableFunc(found, func(a, b Mend) int {
		return cmp.Or(cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.deviance, b.deviance))
	})
	return found[:min(len(found), maxMends)]
}

// without is the edit that takes words out, with the space after them; the next
// word takes over a capital.
func (l *Line) without(text string, c stretch) (manuscript.Span, string) {
	next := l.Words[c.to].Span
	span := manuscript.Span{Start: l.Words[c.from].Span.Start, End: next.Start}
	if c.from > 0 {
		return span, ""
	}
	span.End = next.End
	return span, capital(next.In(text))
}

// otherForms tries the other lengths of a word, or of two.
func (l *Line) otherForms(text string, w int, consider func(MendKind, manuscript.Span, string)) {
	one := plainWord(l.Words[w].Text)
	two := ""
	if w+2 < len(l.Words) && l.Words[w].Break == manuscript.NoBreak {
		two = one + " " + plainWord(l.Words[w+1].Text)
	}
	curly := strings.Contains(text, "’")
	put := func(kind MendKind, span manuscript.Span, with string) {
		if curly {
			with = strings.ReplaceAll(with, "'", "’")
		}
		if r, _ := utf8.DecodeRuneInString(span.In(text)); unicode.IsUpper(r) {
			with = capital(with)
		}
		consider(kind, span, with)
	}
	span := l.Words[w].Span
	for _, pair := range pairs {
		switch {
		case one == pair.short && w+1 < len(l.Words):
			if pair.kind == Shorten {
				put(Lengthen, span, pair.long)
			} else {
				put(pair.kind, span, pair.long)
			}
		case one == pair.long && w+1 < len(l.Words):
			put(pair.kind, span, pair.short)
		case two == strings.ToLower(pair.long):
			put(pair.kind, manuscript.Span{Start: span.Start, End: l.Words[w+1].Span.End}, pair.short)
		}
	}
}

// swapped is the edit that lets two words change places, where English does
// not mind: two adjectives before a noun, two of a kind round "and", an adverb
// of manner and its verb.
func (l *Line) swapped(text string, w int) (manuscript.Span, string, bool) {
	at := func(k int) string { return l.Words[k].Span.In(text) }
	same := func(a, b int) bool {
		ta, tb := l.Words[a].Tag, l.Words[b].Tag
		return ta == tb && (ta.IsNoun() || ta.IsVerb() || ta.IsAdjective() || ta.IsAdverb())
	}
	switch {
	case w+2 < len(l.Words) && same(w, w+1) && l.Words[w].Tag.IsAdjective():
		between := text[l.Words[w].Span.End:l.Words[w+1].Span.Start]
		return manuscript.Span{Start: l.Words[w].Span.Start, End: l.Words[w+1].Span.End}, at(w+1) + between + at(w), w > 0
	case w+2 < len(l.Words) && l.Words[w].Break == manuscript.NoBreak && l.beside(w):
		between := text[l.Words[w].Span.End:l.Words[w+1].Span.Start]
		return manuscript.Span{Start: l.Words[w].Span.Start, End: l.Words[w+1].Span.End}, at(w+1) + between + at(w), w > 0
	case w+3 < len(l.Words) && plainWord(l.Words[w+1].Text) == "and" && same(w, w+2) && l.Words[w].Break == manuscript.NoBreak:
		middle := text[l.Words[w].Span.End:l.Words[w+2].Span.Start]
		return manuscript.Span{Start: l.Words[w].Span.Start, End: l.Words[w+2].Span.End}, at(w+2) + middle + at(w), w > 0
	}
	return manuscript.Span{}, "", false
}

// beside reports whether words w and w+1 are a verb and an adverb of manner,
// which may stand on either side of it: softly crept, crept softly.
func (l *Line) beside(w int) bool {
	manner := func(k int) bool {
		return l.Words[k].Tag == grammar.Adverb && strings.HasSuffix(plainWord(l.Words[k].Text), "ly")
	}
	acts := func(k int) bool { return l.Words[k].Tag == grammar.VerbPast || l.Words[k].Tag == grammar.VerbThird }
	return manner(w) && acts(w+1) || acts(w) && manner(w+1)
}

func plainWord(text string) string { return strings.ReplaceAll(strings.ToLower(text), "’", "'") }

// capital gives a text a capital first letter.
func capital(text string) string {
	r, size := utf8.DecodeRuneInString(text)
	if size == 0 {
		return text
	}
	return string(unicode.ToUpper(r)) + text[size:]
}
