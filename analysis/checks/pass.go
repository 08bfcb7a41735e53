package checks

import (
	"cmp"
	"iter"
	"slices"
	"sync"

	"dandle/analysis/manuscript"
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
	Rhymes     []rhyme.Stanza // of every stanza; nil where nobody listened
	Reader     *phonetics.Reader
	House      manuscript.House
	Threshold  float64 // 0 stands for DefaultThreshold
	Memory     *Memory // of earlier versions; nil remembers nothing

	*common
	check  *Check
	within manuscript.Stanza // the lines that the check is to look at
	found  []Finding
	lean   func() // told when a check leans on the standard that a line is held to
}

// Report hands in a finding. The code is the check's own; so is the severity,
// where the finding names none.
func (p *Pass) Report(f Finding) {
	if f.Confidence < p.threshold() {
		return
	}
	f.Code = p.check.Code
	if f.Severity == Praise {
		f.Severity = p.check.Severity
	}
	p.found = append(p.found, f)
}

// threshold is the confidence that the house asks of the check's findings, by
// its code or its area, or else the usual one.
func (p *Pass) threshold() float64 {
	for _, key := range []string{string(p.check.Code), p.check.Code.Area()} {
		if least, given := p.House.Confidence[key]; given {
			return least
		}
	}
	return p.Threshold
}

// A Hearing is one version of a manuscript with the checks that listen to it.
// Many goroutines may ask it; one is answered at a time.
type Hearing struct {
	mu      sync.Mutex
	pass    Pass
	allowed allowed
	checks  []*Check // but for those that are allowed or silenced everywhere
}

// Listen makes a version ready for every check. Nothing is heard until somebody
// asks for it.
func Listen(pass Pass) *Hearing { return listen(pass, All) }

func listen(pass Pass, checks []*Check) *Hearing {
	if pass.Threshold == 0 {
		pass.Threshold = DefaultThreshold
	}
	if pass.Poem == nil {
		pass.Poem = &scansion.Poem{}
	}
	if pass.Memory == nil {
		pass.Memory = &Memory{}
	}
	pass.Memory.age()
	pass.common = newCommon(&pass)
	h := &Hearing{pass: pass, allowed: newAllowed(pass.Manuscript, pass.House)}
	for _, c := range checks {
		if !h.allowed.everywhere(c.Code) && !severityOf(c.Code, pass.House).silent {
			h.checks = append(h.checks, c)
		}
	}
	return h
}

// Run lets every check listen, and returns their findings by place, then by
// code. What the manuscript or the house allows is left out, and the house's
// severities stand in for the checks' own.
func Run(pass Pass) []Finding {
	h := Listen(pass)
	return ByPlace(h.Raised(), h.Praise())
}

// Raised are the findings that an editor marks: all but praise.
func (h *Hearing) Raised() []Finding {
	return h.found(func(c *Check) bool { return !c.praises(h.pass.House) })
}

// Praise is what is said of what sounds well. It stands apart since few ask for
// it: no mark and no list shows it.
func (h *Hearing) Praise() []Finding {
	return h.found(func(c *Check) bool { return c.praises(h.pass.House) })
}

// praises reports whether all that a check finds is praise; a house may raise it.
func (c *Check) praises(house manuscript.House) bool {
	return c.Severity == Praise && !severityOf(c.Code, house).given
}

func (h *Hearing) found(wanted func(*Check) bool) []Finding {
	h.mu.Lock()
	defer h.mu.Unlock()
	var near []*Check
	listener := h.pass.listener(h.pass.whole(), func() {})
	for _, c := range h.checks {
		switch {
		case !wanted(c):
		case c.Reach == OneStanza:
			near = append(near, c)
		default:
			listener.hear(c)
		}
	}
	found := append(listener.found, h.pass.nearby(near)...)
	found = slices.DeleteFunc(found, h.allowed.here)
	for i := range found {
		if r := severityOf(found[i].Code, h.pass.House); r.given {
			found[i].Severity = r.severity
		}
	}
	return ByPlace(found)
}

// ByPlace joins findings, by place, then by code.
func ByPlace(lists ...[]Finding) []Finding {
	found := slices.Concat(lists...)
	slices.SortStableFunc(found, func(a, b Finding) int {
		return cmp.Or(
			cmp.Compare(a.Span.Start, b.Span.Start),
			cmp.Compare(a.Span.End, b.Span.End),
			cmp.Compare(a.Code, b.Code),
		)
	})
	return found
}

// listener is a pass for checks that listen to some lines. lean is told when one
// leans on the standard that a line is held to.
func (p *Pass) listener(lines manuscript.Stanza, lean func()) *Pass {
	l := *p
	l.within, l.lean = lines, lean
	return &l
}

// deviance is how far a line is off. A check of one stanza asks for it here, and
// never the line.
func (p *Pass) deviance(line *scansion.Line) float64 {
	p.lean()
	return line.Deviance
}

// hear lets one check listen; what it reports is found.
func (p *Pass) hear(c *Check) {
	p.check = c
	c.Run(p)
}

// whole is all lines of the manuscript.
func (p *Pass) whole() manuscript.Stanza { return manuscript.Stanza{To: len(p.Manuscript.Lines)} }

// lines are those that the check is to look at, as far as they were heard.
func (p *Pass) lines() iter.Seq2[int, *scansion.Line] {
	return func(yield func(int, *scansion.Line) bool) {
		for i := p.within.From; i < min(p.within.To, len(p.Poem.Lines)); i++ {
			if !yield(i, &p.Poem.Lines[i]) {
				return
			}
		}
	}
}

// A ruling is what the house says of a code: a severity, or silence, or
// nothing.
type ruling struct {
	given, silent bool
	severity      Severity
}

// severityOf is the house's ruling on a code: the code's own entry, else its
// area's.
func severityOf(code Code, house manuscript.House) ruling {
	if len(house.Severities) == 0 {
		return ruling{}
	}
	for _, key := range []string{string(code), code.Area()} {
		name, given := house.Severities[key]
		if !given {
			continue
		}
		if name == "off" {
			return ruling{silent: true}
		}
		if i := slices.Index(severityNames[:], name); i > int(Praise) {
			return ruling{given: true, severity: Severity(i)}
		}
	}
	return ruling{}
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
