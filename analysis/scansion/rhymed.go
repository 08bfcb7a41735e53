package scansion

import (
	"slices"
	"strings"

	"dandle/analysis/rhyme"
)

// Verse that rhymes is verse, however loosely it moves: so much less of a meter
// need show for its lines to be held to it (ours). Of 400 paragraphs of prose
// broken into lines none rhymes so.
const (
	rhymedShare  = 0.6 // of the lines that chime with another of their stanza
	rhymedSteady = 0.6 // of the lines that have the beats of their place
	rhymedBeats  = 5   // at most: in longer lines that move loosely the ear counts in more ways than one
	chimeReach   = 4   // lines
)

// keeps reports whether a part's lines keep its form closely enough for one of
// them to be called off.
func (p *Poem) keeps(v *verse, g *group, lines int) bool {
	f := &g.form
	return f.declared || f.isRegular(lines) ||
		f.steady >= rhymedSteady && f.comesBack(lines) && slices.Max(f.beats) <= rhymedBeats && p.isRhymed(v, g.stanzas)
}

// isRhymed reports whether most lines of some stanzas chime with another.
func (p *Poem) isRhymed(v *verse, stanzas []int) bool {
	lines, chiming := 0, 0
	for _, s := range stanzas {
		ends := make([]rhyme.End, len(v.index[s]))
		for k, i := range v.index[s] {
			ends[k] = p.Lines[i].End()
		}
		lines += len(ends)
		chiming += chimes(ends)
	}
	return float64(chiming) >= rhymedShare*float64(lines)
}

// chimes is how many ends have a whole rhyme close by.
func chimes(ends []rhyme.End) int {
	n := 0
	for i := range ends {
		for k := max(0, i-chimeReach); k < min(len(ends), i+chimeReach+1); k++ {
			if kind := rhyme.Compare(&ends[i], &ends[k]).Kind; kind == rhyme.Perfect || kind == rhyme.Mosaic {
				n++
				break
			}
		}
	}
	return n
}

// End is the end of the line, as rhymes hear it.
func (l *Line) End() rhyme.End { return rhyme.NewEnd(l.LastWords()) }

// LastWords are the last words of the line, three at most, as rhyme takes them.
// They do not hold on to the text that the line was read from.
func (l *Line) LastWords() []rhyme.Word {
	last := l.Words[max(0, len(l.Words)-3):]
	out := make([]rhyme.Word, len(last))
	for i, w := range last {
		out[i] = rhyme.Word{Text: strings.Clone(w.Text), Ways: w.Ways}
	}
	return out
}
