package lsp

import (
	"context"

	"dandle/analysis/manuscript"

	"go.lsp.dev/protocol"
)

// highlight marks what belongs together: a line's rhyme mates where the cursor
// is in its last word, every coming of a repeated line elsewhere in it, else
// every coming of the word.
func highlight(_ context.Context, v view, p protocol.DocumentHighlightParams) (any, error) {
	out := []protocol.DocumentHighlight{}
	spans, _ := v.related(p.Position)
	for _, r := range v.ranges(spans) {
		out = append(out, protocol.DocumentHighlight{Range: r, Kind: protocol.DocumentHighlightKindText})
	}
	return out, nil
}

// related are the places that belong to a position, and the first of them in the
// text, which is where a refrain or a rhyme is set up.
func (v view) related(p protocol.Position) (all []manuscript.Span, refrain bool) {
	s := v.snapshot()
	m := s.Manuscript()
	line, word, ok := m.WordAt(v.offset(p))
	if !ok {
		return nil, false
	}
	if word == len(m.Lines[line].Words)-1 {
		for _, n := range mates(s, line) {
			all = append(all, lastWord(m.Lines[n]))
		}
		if all != nil {
			return all, false
		}
	}
	for _, n := range repeats(m, line) {
		all = append(all, m.Lines[n].Span)
	}
	if all != nil {
		return all, true
	}
	return occurrences(m, m.Lines[line].Words[word].Text), false
}
