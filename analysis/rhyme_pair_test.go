package analysis_test

import (
	"testing"

	"dandle/analysis"
	"dandle/analysis/rhyme"
)

// The kinds are those of Baum, Principles of English Versification (1922), and
// the accent's split of FOOT and STRUT is Wells, Accents of English (1982); both
// from memory.
func TestRhymeOfTwoLines(t *testing.T) {
	s := analysis.New(`The otter went to mend the gate,
The otter brought a dinner plate.

He turned the corner with a lift,
and found a lantern in the drift,
and filled it from a little cup
and nobody would pick it up.

He laid the bread, he made the cut,
and there upon the shelf he put
the lantern that he took from home
and sat him down where otters come.
`, analysis.Options{})
	for _, test := range []struct {
		name      string
		a, b      int
		kind      rhyme.Kind
		elsewhere rhyme.Accent
	}{
		{"perfect", 0, 1, rhyme.Perfect, rhyme.OwnAccent},
		{"across stanzas", 4, 5, rhyme.Perfect, rhyme.OwnAccent},
		{"the order of the lines is no matter", 5, 4, rhyme.Perfect, rhyme.OwnAccent},
		{"no rhyme", 0, 2, rhyme.NoRhyme, rhyme.OwnAccent},
		{"in the north of England", 6, 7, rhyme.Eye, rhyme.FootStrut},
		{"for the eye", 8, 9, rhyme.Eye, rhyme.OwnAccent},
	} {
		t.Run(test.name, func(t *testing.T) {
			if got := s.Rhyme(test.a, test.b); got.Kind != test.kind {
				t.Errorf("kind %s (%.2f), want %s", got.Kind, got.Distance, test.kind)
			}
			if test.kind == rhyme.Perfect {
				return // what rhymes at home need not be looked for abroad
			}
			if got := s.RhymeElsewhere(test.a, test.b); got != test.elsewhere {
				t.Errorf("elsewhere: %s, want %s", got, test.elsewhere)
			}
		})
	}
}
