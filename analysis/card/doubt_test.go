package card_test

import (
	"strings"
	"testing"

	"dandle/analysis"
	"dandle/analysis/card"
	"dandle/analysis/scansion"
)

// The verse is ours: an anapestic stanza whose second line has a slack too many,
// and lines of three and four beats of which no foot explains all.
const (
	sure = `With a tick and a tock and a tap of her shoe,
She tightened the bracket and she loosened the screw.
But the hands wouldn’t move and the bell wouldn’t ring,
And the mice in the tower were starting to sing.
`
	unsure = `Ten wet boots in a row,
Where did the ten boots go?
Up the stair and down the hall,
Nobody saw them go at all.
`
)

// Who is sure of the meter names no other; who is sure of a line, too, tells no
// other way to read it.
func TestDoubtsAreToldWhereTheyAre(t *testing.T) {
	poem := analysis.New(sure, analysis.Options{}).Poem()
	if foot, told := card.NextBest(poem.Meter); told {
		t.Errorf("%v at %.2f: %v is named beside it", poem.Meter.Foot, poem.Meter.Confidence, foot)
	}
	for line, want := range []bool{false, true, false, false} {
		if got := card.Otherwise(poem, line, poem.Meter); (got != "") != want {
			t.Errorf("line %d, deviance %.2f: otherwise %q", line+1, poem.Lines[line].Deviance, got)
		}
	}

	poem = analysis.New(unsure, analysis.Options{}).Poem()
	if foot, told := card.NextBest(poem.Meter); !told || foot == poem.Meter.Foot || foot == scansion.NoMeter {
		t.Errorf("%v at %.2f: next best %v, told %v", poem.Meter.Foot, poem.Meter.Confidence, foot, told)
	}
	declared := poem.Meter
	declared.Declared = true
	if _, told := card.NextBest(declared); told {
		t.Error("a meter that the writer names is doubted")
	}
	for line := range poem.Lines {
		for _, a := range poem.Alternatives(line) {
			told := strings.Contains(card.Otherwise(poem, line, poem.Meter), a.Feet+" (")
			if told && a.Cost > 0.7 {
				t.Errorf("line %d: %s is told at a cost of %.2f", line+1, a.Feet, a.Cost)
			}
			if !told && a.Cost <= 0.7 {
				t.Errorf("line %d: %s is as likely (%.2f) and not told", line+1, a.Feet, a.Cost)
			}
		}
	}
}
