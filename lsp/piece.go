package lsp

import (
	"fmt"

	"dandle/analysis/manuscript"
)

// A piece is as much of a stanza as stands on one spread. A stanza may run over
// a page turn, which an outline and folds cannot: what is in a spread ends there.
type piece struct {
	stanza   int // index into the manuscript's stanzas
	from, to int // lines [from, to), indexes into its lines
}

// pieces are the stanzas of a manuscript, cut at its page turns.
func pieces(m *manuscript.Manuscript) []piece {
	var out []piece
	for i, s := range m.Stanzas {
		from := s.From
		for n := s.From + 1; n <= s.To; n++ {
			if n == s.To || m.SpreadAt(m.Lines[n].Span.Start) != m.SpreadAt(m.Lines[from].Span.Start) {
				out = append(out, piece{i, from, n})
				from = n
			}
		}
	}
	return out
}

// span is from the first line of a piece to its last.
func (p piece) span(m *manuscript.Manuscript) manuscript.Span {
	return manuscript.Span{Start: m.Lines[p.from].Span.Start, End: m.Lines[p.to-1].Span.End}
}

// lines say how many lines a piece has, and which, where it is not all of its
// stanza.
func (p piece) lines(m *manuscript.Manuscript) string {
	s := m.Stanzas[p.stanza]
	all := s.To - s.From
	switch first, last := p.from-s.From+1, p.to-s.From; {
	case p.to-p.from == all:
		return count(all, "line")
	case first == last:
		return fmt.Sprintf("line %d of %d", first, all)
	default:
		return fmt.Sprintf("lines %d–%d of %d", first, last, all)
	}
}
