package analysis_test

import (
	"strings"
	"testing"

	"dandle/analysis"
	"dandle/analysis/manuscript"
)

const taught = `---
meter: iambic tetramter
pronounce: { Oban: "OH-bn", plink: "qqq!" }
---
We caught the early boat to Oban,
`

func TestWriterTeachesWords(t *testing.T) {
	s := analysis.New(taught, analysis.Options{})
	line := s.Poem().Lines[0]
	last := line.Words[len(line.Words)-1]
	if got := last.Ways[0].Source.String(); got != "writer" {
		t.Errorf("Oban comes from the %s, want the writer", got)
	}
	if got := len(last.Ways[0].Syllables); got != 2 {
		t.Errorf("Oban has %d syllables, want 2", got)
	}
}

func TestHouseTeachesWords(t *testing.T) {
	house := manuscript.House{Pronounce: map[string]string{"boat": "boh-AT"}}
	line := analysis.New(taught, analysis.Options{House: house}).Poem().Lines[0]
	for _, w := range line.Words {
		if w.Text == "boat" && len(w.Ways[0].Syllables) != 2 {
			t.Errorf("boat has %d syllables, want the house's 2", len(w.Ways[0].Syllables))
		}
	}
}

func TestProblemsNameTheirPlace(t *testing.T) {
	m := analysis.New(taught, analysis.Options{}).Manuscript()
	want := map[string]string{"iambic tetramter": "no length is called", "plink": "I cannot read how"}
	for _, p := range m.Problems {
		for text, message := range want {
			if p.Span.In(m.Text) == text && strings.Contains(p.Message, message) {
				delete(want, text)
			}
		}
	}
	if len(want) > 0 {
		t.Errorf("not told: %v; told: %v", want, m.Problems)
	}
}
