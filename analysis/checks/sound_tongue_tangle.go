package checks

import (
	"fmt"
	"slices"
	"strings"

	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"
	"dandle/phonetics/arpabet"
	"dandle/phonetics/grammar"
)

const soundTongueTangleDoc = `
Neighbouring sounds are hard to say aloud at pace.

A picture book is read aloud, at bedtime, by somebody tired. Where one word ends in a hiss and
the next begins with another, where five consonants pile up between two vowels, or where
two like sounds change places (_red lamp, long rope_), the tongue slips (Shattuck-Hufnagel and
Klatt; Wilshire 1999). A tongue twister that means to be one is a joy; accept the finding.

Raised here:

    He took up his brush, swept and polished the floor.
    The fifth sail was torn by the wind from the shore.

Not here:

    He took up his broom and he polished the floor.
    The sail that was torn was the fifth from the shore.

What helps: another order. Of three verbs with one beat each, one order is often easy.
`

var soundTongueTangle = &Check{
	Code:     "sound/tongue-tangle",
	Severity: Hint,
	Reach:    OneStanza,
	Doc:      soundTongueTangleDoc,
	Run: func(p *Pass) {
		again := p.again()
		for i, line := range p.lines() {
			if again[i] {
				continue
			}
			for w := range max(len(line.Words)-1, 0) {
				t := junction(line, w)
				if t.confidence == 0 {
					continue
				}
				span := between(line, w, w+1)
				p.Report(Finding{
					Span: span, Line: i, Confidence: t.confidence, Fixes: easierOrder(p.Manuscript.Text, line, w),
					Message: fmt.Sprintf("%s between %s and %s: said at pace, the tongue may slip; another order or another word would run.",
						capital(t.what), quote(line.Words[w].Text), quote(line.Words[w+1].Text)),
				})
			}
			if from, to, sounds := seeSaw(p.strong(i)); to > from {
				p.Report(Finding{
					Span: between(line, from, to), Line: i, Confidence: 0.66,
					Message: fmt.Sprintf("The strong words begin %s, and near sounds that change places make the tongue slip.", sounds),
				})
			}
		}
	},
}

// A tangle is what makes the seam of two words hard to say.
type tangle struct {
	what       string
	confidence float64
}

var sibilants = map[arpabet.Phone]bool{arpabet.S: true, arpabet.Z: true, arpabet.SH: true, arpabet.ZH: true, arpabet.CH: true, arpabet.JH: true}

// stridents are the fricatives that a dental one slips into.
var stridents = map[arpabet.Phone]bool{arpabet.S: true, arpabet.Z: true, arpabet.F: true, arpabet.V: true}

// junction listens to the seam between two words. Small words are said so
// lightly that the tongue has time; a pause gives it more. Inside a list the
// commas give none.
func junction(line *scansion.Line, w int) tangle {
	left, right := &line.Words[w], &line.Words[w+1]
	if left.Break > manuscript.LightBreak || left.Break == manuscript.LightBreak && !inList(line, w) || !content(left) || !content(right) {
		return tangle{}
	}
	a, okA := soundsOf(line, w)
	b, okB := soundsOf(line, w+1)
	if !okA || !okB || len(a) == 0 || len(b) == 0 || echo(a, b) {
		return tangle{}
	}
	var coda, onset []arpabet.Phone
	for i := len(a) - 1; i >= 0 && !a.At(i).IsVowel(); i-- {
		coda = append([]arpabet.Phone{a.At(i).Phone()}, coda...)
	}
	for i := 0; i < len(b) && !b.At(i).IsVowel(); i++ {
		onset = append(onset, b.At(i).Phone())
	}
	if len(coda) == 0 || len(onset) == 0 {
		return tangle{}
	}
	end, start := coda[len(coda)-1], onset[0]
	// The more the seam has to carry, the surer; a beat right behind it leaves
	// the least time.
	c := 0.0
	what := ""
	switch {
	case hushes[end] != hushes[start] && sibilants[end] && sibilants[start]:
		// An ending -s melts into the hiss after it; a cluster does not.
		c, what = 0.5, "two different hisses meet"
		if len(onset) > 1 {
			c += 0.1
		}
		if !strings.HasSuffix(plain(left.Text), "s") {
			c += 0.06
		}
	case dental(end) && stridents[start] || stridents[end] && start == arpabet.TH:
		c, what = 0.54, "a lisp and a hiss meet"
		if len(coda) > 1 {
			c += 0.12
		}
	case len(coda)+len(onset) >= 5:
		c, what = 0.52+0.08*float64(len(coda)+len(onset)-5), counted(len(coda)+len(onset), "consonant")+" pile up"
		if len(coda) > 2 {
			c += 0.08 // a word's end is said more slackly than its start
		}
	default:
		return tangle{}
	}
	return tangle{what, c}
}

// echo reports whether two words begin and end alike: "splish, splosh" and the
// same word twice are a game that the tongue is in on.
func echo(a, b arpabet.Sounds) bool {
	edge := func(s arpabet.Sounds, from, step int) (list []arpabet.Phone) {
		for i := from; i >= 0 && i < len(s) && !s.At(i).IsVowel(); i += step {
			list = append(list, s.At(i).Phone())
		}
		return list
	}
	return slices.Equal(edge(a, 0, 1), edge(b, 0, 1)) && slices.Equal(edge(a, len(a)-1, -1), edge(b, len(b)-1, -1))
}

// hushes are the sibilants said further back than the rest; a hiss against its
// own like is mild.
var hushes = map[arpabet.Phone]bool{arpabet.SH: true, arpabet.ZH: true, arpabet.CH: true, arpabet.JH: true}

