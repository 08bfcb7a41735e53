package revision

import (
	"cmp"
	"slices"
	"sort"
	"strings"

	"dandle/analysis/manuscript"
)

// How alike two lines must be, as the share of their words that they have in
// common in the same order. Ours.
const (
	reworded = 0.5 // in its place
	moved    = 0.6 // elsewhere: it could be chance
	parted   = 0.7 // a line and two others
	// maxCells bounds the table in which a stretch of both drafts is matched:
	// stretches of 500 lines. Longer ones are matched by equal lines alone.
	maxCells = 250_000
)

// align matches the lines of two drafts.
func align(before, after *manuscript.Manuscript) []Change {
	a := &aligner{old: words(before), new: words(after)}
	a.toNew, a.toOld = unmatched(len(a.old)), unmatched(len(a.new))
	anchors := a.anchors()
	i, j := 0, 0
	for _, at := range anchors {
		a.stretch(i, at.Old, j, at.New)
		a.join(Kept, []int{at.Old}, []int{at.New})
		i, j = at.Old+1, at.New+1
	}
	a.stretch(i, len(a.old), j, len(a.new))
	a.elsewhere()
	a.inPlace()
	return a.inOrder()
}

// words are the lines of a manuscript as lists of words, in lower case.
func words(m *manuscript.Manuscript) [][]string {
	list := make([][]string, len(m.Lines))
	for i := range m.Lines {
		list[i] = make([]string, len(m.Lines[i].Words))
		for k, w := range m.Lines[i].Words {
			list[i][k] = strings.ToLower(strings.ReplaceAll(w.Text, "’", "'"))
		}
	}
	return list
}

func unmatched(n int) []int {
	list := make([]int, n)
	for i := range list {
		list[i] = -1
	}
	return list
}

// An aligner matches lines; toNew and toOld hold the change that a line belongs
// to, or -1.
type aligner struct {
	old, new     [][]string
	toNew, toOld []int
	changes      []Change
}

func (a *aligner) join(kind Kind, before, after []int) {
	for _, i := range before {
		a.toNew[i] = len(a.changes)
	}
	for _, j := range after {
		a.toOld[j] = len(a.changes)
	}
	a.changes = append(a.changes, Change{kind, before, after})
}

func key(line []string) string { return strings.Join(line, " ") }

// anchors are lines that both drafts have once, in the longest order that both
// share.
func (a *aligner) anchors() []Pair {
	once := func(lines [][]string) map[string]int {
		at := map[string]int{}
		for i, line := range lines {
			k := key(line)
			if _, twice := at[k]; twice {
				at[k] = -1
			} else {
				at[k] = i
			}
		}
		return at
	}
	inNew := once(a.new)
	inOld := once(a.old)
	var pairs []Pair
	for i, line := range a.old {
		k := key(line)
		if j, found := inNew[k]; found && j >= 0 && inOld[k] == i && k != "" {
			pairs = append(pairs, Pair{i, j})
		}
	}
	return increasing(pairs)
}

// increasing is the longest run of pairs, in the order of Old, whose New rises
// too (Fredman 1975: patience sorting).
func increasing(pairs []Pair) []Pair {
	var tops, before []int
	before = make([]int, len(pairs))
	for i, p := range pairs {
		k := sort.Search(len(tops), func(k int) bool { return pairs[tops[k]].New >= p.New })
		before[i] = -1
		if k > 0 {
			before[i] = tops[k-1]
		}
		if k == len(tops) {
			tops = append(tops, i)
		} else {
			tops[k] = i
		}
	}
	if len(tops) == 0 {
		return nil
	}
	var run []Pair
	for i := tops[len(tops)-1]; i >= 0; i = before[i] {
		run = append(run, pairs[i])
	}
	slices.Reverse(run)
	return run
}

// A move is one step through the table: so many lines of each draft.
type move struct{ old, new int }

