package lsp

import (
	"cmp"
	"context"
	"slices"
	"strconv"
	"sync"
	"sync/atomic"

	"dandle/analysis/checks"
	"dandle/analysis/manuscript"
	"dandle/lsp/protocol317"

	"go.lsp.dev/protocol"
	"go.lsp.dev/uri"
)

// The types and modifiers are the protocol's own, so that every theme colours
// them: the nearest to what they stand for here.
const (
	tokenBeat    = iota // keyword: a syllable that carries a beat
	tokenSlack          // variable: one that carries none
	tokenNote           // comment: art notes, reviewer's notes, directives
	tokenHeading        // namespace: title and spreads
	tokenKey            // property: a key of the front matter
)

const (
	modRefrain   = 1 << iota // readonly: a line that comes again
	modFirst                 // definition: its first coming
	modVariation             // modification: a licensed variation of the meter
	modPraise                // documentation: sounds that please the ear
)

var tokenLegend = protocol317.SemanticTokensLegend{
	TokenTypes:     []string{"keyword", "variable", "comment", "namespace", "property"},
	TokenModifiers: []string{"readonly", "definition", "modification", "documentation"},
}

// A token is one coloured stretch, inside one line of the file.
type token struct {
	span      manuscript.Span
	kind      uint32
	modifiers uint32
}

// tokens are a manuscript's tokens in order; none overlaps another.
func (v view) tokens(within manuscript.Span) []token {
	s := v.snapshot()
	m := s.Manuscript()
	var all []token
	add := func(span manuscript.Span, kind, modifiers uint32) {
		if span.Start < within.End && within.Start < span.End {
			all = append(all, token{span, kind, modifiers})
		}
	}
	for _, k := range m.Front.Keys {
		add(k.Span, tokenKey, 0)
	}
	if m.Title.Span.Len() > 0 {
		add(m.Title.Span, tokenHeading, 0)
	}
	for _, spread := range m.Spreads {
		add(spread.Heading.Span, tokenHeading, 0)
	}
	for _, n := range m.Notes {
		add(n.Span, tokenNote, 0)
	}
	for _, a := range m.Allowances {
		if a.Span.Start >= m.Front.Span.End {
			add(a.Span, tokenNote, 0)
		}
	}
	poem := s.Poem()
	refrains := firstComings(m)
	praised := praisedSpans(s.Findings())
	for n := range min(len(poem.Lines), len(m.Lines)) {
		if span := m.Lines[n].Span; span.Start >= within.End || within.Start >= span.End {
			continue
		}
		modifiers := uint32(0)
		if first, again := refrains[n]; again {
			modifiers = modRefrain
			if first == n {
				modifiers |= modFirst
			}
		}
		heard := poem.Lines[n]
		variations := heard.Variations
		if !meterOf(s, m.Lines[n].Stanza).Regular {
			variations = nil // nothing is there to depart from
		}
		for i, syllable := range heard.Reading.Syllables {
			own := modifiers
			for _, variation := range variations {
				if variation.From <= i && i < variation.To {
					own |= modVariation
				}
			}
			if inside(praised[n], syllable.Span) {
				own |= modPraise
			}
			kind := uint32(tokenSlack)
			if syllable.Beat {
				kind = tokenBeat
			}
			add(syllable.Span, kind, own)
		}
	}
	return v.singleLines(all)
}

// praisedSpans are the stretches whose sounds are praised, by line. A refrain
// and a variation have modifiers of their own.
func praisedSpans(findings []checks.Finding) map[int][]manuscript.Span {
	spans := map[int][]manuscript.Span{}
	for _, f := range findings {
		if f.Severity != checks.Praise || f.Line < 0 {
			continue
		}
		switch f.Code {
		case "praise/refrain", "praise/variation":
		default:
			spans[f.Line] = append(spans[f.Line], f.Span)
		}
	}
	return spans
}

// inside reports whether a stretch begins in one of the spans.
func inside(spans []manuscript.Span, s manuscript.Span) bool {
	return slices.ContainsFunc(spans, func(p manuscript.Span) bool { return p.Contains(s.Start) })
}

