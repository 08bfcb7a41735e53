package revision_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"dandle/analysis"
	"dandle/analysis/checks"
	"dandle/analysis/manuscript"
	"dandle/analysis/revision"
)

func draft(text string) revision.Draft {
	s := analysis.New(text, analysis.Options{})
	return revision.Draft{Manuscript: s.Manuscript(), Poem: s.Poem(), Findings: s.Findings()}
}

// told sets changes as text: "split 0 → 0,1".
func told(r revision.Revision) []string {
	var list []string
	for _, c := range r.Changes {
		list = append(list, fmt.Sprintf("%s %s → %s", c.Kind, numbers(c.Old), numbers(c.New)))
	}
	return list
}

func numbers(list []int) string {
	return strings.Trim(strings.Join(strings.Fields(fmt.Sprint(list)), ","), "[]")
}

func TestLines(t *testing.T) {
	const (
		lamp   = "The lamp on the headland went out with a cough,\n"
		keeper = "The keeper was sneezing and had to be off,\n"
		goat   = "So the goat took the ladder and polished the glass,\n"
		gulls  = "And the gulls on the railing all waited to pass.\n"
	)
	for _, c := range []struct {
		name, before, after string
		want                []string
	}{
		{"nothing", lamp + keeper, lamp + keeper, []string{"kept 0 → 0", "kept 1 → 1"}},
		{"marks and capitals are no rewording", lamp, strings.ToUpper(lamp[:len(lamp)-2]) + "!\n", []string{"kept 0 → 0"}},
		{"a word", lamp + goat, lamp + "So the goat took the bucket and polished the glass,\n", []string{"kept 0 → 0", "reworded 1 → 1"}},
		{"another line in its place", lamp + keeper + goat, lamp + "A gale from the harbor came up in the night,\n" + goat, []string{"kept 0 → 0", "reworded 1 → 1", "kept 2 → 2"}},
		{"split", lamp + keeper + goat, lamp + "The keeper was sneezing\nand had to be off,\n" + goat, []string{"kept 0 → 0", "split 1 → 1,2", "kept 2 → 3"}},
		{"joined", lamp + "The keeper was sneezing\nand had to be off,\n" + goat, lamp + keeper + goat, []string{"kept 0 → 0", "joined 1,2 → 1", "kept 3 → 2"}},
		{"moved", lamp + keeper + goat + gulls, keeper + goat + gulls + lamp, []string{"kept 1 → 0", "kept 2 → 1", "kept 3 → 2", "moved 0 → 3"}},
		{"moved and reworded", lamp + keeper + goat + gulls, keeper + goat + gulls + "The lamp on the hillside went out with a cough.\n", []string{"kept 1 → 0", "kept 2 → 1", "kept 3 → 2", "moved 0 → 3"}},
		{"added", lamp + goat, lamp + keeper + goat, []string{"kept 0 → 0", "added  → 1", "kept 1 → 2"}},
		{"cut", lamp + keeper + goat, lamp + goat, []string{"kept 0 → 0", "cut 1 → ", "kept 2 → 1"}},
		{"cut from the head", keeper + goat, goat, []string{"cut 0 → ", "kept 1 → 0"}},
		{"a refrain comes once more", lamp + keeper + lamp, lamp + keeper + lamp + goat + lamp, []string{"kept 0 → 0", "kept 1 → 1", "kept 2 → 2", "added  → 3", "added  → 4"}},
		{"from nothing", "", lamp, []string{"added  → 0"}},
		{"to nothing", lamp, "", []string{"cut 0 → "}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := told(revision.Compare(draft(c.before), draft(c.after)))
			if diff := cmp.Diff(c.want, got); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}

// marked is a draft with findings on the words between the brackets, in the
// order of their codes: "so {just} polished".
func marked(text string, codes ...checks.Code) revision.Draft {
	var spans []manuscript.Span
	for {
		start := strings.IndexByte(text, '{')
		if start < 0 {
			break
		}
		end := strings.IndexByte(text, '}') - 1
		text = text[:start] + text[start+1:end+1] + text[end+2:]
		spans = append(spans, manuscript.Span{Start: start, End: end})
	}
	d := draft(text)
	d.Findings = nil
	for i, span := range spans {
		d.Findings = append(d.Findings, checks.Finding{Code: codes[i], Severity: checks.Warning, Span: span, Line: d.Manuscript.LineAt(span.Start)})
	}
	return d
}

func TestFindings(t *testing.T) {
	const filler, weak, note = "word/filler", "word/weak", "note/too-long"
	const head = "The lamp on the headland went out with a cough,\n"
	for _, c := range []struct {
		name          string
		before, after revision.Draft
		want          revision.Revision
	}{
		{
			"the same", marked(head+"And the goat {just} sat down.", filler), marked("\n"+head+"And the goat {just} sat down.", filler),
			revision.Revision{Before: 1, After: 1, Same: []revision.Pair{{}}},
		},
		{
			"mended", marked(head+"And the goat {just} sat down.", filler), marked(head + "And the goat sat down."),
			revision.Revision{Before: 1, Mended: []int{0}},
		},
		{
			"new", marked(head + "And the goat sat down."), marked(head+"And the goat {just} sat down.", filler),
			revision.Revision{After: 1, New: []int{0}},
		},
		{
			"cut", marked(head+"And the goat {just} sat down.", filler), marked(head),
			revision.Revision{Before: 1, Gone: []int{0}},
		},
		{
			"one of two alike in a line", marked(head+"And the {very} old goat {just} sat down.", filler, filler), marked(head+"And the old goat {just} sat down.", filler),
			revision.Revision{Before: 2, After: 1, Mended: []int{0}, Same: []revision.Pair{{1, 0}}},
		},
		{
			"another word with the same fault", marked(head+"And the {nice} goat sat down.", weak), marked(head+"And the {lovely} goat sat down.", weak),
			revision.Revision{Before: 1, After: 1, Same: []revision.Pair{{}}},
		},
		{
			"another fault", marked(head+"And the {nice} goat sat down.", weak), marked(head+"And the {very} goat sat down.", filler),
			revision.Revision{Before: 1, After: 1, Mended: []int{0}, New: []int{0}},
		},
		{
			"a moved line takes its note along", marked("And the goat {just} sat down.\n"+head+"He hung up his hat.", filler), marked(head+"He hung up his hat.\nAnd the goat {just} sat down.", filler),
			revision.Revision{Before: 1, After: 1, Same: []revision.Pair{{}}},
		},
		{
			"a note between the verses", marked(head+"\n{[Goat = scarf and hat]}\n\nHe hung up his hat.", note), marked("{[Goat = scarf and hat]}\n\n"+head+"\nHe hung up his hat.", note),
			revision.Revision{Before: 1, After: 1, Same: []revision.Pair{{}}},
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := revision.Compare(c.before, c.after)
			got.Changes = nil
			if diff := cmp.Diff(c.want, got); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}

func TestVerdict(t *testing.T) {
	for want, r := range map[string]revision.Revision{
		"Warnings 0 → 0: neither draft has a note to it.":                                    {},
		"Warnings 7 → 2: 6 notes mended, 1 note new, 3 notes unchanged.":                     {Before: 7, After: 2, Mended: make([]int, 6), New: make([]int, 1), Same: make([]revision.Pair, 3)},
		"Warnings 1 → 0: 1 note gone with lines that were cut, none new.":                    {Before: 1, Gone: make([]int, 1)},
		"Warnings 2 → 3: 1 note mended, 2 notes gone with lines that were cut, 4 notes new.": {Before: 2, After: 3, Mended: make([]int, 1), Gone: make([]int, 2), New: make([]int, 4)},
	} {
		if got := r.Verdict(); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}

// invariant holds any two texts to what every revision owes.
func invariant(t *testing.T, before, after string) {
	t.Helper()
	a, b := draft(before), draft(after)
	r := revision.Compare(a, b)
	once := func(d *manuscript.Manuscript, side func(revision.Change) []int) {
		seen := make([]int, len(d.Lines))
		for _, c := range r.Changes {
			for _, i := range side(c) {
				seen[i]++
			}
		}
		for i, n := range seen {
			if n != 1 {
				t.Errorf("line %d has %d changes: %v", i, n, told(r))
			}
		}
	}
	once(a.Manuscript, func(c revision.Change) []int { return c.Old })
	once(b.Manuscript, func(c revision.Change) []int { return c.New })
	last := -1
	for _, c := range r.Changes {
		for _, j := range c.New {
			if j != last+1 {
				t.Errorf("the new draft is out of order: %v", told(r))
			}
			last = j
		}
	}
	count := 0
	for _, f := range a.Findings {
		if f.Severity > 0 {
			count++
		}
	}
	if got := len(r.Mended) + len(r.Gone) + len(r.Same); got != count {
		t.Errorf("%d of %d old findings are accounted for", got, count)
	}
}

// TestLongestOrder compares with the textbook's longest common subsequence
// (Cormen et al., Introduction to Algorithms, 14.4; from memory): of lines that
// each stand once, as many keep their places as can.
func TestLongestOrder(t *testing.T) {
	words := strings.Fields("acorn badger candle dumpling eggshell ferret gherkin harbor icicle jigsaw")
	order := func(seed int) []string {
		list := append([]string{}, words...)
		for i := range list { // a fixed shuffle
			seed = (seed*1103515245 + 12345) & 0x7fffffff
			k := seed % (i + 1)
			list[i], list[k] = list[k], list[i]
		}
		return list
	}
	for seed := range 40 {
		a, b := words, order(seed)
		table := make([][]int, len(a)+1)
		for i := range table {
			table[i] = make([]int, len(b)+1)
		}
		for i := range a {
			for j := range b {
				table[i+1][j+1] = max(table[i][j+1], table[i+1][j])
				if a[i] == b[j] {
					table[i+1][j+1] = table[i][j] + 1
				}
			}
		}
		r := revision.Compare(draft(strings.Join(a, "\n")), draft(strings.Join(b, "\n")))
		if got, want := r.Count(revision.Kept), table[len(a)][len(b)]; got != want || r.Count(revision.Moved) != len(a)-want {
			t.Errorf("%v: %d kept and %d moved, want %d and %d", b, got, r.Count(revision.Moved), want, len(a)-want)
		}
	}
}

func FuzzCompare(f *testing.F) {
	f.Add("The lamp went out.\nThe keeper sneezed and had to be off.\n", "The keeper sneezed\nand had to be off.\nThe lamp went out.\n")
	f.Add("a\nb\na\n\nc d e f", "b\na\n\nc d\ne f\na")
	f.Fuzz(func(t *testing.T, before, after string) {
		if len(before)+len(after) > 2000 {
			return
		}
		invariant(t, before, after)
	})
}

func BenchmarkCompare(b *testing.B) {
	var before, after strings.Builder
	for i := range 60 {
		fmt.Fprintf(&before, "The lamp number %d on the headland went out with a cough,\n", i)
		fmt.Fprintf(&after, "The lamp that was %d on the headland went out with a cough,\n", (i+20)%60)
	}
	x, y := draft(before.String()), draft(after.String())
	b.ReportAllocs()
	for b.Loop() {
		revision.Compare(x, y)
	}
}