// The moves, in the order in which they are preferred among equals.
var moves = [...]move{{1, 1}, {1, 2}, {2, 1}, {1, 0}, {0, 1}}

// stretch matches lines between two anchors, in order, so that as much as can
// be is the same.
func (a *aligner) stretch(i0, i1, j0, j1 int) {
	n, m := i1-i0, j1-j0
	if n == 0 || m == 0 {
		return
	}
	if n > maxCells/m {
		a.equalOnly(i0, i1, j0, j1)
		return
	}
	score := make([]float32, (n+1)*(m+1))
	step := make([]uint8, (n+1)*(m+1))
	at := func(i, j int) int { return i*(m+1) + j }
	for i := n; i >= 0; i-- {
		for j := m; j >= 0; j-- {
			best, which := float32(-1), 0
			for k, mv := range moves {
				if i+mv.old > n || j+mv.new > m || i == n && j == m {
					continue
				}
				gain, fine := a.gain(i0+i, j0+j, mv)
				if v := gain + score[at(i+mv.old, j+mv.new)]; fine && v > best {
					best, which = v, k
				}
			}
			if best >= 0 {
				score[at(i, j)], step[at(i, j)] = best, uint8(which)
			}
		}
	}
	for i, j := 0, 0; i < n || j < m; {
		mv := moves[step[at(i, j)]]
		switch {
		case mv.old == 1 && mv.new == 1:
			kind := Reworded
			if slices.Equal(a.old[i0+i], a.new[j0+j]) {
				kind = Kept
			}
			a.join(kind, []int{i0 + i}, []int{j0 + j})
		case mv.new == 2:
			a.join(Split, []int{i0 + i}, []int{j0 + j, j0 + j + 1})
		case mv.old == 2:
			a.join(Joined, []int{i0 + i, i0 + i + 1}, []int{j0 + j})
		}
		i, j = i+mv.old, j+mv.new
	}
}

// gain is what a move is worth; false where the lines are not alike enough.
func (a *aligner) gain(i, j int, mv move) (float32, bool) {
	switch {
	case mv.old == 0 || mv.new == 0:
		return 0, true
	case mv.old == 1 && mv.new == 1:
		s := alike(a.old[i], a.new[j])
		if s == 1 {
			return 1.2, true // a line kept is worth more than one nearly kept
		}
		return s, s >= reworded
	case mv.new == 2:
		whole := a.old[i]
		return a.parts(whole, a.new[j], a.new[j+1])
	}
	whole := a.new[j]
	return a.parts(whole, a.old[i], a.old[i+1])
}

// parts is how well two lines make up a third. Each must give its share, and
// neither may be the whole of it alone.
func (a *aligner) parts(whole, first, second []string) (float32, bool) {
	if len(first) < 2 || len(second) < 2 || len(first) >= len(whole) || len(second) >= len(whole) {
		return 0, false
	}
	s := alike(whole, slices.Concat(first, second))
	return 1.1 * s, s >= parted
}

// equalOnly matches the equal lines of a long stretch, in order.
func (a *aligner) equalOnly(i0, i1, j0, j1 int) {
	places := map[string][]int{}
	for j := j0; j < j1; j++ {
		k := key(a.new[j])
		places[k] = append(places[k], j)
	}
	next := j0
	for i := i0; i < i1; i++ {
		k := key(a.old[i])
		list := places[k]
		at, _ := slices.BinarySearch(list, next)
		if at < len(list) && list[at]-next < 100 {
			a.join(Kept, []int{i}, []int{list[at]})
			next = list[at] + 1
		}
	}
}

