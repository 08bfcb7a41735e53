package suggest

import (
	"math"
	"slices"

	"dandle/analysis/rhyme"
	"dandle/analysis/scansion"
	"dandle/analysis/suggest/taste"
	"dandle/analysis/suggest/words"
)

const (
	farMate     = 0.008 // of the likeliest one's odds: a line less likely is no mate
	nearStanzas = 12    // heard on either side of the cursor's
)

// A mate is a line that the cursor's line may have to answer.
type mate struct {
	line  int
	gap   int     // lines from the cursor's to it: below 0 where it comes before
	odds  float64 // the logarithm of how likely it is
	heard int     // other lines that answer it
	word  string
	known words.Word
}

// mates finds the lines that the form wants this one to rhyme with. What the
// line ends with now is left out of account: it is unfinished.
func (p *Place) mates(line int) []mate {
	stanza := p.Manuscript.Lines[line].Stanza
	heard, at := p.Stanzas, stanza
	if len(heard) != len(p.Manuscript.Stanzas) {
		heard, at = p.hear(stanza)
	}
	first := p.Manuscript.Stanzas[stanza].From
	var list []mate
	wants := heard[at].Wants(line - first)
	for _, w := range wants {
		other := first + w.Line
		tail := tailWords(&p.Poem.Lines[other])
		sounds := func(m mate) bool {
			kind := rhyme.Compare(heard[at].End(m.line-first), heard[at].End(w.Line)).Kind
			return kind != rhyme.NoRhyme && kind <= rhyme.Homophone
		}
		if len(list) == taste.MostMates || slices.ContainsFunc(list, sounds) || len(tail) == 0 || len(tail[len(tail)-1].Ways) == 0 || w.Wanted < wants[0].Wanted*farMate {
			continue
		}
		word := tail[len(tail)-1].Text
		answers := slices.DeleteFunc(heard[at].Mates(w.Line), func(i int) bool { return i == line-first })
		list = append(list, mate{line: other, gap: other - line, heard: len(answers), odds: math.Log(w.Wanted), word: word, known: words.Find(lower(word))})
	}
	return list
}

// hear listens to the stanzas round one, and says which of them it is.
func (p *Place) hear(stanza int) ([]rhyme.Stanza, int) {
	from := max(0, stanza-nearStanzas)
	to := min(len(p.Manuscript.Stanzas), stanza+nearStanzas+1)
	ends := make([]*rhyme.Ends, 0, to-from)
	for _, s := range p.Manuscript.Stanzas[from:to] {
		var list []rhyme.End
		for i := s.From; i < s.To; i++ {
			list = append(list, rhyme.NewEnd(tailWords(&p.Poem.Lines[i])))
		}
		ends = append(ends, rhyme.Listen(list))
	}
	return rhyme.Hear(ends), stanza - from
}

// tailWords are the last words of a line, as rhyme takes them.
func tailWords(l *scansion.Line) []rhyme.Word {
	list := l.Words[max(0, len(l.Words)-3):]
	out := make([]rhyme.Word, len(list))
	for i, w := range list {
		out[i] = rhyme.Word{Text: w.Text, Ways: w.Ways}
	}
	return out
}

// peers are the lines whose length the cursor's line should have: its mate
// first, then those at its place in other stanzas of as many lines.
func (p *Place) peers(line, mate int) []int {
	m := p.Manuscript
	list := []int{mate}
	own := m.Lines[line]
	size := m.Stanzas[own.Stanza].To - m.Stanzas[own.Stanza].From
	for i := max(0, own.Stanza-nearStanzas); i < min(len(m.Stanzas), own.Stanza+nearStanzas+1); i++ {
		s := m.Stanzas[i]
		if i != own.Stanza && s.To-s.From == size {
			list = append(list, s.From+own.Place)
		}
	}
	return list
}
