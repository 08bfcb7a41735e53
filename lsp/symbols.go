package lsp

import (
	"context"
	"encoding/json"
	"fmt"
	"strings"

	"dandle/analysis/manuscript"
	"dandle/lsp/protocol317"

	"go.lsp.dev/protocol"
)

// documentSymbols outlines a manuscript: spreads, and the stanzas in them.
func documentSymbols(_ context.Context, v view, _ protocol.DocumentSymbolParams) (any, error) {
	tree := v.outline()
	if v.client.caps.TextDocument.DocumentSymbol.HierarchicalDocumentSymbolSupport {
		return tree, nil
	}
	flat := []protocol317.SymbolInformation{}
	for _, s := range tree {
		flat = append(flat, v.symbol(s, ""))
		for _, inner := range s.Children {
			flat = append(flat, v.symbol(inner, s.Name))
		}
	}
	return flat, nil
}

// symbol is an entry of the outline as clients take it that know no trees.
func (v view) symbol(s protocol317.DocumentSymbol, container string) protocol317.SymbolInformation {
	return protocol317.SymbolInformation{
		Name: s.Name, Kind: s.Kind, ContainerName: container,
		Location: protocol317.Location{URI: v.uri, Range: s.SelectionRange},
	}
}

// The kinds are the nearest that the protocol has: it knows code alone.
const (
	spreadKind = int(protocol.SymbolKindNamespace)
	stanzaKind = int(protocol.SymbolKindString)
	titleKind  = int(protocol.SymbolKindFile)
)

func (v view) outline() []protocol317.DocumentSymbol {
	m := v.snapshot().Manuscript()
	out := []protocol317.DocumentSymbol{}
	if m.Title.Span.Len() > 0 && m.Title.Text != "" {
		place := v.rangeOf(m.Title.Span)
		out = append(out, protocol317.DocumentSymbol{Name: opening(m.Title.Text), Kind: titleKind, Range: place, SelectionRange: place})
	}
	rest := pieces(m)
	stanzas := func(before int) []protocol317.DocumentSymbol {
		var list []protocol317.DocumentSymbol
		for len(rest) > 0 && m.Lines[rest[0].from].Span.Start < before {
			list = append(list, v.stanzaSymbol(rest[0]))
			rest = rest[1:]
		}
		return list
	}
	start := len(m.Text) + 1
	if len(m.Spreads) > 0 {
		start = m.Spreads[0].Heading.Span.Start
	}
	out = append(out, stanzas(start)...)
	for i, s := range m.Spreads {
		end := len(m.Text) + 1
		if i+1 < len(m.Spreads) {
			end = m.Spreads[i+1].Heading.Span.Start
		}
		name := opening(s.Heading.Text)
		if name == "" {
			name = fmt.Sprintf("Spread %d", i+1)
		}
		out = append(out, protocol317.DocumentSymbol{
			Name: name, Detail: count(s.To-s.From, "line"), Kind: spreadKind,
			Range: v.hull(s.Heading.Span, v.spreadSpan(i)), SelectionRange: v.rangeOf(s.Heading.Span),
			Children: stanzas(end),
		})
	}
	return out
}

// hull is the range that holds both spans.
func (v view) hull(a, b manuscript.Span) protocol.Range {
	return v.rangeOf(manuscript.Span{Start: min(a.Start, b.Start), End: max(a.End, b.End)})
}

func (v view) stanzaSymbol(p piece) protocol317.DocumentSymbol {
	s := v.snapshot()
	m := s.Manuscript()
	first := m.Lines[p.from]
	detail := p.lines(m)
	if heard := s.Stanzas(); p.stanza < len(heard) {
		detail = heard[p.stanza].Scheme.String() + " · " + detail
	}
	return protocol317.DocumentSymbol{
		Name: nonEmpty(opening(first.Span.In(m.Text)), fmt.Sprintf("Stanza %d", p.stanza+1)), Detail: detail, Kind: stanzaKind,
		Range: v.rangeOf(p.span(m)), SelectionRange: v.rangeOf(first.Span),
	}
}

func nonEmpty(text, instead string) string {
	if text == "" {
		return instead
	}
	return text
}

// workspaceSymbols finds titles, spreads and stanzas of all manuscripts whose
// name holds the letters of the query in their order.
func (s *server) workspaceSymbols(params json.RawMessage) (work, error) {
	p, err := decodeParams[struct {
		Query         string          `json:"query"`
		WorkDoneToken json.RawMessage `json:"workDoneToken"`
	}](params)
	if err != nil {
		return nil, err
	}
	return func(ctx context.Context) (any, error) {
		out := []protocol317.SymbolInformation{}
		err := s.eachManuscript(ctx, errand{p.WorkDoneToken, "Looking through the manuscripts"}, func(d *document, _ bool) {
			v := s.view(d)
			book := opening(nonEmpty(d.snapshot().Manuscript().Title.Text, d.snapshot().Manuscript().Front.Title))
			for _, entry := range v.outline() {
				out = v.found(out, entry, p.Query, book)
				for _, inner := range entry.Children {
					out = v.found(out, inner, p.Query, entry.Name)
				}
			}
		})
		return out, err
	}, nil
}

// maxSymbols bounds an answer; a longer query finds fewer.
const maxSymbols = 500

func (v view) found(out []protocol317.SymbolInformation, s protocol317.DocumentSymbol, query, container string) []protocol317.SymbolInformation {
	if len(out) < maxSymbols && holdsInOrder(s.Name, query) {
		out = append(out, v.symbol(s, container))
	}
	return out
}

// holdsInOrder reports whether a name holds the letters of a query in their
// order, whatever their case; the specification asks servers to be that lenient.
func holdsInOrder(name, query string) bool {
	rest := []rune(strings.ToLower(query))
	for _, r := range strings.ToLower(name) {
		if len(rest) > 0 && r == rest[0] {
			rest = rest[1:]
		}
	}
	return len(rest) == 0
}
