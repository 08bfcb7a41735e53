package docx

import (
	"regexp"
	"slices"
	"strings"
	"unicode"

	"dandle/analysis/manuscript"
)

// compose writes what was walked through as a manuscript.
func compose(d *Document, paragraphs []paragraph, front string) {
	c := composer{doc: d}
	if front != "" {
		c.write("---\n" + front + "\n---\n")
	}
	marks := markings(paragraphs)
	gaps := gaps(paragraphs, marks)
	for i := range paragraphs {
		for k := range paragraphs[i].lines {
			if k == 0 && gaps[i] == apart {
				c.write("\n")
			}
			c.beginLine()
			if gaps[i] == dropped {
				continue
			}
			l := &paragraphs[i].lines[k]
			if marks[i] != asNothing {
				c.line(l, marks[i])
			}
			c.write("\n")
			for _, note := range l.notes {
				c.write("> " + note + "\n")
			}
		}
	}
	d.Text = c.text.String()
	if len(d.Lines) == 0 {
		d.Lines = []int{0}
	}
}

// A composer writes the text, and keeps where each part of it came from.
type composer struct {
	doc  *Document
	text strings.Builder
}

func (c *composer) write(text string) { c.text.WriteString(text) }

// beginLine begins a line of the document. Front matter belongs to the first.
func (c *composer) beginLine() {
	at := c.text.Len()
	if len(c.doc.Lines) == 0 {
		at = 0
	}
	c.doc.Lines = append(c.doc.Lines, at)
}

// from writes text that came from a place of a piece.
func (c *composer) from(text string, piece, at int) {
	start := c.text.Len()
	c.write(text)
	if piece >= 0 && text != "" {
		c.doc.stretches = append(c.doc.stretches, stretch{Span: manuscript.Span{Start: start, End: start + len(text)}, piece: piece, at: at})
	}
}

// An insertion is markup put into a line, in the place of so many bytes.
type insertion struct {
	at, instead int
	text        string
}

func (c *composer) line(l *line, m marking) {
	text := l.text()
	list := insertions(l, text, m)
	at := 0 // in the line
	for _, s := range l.segments {
		done := 0 // of the segment
		for len(list) > 0 && list[0].at < at+len(s.text) {
			to := list[0].at - at
			c.from(s.text[done:max(to, done)], s.piece, done)
			c.write(list[0].text)
			done = min(max(to, done)+list[0].instead, len(s.text))
			list = list[1:]
		}
		c.from(s.text[done:], s.piece, done)
		at += len(s.text)
	}
	for _, i := range list {
		c.write(i.text)
	}
}