func dental(p arpabet.Phone) bool { return p == arpabet.TH || p == arpabet.DH }

// inList reports whether words w and w+1 are members of one list: they play one
// part, and a third of the same part follows or stands before.
func inList(line *scansion.Line, w int) bool {
	from, to := listAround(line, w)
	return to-from >= 3
}

// listAround is the list of one-word members [from, to) that word w and the
// next stand in; the last may have "and" before it. Members are counted as
// words, "and" left out of the count by the caller's need of three in all.
func listAround(line *scansion.Line, w int) (from, to int) {
	member := func(i int) bool { return onePart(&line.Words[w], &line.Words[i]) }
	from, to = w, w+1
	for from > 0 && member(from-1) && line.Words[from-1].Break == manuscript.LightBreak {
		from--
	}
	for to < len(line.Words) && member(to) && line.Words[to-1].Break == manuscript.LightBreak {
		to++
	}
	if to+1 < len(line.Words) && plain(line.Words[to].Text) == "and" && member(to+1) {
		to += 2
	}
	return from, to
}

// onePart reports whether two words can play one part: in a list of short verbs
// some always look like nouns.
func onePart(a, b *scansion.Word) bool {
	if a.Tag == b.Tag {
		return true
	}
	for _, t := range []grammar.Tag{grammar.Verb, grammar.Noun, grammar.Adjective, grammar.VerbPast} {
		if grammar.CanBe(plain(a.Text), t) && grammar.CanBe(plain(b.Text), t) && (a.Tag == t || b.Tag == t) {
			return true
		}
	}
	return false
}

// easierOrder offers another order of a list of three which scans alike, since
// its members have one pattern, and which has no tangle.
func easierOrder(text string, line *scansion.Line, w int) []Fix {
	from, to := listAround(line, w)
	var at []int
	for i := from; i < to; i++ {
		if plain(line.Words[i].Text) != "and" {
			at = append(at, i)
		}
	}
	if len(at) != 3 {
		return nil
	}
	pattern := stressPattern(line, at[0])
	for _, i := range at {
		if stressPattern(line, i) != pattern {
			return nil
		}
	}
	// The rhyme stays where it is.
	last := at[2]+1 == len(line.Words)
	for _, order := range [][3]int{{2, 1, 0}, {1, 0, 2}, {0, 2, 1}, {1, 2, 0}, {2, 0, 1}} {
		if last && order[2] != 2 {
			continue
		}
		tried := *line
		tried.Words = append([]scansion.Word(nil), line.Words...)
		tried.Reading.Ways = append([]int(nil), line.Reading.Ways...)
		for k, i := range at {
			brk := tried.Words[i].Break
			tried.Words[i] = line.Words[at[order[k]]]
			tried.Words[i].Break = brk
			tried.Reading.Ways[i] = line.Reading.Ways[at[order[k]]]
		}
		easy := true
		for i := max(from-1, 0); i < min(to, len(line.Words)-1); i++ {
			easy = easy && junction(&tried, i).confidence == 0
		}
		if !easy {
			continue
		}
		var edits []Edit
		var names []string
		for k, i := range at {
			word := line.Words[at[order[k]]].Text
			names = append(names, word)
			if order[k] != k {
				edits = append(edits, Edit{Span: line.Words[i].Span, Text: matchCase(word, line.Words[i].Text)})
			}
		}
		return []Fix{{Title: "Say " + strings.Join(names, ", ") + ": it scans alike and is easier to say", Edits: edits}}
	}
	return nil
}

// matchCase gives a word the capital of the one whose place it takes.
func matchCase(word, like string) string {
	if like != "" && like[:1] == strings.ToUpper(like[:1]) && like[:1] != strings.ToLower(like[:1]) {
		return capital(word)
	}
	return strings.ToLower(word)
}

// stressPattern is a word's stresses as it is read here.
func stressPattern(line *scansion.Line, word int) string {
	sounds, ok := soundsOf(line, word)
	if !ok {
		return ""
	}
	var b strings.Builder
	for _, s := range sounds.Stresses() {
		fmt.Fprintf(&b, "%d", s)
	}
	return b.String()
}

// like are the pairs of onsets that slip into each other most (Shattuck-Hufnagel
// and Klatt 1979, second hand).
var like = map[[2]arpabet.Phone]bool{
	{arpabet.L, arpabet.R}: true, {arpabet.S, arpabet.SH}: true, {arpabet.F, arpabet.P}: true, {arpabet.W, arpabet.R}: true,
}

// seeSaw finds four strong syllables in a row whose onsets change places: ABAB
// or ABBA of two sounds that are alike.
func seeSaw(list []strongSyllable) (from, to int, sounds string) {
	for i := 0; i+3 < len(list); i++ {
		var o [4]arpabet.Phone
		single := true
		for k := range o {
			s := list[i+k].onset
			if single = single && len(s) == 1; single {
				o[k] = arpabet.Phone(s[0])
			}
		}
		if !single || o[0] == o[1] || !like[[2]arpabet.Phone{o[0], o[1]}] && !like[[2]arpabet.Phone{o[1], o[0]}] {
			continue
		}
		if o[2] == o[0] && o[3] == o[1] || o[2] == o[1] && o[3] == o[0] {
			var names []string
			for _, p := range o {
				names = append(names, strings.ToLower(p.String()))
			}
			return list[i].word, list[i+3].word, strings.Join(names, "–")
		}
	}
	return 0, 0, ""
}
