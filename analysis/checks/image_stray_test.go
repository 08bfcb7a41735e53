package checks_test

import (
	"slices"
	"strings"
	"testing"

	"dandle/analysis"
	"dandle/analysis/checks"
	"dandle/testdata/analysistest"
)

// TestStraysAreSuspected measures how often the word that was planted in a
// stanza is among its first two suspects, and how often the check speaks up.
// With -kept it also prints the totals of the stanzas that are kept back.
func TestStraysAreSuspected(t *testing.T) {
	const wanted = 0.7
	dev := suspect(t, "judged/stray/dev.verse", t.Log)
	t.Logf("dev: %+v", dev)
	if float64(dev.Second) < wanted*float64(dev.Stanzas) {
		t.Errorf("%d of %d planted words are among the first two suspects; want %.0f in a hundred", dev.Second, dev.Stanzas, 100*wanted)
	}
	if dev.Wrong > 0 {
		t.Errorf("%d findings name a word that was not planted", dev.Wrong)
	}
	if *kept {
		t.Logf("kept: %+v", suspect(t, "judged/stray/kept.verse", func(...any) {}))
	}
}

// A suspicion is how a set of stanzas with planted words was heard.
type suspicion struct {
	Stanzas       int
	First, Second int     // the planted word is the first suspect; is among the first two
	Chance        float64 // how many would be among the first two by drawing lots
	Spoken, Wrong int     // findings of the planted word; of another
}

func suspect(t *testing.T, path string, log func(...any)) suspicion {
	t.Helper()
	f := analysistest.Load(t, path)
	lines := strings.Split(f.Text, "\n")
	var s suspicion
	for _, want := range f.Wants {
		// Each stanza is a manuscript of its own.
		from, to := want.Line-1, want.Line
		for from > 0 && lines[from-1] != "" {
			from--
		}
		for to < len(lines) && lines[to] != "" {
			to++
		}
		snapshot := analysis.New(strings.Join(lines[from:to], "\n")+"\n", analysis.Options{})
		ranked := checks.Strays(snapshot.Poem(), snapshot.Manuscript().Stanzas[0])
		s.Stanzas++
		place := slices.Index(ranked, want.Text)
		if place == 0 {
			s.First++
		}
		if place == 0 || place == 1 {
			s.Second++
		}
		s.Chance += 2 / float64(max(2, len(ranked)))
		for _, found := range snapshot.Findings() {
			if found.Code != "image/stray" {
				continue
			}
			if found.Span.In(snapshot.Manuscript().Text) == want.Text {
				s.Spoken++
			} else {
				s.Wrong++
			}
			log(found.Message, found.Confidence)
			for _, fix := range found.Fixes {
				log("  ", fix.Title)
			}
		}
		log(want.Text, place, ranked[:min(3, len(ranked))])
	}
	return s
}
