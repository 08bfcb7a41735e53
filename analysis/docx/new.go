package docx

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"dandle/analysis/manuscript"
	"dandle/analysis/typescript"
	"dandle/phonetics"
)

// New sets a manuscript as publishers take it (SCBWI's page on format; common
// practice): 12-point Times, double-spaced, 1-inch margins, left-aligned; the
// contact, the length and the title on the first page, and a header with name,
// title and page number on the others. Contact and name come from the front
// matter's keys "contact" and "author". Its Text is that of the manuscript.
//
// The front matter itself goes along as a property of the document, comments
// as hidden text, and the reviewer's notes as comments, so that Read finds all
// of it again.
func New(m *manuscript.Manuscript) *Document {
	t := typist{m: m, doc: &Document{Text: m.Text, Lines: m.LineStarts, main: "word/document.xml", namespace: transitional}}
	t.source.WriteString(xml.Header + `<w:document xmlns:w="` + transitional + `" xmlns:r="` + officeRelationship + `"><w:body>`)
	t.firstPage()
	t.body()
	t.source.WriteString(section(m) + `</w:body></w:document>`)
	t.doc.source = t.source.Bytes()
	t.doc.archive = t.pack()
	t.doc.notes = t.notes
	return t.doc
}

// A typist types a manuscript.
type typist struct {
	m      *manuscript.Manuscript
	doc    *Document
	source bytes.Buffer
	notes  []Comment       // the reviewer's
	last   manuscript.Span // the line with words that was typed last
	slant  byte            // the mark that opened italics: "*" or "_"; 0 outside them
	hidden int             // where the comment ends that was met last
}

// firstPage is the contact, the length and the title.
func (t *typist) firstPage() {
	contact := append([]string{typescript.Value(t.m, "author")}, strings.Split(typescript.Value(t.m, "contact"), "\n")...)
	for _, line := range append(contact, typescript.Length(t.m)) {
		if line != "" {
			t.plain("Contact", line)
		}
	}
	if title := typescript.Title(t.m); t.m.Title.Text == "" && title != "" {
		t.plain("Title", title)
		t.byline()
	}
}

// byline is what stands below the title.
func (t *typist) byline() {
	text := ""
	if author := typescript.Value(t.m, "author"); author != "" {
		text = "by " + author
	}
	t.plain("Byline", text)
}

// plain is a paragraph that is no part of the text.
func (t *typist) plain(style, text string) {
	fmt.Fprintf(&t.source, `<w:p><w:pPr><w:pStyle w:val="%s"/></w:pPr><w:r><w:t xml:space="preserve">%s</w:t></w:r></w:p>`, style, escaped(text))
}

// body types the text line by line.
func (t *typist) body() {
	text := t.m.Text
	for at := t.m.Front.Span.End; at < len(text); {
		end := len(text)
		if n := strings.IndexAny(text[at:], "\r\n"); n >= 0 {
			end = at + n
		}
		if at > t.m.Front.Span.End || end > at { // the line that front matter ends on is none of its own
			t.line(at, end)
		}
		at = end + 1
		if strings.HasPrefix(text[end:], "\r\n") {
			at++
		}
	}
}

// line types one line of the file.
func (t *typist) line(from, to int) {
	text := t.m.Text
	trimmed := strings.TrimLeftFunc(strings.TrimPrefix(text[from:to], "\ufeff"), unicode.IsSpace)
	from = to - len(trimmed)
	style := ""
	switch {
	case trimmed == "":
		t.slant = 0
	case strings.HasPrefix(trimmed, ">"):
		t.note(strings.TrimSpace(trimmed[1:]))
		return
	case from == t.m.Title.Span.Start && t.m.Title.Span.Len() > 0:
		style, from = "Title", t.afterMarks(from)
	case strings.HasPrefix(trimmed, "#"):
		style, from = "Heading2", t.afterMarks(from)
	case strings.HasPrefix(trimmed, "["):
		style = "ArtNote"
	}
	t.source.WriteString("<w:p>")
	if style != "" {
		fmt.Fprintf(&t.source, `<w:pPr><w:pStyle w:val="%s"/></w:pPr>`, style)
	}
	if t.words(from, to); from < to {
		t.last = manuscript.Span{Start: from, End: to}
	}
	t.source.WriteString("</w:p>")
	if style == "Title" {
		t.byline()
	}
}

