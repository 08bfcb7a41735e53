package lsp

import (
	"context"
	"encoding/json"
	"fmt"
	"strings"

	"dandle/analysis/book"
	"dandle/analysis/scansion"
	"dandle/lsp/protocol317"

	"go.lsp.dev/protocol"
)

// codeLens stands over the book and over each spread (their figures), and over
// each stanza (meter and rhyme scheme).
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
	figures := book.Measure(m, s.Poem())
	out = append(out, v.lens(m.Title.Span.Start, bookText(figures)+leaningText(s.Poem()), commandCritique, string(v.uri)))
	for i, spread := range figures.Spreads {
		if spread.Words > 0 {
			out = append(out, v.lens(m.Spreads[i].Heading.Span.Start, count(spread.Words, "word")+" · "+count(spread.Stanzas, "stanza"), commandCritique, string(v.uri)))
		}
	}
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

// leaningText names the tunes that pull at a poem that keeps none.
func leaningText(poem *scansion.Poem) string {
	var list []string
	for _, l := range poem.Leanings() {
		list = append(list, fmt.Sprintf("%s (%d)", l.Meter.Name(), len(l.Lines)))
	}
	if len(list) == 0 {
		return ""
	}
	return " · leans to " + strings.Join(list, " and ")
}

// bookText is a book's figures on one line.
func bookText(f book.Figures) string {
	text := count(f.Words, "word")
	if n := len(f.Spreads); n > 0 {
		text += " · " + count(n, "spread")
	} else {
		text += " · " + count(f.Stanzas, "stanza")
	}
	if f.Notes > 0 {
		text += " · " + count(f.Notes, "note")
	}
	if grade, known := f.Grade(); known && f.Words >= leastGraded {
		text += fmt.Sprintf(" · Flesch–Kincaid grade %.0f", max(grade, 0))
	}
	return text
}

// leastGraded is the number of words from which a reading level tells
// something: samples of a hundred are what its formula was made with.
const leastGraded = 100

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
