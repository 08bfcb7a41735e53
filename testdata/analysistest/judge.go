package analysistest

import (
	"fmt"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"dandle/analysis/checks"
	"dandle/analysis/manuscript"
)

// A Score is how the findings of one code compare with an editor's.
type Score struct {
	Right   int // findings that the editor would make
	Alarms  int // findings that he would not
	Missed  int // his that were not found
	Trapped int // of the alarms, those in a trap
}

// Precision is the share of findings that an editor would make; 1 where there
// are none.
func (s Score) Precision() float64 { return share(s.Right, s.Right+s.Alarms) }

// Recall is the share of the editor's findings that were made; 1 where he has
// none.
func (s Score) Recall() float64 { return share(s.Right, s.Right+s.Missed) }

func share(n, of int) float64 {
	if of == 0 {
		return 1
	}
	return float64(n) / float64(of)
}

// A Verdict is the comparison over a folder of judged manuscripts.
type Verdict struct {
	Manuscripts, Lines int // lines of verse
	Traps              int
	Scores             map[checks.Code]*Score
	// Warned is the number of warnings that the editor would not make.
	Warned int
	// Apart lists what differs, one note a line, for whoever tunes a check.
	Apart []string
}

// Codes are the codes that either side has, sorted.
func (v *Verdict) Codes() []checks.Code {
	var codes []checks.Code
	for c := range v.Scores {
		codes = append(codes, c)
	}
	slices.Sort(codes)
	return codes
}

func (v *Verdict) score(code checks.Code) *Score {
	if v.Scores[code] == nil {
		v.Scores[code] = &Score{}
	}
	return v.Scores[code]
}

// String is a table by code.
func (v *Verdict) String() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%d manuscripts, %d lines, %d traps, %d warnings an editor would not give\n", v.Manuscripts, v.Lines, v.Traps, v.Warned)
	fmt.Fprintf(&b, "%-22s %5s %5s %5s %5s  %9s %6s\n", "code", "right", "alarm", "miss", "trap", "precision", "recall")
	for _, c := range v.Codes() {
		s := v.Scores[c]
		fmt.Fprintf(&b, "%-22s %5d %5d %5d %5d  %9.2f %6.2f\n", c, s.Right, s.Alarms, s.Missed, s.Trapped, s.Precision(), s.Recall())
	}
	return b.String()
}

// Judge compares the findings over a folder of judged manuscripts below
// testdata with its marks. A finding is an editor's where it has his code and
// touches his words on his line. Praise is not judged.
func Judge(t testing.TB, folder string, findings func(text string) []checks.Finding) *Verdict {
	t.Helper()
	paths, err := filepath.Glob(filepath.Join(Dir(t), filepath.FromSlash(folder), "*.verse"))
	if err != nil {
		t.Fatal(err)
	}
	v := &Verdict{Scores: map[checks.Code]*Score{}}
	for _, file := range paths {
		name := path.Join(folder, filepath.Base(file))
		v.add(name, Load(t, name), findings)
	}
	return v
}

func (v *Verdict) add(name string, f Fixture, findings func(text string) []checks.Finding) {
	lines := strings.Split(f.Text, "\n")
	v.Manuscripts++
	v.Traps += len(f.Traps)
	v.Lines += len(manuscript.Parse(f.Text).Lines)
	made := make([]bool, len(f.Wants))
	for _, found := range findings(f.Text) {
		if found.Severity == checks.Praise {
			continue
		}
		mark := Marks(f.Text, []checks.Finding{found})[0]
		start := found.Span.Start - strings.LastIndex(f.Text[:found.Span.Start], "\n") - 1
		right := false
		for i, w := range f.Wants {
			if w.Code == mark.Code && w.Line == mark.Line && touches(lines[w.Line-1], w.Text, start, start+len(mark.Text)) {
				if right = true; made[i] {
					continue
				}
				made[i] = true
				v.score(found.Code).Right++
			}
		}
		if right {
			continue
		}
		s := v.score(found.Code)
		s.Alarms++
		if found.Severity == checks.Warning {
			v.Warned++
		}
		note := "alarm "
		for _, trap := range f.Traps {
			if trap.Code == mark.Code && trap.Line == mark.Line && (trap.Text == "" || touches(lines[trap.Line-1], trap.Text, start, start+len(mark.Text))) {
				s.Trapped++
				note = "trapped "
				break
			}
		}
		v.Apart = append(v.Apart, fmt.Sprintf("%s %s:%s in %q", note, path.Base(name), mark, lines[mark.Line-1]))
	}
	for i, w := range f.Wants {
		if !made[i] {
			v.score(checks.Code(w.Code)).Missed++
			v.Apart = append(v.Apart, fmt.Sprintf("missed %s:%s in %q", path.Base(name), w, lines[w.Line-1]))
		}
	}
}

// touches reports whether some place of the words in the line overlaps [start, end).
func touches(line, words string, start, end int) bool {
	for at := 0; ; {
		i := strings.Index(line[at:], words)
		if i < 0 {
			return false
		}
		if from := at + i; from < end && start < from+len(words) {
			return true
		}
		at += i + 1
	}
}
