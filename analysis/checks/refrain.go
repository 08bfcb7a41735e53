package checks

import (
	"maps"
	"slices"
	"strings"

	"dandle/analysis/manuscript"
	"dandle/phonetics/grammar"
)

// A departure is a line in a refrain's place that leaves its wording.
type departure struct {
	frame   frame // of the lines that keep it
	line    int
	changes []change // in order
	flanked bool     // a line beside it belongs to what comes back with it
	last    bool     // no line that keeps the frame follows
}

// A change is a stretch where a line leaves a refrain: its words [from, to),
// where the others have other words. Either may be empty.
type change struct {
	from, to int
	others   []string
}

// The bounds of a departure are ours: a line that keeps less than three fifths
// of a refrain, leaves it in more than two places, or puts in more than four
// words, is another line.
const (
	departureShare  = 0.6
	departurePlaces = 2
	departureWords  = 4
)

// departures finds the lines that leave a refrain, of which all the others in
// its place keep it. Where two leave it, they have a slot of their own.
func departures(m *manuscript.Manuscript, known []frame, lines []*said) []departure {
	lines = lines[:min(len(lines), mostRefrainLines)]
	inFrame := make([]int, len(lines)) // number of its frame from 1; 0 for none
	all := slices.Concat(known, twins(m, lines, known))
	for n, f := range all {
		for _, i := range f.lines {
			inFrame[i] = n + 1
		}
	}
	var list []departure
	for _, f := range all {
		if d, found := inSlot(&f, lines); found {
			list = append(list, d)
			continue
		}
		if d, found := besideFrame(m, &f, lines, inFrame); found {
			list = append(list, d)
		}
	}
	departs := map[int]bool{}
	for _, d := range list {
		departs[d.line] = true
	}
	belongs := func(i int) bool { return i < len(inFrame) && inFrame[i] > 0 || departs[i] }
	for k := range list {
		d := &list[k]
		d.last = d.line > d.frame.lines[len(d.frame.lines)-1]
		d.flanked = flanked(m, d, belongs)
	}
	return list
}

// twins are lines that come twice word for word, and stand in no frame that is
// known.
func twins(m *manuscript.Manuscript, lines []*said, known []frame) []frame {
	taken := map[int]bool{}
	for _, f := range known {
		for _, i := range f.lines {
			taken[i] = true
		}
	}
	same := map[string][]int{}
	for i, l := range lines {
		if len(l.words) >= frameWords && !taken[i] {
			same[l.whole] = append(same[l.whole], i)
		}
	}
	var list []frame
	for _, key := range slices.Sorted(maps.Keys(same)) {
		if at := same[key]; len(at) == 2 && m.Lines[at[0]].Stanza != m.Lines[at[1]].Stanza {
			list = append(list, frame{before: lines[at[0]].words, lines: at})
		}
	}
	return list
}

// inSlot finds the one line of a frame whose words in the slot differ where all
// others share some of theirs: "there’s a wind", "there’s a moth", "for the
// bird’s".
func inSlot(f *frame, lines []*said) (departure, bool) {
	var best departure
	gained := 0
	for k := range f.lines {
		rest := slices.Delete(slices.Clone(f.lines), k, k+1)
		if len(rest) < 2 {
			break
		}
		tight := tightened(rest, lines)
		gain := tight.words() - f.words()
		if alike(rest, lines) && lines[f.lines[k]].whole != lines[rest[0]].whole {
			gain = max(gain, 1) // the others have no slot at all
		}
		if gain <= gained {
			continue
		}
		changes, near := tight.left(lines[f.lines[k]].words, tight.slotted(lines))
		if !near {
			continue
		}
		gained = gain
		best = departure{frame: tight, line: f.lines[k], changes: changes}
	}
	return best, gained > 0 && len(best.changes) > 0
}

// alike reports whether lines agree word for word.
func alike(at []int, lines []*said) bool {
	return !slices.ContainsFunc(at, func(i int) bool { return lines[i].whole != lines[at[0]].whole })
}

// tightened is the frame that some lines share, the longest beginning first.
func tightened(at []int, lines []*said) frame {
	first := lines[at[0]].words
	before, after := len(first), len(first)
	shortest := len(first)
	for _, i := range at[1:] {
		words := lines[i].words
		shortest = min(shortest, len(words))
		p, s := 0, 0
		for p < min(before, len(words)) && words[p] == first[p] {
			p++
		}
		for s < min(after, len(words)) && words[len(words)-1-s] == first[len(first)-1-s] {
			s++
		}
		before, after = p, s
	}
	after = min(after, shortest-before)
	return frame{before: first[:before], after: first[len(first)-after:], lines: at}
}