// elsewhere finds the lines that went to another place: first word for word,
// then reworded.
func (a *aligner) elsewhere() {
	places := map[string][]int{}
	for j, c := range a.toOld {
		if c < 0 {
			places[key(a.new[j])] = append(places[key(a.new[j])], j)
		}
	}
	for i, c := range a.toNew {
		if k := key(a.old[i]); c < 0 && len(places[k]) > 0 {
			a.join(Moved, []int{i}, []int{places[k][0]})
			places[k] = places[k][1:]
		}
	}
	before, after := free(a.toNew), free(a.toOld)
	if len(after) > 0 && len(before) > maxCells/len(after) {
		return
	}
	type candidate struct {
		Pair
		alike float32
	}
	var found []candidate
	for _, i := range before {
		for _, j := range after {
			if s := alike(a.old[i], a.new[j]); s >= moved {
				found = append(found, candidate{Pair{i, j}, s})
			}
		}
	}
	slices.SortStableFunc(found, func(x, y candidate) int { return cmp.Compare(y.alike, x.alike) })
	for _, c := range found {
		if a.toNew[c.Old] < 0 && a.toOld[c.New] < 0 {
			a.join(Moved, []int{c.Old}, []int{c.New})
		}
	}
}

func free(to []int) []int {
	var list []int
	for i, c := range to {
		if c < 0 {
			list = append(list, i)
		}
	}
	return list
}

// inPlace takes lines for reworded, however little they share, where as many
// are left over on both sides between the same neighbours.
func (a *aligner) inPlace() {
	for i := 0; i < len(a.old); i++ {
		if a.toNew[i] >= 0 {
			continue
		}
		end := i
		for end < len(a.old) && a.toNew[end] < 0 {
			end++
		}
		j := 0
		if i > 0 {
			if c := a.changes[a.toNew[i-1]]; c.Kind != Moved {
				j = c.New[len(c.New)-1] + 1
			} else {
				i = end
				continue
			}
		}
		last := j
		for last < len(a.new) && a.toOld[last] < 0 {
			last++
		}
		bounded := end == len(a.old) && last == len(a.new) ||
			end < len(a.old) && last < len(a.new) && a.toNew[end] == a.toOld[last]
		if bounded && last-j == end-i {
			for k := range end - i {
				a.join(Reworded, []int{i + k}, []int{j + k})
			}
		}
		i = end
	}
}

// inOrder is every line's change, in the order of the new draft; a line that
// was cut follows the one that it followed.
func (a *aligner) inOrder() []Change {
	cuts := map[int][]int{} // change before it, or -1 → lines of the old draft
	last := -1
	for i, c := range a.toNew {
		if c >= 0 {
			if a.changes[c].Kind != Moved {
				last = c
			}
			continue
		}
		cuts[last] = append(cuts[last], i)
	}
	var list []Change
	cut := func(after int) {
		for _, i := range cuts[after] {
			list = append(list, Change{Kind: Cut, Old: []int{i}})
		}
	}
	cut(-1)
	for j := 0; j < len(a.new); j++ {
		c := a.toOld[j]
		if c < 0 {
			list = append(list, Change{Kind: Added, New: []int{j}})
			continue
		}
		list = append(list, a.changes[c])
		cut(c)
		j += len(a.changes[c].New) - 1
	}
	return list
}

// alike is the share of words that two lines have in common in the same order,
// 0 … 1 (twice the longest common subsequence over the words of both).
func alike(x, y []string) float32 {
	if len(x)+len(y) == 0 {
		return 1
	}
	if len(x) > maxWords || len(y) > maxWords {
		if slices.Equal(x, y) {
			return 1
		}
		return 0
	}
	// No more can be in common than the shorter has.
	if shorter := min(len(x), len(y)); 4*shorter < len(x)+len(y) {
		return 0
	}
	row := make([]int, len(y)+1)
	for _, word := range x {
		diagonal := 0
		for j := range y {
			above := row[j+1]
			if word == y[j] {
				row[j+1] = diagonal + 1
			} else {
				row[j+1] = max(above, row[j])
			}
			diagonal = above
		}
	}
	return 2 * float32(row[len(y)]) / float32(len(x)+len(y))
}

// maxWords bounds the lines that are compared word by word; what is longer is
// not verse.
const maxWords = 60
