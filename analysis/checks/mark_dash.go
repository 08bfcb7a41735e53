package checks

import (
	"fmt"
	"regexp"
	"strings"

	"dandle/analysis/manuscript"
	"dandle/phonetics"
)

const markDashDoc = `
A hyphen does a dash's work.

A dash is a breath that the reader can see, and a hyphen is glue. Typewriters had only the
hyphen; typesetters have to mend each one by hand, and miss some. American books set the dash
closed up (U+2014, the em dash), British ones often open (U+2013, the en dash, with a space
on both sides); either house style is kept, whichever the manuscript has chosen. A house that
wants one of them says so with _dash: em_ or _dash: en_ in _dandle.yaml_; then the other is
raised too.

In 8,905 lines of Housman and Kipling, typed with two hyphens for every dash, it raises 918
marks, nearly all of them such hyphens.

Raised here, at all three:

    The kettle sang -- the cat was gone.
    The door - the door! It had been closed.
    The lamp went out- and then came on.

Not here:

    The kettle sang—the cat was gone.
    A well-worn, knee-high, three-legged stool.
    A two- or three-legged milking stool.
`

var markDash = &Check{
	Code:     "mark/dash",
	Severity: Information,
	Doc:      markDashDoc,
	Run: func(p *Pass) {
		dash := dashOf(p)
		for i := range p.Manuscript.Lines {
			for _, g := range gaps(p.Manuscript, i) {
				for _, d := range wrongDashes(p, g, dash) {
					p.Report(Finding{
						Span:       d.mark,
						Line:       i,
						Message:    fmt.Sprintf("I hear a breath here, and the page shows %s; a dash (%s) would let every reader take it.", d.name, dash.name),
						Confidence: d.confidence,
						Fixes:      []Fix{{Title: "Set " + dash.name, Edits: []Edit{{Span: d.whole, Text: dash.set(p.Manuscript.Text, d.whole)}}}},
					})
				}
			}
		}
	},
}

// A dash is a house style's pause.
type dash struct {
	sign, name string
	open       bool // with a space on both sides
}

var (
	emDash = dash{sign: "—", name: "an em dash"}
	enDash = dash{sign: "–", name: "an en dash with spaces", open: true}
)

// set is the dash as it stands in the place of a stretch; at a line's edge an
// open dash keeps the space on its inner side only.
func (d dash) set(text string, s manuscript.Span) string {
	if !d.open {
		return d.sign
	}
	set := " " + d.sign
	if s.End < len(text) && text[s.End] != '\n' && text[s.End] != '\r' {
		set += " "
	}
	return set
}

// dashOf is the dash that the house asks for; without a rule the one that the
// manuscript uses, and where it has none, that of its dialect: closed em dash in American, open en dash in British books (Turabian,
// 7th ed.; Drinkwater 2016).
func dashOf(p *Pass) dash {
	switch p.House.Dash {
	case manuscript.EmDash:
		return emDash
	case manuscript.EnDash:
		return enDash
	default: // no rule
	}
	em, en := 0, 0
	for i := range p.Manuscript.Lines {
		for _, g := range gaps(p.Manuscript, i) {
			s := g.In(p.Manuscript.Text)
			em += strings.Count(s, "—")
			en += strings.Count(s, " – ")
		}
	}
	british := p.Reader != nil && p.Reader.Dialect() == phonetics.EnGB
	if british && en >= em || !british && en > em && em == 0 && en > 1 {
		return enDash
	}
	return emDash
}

// mayDash reports whether a text may have a dash or a hyphen at all; most have
// none, and to look closer takes long.
func mayDash(s string) bool {
	const dashesBegin = "\xe2" // in UTF-8, with all of U+2000 to U+2FFF
	return strings.IndexByte(s, '-') >= 0 || strings.Contains(s, dashesBegin)
}

// gaps are what stands between the words of a line that may have a dash, and
// after the last. A gap that holds a note or a comment is left out: its signs
// are no part of the verse.
func gaps(m *manuscript.Manuscript, line int) []manuscript.Span {
	l := &m.Lines[line]
	if !mayDash(l.Span.In(m.Text)) {
		return nil
	}
	var list []manuscript.Span
	for k, w := range l.Words {
		end := l.Span.End
		if k+1 < len(l.Words) {
			end = l.Words[k+1].Span.Start
		}
		if g := (manuscript.Span{Start: w.Span.End, End: end}); mayDash(g.In(m.Text)) && !strings.ContainsAny(g.In(m.Text), "<[") {
			list = append(list, g)
		}
	}
	return list
}

// A wrongDash is a sign that stands for a dash.
type wrongDash struct {
	mark, whole manuscript.Span // the sign; the sign with its spaces
	name        string
	confidence  float64
}

var hyphens = regexp.MustCompile(`[ \t]*(-+|–|−|—)[ \t]*`)

func wrongDashes(p *Pass, gap manuscript.Span, house dash) []wrongDash {
	text := p.Manuscript.Text
	var list []wrongDash
	for _, at := range hyphens.FindAllStringSubmatchIndex(gap.In(text), -1) {
		d := wrongDash{
			whole: manuscript.Span{Start: gap.Start + at[0], End: gap.Start + at[1]},
			mark:  manuscript.Span{Start: gap.Start + at[2], End: gap.Start + at[3]},
		}
		before, after := d.mark.Start-d.whole.Start, d.whole.End-d.mark.End
		switch sign := d.mark.In(text); {
		case sign == "—":
			// Either style is kept where the house has no rule.
			if !house.open || p.House.Dash == manuscript.NoDashRule {
				continue
			}
			d.name, d.confidence = "an em dash", 0.8
		case sign == "–" && before > 0 && (after > 0 || d.whole.End == gap.End):
			if house.open {
				continue
			}
			d.name, d.confidence = "an en dash", 0.6
		case sign == "–", sign == "−":
			continue // between numbers, as a rule
		case len(sign) > 1:
			d.name, d.confidence = cardinal(len(sign))+" hyphens", 0.95
		case before > 0 && after > 0:
			d.name, d.confidence = "a hyphen", 0.92
		case after > 0:
			// "Two- or three-legged" lends its second half.
			if next := strings.ToLower(text[d.whole.End:min(d.whole.End+4, len(text))]); strings.HasPrefix(next, "and ") || strings.HasPrefix(next, "or ") || strings.HasPrefix(next, "to ") {
				continue
			}
			d.name, d.confidence = "a hyphen", 0.8
		case before > 0 && d.whole.End == gap.End && d.whole.End < len(text):
			d.name, d.confidence = "a hyphen", 0.7
		default:
			continue
		}
		list = append(list, d)
	}
	return list
}