func (t *typist) afterMarks(from int) int {
	rest := strings.TrimLeft(t.m.Text[from:], "#")
	return len(t.m.Text) - len(strings.TrimLeft(rest, " \t"))
}

// note keeps a reviewer's note for the margin of the line before it.
func (t *typist) note(text string) {
	if text == "" {
		return
	}
	at := t.last
	if n := len(t.notes); n > 0 && t.notes[n-1].Span == at {
		t.notes[n-1].Paragraphs[0] += " " + text
		return
	}
	t.notes = append(t.notes, Comment{Author: "Reviewer", Span: at, Paragraphs: []string{text}})
}

// words types the words of a line: marks of emphasis become italics, notes in
// brackets too, and comments are hidden.
func (t *typist) words(from, to int) {
	text := t.m.Text[:to]
	start, brackets := from, 0
	flush := func(end, next int) {
		t.run(start, end, t.look(brackets))
		start = next
	}
	for i := from; i < to; {
		switch c := text[i]; {
		case c == '\\' && i+1 < to && isMark(text[i+1]):
			flush(i, i+1)
			i += 2
			continue
		case i < t.hidden || strings.HasPrefix(text[i:], "<!--"):
			if n := strings.Index(t.m.Text[i:], "-->"); i >= t.hidden && n >= 0 {
				t.hidden = i + n + len("-->")
			}
			end := to
			if t.hidden > i {
				end = min(t.hidden, to)
			}
			flush(i, end)
			t.run(i, end, `<w:rPr><w:vanish/></w:rPr>`)
			i = end
			continue
		case c == '[':
			flush(i, i)
			brackets++
		case c == ']' && brackets > 0:
			flush(i+1, i+1)
			brackets--
		case (c == '*' || c == '_') && brackets == 0 && t.turns(i, to):
			n := i
			for n < to && text[n] == c {
				n++
			}
			flush(i, n)
			if t.slant == 0 {
				t.slant = c
			} else {
				t.slant = 0
			}
			i = n
			continue
		}
		i++
	}
	flush(to, to)
}

func isMark(c byte) bool { return strings.IndexByte("\\`*_{}[]<>()#+-.!~|&$\"'", c) >= 0 }

// look is the format of a run.
func (t *typist) look(brackets int) string {
	if t.slant != 0 || brackets > 0 {
		return `<w:rPr><w:i/></w:rPr>`
	}
	return ""
}

// turns reports whether a mark of emphasis opens italics or closes those that
// are open (CommonMark 0.31, 6.2, as far as verse needs it).
func (t *typist) turns(i, to int) bool {
	text := t.m.Text
	c := text[i]
	before, _ := utf8.DecodeLastRuneInString(text[:i])
	next := i
	for next < to && text[next] == c {
		next++
	}
	after, _ := utf8.DecodeRuneInString(text[next:to])
	inside := func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }
	if c == '_' && inside(before) && inside(after) {
		return false
	}
	if t.slant != 0 {
		return t.slant == c && !unicode.IsSpace(before)
	}
	if next == to || unicode.IsSpace(after) {
		return false
	}
	stanza := text[next:]
	for _, gap := range []string{"\n\n", "\r\n\r\n"} {
		if n := strings.Index(stanza, gap); n >= 0 {
			stanza = stanza[:n]
		}
	}
	return strings.IndexByte(stanza, c) >= 0
}

