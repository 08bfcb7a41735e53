package suggest

import (
	"cmp"
	"math"
	"slices"

	"dandle/analysis/rhyme"
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
	seat  seat
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
	wants := p.wants(line, heard, at)
	var list []mate
	var ends []rhyme.End
	for _, w := range wants {
		tail := p.Poem.Lines[w.line].LastWords()
		if len(list) == taste.MostMates || len(tail) == 0 || len(tail[len(tail)-1].Ways) == 0 || w.wanted < wants[0].wanted*farMate {
			continue
		}
		end := rhyme.NewEnd(tail)
		if slices.ContainsFunc(ends, func(e rhyme.End) bool { return rhyme.Compare(&e, &end).Kind.IsFull() }) {
			continue
		}
		ends = append(ends, end)
		word := tail[len(tail)-1].Text
		list = append(list, mate{
			line: w.line, gap: w.line - line, heard: w.answered, seat: w.seat,
			odds: math.Log(w.wanted), word: word, known: words.Find(lower(word)),
		})
	}
	return list
}

// A want is a line that the form wants another to rhyme with.
type want struct {
	line     int
	wanted   float64 // how strongly: see rhyme.Mate
	answered int     // other lines that answer it
	seat     seat
}

// A seat is how a rhyme would lie among those that are heard already.
type seat struct {
	alone    bool // of all lines near by only this one has no answer
	parallel bool // a line beside the cursor's answers one as far off: alternate rhyme
	mirror   bool // a line beside the cursor's answers the one on this one's near side: enclosed rhyme
}

// seatOf finds how the rhyme of two lines of a stanza would lie.
func seatOf(s *rhyme.Stanza, line, mate int) seat {
	chimes := func(a, b int) bool { return a >= 0 && a != line && b != line && slices.Contains(s.Mates(a), b) }
	far := max(mate-line, line-mate)
	var out seat
	for _, beside := range [2]int{-1, 1} {
		if beside+line >= s.Len() {
			continue
		}
		out.parallel = out.parallel || far > 1 && chimes(line+beside, mate+beside)
		out.mirror = out.mirror || far > 2 && chimes(line+beside, mate-beside)
	}
	return out
}

// wants are those of a line, likeliest first: in its stanza, and in the next one
// or the one before where the poem is a chain.
func (p *Place) wants(line int, heard []rhyme.Stanza, at int) []want {
	stanza := p.Manuscript.Lines[line].Stanza
	first := p.Manuscript.Stanzas[stanza].From
	var list []want
	for _, w := range heard[at].Wants(line - first) {
		answers := slices.DeleteFunc(heard[at].Mates(w.Line), func(i int) bool { return i == line-first })
		list = append(list, want{first + w.Line, w.Wanted, len(answers), seatOf(&heard[at], line-first, w.Line)})
	}
	waiting := slices.DeleteFunc(slices.Clone(list), func(w want) bool { return w.answered > 0 })
	for i := range list {
		list[i].seat.alone = len(waiting) == 1 && list[i].line == waiting[0].line
	}
	link, chained := rhyme.LinkOf(heard[max(0, at-nearStanzas):min(len(heard), at+nearStanzas+1)])
	if !chained {
		return list
	}
	if at > 0 && slices.Contains(link.To, line-first) && heard[at-1].Len() == link.Length {
		list = append(list, want{p.Manuscript.Stanzas[stanza-1].From + link.From, link.Share, 0, seat{}})
	}
	if at+1 < len(heard) && line-first == link.From && heard[at+1].Len() == link.Length {
		for _, to := range link.To {
			list = append(list, want{p.Manuscript.Stanzas[stanza+1].From + to, link.Share, len(link.To) - 1, seat{}})
		}
	}
	slices.SortStableFunc(list, func(a, b want) int { return cmp.Compare(b.wanted, a.wanted) })
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
			list = append(list, p.Poem.Lines[i].End())
		}
		ends = append(ends, rhyme.Listen(list))
	}
	return rhyme.Hear(ends), stanza - from
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
