package page

import (
	"fmt"

	"dandle/analysis/checks"
	"dandle/analysis/manuscript"
	"dandle/analysis/revision"
)

type revisionView struct {
	Title   string
	Verdict string
	Lines   string
	Changes []changeView
	Lists   []listView
}

type changeView struct {
	Kind     string
	Old, New []verseLine
}

type listView struct {
	Heading string
	Notes   []changedNote
}

type changedNote struct {
	Line    int // in the file
	Label   string
	Words   string
	Message string // of a new note; what is mended needs no words
	Link    bool   // the line is shown on the page
}

// Revision is the page about two drafts. Before and after are what to call them.
func Revision(r revision.Revision, before, after string, drafts [2]revision.Draft) []byte {
	view := revisionView{Title: fmt.Sprintf("From %s to %s", before, after), Verdict: r.Verdict(), Lines: r.Lines()}
	shown := map[int]bool{}
	for _, c := range r.Changes {
		if c.Kind == revision.Kept {
			continue
		}
		v := changeView{Kind: c.Kind.String()}
		for _, i := range c.Old {
			v.Old = append(v.Old, plainLine(drafts[0], i))
		}
		for _, i := range c.New {
			v.New = append(v.New, plainLine(drafts[1], i))
			shown[drafts[1].Manuscript.Lines[i].Number] = true
		}
		view.Changes = append(view.Changes, v)
	}
	var same []int
	for _, p := range r.Same {
		same = append(same, p.New)
	}
	for _, list := range []struct {
		heading string
		draft   revision.Draft
		found   []int
		is      standing
	}{
		{"Mended", drafts[0], r.Mended, past},
		{"Gone with lines that were cut", drafts[0], r.Gone, past},
		{"New", drafts[1], r.New, present},
		{"Unchanged", drafts[1], same, known},
	} {
		if len(list.found) == 0 {
			continue
		}
		v := listView{Heading: list.heading}
		for _, i := range list.found {
			n := noteOf(list.draft.Manuscript, list.draft.Findings[i], list.is)
			n.Link = list.is != past && shown[n.Line]
			v.Notes = append(v.Notes, n)
		}
		view.Lists = append(view.Lists, v)
	}
	var w writer
	w.revision(&view)
	return []byte(w.String())
}

// A standing is how much there is to say about a note.
type standing uint8

const (
	past    standing = iota // in the old draft only
	known                   // in both
	present                 // in the new one only
)

func noteOf(m *manuscript.Manuscript, f checks.Finding, is standing) changedNote {
	n := changedNote{Line: m.FileLine(f.Span.Start) + 1, Label: string(f.Code), Words: short(f.Span.In(m.Text))}
	if is == present {
		n.Message = f.Message
	}
	return n
}

// plainLine is a line with its beats and nothing beside it.
func plainLine(d revision.Draft, i int) verseLine {
	line := &d.Manuscript.Lines[i]
	return verseLine{
		Number: line.Number, Off: !d.Poem.Lines[i].Fits,
		Feet: pieces(d.Manuscript, i, &d.Poem.Lines[i], nil), Wanted: wanted(d, i),
		Pattern: d.Poem.Lines[i].Reading.FeetPattern(),
	}
}

func wanted(d revision.Draft, i int) string {
	if l := &d.Poem.Lines[i]; !l.Fits && l.Expected != "" && l.Expected != l.Reading.FeetPattern() {
		return spaced(l.Expected)
	}
	return ""
}
