package checks

import (
	"slices"
	"strings"

	"dandle/analysis/manuscript"
)

// A frame is what the lines of a refrain share: the words before its slot and
// those after it. A refrain without a slot has all of its words before.
type frame struct {
	before, after []string
	lines         []int // of verse, that keep it word for word
}

// words is the number of words that the frame holds fast.
func (f *frame) words() int { return len(f.before) + len(f.after) }

// The bounds of a refrain are ours: fewer than four words held fast, or less
// than three fifths of a line, is a turn of speech and no refrain; a slot holds
// a name and its article; what comes three times is meant.
const (
	frameWords  = 4
	frameShare  = 0.6
	longestSlot = 4
	frameTimes  = 3
	// mostRefrainLines bounds the pairs that are compared. Picture books have
	// about a hundred lines.
	mostRefrainLines = 600
)

// frames finds the refrains of a manuscript, the most held fast first. A line
// belongs to one at most.
func frames(m *manuscript.Manuscript, said []*said) []frame {
	lines := said[:min(len(said), mostRefrainLines)]
	near := newNeighbors(lines)
	seen := map[string]bool{}
	var found []frame
	for i := range lines {
		for _, j := range near.of(i) {
			if j <= i || m.Lines[i].Stanza == m.Lines[j].Stanza {
				continue
			}
			f, shares := shared(lines[i].words, lines[j].words)
			if !shares {
				continue
			}
			key := strings.Join(f.before, " ") + " _ " + strings.Join(f.after, " ")
			if seen[key] {
				continue
			}
			seen[key] = true
			for _, k := range near.of(i) { // whoever holds the frame has its edges
				if f.holds(lines[k].words) {
					f.lines = append(f.lines, k)
				}
			}
			if len(f.lines) >= frameTimes {
				found = append(found, f)
			}
		}
	}
	slices.SortStableFunc(found, func(a, b frame) int {
		return b.words()*len(b.lines) - a.words()*len(a.lines)
	})
	taken := make([]bool, len(lines))
	var kept []frame
	for _, f := range found {
		f.lines = slices.DeleteFunc(slices.Clone(f.lines), func(i int) bool { return taken[i] })
		if len(f.lines) < frameTimes {
			continue
		}
		for _, i := range f.lines {
			taken[i] = true
		}
		kept = append(kept, f)
	}
	return kept
}

// neighbors finds the lines that may share a frame with a line: of four words
// held fast, two stand at the line's start or two at its end.
type neighbors struct {
	lines        []*said
	starts, ends map[string][]int
}

func newNeighbors(lines []*said) neighbors {
	n := neighbors{lines, make(map[string][]int, len(lines)), make(map[string][]int, len(lines))}
	for i, l := range lines {
		if l.start != "" {
			n.starts[l.start] = append(n.starts[l.start], i)
			n.ends[l.end] = append(n.ends[l.end], i)
		}
	}
	return n
}

// of are the neighbors of a line in order, the line itself among them; none
// where it has none but itself.
func (n *neighbors) of(line int) []int {
	a, b := n.starts[n.lines[line].start], n.ends[n.lines[line].end]
	switch {
	case len(b) <= 1:
		return a
	case len(a) <= 1:
		return b
	}
	all := slices.Concat(a, b)
	slices.Sort(all)
	return slices.Compact(all)
}

// shared is the frame of two lines, if it is long enough to be one.
func shared(a, b []string) (frame, bool) {
	short := min(len(a), len(b))
	p := 0
	for p < short && a[p] == b[p] {
		p++
	}
	s := 0
	for s < short-p && a[len(a)-1-s] == b[len(b)-1-s] {
		s++
	}
	longer := max(len(a), len(b))
	if p+s < frameWords || float64(p+s) < frameShare*float64(longer) || longer-p-s > longestSlot {
		return frame{}, false
	}
	return frame{before: a[:p], after: a[len(a)-s:]}, true
}

// holds reports whether a line keeps the frame word for word.
func (f *frame) holds(words []string) bool {
	slot := len(words) - f.words()
	if slot < 0 || slot > longestSlot || f.after == nil && slot > 0 && len(f.before) == len(words) {
		return false
	}
	return slices.Equal(words[:len(f.before)], f.before) && slices.Equal(words[len(words)-len(f.after):], f.after)
}
