package lsp

import (
	"context"
	"encoding/json"
	"strings"

	"dandle/analysis/scansion"
	"dandle/lsp/protocol317"

	"go.lsp.dev/protocol"
)

// codeLens stands over the book (words and spreads) and over each stanza (meter
// and rhyme scheme).
func codeLens(_ context.Context, v view, _ protocol.CodeLensParams) (any, error) {
	out := []protocol317.CodeLens{}
	if !v.settings.CodeLens {
		return out, nil
	}
	s := v.snapshot()
	m := s.Manuscript()
	if len(m.Lines) == 0 {
		return out, nil
	}
	book := count(m.WordCount(), "word")
	if len(m.Spreads) > 0 {
		book += " · " + count(len(m.Spreads), "spread")
	}
	out = append(out, v.lens(m.Title.Span.Start, book, commandCritique, string(v.uri)))
	heard := s.Stanzas()
	for i, stanza := range m.Stanzas {
		var title []string
		if meter := meterOf(s, i); meter.Foot != scansion.NoMeter {
			title = append(title, meter.Name())
		}
		if i < len(heard) {
			title = append(title, heard[i].Scheme.String())
		}
		if len(title) > 0 {
			out = append(out, v.lens(m.Lines[stanza.From].Span.Start, strings.Join(title, " · "), commandScan, string(v.uri), i))
		}
	}
	return out, nil
}

func (v view) lens(offset int, title, command string, arguments ...any) protocol317.CodeLens {
	at := v.rangeOf(spanAt(offset)).Start
	return protocol317.CodeLens{
		Range:   protocol.Range{Start: at, End: at},
		Command: &protocol317.Command{Title: title, Command: command, Arguments: rawList(arguments)},
	}
}

func rawList(values []any) []json.RawMessage {
	out := make([]json.RawMessage, len(values))
	for i, value := range values {
		out[i], _ = json.Marshal(value) // strings and numbers
	}
	return out
}
