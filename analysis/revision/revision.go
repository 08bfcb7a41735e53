// Package revision lays two drafts of a manuscript side by side: which line
// became which, and what the revision mended, broke and left. It compares what
// was heard in both; it hears nothing itself.
package revision

import (
	"fmt"
	"strconv"
	"strings"

	"dandle/analysis/checks"
	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"
)

// A Draft is one version of a manuscript with what was heard in it.
type Draft struct {
	Manuscript *manuscript.Manuscript
	Poem       *scansion.Poem
	Findings   []checks.Finding
}

// A Kind is what became of a line.
type Kind uint8

// The kinds.
const (
	Kept     Kind = iota // word for word in its place; marks and capitals may differ
	Reworded             // in its place, in other words
	Moved                // to another place, perhaps reworded on the way
	Split                // one line became two
	Joined               // two lines became one
	Added
	Cut
)

var kindNames = [...]string{"kept", "reworded", "moved", "split", "joined", "added", "cut"}

// String is the name used in output, such as "reworded".
func (k Kind) String() string { return kindNames[k] }

// A Change is what became of a line. Old and New index the drafts' lines; one
// of them is empty for a line that was added or cut.
type Change struct {
	Kind     Kind
	Old, New []int
}

// A Pair is a finding that stands in both drafts, by its indexes there.
type Pair struct{ Old, New int }

// A Revision is what happened between two drafts. Praise is left out of it.
type Revision struct {
	// Changes has every line of both drafts once, in the order of the new one;
	// a line that was cut follows the one that it followed.
	Changes []Change
	Mended  []int  // findings of the old draft whose line is there and whose fault is not
	Gone    []int  // findings of the old draft that went with lines that were cut
	New     []int  // findings of the new draft that the old one had not
	Same    []Pair // findings that stand as they stood
	// Before and After count the warnings.
	Before, After int
}

// Compare lays two drafts side by side.
func Compare(before, after Draft) Revision {
	r := Revision{Changes: align(before.Manuscript, after.Manuscript)}
	r.Before, r.After = warnings(before.Findings), warnings(after.Findings)
	r.findings(before, after)
	return r
}

func warnings(found []checks.Finding) int {
	n := 0
	for _, f := range found {
		if f.Severity == checks.Warning {
			n++
		}
	}
	return n
}

// A place is where a finding is looked for in the other draft: its code, on a
// line of the old draft. Findings about no line look for their words.
type place struct {
	code checks.Code
	line int
	text string
}

func (r *Revision) findings(before, after Draft) {
	from := map[int][]int{} // new line → old lines
	stands := map[int]bool{}
	for _, c := range r.Changes {
		for _, n := range c.New {
			from[n] = c.Old
		}
		for _, o := range c.Old {
			stands[o] = len(c.New) > 0
		}
	}
	// With the words first, so that of two alike each finds its own.
	open := map[place][]int{}
	loose := map[place][]int{}
	taken := make([]bool, len(before.Findings))
	for i, f := range before.Findings {
		if f.Severity == checks.Praise {
			taken[i] = true
			continue
		}
		p := place{f.Code, f.Line, said(before, f)}
		open[p] = append(open[p], i)
		p.text = ""
		loose[p] = append(loose[p], i)
	}
	match := func(where map[place][]int, p place) (int, bool) {
		list := where[p]
		for len(list) > 0 && taken[list[0]] {
			list = list[1:]
		}
		where[p] = list
		if len(list) == 0 {
			return 0, false
		}
		taken[list[0]] = true
		return list[0], true
	}
	same := map[int]int{} // new finding → old
	for round := range 2 {
		for i, f := range after.Findings {
			if _, found := same[i]; found || f.Severity == checks.Praise {
				continue
			}
			lines := []int{-1}
			if f.Line >= 0 {
				lines = from[f.Line]
			}
			for _, line := range lines {
				where, p := open, place{f.Code, line, said(after, f)}
				if round == 1 {
					if line < 0 && f.Code.Area() != "book" {
						continue // one note of two between the verses is known by its words alone
					}
					where, p.text = loose, ""
				}
				if old, ok := match(where, p); ok {
					same[i] = old
					break
				}
			}
		}
	}
	for i, f := range after.Findings {
		if old, found := same[i]; found {
			r.Same = append(r.Same, Pair{old, i})
		} else if f.Severity > checks.Praise {
			r.New = append(r.New, i)
		}
	}
	for i, f := range before.Findings {
		switch {
		case taken[i]:
		case f.Line >= 0 && !stands[f.Line]:
			r.Gone = append(r.Gone, i)
		default:
			r.Mended = append(r.Mended, i)
		}
	}
}

func said(d Draft, f checks.Finding) string {
	return strings.ToLower(strings.Join(strings.Fields(f.Span.In(d.Manuscript.Text)), " "))
}

// Count is the number of changes of a kind.
func (r *Revision) Count(kind Kind) int {
	n := 0
	for _, c := range r.Changes {
		if c.Kind == kind {
			n++
		}
	}
	return n
}

// Verdict is one sentence about the findings: "Warnings 7 → 2: six notes
// mended, one new, three unchanged."
func (r *Revision) Verdict() string {
	if len(r.Mended)+len(r.Gone)+len(r.New)+len(r.Same) == 0 {
		return "Warnings 0 → 0: neither draft has a note to it."
	}
	var parts []string
	if n := len(r.Mended); n > 0 {
		parts = append(parts, notes(n, "mended"))
	}
	if n := len(r.Gone); n > 0 {
		parts = append(parts, notes(n, "gone with lines that were cut"))
	}
	if n := len(r.New); n > 0 {
		parts = append(parts, notes(n, "new"))
	} else {
		parts = append(parts, "none new")
	}
	if n := len(r.Same); n > 0 {
		parts = append(parts, notes(n, "unchanged"))
	}
	return fmt.Sprintf("Warnings %d → %d: %s.", r.Before, r.After, strings.Join(parts, ", "))
}

func notes(n int, what string) string {
	if n == 1 {
		return "1 note " + what
	}
	return strconv.Itoa(n) + " notes " + what
}

// Lines is one sentence about the lines: "2 reworded, 1 moved, 36 kept".
func (r *Revision) Lines() string {
	var parts []string
	for _, kind := range []Kind{Reworded, Moved, Split, Joined, Added, Cut, Kept} {
		if n := r.Count(kind); n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n, kind))
		}
	}
	if len(parts) == 0 {
		return "no lines of verse"
	}
	return strings.Join(parts, ", ")
}
