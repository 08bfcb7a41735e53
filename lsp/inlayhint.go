package lsp

import (
	"context"
	"fmt"
	"strings"

	"dandle/analysis/card"
	"dandle/analysis/scansion"
	"dandle/lsp/protocol317"
)

// inlayHints show beats and rhyme letter at each line's end.
func inlayHints(_ context.Context, v view, p protocol317.InlayHintParams) (any, error) {
	asked, err := v.span(p.Range)
	if err != nil {
		return nil, err
	}
	s := v.snapshot()
	m := s.Manuscript()
	poem := s.Poem()
	out := []protocol317.InlayHint{}
	for n, l := range m.Lines {
		if l.Span.End < asked.Start || l.Span.End > asked.End || n >= len(poem.Lines) {
			continue
		}
		heard := poem.Lines[n]
		var label []string
		if v.settings.InlayHints.Beats && len(heard.Reading.Syllables) > 0 {
			label = append(label, beatsLabel(heard, meterOf(s, l.Stanza)))
		}
		if letter := letterOf(s, n); v.settings.InlayHints.Rhymes && letter != "" {
			label = append(label, letter)
		}
		if len(label) == 0 {
			continue
		}
		out = append(out, protocol317.InlayHint{
			Position: v.rangeOf(l.Span).End, Label: strings.Join(label, " "), PaddingLeft: true,
			Tooltip: hintTooltip(heard),
		})
	}
	return out, nil
}

// beatsLabel is the number of beats, against what the place wants where that is
// another: "3 for 4". Where no meter is kept, no place wants any.
func beatsLabel(l scansion.Line, meter scansion.Meter) string {
	beats := l.Reading.Beats()
	if !meter.Regular || l.Beats == 0 || l.Beats == beats {
		return fmt.Sprint(beats)
	}
	return fmt.Sprintf("%d for %d", beats, l.Beats)
}

func hintTooltip(l scansion.Line) string {
	if len(l.Reading.Syllables) == 0 {
		return ""
	}
	return card.Spaced(l.Reading.FeetPattern())
}
