package main

import "dandle/analysis/checks"

type comparedFiles struct {
	Old       string           `json:"old"`
	New       string           `json:"new"`
	Verdict   string           `json:"verdict"`
	Warnings  comparedCounts   `json:"warnings"`
	Lines     []comparedLines  `json:"lines"` // every line of both, the kept ones too
	Mended    []checkedFinding `json:"mended"`
	Gone      []checkedFinding `json:"gone"`
	Added     []checkedFinding `json:"added"`
	Unchanged []comparedPair   `json:"unchanged"`
}

type comparedCounts struct {
	Before int `json:"before"`
	After  int `json:"after"`
}

type comparedLines struct {
	Change string         `json:"change"`
	Old    []comparedLine `json:"old"`
	New    []comparedLine `json:"new"`
}

type comparedLine struct {
	Line int    `json:"line"`
	Text string `json:"text"`
	Feet string `json:"feet"`
	Fits bool   `json:"fits"`
}

type comparedPair struct {
	Old checkedFinding `json:"old"`
	New checkedFinding `json:"new"`
}

// compared is the comparison in the shape of the JSON.
func compared(c *comparison) comparedFiles {
	out := comparedFiles{
		Old: c.readings[0].name, New: c.readings[1].name, Verdict: c.Verdict(),
		Warnings: comparedCounts{c.Before, c.After}, Lines: make([]comparedLines, len(c.Changes)),
		Unchanged: make([]comparedPair, len(c.Same)),
	}
	lines := func(draft int, list []int) []comparedLine {
		set := make([]comparedLine, len(list))
		m, poem := c.drafts[draft].Manuscript, c.drafts[draft].Poem
		for k, at := range list {
			set[k] = comparedLine{
				Line: m.Lines[at].Number, Text: m.Lines[at].Span.In(m.Text),
				Feet: poem.Lines[at].Reading.FeetPattern(), Fits: poem.Lines[at].Fits,
			}
		}
		return set
	}
	for i, change := range c.Changes {
		out.Lines[i] = comparedLines{change.Kind.String(), lines(0, change.Old), lines(1, change.New)}
	}
	found := func(draft int, list []int) []checkedFinding {
		chosen := make([]checks.Finding, len(list))
		for k, i := range list {
			chosen[k] = c.drafts[draft].Findings[i]
		}
		return checkedFileOf(c.readings[draft], chosen).Findings
	}
	out.Mended, out.Gone, out.Added = found(0, c.Mended), found(0, c.Gone), found(1, c.New)
	for i, pair := range c.Same {
		out.Unchanged[i] = comparedPair{found(0, []int{pair.Old})[0], found(1, []int{pair.New})[0]}
	}
	return out
}
