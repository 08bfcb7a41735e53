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
			Position: v.rangeOf(spanAt(v.afterBlanks(l.Span.End))).End, Label: strings.Join(label, " "), PaddingLeft: true,
			Tooltip: hintTooltip(heard),
		})
	}
	return out, nil
}

// afterBlanks is the end of a line that nothing but blanks follow, else the place
// itself. While a writer types on, the space before the next word is there
// already, and a hint before it would stand between the pen and its line.
func (v view) afterBlanks(offset int) int {
	end := v.line(v.lineAt(offset)).End
	if strings.TrimLeft(v.text[offset:end], " \t") == "" {
		return end
	}
	return offset
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