// run types a stretch of the text in one format.
func (t *typist) run(from, to int, properties string) {
	if from >= to {
		return
	}
	d, text := t.doc, t.m.Text[from:to]
	r := run{from: t.source.Len(), prefix: "w:", properties: properties}
	t.source.WriteString("<w:r>" + properties)
	p := piece{run: len(d.runs), from: t.source.Len(), text: text, opens: true, closes: true}
	fmt.Fprintf(&t.source, `<w:t xml:space="preserve">%s</w:t>`, escaped(text))
	p.to = t.source.Len()
	t.source.WriteString("</w:r>")
	r.to = t.source.Len()
	d.stretches = append(d.stretches, typescript.Stretch{Span: manuscript.Span{Start: from, End: to}, Piece: len(d.pieces)})
	d.pieces, d.runs = append(d.pieces, p), append(d.runs, r)
}

// section is the page: Letter for American English, A4 elsewhere (ISO 216), an
// inch around it.
func section(m *manuscript.Manuscript) string {
	width, height := 12240, 15840 // twentieths of a point
	if m.Front.HasDialect && m.Front.Dialect != phonetics.EnUS {
		width, height = 11906, 16838
	}
	return fmt.Sprintf(`<w:sectPr><w:headerReference w:type="default" r:id="r2"/><w:pgSz w:w="%d" w:h="%d"/>`+
		`<w:pgMar w:top="1440" w:right="1440" w:bottom="1440" w:left="1440" w:header="720" w:footer="720" w:gutter="0"/><w:titlePg/></w:sectPr>`, width, height)
}

// header is what stands over every page but the first: "Ashdown / The Goat / 2".
func header(m *manuscript.Manuscript) string {
	var parts []string
	if names := strings.Fields(typescript.Value(m, "author")); len(names) > 0 {
		parts = append(parts, names[len(names)-1])
	}
	if title := typescript.Title(m); title != "" {
		parts = append(parts, title)
	}
	text := strings.Join(append(parts, ""), " / ")
	return xml.Header + `<w:hdr xmlns:w="` + transitional + `"><w:p><w:pPr><w:pStyle w:val="Header"/></w:pPr><w:r><w:t xml:space="preserve">` + escaped(text) +
		`</w:t></w:r><w:r><w:fldChar w:fldCharType="begin"/></w:r><w:r><w:instrText xml:space="preserve"> PAGE </w:instrText></w:r>` +
		`<w:r><w:fldChar w:fldCharType="separate"/></w:r><w:r><w:t>2</w:t></w:r><w:r><w:fldChar w:fldCharType="end"/></w:r></w:p></w:hdr>`
}

// front is the front matter without its fences.
func (t *typist) front() string {
	lines := strings.Split(strings.ReplaceAll(t.m.Front.Span.In(t.m.Text), "\r\n", "\n"), "\n")
	if len(lines) < 2 {
		return ""
	}
	lines = lines[1:]
	if last := strings.TrimSpace(lines[len(lines)-1]); last == "---" || last == "..." {
		lines = lines[:len(lines)-1]
	}
	return strings.Join(lines, "\n")
}

// pack makes the package with all its parts.
func (t *typist) pack() *archive {
	list := []struct{ name, text string }{
		{"[Content_Types].xml", contentTypes},
		{"_rels/.rels", packageRelations},
		{"docProps/core.xml", xml.Header + `<cp:coreProperties xmlns:cp="http://schemas.openxmlformats.org/package/2006/metadata/core-properties" xmlns:dc="http://purl.org/dc/elements/1.1/"><dc:title>` +
			escaped(typescript.Title(t.m)) + `</dc:title><dc:creator>` + escaped(typescript.Value(t.m, "author")) + `</dc:creator></cp:coreProperties>`},
		{"docProps/custom.xml", custom(t.front())},
		{"word/_rels/document.xml.rels", documentRelations},
		{"word/styles.xml", newSheet},
		{"word/header1.xml", header(t.m)},
		{"word/document.xml", t.source.String()},
	}
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for _, part := range list {
		if err := pack(w, zip.FileHeader{Name: part.name, Method: zip.Deflate}, []byte(part.text)); err != nil {
			panic(err) // a buffer takes everything
		}
	}
	if err := w.Close(); err != nil {
		panic(err)
	}
	a, err := open(b.Bytes())
	if err != nil {
		panic(err) // it was just packed
	}
	return a
}
