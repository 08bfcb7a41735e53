package analysis

import "dandle/analysis/rhyme"

// Rhyme is how the ends of two lines answer each other, in the writer's own
// accent, whether or not their stanza wants them to. The lines are indexes
// into the manuscript's.
func (s *Snapshot) Rhyme(a, b int) rhyme.Match { return rhyme.Compare(s.end(a), s.end(b)) }

// RhymeElsewhere is an accent other than the writer's own in which the ends of
// two lines rhyme perfectly; rhyme.OwnAccent where there is none.
func (s *Snapshot) RhymeElsewhere(a, b int) rhyme.Accent {
	return rhyme.Elsewhere(s.end(a), s.end(b))
}

// end is the end of a line.
func (s *Snapshot) end(line int) *rhyme.End {
	l := &s.manuscript.Lines[line]
	return s.stanzas()[l.Stanza].End(l.Place)
}