// besideFrame finds the one line at a frame's place in its stanzas that nearly
// keeps it. Of what it keeps, two words stand at its start or two at its end.
func besideFrame(m *manuscript.Manuscript, f *frame, lines []*said, inFrame []int) (departure, bool) {
	var found []departure
	for i, line := range lines {
		if kept := lines[f.lines[0]]; inFrame[i] > 0 || line.start != kept.start && line.end != kept.end || !atPlaceOf(m, i, f.lines) {
			continue
		}
		if changes, near := f.left(line.words, f.slotted(lines)); near && len(changes) > 0 {
			found = append(found, departure{frame: *f, line: i, changes: changes})
		}
	}
	if len(found) != 1 {
		return departure{}, false
	}
	return found[0], true
}

// atPlaceOf reports whether a line stands where a refrain's lines stand in
// their stanzas, counted from either end.
func atPlaceOf(m *manuscript.Manuscript, line int, refrain []int) bool {
	back := func(i int) int { return m.Stanzas[m.Lines[i].Stanza].To - i }
	at := false
	for _, r := range refrain {
		if m.Lines[r].Stanza == m.Lines[line].Stanza {
			return false
		}
		at = at || m.Lines[r].Place == m.Lines[line].Place || back(r) == back(line)
	}
	return at
}

// flanked reports whether the line before or after a departure belongs to a
// refrain as well, as it does where several lines come back together.
func flanked(m *manuscript.Manuscript, d *departure, belongs func(int) bool) bool {
	for _, beside := range []int{-1, 1} {
		i := d.line + beside
		if i < 0 || i >= len(m.Lines) || m.Lines[i].Stanza != m.Lines[d.line].Stanza || !belongs(i) {
			continue
		}
		return true
	}
	return false
}

// slotted reports whether some line of the frame fills a slot.
func (f *frame) slotted(lines []*said) bool {
	return slices.ContainsFunc(f.lines, func(i int) bool { return len(lines[i].words) > f.words() })
}

// left is where a line leaves the frame, which may have a slot; false where it is
// too far from it to be the refrain at all.
func (f *frame) left(words []string, slotted bool) ([]change, bool) {
	held, slot := slices.Concat(f.before, f.after), -1
	if slotted {
		slot = len(f.before)
		held = slices.Insert(held, slot, "")
	}
	changes, kept := aligned(held, words, slot)
	inserted := 0
	for _, c := range changes {
		inserted += c.to - c.from
	}
	near := len(changes) <= departurePlaces && inserted <= departureWords &&
		kept >= 3 && float64(kept) >= departureShare*float64(f.words())
	return changes, near
}

// aligned lays a line along a frame's words, of which the one at slot stands
// for any words or none, and returns where they differ and how many words of
// the frame are kept. It finds the alignment that keeps the most words; a
// picture book's lines have about ten.
func aligned(held, words []string, slot int) (changes []change, kept int) {
	h, w := len(held), len(words)
	most := make([][]int, h+1) // words kept of held[i:] in words[j:]
	for i := range most {
		most[i] = make([]int, w+1)
	}
	for i := h - 1; i >= 0; i-- {
		for j := w; j >= 0; j-- {
			most[i][j] = most[i+1][j]
			if j < w {
				most[i][j] = max(most[i][j], most[i][j+1])
				if i != slot && held[i] == words[j] {
					most[i][j] = max(most[i][j], most[i+1][j+1]+1)
				}
			}
		}
	}
	var now change
	var side slotSide
	flush := func() {
		if c, differs := now.without(side); differs {
			changes = append(changes, c)
		}
		now, side = change{}, noSlot
	}
	i, j := 0, 0
	for i < h || j < w {
		switch {
		case i < h && i == slot:
			if side = slotAfter; len(now.others) == 0 {
				side = slotBefore
			}
			i++
			continue
		case i < h && j < w && held[i] == words[j] && most[i][j] == most[i+1][j+1]+1:
			flush()
			i, j = i+1, j+1
			continue
		}
		if now.to == now.from {
			now.from, now.to = j, j
		}
		if j < w && (i == h || most[i][j+1] == most[i][j]) {
			j++
			now.to = j
		} else {
			now.others = append(now.others, held[i])
			i++
		}
	}
	flush()
	return changes, most[0][0]
}

// A slotSide tells on which side of a change the slot lies.
type slotSide uint8

const (
	noSlot slotSide = iota
	slotBefore
	slotAfter
)

// without is a change without the words that fill the slot beside it; false
// where nothing else differs.
func (c change) without(side slotSide) (change, bool) {
	most := c.from + len(c.others)
	switch side {
	case slotAfter:
		c.to = min(c.to, most)
	case slotBefore:
		c.from = max(c.from, c.to-len(c.others))
	}
	return c, len(c.others) > 0 || c.to > c.from
}

// slotWords are the words with which a refrain's lines fill its slot, each once.
func slotWords(f *frame, lines []*said) []string {
	var list []string
	for _, i := range f.lines {
		words := lines[i].words
		inside := words[len(f.before) : len(words)-len(f.after)]
		for len(inside) > 1 && grammar.CanBe(inside[0], grammar.Determiner) {
			inside = inside[1:]
		}
		if text := strings.Join(inside, " "); text != "" && !slices.Contains(list, text) {
			list = append(list, text)
		}
	}
	return list
}
