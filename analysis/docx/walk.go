package docx

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode"

	"dandle/analysis/typescript"
)

// The namespaces of word processing, in the two conformance classes
// (ECMA-376 part 4 and part 1).
const (
	transitional = "http://schemas.openxmlformats.org/wordprocessingml/2006/main"
	strict       = "http://purl.oclc.org/ooxml/wordprocessingml/main"
)

// A paragraph is a w:p, as far as it was read.
type paragraph struct {
	format
	typed typescript.Paragraph
}

// A walker goes through the part with the text, element by element, and keeps
// the place of each.
type walker struct {
	doc        *Document
	decoder    *xml.Decoder
	depth      int
	sheet      styleSheet
	comments   comments
	paragraphs []paragraph
	number     int // of the line being read, from 1

	inParagraph, inRun bool
	italic, hidden     bool // of the run
	content            int  // what was read in the run besides its format
	newPage            bool // before the next paragraph
	tracked            bool // a notice was given
	marked             bool // the run refers to a comment of dandle's own
}

func newWalker(d *Document, sheet styleSheet, margin comments) *walker {
	return &walker{doc: d, decoder: xml.NewDecoder(bytes.NewReader(d.source)), sheet: sheet, comments: margin}
}

// next is the next token with the place where it begins.
func (w *walker) next() (xml.Token, int, error) {
	at := int(w.decoder.InputOffset())
	token, err := w.decoder.Token()
	switch token.(type) {
	case xml.StartElement:
		w.depth++
	case xml.EndElement:
		w.depth--
	}
	if w.depth > maxDepth {
		return nil, 0, fmt.Errorf("not taken: its elements stand more than %d deep within each other", maxDepth)
	}
	if err != nil && !errors.Is(err, io.EOF) {
		err = errDamaged
	}
	return token, at, err
}

func (w *walker) walk() error {
	for {
		token, at, err := w.next()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return err
		}
		switch t := token.(type) {
		case xml.StartElement:
			err = w.open(t, at)
		case xml.EndElement:
			w.close(t.Name.Local)
		}
		if err != nil {
			return err
		}
	}
	if w.doc.namespace == "" {
		return errors.New("damaged: there is no text in it; open it in a word processor and save it anew")
	}
	return nil
}

// open meets an element. What is not named here is gone into.
func (w *walker) open(t xml.StartElement, at int) error {
	if t.Name.Space == transitional || t.Name.Space == strict {
		w.doc.namespace = t.Name.Space
	} else if t.Name.Local == "Fallback" { // the other of two forms of one thing (part 3, 10.2.3)
		return w.skip(nil)
	} else if t.Name.Space != "" && t.Name.Local != "Choice" && t.Name.Local != "AlternateContent" {
		return w.skip(w.lookFor("txbxContent", "a text box is left out; words of the story in it are not read"))
	}
	switch t.Name.Local {
	case "p":
		w.beginParagraph()
	case "pPr":
		return w.paragraphFormat(t)
	case "r":
		w.beginRun(at)
	case "rPr":
		return w.runFormat(t, at)
	case "t":
		return w.text(t, at)
	case "tab", "ptab", "noBreakHyphen", "softHyphen":
		w.follow()
		w.add(typescript.Segment{Text: characters[t.Name.Local], Piece: -1})
	case "br", "cr":
		w.lineBreak(attribute(t, "type"))
	case "commentRangeStart", "commentRangeEnd":
		return w.stale(t, at)
	case "commentReference":
		w.note(attribute(t, "id"))
		return w.stale(t, at)
	case "tbl":
		w.notice("a table is left out; verse in it is not read")
		return w.skip(nil)
	case "pict", "drawing", "object", "ruby":
		w.follow()
		return w.skip(w.lookFor("txbxContent", "a text box is left out; words of the story in it are not read"))
	case "ins", "moveTo":
		w.tracking()
	case "del", "moveFrom":
		w.tracking()
		return w.skip(nil)
	case "delText", "instrText", "sectPr", "rPrChange", "pPrChange", "numPr":
		return w.skip(nil)
	}
	return nil
}

var characters = map[string]string{"tab": "\t", "ptab": "\t", "noBreakHyphen": "\u2011", "softHyphen": "\u00ad"}

