package lsp

import (
	"context"

	"dandle/lsp/protocol317"

	"go.lsp.dev/protocol"
)

// references lists every coming of what stands at a position: a repeated line,
// the rhyme mates of a line's last word, or the word.
func references(_ context.Context, v view, p protocol.ReferenceParams) (any, error) {
	out := []protocol317.Location{}
	spans, _ := v.related(p.Position)
	own := v.offset(p.Position)
	for i, r := range v.ranges(spans) {
		if !p.Context.IncludeDeclaration && spans[i].Touches(own) {
			continue
		}
		out = append(out, protocol317.Location{URI: v.uri, Range: r})
	}
	return out, nil
}

// definition leads from a refrain to its first coming.
func definition(_ context.Context, v view, p protocol.DefinitionParams) (any, error) {
	m := v.snapshot().Manuscript()
	line := m.LineAt(v.offset(p.Position))
	if line < 0 {
		return nil, nil
	}
	again := repeats(m, line)
	if again == nil {
		return nil, nil
	}
	first := m.Lines[again[0]].Span
	return protocol317.Location{URI: v.uri, Range: v.rangeOf(first)}, nil
}
