package lsp

import (
	"context"

	"dandle/analysis/manuscript"

	"go.lsp.dev/protocol"
)

// highlight marks what belongs together: a line's rhyme mates where the cursor
// is in its last word, every coming of a repeated line elsewhere in it, else
// every coming of the word. Editors ask at each rest of the cursor, so that a
// word which only joins others, such as "and", lights up nothing.
func highlight(_ context.Context, v view, p protocol.DocumentHighlightParams) (any, error) {
	out := []protocol.DocumentHighlight{}
	spans, relation := v.related(p.Position)
	if relation == sameWord && !v.tells(p.Position) {
		return out, nil
	}
	for _, r := range v.ranges(spans) {
		out = append(out, protocol.DocumentHighlight{Range: r, Kind: protocol.DocumentHighlightKindText})
	}
	return out, nil
}

// A relation is why places belong together.
type relation int

const (
	rhymeMates relation = iota
	refrain
	sameWord
)

// related are the places that belong to a position, in the order of the text:
// the first is where a refrain or a rhyme is set up.
func (v view) related(p protocol.Position) ([]manuscript.Span, relation) {
	s := v.snapshot()
	m := s.Manuscript()
	line, word, ok := m.WordAt(v.offset(p))
	if !ok {
		return nil, sameWord
	}
	if word == len(m.Lines[line].Words)-1 {
		var ends []manuscript.Span
		for _, n := range mates(s, line) {
			ends = append(ends, lastWord(m.Lines[n]))
		}
		if ends != nil {
			return ends, rhymeMates
		}
	}
	var again []manuscript.Span
	for _, n := range repeats(m, line) {
		again = append(again, m.Lines[n].Span)
	}
	if again != nil {
		return again, refrain
	}
	return occurrences(m, m.Lines[line].Words[word].Text), sameWord
}

// tells reports whether the word at a position names something: a thing, a doing,
// a quality.
func (v view) tells(p protocol.Position) bool {
	s := v.snapshot()
	line, word, ok := s.Manuscript().WordAt(v.offset(p))
	poem := s.Poem()
	if !ok || line >= len(poem.Lines) || word >= len(poem.Lines[line].Words) {
		return false
	}
	tag := poem.Lines[line].Words[word].Tag
	return tag.IsNoun() || tag.IsVerb() || tag.IsAdjective() || tag.IsAdverb()
}
