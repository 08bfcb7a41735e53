package checks

import (
	"fmt"
	"slices"
	"strings"

	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"
	"dandle/phonetics/arpabet"
)

const soundTongueTangleDoc = `
Neighbouring sounds are hard to say aloud at pace.

A picture book is read aloud, at bedtime, by somebody tired. Where one word ends in a hiss and
the next begins with another, where five consonants pile up between two vowels, or where
two like sounds change places (_red lamp, long rope_), the tongue slips (Shattuck-Hufnagel and
Klatt; Wilshire 1999), most of all where the word stands in a quick, light place. A tongue
twister that means to be one is a joy; accept the finding.

In 8,905 lines of Housman and Kipling it speaks 39 times, once in 228.

Raised here:

    The mole with the brush swept and polished the floor.
    The fifth sail was torn by the wind from the shore.

Not here:

    He took up his broom and he polished the floor.
    The sail that was torn was the fifth from the shore.

What helps: another order, for of two or three words that play one part either order often scans
alike and one is easy to say; or another word of the same sense and the same beat.
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
				if t.confidence == 0 || p.sounding(line, w) {
					continue
				}
				p.Report(Finding{
					Span: between(line, w, w+1), Line: i, Confidence: t.confidence + pace(line, w),
					Fixes: slices.Concat(easierOrders(line, w), p.easierWords(i, line, w)),
					Message: fmt.Sprintf("%s between %s and %s: said at pace, the tongue may slip; another order or another word would run.",
						capital(t.what), quote(line.Words[w].Text), quote(line.Words[w+1].Text)),
				})
			}
			if from, to, sounds := seeSaw(line, p.strong(i)); to > from {
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
	a, okA := soundsOf(line, w)
	b, okB := soundsOf(line, w+1)
	if !okA || !okB || len(a) == 0 || len(b) == 0 || a.At(len(a)-1).IsVowel() || b.At(0).IsVowel() {
		return tangle{} // no two consonants meet: nearly everywhere
	}
	if left.Break > manuscript.LightBreak || left.Break == manuscript.LightBreak && !inList(line, w) || !content(left) || !content(right) || echo(a, b) {
		return tangle{}
	}
	var coda, onset []arpabet.Phone
	for i := len(a) - 1; i >= 0 && !a.At(i).IsVowel(); i-- {
		coda = append([]arpabet.Phone{a.At(i).Phone()}, coda...)
	}
	for i := 0; i < len(b) && !b.At(i).IsVowel(); i++ {
		onset = append(onset, b.At(i).Phone())
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
		c, what = 0.5, "a lisp and a hiss meet"
		if len(coda) > 1 {
			c += 0.16
		}
	case len(coda)+len(onset) >= 5:
		c, what = 0.5+0.08*float64(len(coda)+len(onset)-5), counted(len(coda)+len(onset), "consonant")+" pile up"
		if len(coda) > 2 {
			c += 0.1 // a word's end is said more slackly than its start
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

// sounding reports whether two words at a comma are sound words, which a reader
// plays one by one: "swish, splash".
func (p *Pass) sounding(line *scansion.Line, w int) bool {
	return line.Words[w].Break != manuscript.NoBreak && p.mayImitate(&line.Words[w]) && p.mayImitate(&line.Words[w+1])
}

// pace is how much surer or less sure the beats make a tangle: a word that has
// to be said in a slack place goes by fast, and between two beats that meet the
// voice takes its time (ours).
func pace(line *scansion.Line, w int) float64 {
	first, last := -1, -1
	for i, s := range line.Reading.Syllables {
		if s.Word == w {
			last = i
		}
		if s.Word == w+1 && first < 0 {
			first = i
		}
	}
	if first < 0 || last < 0 {
		return 0
	}
	before, after := line.Reading.Syllables[last].Beat, line.Reading.Syllables[first].Beat
	switch {
	case !after:
		return 0.04
	case before:
		return -0.04
	default:
		return 0
	}
}