// singleLines sorts tokens, cuts them at line ends and drops what would overlap,
// for most clients take nothing else.
func (v view) singleLines(all []token) []token {
	slices.SortStableFunc(all, func(a, b token) int { return cmp.Compare(a.span.Start, b.span.Start) })
	var out []token
	end := 0
	for _, t := range all {
		if t.span.Start < end || t.span.End > len(v.text) {
			continue
		}
		for n := v.lineAt(t.span.Start); n < v.lines(); n++ {
			line := v.line(n)
			piece := manuscript.Span{Start: max(t.span.Start, line.Start), End: min(t.span.End, line.End)}
			if line.Start >= t.span.End {
				break
			}
			if piece.Len() > 0 {
				out = append(out, token{piece, t.kind, t.modifiers})
			}
		}
		end = max(end, t.span.End)
	}
	return out
}

// encode writes tokens as the protocol's relative quintuples (LSP 3.17,
// "Integer Encoding for Tokens").
func (v view) encode(list []token) []uint32 {
	spans := make([]manuscript.Span, len(list))
	for i, t := range list {
		spans[i] = t.span
	}
	data := make([]uint32, 0, 5*len(list))
	var last protocol.Position
	for i, r := range v.ranges(spans) {
		start := r.Start.Character
		if r.Start.Line == last.Line {
			start -= last.Character
		}
		data = append(data, r.Start.Line-last.Line, start, r.End.Character-r.Start.Character, list[i].kind, list[i].modifiers)
		last = r.Start
	}
	return data
}

// A tokenShelf keeps the last tokens sent for each document, to tell what has
// changed since.
type tokenShelf struct {
	last atomic.Int64
	mu   sync.Mutex
	sent map[uri.URI]protocol317.SemanticTokens
}

func newTokenShelf() *tokenShelf { return &tokenShelf{sent: map[uri.URI]protocol317.SemanticTokens{}} }

func (k *tokenShelf) keep(u uri.URI, data []uint32) protocol317.SemanticTokens {
	t := protocol317.SemanticTokens{ResultID: strconv.FormatInt(k.last.Add(1), 10), Data: data}
	k.mu.Lock()
	defer k.mu.Unlock()
	k.sent[u] = t
	return t
}

func (k *tokenShelf) find(u uri.URI, id string) (protocol317.SemanticTokens, bool) {
	k.mu.Lock()
	defer k.mu.Unlock()
	t, ok := k.sent[u]
	return t, ok && t.ResultID == id
}

func (k *tokenShelf) forget(u uri.URI) {
	k.mu.Lock()
	defer k.mu.Unlock()
	delete(k.sent, u)
}

func (v view) everything() manuscript.Span { return manuscript.Span{Start: 0, End: len(v.text) + 1} }

func semanticTokensFull(_ context.Context, v view, _ protocol.SemanticTokensParams) (any, error) {
	return v.memory.tokens.keep(v.uri, v.encode(v.tokens(v.everything()))), nil
}

func semanticTokensRange(_ context.Context, v view, p protocol.SemanticTokensRangeParams) (any, error) {
	asked, err := v.span(p.Range)
	if err != nil {
		return nil, err
	}
	return protocol317.SemanticTokens{Data: v.encode(v.tokens(asked))}, nil
}

// semanticTokensDelta tells what has changed since a result; all of it, where
// that result is not known any more.
func semanticTokensDelta(_ context.Context, v view, p protocol.SemanticTokensDeltaParams) (any, error) {
	data := v.encode(v.tokens(v.everything()))
	before, known := v.memory.tokens.find(v.uri, p.PreviousResultID)
	now := v.memory.tokens.keep(v.uri, data)
	if !known {
		return now, nil
	}
	return protocol317.SemanticTokensDelta{ResultID: now.ResultID, Edits: tokenEdits(before.Data, data)}, nil
}

// tokenEdits is the one edit that turns the old numbers into the new, or none.
func tokenEdits(before, after []uint32) []protocol317.SemanticTokensEdit {
	if slices.Equal(before, after) {
		return []protocol317.SemanticTokensEdit{}
	}
	same := 0
	for same < min(len(before), len(after)) && before[same] == after[same] {
		same++
	}
	tail := 0
	for tail < min(len(before), len(after))-same && before[len(before)-1-tail] == after[len(after)-1-tail] {
		tail++
	}
	return []protocol317.SemanticTokensEdit{{
		Start: uint32(same), DeleteCount: uint32(len(before) - same - tail), Data: after[same : len(after)-tail],
	}}
}
