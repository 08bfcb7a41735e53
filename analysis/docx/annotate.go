package docx

import (
	"bytes"
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"
	"unicode"

	"dandle/analysis/manuscript"
)

// A Comment is a note in the margin.
type Comment struct {
	Author     string          // "" for dandle itself
	Span       manuscript.Span // the words it is about, in the document's Text
	Paragraphs []string
}

// Annotate is a copy of the document with comments at the words that they are
// about. Nothing else in it changes: every other part is the same byte for byte,
// and the part with the text keeps all that it had. Only the comments of an
// earlier letter give way. A comment about words that are not in the document, such as its front matter, stands at the nearest.
func (d *Document) Annotate(comments []Comment) ([]byte, error) {
	comments = slices.Concat(d.notes, comments)
	if len(comments) == 0 || len(d.stretches) == 0 {
		return d.archive.with(nil)
	}
	existing, err := d.commentsPart()
	if err != nil {
		return nil, err
	}
	a := annotator{doc: d, first: existing.next, cuts: map[int][]cut{}}
	for i, c := range comments {
		a.anchor(i, c.Span)
	}
	source, err := splice(d.source, inOrder(append(a.edits(), d.stale...)))
	if err != nil {
		return nil, err
	}
	changed := map[string][]byte{d.main: source}
	if changed[existing.name], err = existing.with(comments, d.namespace); err != nil {
		return nil, err
	}
	if existing.data == nil {
		if err := d.register(changed, existing.name); err != nil {
			return nil, err
		}
	}
	return d.archive.with(changed)
}

// Bytes is the document as a file.
func (d *Document) Bytes() ([]byte, error) { return d.Annotate(nil) }

// A cut is where a comment begins or ends in a piece.
type cut struct {
	at     int // in the piece's text
	begins bool
	id     int
}

// An annotator gathers what is to be put into the part with the text.
type annotator struct {
	doc   *Document
	first int           // the number of the first new comment
	cuts  map[int][]cut // by piece
}

// anchor marks the words of a span as those of comment i.
func (a *annotator) anchor(i int, span manuscript.Span) {
	d := a.doc
	from, to := d.overlapping(span)
	if from == to { // no word of it is in the document: take the nearest
		from = min(from, len(d.stretches)-1)
		to = from + 1
		span = d.stretches[from].Span
	}
	begin, end := d.stretches[from], d.stretches[to-1]
	start := begin.At + max(0, span.Start-begin.Start)
	stop := end.At + min(end.Len(), span.End-end.Start)
	a.cuts[begin.Piece] = append(a.cuts[begin.Piece], cut{start, true, a.first + i})
	a.cuts[end.Piece] = append(a.cuts[end.Piece], cut{stop, false, a.first + i})
}

// An edit puts text in the place of some bytes.
type edit struct {
	from, to int
	text     string
}

// edits are the changes of the part with the text.
func (a *annotator) edits() []edit {
	var list []edit
	for _, number := range slices.Sorted(maps.Keys(a.cuts)) { // in the order of the text, since two may meet in one place
		p := a.doc.pieces[number]
		r := a.doc.runs[p.run]
		before, inside, after := sorted(p, a.cuts[number])
		list = append(list, marksAt(r.from, r.prefix, before), marksAt(r.to, r.prefix, after))
		if len(inside) > 0 {
			list = append(list, edit{p.from, p.to, parted(p, r, inside)})
		}
	}
	return list
}

// sorted are the cuts of a piece that can stand before its run, those that part
// the run, and those that can stand after it. What ends stands before what
// begins in the same place.
func sorted(p piece, cuts []cut) (before, inside, after []cut) {
	slices.SortFunc(cuts, func(x, y cut) int {
		return cmp.Or(cmp.Compare(x.at, y.at), cmp.Compare(order(x), order(y)), cmp.Compare(x.id, y.id))
	})
	for _, c := range cuts {
		switch {
		case c.at == 0 && p.opens:
			before = append(before, c)
		case c.at == len(p.text) && p.closes:
			after = append(after, c)
		default:
			inside = append(inside, c)
		}
	}
	return before, inside, after
}

func inOrder(list []edit) []edit {
	slices.SortStableFunc(list, func(x, y edit) int { return cmp.Or(cmp.Compare(x.from, y.from), cmp.Compare(x.to, y.to)) })
	return list
}

func order(c cut) int {
	if c.begins {
		return 1
	}
	return 0
}

func marksAt(at int, prefix string, cuts []cut) edit {
	var b strings.Builder
	for _, c := range cuts {
		c.mark(&b, prefix)
	}
	return edit{at, at, b.String()}
}

// mark writes the element that begins a comment's words, or ends them and
// refers to it (ECMA-376 part 1, 17.13.4).
func (c cut) mark(b *strings.Builder, prefix string) {
	if c.begins {
		fmt.Fprintf(b, `<%scommentRangeStart %sid="%d"/>`, prefix, prefix, c.id)
		return
	}
	fmt.Fprintf(b, `<%[1]scommentRangeEnd %[1]sid="%[2]d"/><%[1]sr><%[1]scommentReference %[1]sid="%[2]d"/></%[1]sr>`, prefix, c.id)
}

// parted is a w:t with its run closed and opened anew at every cut.
func parted(p piece, r run, cuts []cut) string {
	var b strings.Builder
	done := 0
	text := func(to int) {
		if to > done {
			fmt.Fprintf(&b, `<%[1]st xml:space="preserve">%[2]s</%[1]st>`, r.prefix, escaped(p.text[done:to]))
			done = to
		}
	}
	for i := 0; i < len(cuts); {
		text(cuts[i].at)
		fmt.Fprintf(&b, "</%sr>", r.prefix)
		for at := cuts[i].at; i < len(cuts) && cuts[i].at == at; i++ {
			cuts[i].mark(&b, r.prefix)
		}
		fmt.Fprintf(&b, "<%sr>%s", r.prefix, r.properties)
	}
	text(len(p.text))
	return b.String()
}

var xmlText = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;")

// escapedLines is text of several lines as XML may hold it.
func escapedLines(text string) string {
	lines := strings.Split(text, "\n")
	for i := range lines {
		lines[i] = escaped(lines[i])
	}
	return strings.Join(lines, "\n")
}

// escaped is text as XML may hold it (XML 1.0, 2.2).
func escaped(text string) string {
	return xmlText.Replace(strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || r == 0xfffe || r == 0xffff {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(text, "\ufffd")))
}

// splice makes edits in order; none may overlap.
func splice(source []byte, edits []edit) ([]byte, error) {
	var b bytes.Buffer
	at := 0
	for _, e := range edits {
		if e.from < at || e.to < e.from || e.to > len(source) {
			return nil, errDamaged
		}
		b.Write(source[at:e.from])
		b.WriteString(e.text)
		at = e.to
	}
	b.Write(source[at:])
	return b.Bytes(), nil
}