func attribute(t xml.StartElement, name string) string {
	for _, a := range t.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// skip passes over the element just opened; look, where it is given, sees the
// name of every element in it.
func (w *walker) skip(look func(name string)) error {
	for open := 1; open > 0; {
		token, _, err := w.next()
		if err != nil {
			return errDamaged
		}
		switch t := token.(type) {
		case xml.StartElement:
			open++
			if look != nil {
				look(t.Name.Local)
			}
		case xml.EndElement:
			open--
		}
	}
	return nil
}

// lookFor gives a notice once an element of that name comes.
func (w *walker) lookFor(name, message string) func(string) {
	told := false
	return func(found string) {
		if found == name && !told {
			told = true
			w.notice(message)
		}
	}
}

func (w *walker) notice(message string) {
	w.doc.Notices = append(w.doc.Notices, Notice{Line: max(w.number, 1), Message: message})
}

func (w *walker) tracking() {
	if !w.tracked {
		w.tracked = true
		w.notice("changes are being tracked from here on; the text is read as if all were accepted")
	}
}

func (w *walker) close(name string) {
	switch name {
	case "p":
		w.inParagraph = false
	case "r":
		w.endRun()
	}
}

func (w *walker) beginParagraph() {
	w.inParagraph = true
	w.number++
	w.paragraphs = append(w.paragraphs, paragraph{format: w.sheet.plain, typed: typescript.Paragraph{Lines: make([]typescript.Line, 1), PageBreak: w.newPage}})
	w.newPage = false
}

// here is the paragraph being read; nil between two.
func (w *walker) here() *paragraph {
	if !w.inParagraph {
		return nil
	}
	return &w.paragraphs[len(w.paragraphs)-1]
}

// typed are the paragraphs with what their format says of them.
func (w *walker) typed() []typescript.Paragraph {
	list := make([]typescript.Paragraph, len(w.paragraphs))
	for i, p := range w.paragraphs {
		list[i] = p.typed
		list[i].Role, list[i].Centred, list[i].Indented = p.role, p.centred != nil && *p.centred, p.indent > 0
		list[i].Before, list[i].After = p.before, p.after
	}
	return list
}

// decode reads the element just opened into a value.
func (w *walker) decode(t xml.StartElement, into any) error {
	w.depth--
	if err := w.decoder.DecodeElement(into, &t); err != nil {
		return errDamaged
	}
	return nil
}

func (w *walker) paragraphFormat(t xml.StartElement) error {
	var read paragraphProperties
	if err := w.decode(t, &read); err != nil {
		return err
	}
	if p := w.here(); p != nil {
		p.format = read.format().over(w.sheet.plain)
		if id := read.Style.text(); id != "" {
			p.format = read.format().over(w.sheet.of(id))
		}
		if on := read.PageBreak.on(); on != nil && *on {
			p.typed.PageBreak = true
		}
	}
	return nil
}

// follow counts something in the run; what stands before it closes no more.
func (w *walker) follow() {
	w.content++
	if n := len(w.doc.pieces) - 1; n >= 0 && w.doc.pieces[n].run == len(w.doc.runs)-1 {
		w.doc.pieces[n].closes = false
	}
}

func (w *walker) beginRun(at int) {
	if w.inRun { // one may stand in another
		w.follow()
	}
	w.inRun, w.hidden, w.marked, w.content = true, false, false, 0
	w.italic = false
	if p := w.here(); p != nil && p.italic != nil {
		w.italic = *p.italic
	}
	name := w.doc.source[at+1:]
	prefix := ""
	if i := bytes.IndexAny(name, ":/> \t\r\n"); i > 0 && name[i] == ':' {
		prefix = string(name[:i+1])
	}
	w.doc.runs = append(w.doc.runs, run{from: at, prefix: prefix})
}

func (w *walker) endRun() {
	if !w.inRun {
		return
	}
	w.inRun = false
	r := &w.doc.runs[len(w.doc.runs)-1]
	r.to = int(w.decoder.InputOffset())
	if w.marked && w.content == 1 { // it has nothing else
		w.doc.stale[len(w.doc.stale)-1] = edit{from: r.from, to: r.to}
	}
}

func (w *walker) runFormat(t xml.StartElement, at int) error {
	var read runProperties
	if err := w.decode(t, &read); err != nil || !w.inRun {
		return err
	}
	w.doc.runs[len(w.doc.runs)-1].properties = string(w.doc.source[at:w.decoder.InputOffset()])
	if f := w.sheet.of(read.Style.text()); read.Style.text() != "" && f.italic != nil {
		w.italic = *f.italic
	}
	if on := read.Italic.on(); on != nil {
		w.italic = *on
	}
	if on := read.Hidden.on(); on != nil {
		w.hidden = *on
	}
	return nil
}

// add puts a segment into the line being read.
func (w *walker) add(s typescript.Segment) {
	p := w.here()
	if p == nil || !w.inRun {
		return
	}
	s.Italic = w.italic
	l := &p.typed.Lines[len(p.typed.Lines)-1]
	l.Segments = append(l.Segments, s)
}

func (w *walker) text(t xml.StartElement, at int) error {
	var read struct {
		Text string `xml:",chardata"`
	}
	if err := w.decode(t, &read); err != nil || !w.inRun {
		return err
	}
	text := strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || r == '\u2028' || r == '\u2029' {
			return ' '
		}
		return r
	}, read.Text)
	if attribute(t, "space") != "preserve" {
		text = strings.Trim(text, " ")
	}
	if w.hidden && !strings.HasPrefix(strings.TrimSpace(text), "<!--") {
		w.follow()
		return nil
	}
	opens := w.content == 0
	w.follow()
	w.doc.pieces = append(w.doc.pieces, piece{
		run: len(w.doc.runs) - 1, from: at, to: int(w.decoder.InputOffset()), text: text, opens: opens, closes: true,
	})
	w.add(typescript.Segment{Text: text, Piece: len(w.doc.pieces) - 1})
	return nil
}

// lineBreak ends a line; one that ends a page begins a new page too.
func (w *walker) lineBreak(kind string) {
	w.follow()
	p := w.here()
	if p == nil {
		return
	}
	if kind == "page" || kind == "column" {
		if p.typed.Empty() {
			p.typed.PageBreak = true
		} else {
			w.newPage = true
		}
		return
	}
	w.number++
	p.typed.Lines = append(p.typed.Lines, typescript.Line{})
}

// stale keeps the place of what belongs to a comment of dandle's own, which
// gives way to the next letter's.
func (w *walker) stale(t xml.StartElement, at int) error {
	if !w.comments.ours[attribute(t, "id")] {
		return nil
	}
	err := w.skip(nil)
	w.doc.stale = append(w.doc.stale, edit{from: at, to: int(w.decoder.InputOffset())})
	w.marked = t.Name.Local == "commentReference"
	return err
}

// note puts a comment after the line that it ends on.
func (w *walker) note(id string) {
	w.follow()
	p := w.here()
	if text := w.comments.texts[id]; p != nil && text != "" {
		l := &p.typed.Lines[len(p.typed.Lines)-1]
		l.Notes = append(l.Notes, text)
	}
}
