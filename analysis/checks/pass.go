package checks

import (
	"cmp"
	"slices"
	"sync"

	"dandle/analysis/manuscript"
	"dandle/analysis/memo"
	"dandle/analysis/rhyme"
	"dandle/analysis/scansion"
	"dandle/phonetics"
)

// DefaultThreshold is the confidence below which a finding stays silent. A
// writer forgives a missed fault sooner than a false alarm, so it lies above
// the middle; ours, tuned on the judged manuscripts.
const DefaultThreshold = 0.55

// A Pass is what a check may see: one version of a manuscript with everything
// that was heard in it. Nothing in it may be changed.
type Pass struct {
	Manuscript *manuscript.Manuscript
	Poem       *scansion.Poem
	Schemes    []rhyme.Scheme
	Reader     *phonetics.Reader
	House      manuscript.House
	Threshold  float64 // 0 stands for DefaultThreshold
	Memory     *Memory // of earlier versions; nil remembers nothing

	check  *Check
	report func(Finding)
	// What several checks listen to, worked out when the first one asks.
	passages func() []passage
	frames   func() []frame
}

// A Memory keeps what checks worked out for parts of a manuscript, from one
// version to the next. The zero Memory is ready.
type Memory struct{ kept memo.Memo[any] }

// recall is what a check works out for a part of the manuscript, from memory
// where it was worked out before. The key must hold all that it depends on.
func recall[T any](p *Pass, key string, create func() T) T {
	if p.Memory == nil {
		return create()
	}
	kept := p.Memory.kept.Get(string(p.check.Code)+"\x00"+key, func() any { return create() })
	return kept.(T)
}

// Report hands in a finding. The code is the check's own; so is the severity,
// where the finding names none.
func (p *Pass) Report(f Finding) {
	if f.Confidence < p.Threshold {
		return
	}
	f.Code = p.check.Code
	if f.Severity == Praise {
		f.Severity = p.check.Severity
	}
	p.report(f)
}

// Run lets every check listen, and returns their findings by place, then by
// code. What the manuscript or the house allows is left out, and the house's
// severities stand in for the checks' own.
func Run(pass Pass) []Finding { return run(pass, All) }

func run(pass Pass, checks []*Check) []Finding {
	if pass.Threshold == 0 {
		pass.Threshold = DefaultThreshold
	}
	if pass.Poem == nil {
		pass.Poem = &scansion.Poem{}
	}
	pass.frames = sync.OnceValue(func() []frame { return frames(pass.Manuscript) })
	pass.passages = sync.OnceValue(func() []passage { return passages(&pass) })
	if pass.Memory != nil {
		pass.Memory.kept.Age()
	}
	var found []Finding
	allowed := newAllowed(pass.Manuscript, pass.House)
	for _, c := range checks {
		override, raised := severityOf(c.Code, pass.House)
		if override && raised == off || allowed.everywhere(c.Code) {
			continue
		}
		p := pass
		p.check = c
		p.report = func(f Finding) {
			if override {
				f.Severity = raised.severity
			}
			if !allowed.here(f) {
				found = append(found, f)
			}
		}
		c.Run(&p)
	}
	slices.SortStableFunc(found, func(a, b Finding) int {
		return cmp.Or(
			cmp.Compare(a.Span.Start, b.Span.Start),
			cmp.Compare(a.Span.End, b.Span.End),
			cmp.Compare(a.Code, b.Code),
		)
	})
	return found
}

// A ruling is what the house says of a code: a severity, or silence.
type ruling struct {
	silent   bool
	severity Severity
}

var off = ruling{silent: true}

// severityOf is the house's ruling on a code: the code's own entry, else its
// area's; false where there is none that can be read.
func severityOf(code Code, house manuscript.House) (bool, ruling) {
	for _, key := range []string{string(code), code.Area()} {
		name, given := house.Severities[key]
		if !given {
			continue
		}
		if name == "off" {
			return true, off
		}
		if i := slices.Index(severityNames[:], name); i > int(Praise) {
			return true, ruling{severity: Severity(i)}
		}
	}
	return false, ruling{}
}

// allowed is what a writer has accepted.
type allowed struct {
	m     *manuscript.Manuscript
	codes map[string]bool // codes and areas accepted for the whole text
}

func newAllowed(m *manuscript.Manuscript, house manuscript.House) allowed {
	a := allowed{m: m, codes: map[string]bool{}}
	for _, list := range [][]string{house.Allow, m.Front.Allow} {
		for _, c := range list {
			a.codes[c] = true
		}
	}
	for _, w := range m.Allowances {
		if w.Line < 0 {
			for _, c := range w.Codes {
				a.codes[c] = true
			}
		}
	}
	return a
}

func (a allowed) everywhere(code Code) bool {
	return a.codes[string(code)] || a.codes[code.Area()]
}

// here reports whether a directive on the finding's line, or on the line of
// the file above it, accepts the finding.
func (a allowed) here(f Finding) bool {
	for _, w := range a.m.Allowances {
		if w.Line < 0 || !slices.Contains(w.Codes, string(f.Code)) && !slices.Contains(w.Codes, f.Code.Area()) {
			continue
		}
		if f.Line >= 0 && w.Line == f.Line {
			return true
		}
		if f.Line < 0 {
			// A note between the verses belongs to no line of verse, so the
			// file's own lines decide.
			at, of := a.m.FileLine(w.Span.Start), a.m.FileLine(f.Span.Start)
			if at == of || at+1 == of {
				return true
			}
		}
	}
	return false
}
