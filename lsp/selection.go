package lsp

import (
	"context"

	"dandle/analysis/manuscript"

	"go.lsp.dev/protocol"
)

// selectionRanges widen a selection step by step: syllable, word, line, couplet,
// stanza, spread, text.
func selectionRanges(ctx context.Context, v view, p protocol.SelectionRangeParams) (any, error) {
	out := []*protocol.SelectionRange{}
	for _, position := range p.Positions {
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		var inner *protocol.SelectionRange
		steps := v.around(v.offset(position))
		for i := len(steps) - 1; i >= 0; i-- {
			inner = &protocol.SelectionRange{Range: v.rangeOf(steps[i]), Parent: inner}
		}
		out = append(out, inner)
	}
	return out, nil
}

// around are the stretches that hold an offset, the smallest first, each wider
// than the one before.
func (v view) around(offset int) []manuscript.Span {
	s := v.snapshot()
	m := s.Manuscript()
	var steps []manuscript.Span
	add := func(next manuscript.Span) {
		if n := len(steps); n > 0 {
			inner := steps[n-1]
			if next.Start > inner.Start || next.End < inner.End || next == inner {
				return
			}
		}
		steps = append(steps, next)
	}
	if line, word, ok := m.WordAt(offset); ok {
		if poem := s.Poem(); line < len(poem.Lines) {
			for _, syllable := range poem.Lines[line].Reading.Syllables {
				if syllable.Span.Contains(offset) {
					add(syllable.Span)
				}
			}
		}
		add(m.Lines[line].Words[word].Span)
	}
	if line := m.LineAt(offset); line >= 0 && m.Lines[line].Span.Touches(offset) {
		l := m.Lines[line]
		add(l.Span)
		stanza := m.Stanzas[l.Stanza]
		first := line - l.Place%2
		add(manuscript.Span{Start: m.Lines[first].Span.Start, End: m.Lines[min(first+1, stanza.To-1)].Span.End})
	}
	if i := m.NoteAt(offset); i >= 0 {
		add(m.Notes[i].Span)
	}
	if i := m.StanzaAt(offset); i >= 0 {
		add(m.StanzaSpan(i))
	}
	if i := m.SpreadAt(offset); i >= 0 {
		add(v.spreadSpan(i))
	}
	add(manuscript.Span{Start: 0, End: len(v.text)})
	return steps
}