// insertions is the markup that a line takes, by place.
func insertions(l *line, text string, m marking) []insertion {
	from, to := trimmed(text)
	if from == to {
		return nil
	}
	body := text[from:to]
	bare := m == asComment && strings.Contains(body, "--") // cannot stand in a comment
	switch {
	case m == asTitle && !strings.HasPrefix(body, "#"):
		return []insertion{{from, 0, "# "}}
	case m == asTurn && !strings.HasPrefix(body, "#"):
		return []insertion{{from, 0, "## "}}
	case m == asComment && !bare:
		return []insertion{{from, 0, "<!-- "}, {to, 0, " -->"}}
	case m == asNote && strings.HasPrefix(body, "(") && strings.HasSuffix(body, ")"):
		return []insertion{{from, 1, "["}, {to - 1, 1, "]"}}
	case m == asNote && !strings.HasPrefix(body, "["):
		return []insertion{{from, 0, "["}, {to, 0, "]"}}
	case strings.Trim(body, "# ") == "":
		return []insertion{{from, 0, `\`}} // a break between scenes; it would be a heading without words
	case m == asText && !strings.HasPrefix(body, "["):
		return emphases(l, text)
	}
	return nil
}

// trimmed is where text begins and ends but for spaces.
func trimmed(text string) (from, to int) {
	to = len(strings.TrimRightFunc(text, unicode.IsSpace))
	return min(len(text)-len(strings.TrimLeftFunc(text, unicode.IsSpace)), to), to
}

// emphases are the marks around what is in italics, close to its words.
func emphases(l *line, text string) []insertion {
	var list []insertion
	at := 0
	for i := 0; i < len(l.segments); {
		start := at
		italic := l.segments[i].italic
		for i < len(l.segments) && l.segments[i].italic == italic {
			at += len(l.segments[i].text)
			i++
		}
		from, to := trimmed(text[start:at])
		slanted := text[start+from : start+to]
		if italic && strings.ContainsFunc(slanted, unicode.IsLetter) && !strings.ContainsAny(slanted, "*_[]<>") {
			list = append(list, insertion{start + from, 0, "*"}, insertion{start + to, 0, "*"})
		}
	}
	return list
}

// A marking is what a paragraph is in a manuscript.
type marking uint8

const (
	asText    marking = iota
	asTitle           // of the book
	asTurn            // the heading of a spread, or another
	asNote            // for the illustrator
	asComment         // a contact, a byline: no part of the story
	asNothing         // what New put above the title
)

var (
	// spreadLabel is how manuscripts name a spread or its pages (common practice).
	spreadLabel = regexp.MustCompile(`(?i)^\[?(?:(?:double[- ])?spreads?|pages?|pp?\.)\s*(?:\d{1,3}|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen)(?:\s*(?:[-–—/&]|and)\s*\d{1,3})?\s*[:.]?\]?$`)
	// artNote is how a note for the illustrator opens where it has no brackets.
	artNote = regexp.MustCompile(`(?i)^\(?\s*(?:art|ill?us?\.?|illos?|illustrations?|illustrator|picture)(?:\s+notes?)?(?:\s+(?:for|to)\s+illustrator)?\s*[:–—]\s*\S`)
)

// markings says what each paragraph is.
func markings(paragraphs []paragraph) []marking {
	marks := make([]marking, len(paragraphs))
	title := titleOf(paragraphs)
	for i := range paragraphs {
		marks[i] = markingOf(&paragraphs[i])
		if marks[i] == asTitle && i != title {
			marks[i] = asTurn
		}
	}
	head(paragraphs, marks, title)
	return marks
}

func markingOf(p *paragraph) marking {
	text := strings.TrimSpace(p.lines[0].text())
	switch {
	case p.empty():
		return asText
	case p.role == titleText || p.role == topHeading:
		return asTitle
	case p.role == lowerHeading, len(p.lines) == 1 && spreadLabel.MatchString(text):
		return asTurn
	case p.role == subtitleText:
		return asComment
	case p.role == contactText:
		return asNothing
	case len(p.lines) > 1:
		return asText
	case artNote.MatchString(text), p.slanted() && (p.indented() || strings.HasPrefix(text, "(") && strings.HasSuffix(text, ")")):
		return asNote
	}
	return asText
}

// slanted reports whether every word is in italics.
func (p *paragraph) slanted() bool {
	for i := range p.lines {
		for _, s := range p.lines[i].segments {
			if !s.italic && strings.TrimSpace(s.text) != "" {
				return false
			}
		}
	}
	return true
}

func (p *paragraph) indented() bool {
	return p.indent > 0 || strings.HasPrefix(p.lines[0].text(), "\t")
}

// A gap is what stands before a paragraph.
type gap uint8

const (
	none    gap = iota
	apart       // a new stanza: an empty line is put before it
	dropped     // the paragraph is empty and only there for the look
)

// looser is how much more space than usual parts stanzas: a third of a line, in
// twentieths of a point. Ours.
const looser = 80

// gaps finds where stanzas are parted by the way the page is set, and not by an
// empty paragraph.
func gaps(paragraphs []paragraph, marks []marking) []gap {
	list := make([]gap, len(paragraphs))
	stanzas := stanzaParagraphs(paragraphs)
	usual := usualSpace(paragraphs, marks)
	for i := 1; i < len(paragraphs); i++ {
		p, before := &paragraphs[i], &paragraphs[i-1]
		if p.empty() || before.empty() {
			continue
		}
		switch {
		case p.pageBreak, stanzas && (len(p.lines) > 1 || len(before.lines) > 1):
			list[i] = apart
		case marks[i] == asText && marks[i-1] == asText && space(before, p) >= usual+looser:
			list[i] = apart
		}
	}
	if doubled(paragraphs) {
		dropSingles(paragraphs, list)
	}
	return list
}

// stanzaParagraphs reports whether a paragraph is a stanza here, its lines
// parted by soft breaks, rather than a line.
func stanzaParagraphs(paragraphs []paragraph) bool {
	soft, all := 0, 0
	for i := range paragraphs {
		if paragraphs[i].empty() {
			continue
		}
		n := len(paragraphs[i].lines)
		all += n
		if n > 1 {
			soft += n
		}
	}
	return soft*2 >= all
}

// space is what stands between two paragraphs, in twentieths of a point.
func space(above, below *paragraph) int { return max(above.after, below.before, 0) }

// usualSpace is the commonest space between two lines of text, the smaller of
// two that are as common.
func usualSpace(paragraphs []paragraph, marks []marking) int {
	count := map[int]int{}
	best := 0
	for i := 1; i < len(paragraphs); i++ {
		if marks[i] != asText || marks[i-1] != asText || paragraphs[i].empty() || paragraphs[i-1].empty() {
			continue
		}
		s := space(&paragraphs[i-1], &paragraphs[i])
		count[s]++
		if len(count) == 1 || count[s] > count[best] || count[s] == count[best] && s < best {
			best = s
		}
	}
	return best
}

// doubled reports whether an empty paragraph stands after nearly every line, as
// some typists make double spacing; two then part stanzas.
func doubled(paragraphs []paragraph) bool {
	close, single, more := 0, 0, 0
	for _, n := range emptyRuns(paragraphs) {
		switch {
		case n.length == 0:
			close++
		case n.length == 1:
			single++
		default:
			more++
		}
	}
	return more > 0 && single > more && close*8 < single
}

// An emptyRun is a number of empty paragraphs between two that are not.
type emptyRun struct{ from, length int }

func emptyRuns(paragraphs []paragraph) []emptyRun {
	var list []emptyRun
	last := -1
	for i := range paragraphs {
		if paragraphs[i].empty() {
			continue
		}
		if last >= 0 {
			list = append(list, emptyRun{last + 1, i - last - 1})
		}
		last = i
	}
	return list
}

func dropSingles(paragraphs []paragraph, list []gap) {
	for _, n := range emptyRuns(paragraphs) {
		if n.length == 1 {
			list[n.from] = dropped
		}
	}
}

// The head of a manuscript is searched in so many paragraphs with text.
const headLength = 12

// titleOf is the paragraph with the book's title, or -1: by its style, or the
// first centred one where the verse is not.
func titleOf(paragraphs []paragraph) int {
	var tops, text, centred []int
	for i := range paragraphs {
		p := &paragraphs[i]
		if p.empty() {
			continue
		}
		text = append(text, i)
		switch {
		case p.role == titleText:
			return i
		case p.role == topHeading:
			tops = append(tops, i)
		}
		if p.centred != nil && *p.centred && markingOf(p) != asTurn {
			centred = append(centred, i)
		}
	}
	if len(tops) == 1 {
		return tops[0]
	}
	if len(tops) == 0 && len(centred) > 0 && len(centred)*2 < len(text) && slices.Index(text, centred[0]) < headLength {
		return centred[0]
	}
	return -1
}

var (
	byline    = regexp.MustCompile(`(?i)^(?:written\s+)?by\s+\S`)
	wordCount = regexp.MustCompile(`(?i)^(?:(?:approx(?:imate(?:ly)?)?\.?|about|word\s+count:?|picture\s+book[,:]?)\s*)*\d[\d,.]*\s*(?:words?)?\.?$`)
)

// head marks what stands around the title and is no story: the contact above
// it, the byline and the count of words below.
func head(paragraphs []paragraph, marks []marking, title int) {
	if title < 0 {
		return
	}
	marks[title] = asTitle
	above := 0
	for i := range title {
		if !paragraphs[i].empty() {
			above++
		}
	}
	if first := strings.TrimSpace(paragraphs[0].lines[0].text()); above < headLength && first != "---" {
		for i := range title {
			if marks[i] == asText {
				marks[i] = asComment
			}
		}
	}
	for i := title + 1; i < len(paragraphs); i++ {
		p := &paragraphs[i]
		text := strings.TrimSpace(p.lines[0].text())
		centred := p.centred != nil && *p.centred
		switch {
		case p.empty():
		case marks[i] == asText && (centred || byline.MatchString(text) || wordCount.MatchString(text)):
			marks[i] = asComment
		default:
			return
		}
	}
}
