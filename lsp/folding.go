package lsp

import (
	"context"

	"dandle/analysis/manuscript"

	"go.lsp.dev/protocol"
)

// folding offers the front matter, spreads, stanzas and notes of several lines. A
// stanza that runs over a page turn folds on each page, since clients drop folds
// that cross.
func folding(_ context.Context, v view, _ protocol.FoldingRangeParams) (any, error) {
	m := v.snapshot().Manuscript()
	out := []protocol.FoldingRange{}
	limit := int(v.client.caps.TextDocument.FoldingRange.RangeLimit)
	add := func(s manuscript.Span, kind protocol.FoldingRangeKind) {
		from, to := v.lineAt(s.Start), v.lineAt(max(s.Start, s.End-1))
		if from < to && (limit == 0 || len(out) < limit) {
			out = append(out, protocol.FoldingRange{StartLine: uint32(from), EndLine: uint32(to), Kind: kind})
		}
	}
	if m.Front.Span.Len() > 0 {
		add(m.Front.Span, protocol.RegionFoldingRange)
	}
	for i := range m.Spreads {
		add(v.spreadSpan(i), protocol.RegionFoldingRange)
	}
	for _, p := range pieces(m) {
		add(p.span(m), "")
	}
	for _, n := range m.Notes {
		add(n.Span, protocol.CommentFoldingRange)
	}
	return out, nil
}

// spreadSpan is a spread with its heading, without the blank lines at its end.
func (v view) spreadSpan(i int) manuscript.Span {
	m := v.snapshot().Manuscript()
	s := manuscript.Span{Start: m.Spreads[i].Heading.Span.Start, End: len(m.Text)}
	if i+1 < len(m.Spreads) {
		s.End = m.Spreads[i+1].Heading.Span.Start
	}
	for s.End > s.Start && isSpace(m.Text[s.End-1]) {
		s.End--
	}
	return s
}

func isSpace(c byte) bool { return c == ' ' || c == '\t' || c == '\n' || c == '\r' }
