package typescript

import (
	"strings"
	"unicode"

	"dandle/analysis/manuscript"
)

// A Manuscript is what Read found.
type Manuscript struct {
	Text string // in the format of package manuscript
	// Lines are the offsets in Text where the typed lines begin, the empty ones
	// too. What Text has besides belongs to the line before it.
	Lines     []int
	Stretches []Stretch // by their place in Text
}

// A Stretch is a part of Text that came from a part of a piece, byte for byte.
type Stretch struct {
	manuscript.Span
	Piece int
	At    int // where in the piece's text it begins
}

// A Paragraph is one that was typed: a line of verse, or a stanza.
type Paragraph struct {
	Lines         []Line // one at least
	Role          Role
	Centred       bool
	Indented      bool
	PageBreak     bool // a new page begins with it
	Before, After int  // space around it, in twentieths of a point; negative for none
}

// A Line is what stands between two breaks of a paragraph.
type Line struct {
	Segments []Segment
	Notes    []string // a reviewer's, that end on it
}

// A Segment is text in one format.
type Segment struct {
	Text   string
	Italic bool
	Piece  int // a number of the caller's, for the way back; negative for none
}

// A Role is what a paragraph is by its style.
type Role uint8

// The roles.
const (
	BodyText Role = iota
	TitleText
	TopHeading
	LowerHeading
	SubtitleText
	ContactText // above the title of a document that Set or its like made
)

// Read finds the manuscript in paragraphs as they were typed. Front is front
// matter that goes before them, without its fences; "" for none.
func Read(paragraphs []Paragraph, front string) Manuscript {
	var c composer
	if front != "" {
		c.write("---\n" + front + "\n---\n")
	}
	marks := markings(paragraphs)
	before := gaps(paragraphs, marks)
	for i := range paragraphs {
		for k := range paragraphs[i].Lines {
			if k == 0 && before[i] == apart {
				c.write("\n")
			}
			c.beginLine()
			if before[i] == dropped {
				continue
			}
			l := &paragraphs[i].Lines[k]
			if marks[i] != asNothing {
				c.line(l, marks[i])
			}
			c.write("\n")
			for _, note := range l.Notes {
				c.write("> " + note + "\n")
			}
		}
	}
	c.read.Text = c.text.String()
	if len(c.read.Lines) == 0 {
		c.read.Lines = []int{0}
	}
	return c.read
}

// A composer writes the text, and keeps where each part of it came from.
type composer struct {
	read Manuscript
	text strings.Builder
}

func (c *composer) write(text string) { c.text.WriteString(text) }

// beginLine begins a line of the document. Front matter belongs to the first.
func (c *composer) beginLine() {
	at := c.text.Len()
	if len(c.read.Lines) == 0 {
		at = 0
	}
	c.read.Lines = append(c.read.Lines, at)
}

// from writes text that came from a place of a piece.
func (c *composer) from(text string, piece, at int) {
	start := c.text.Len()
	c.write(text)
	if piece >= 0 && text != "" {
		c.read.Stretches = append(c.read.Stretches, Stretch{Span: manuscript.Span{Start: start, End: start + len(text)}, Piece: piece, At: at})
	}
}

// An insertion is markup put into a line, in the place of so many bytes.
type insertion struct {
	at, instead int
	text        string
}

func (c *composer) line(l *Line, m marking) {
	text := l.text()
	list := insertions(l, text, m)
	at := 0 // in the line
	for _, s := range l.Segments {
		done := 0 // of the segment
		for len(list) > 0 && list[0].at < at+len(s.Text) {
			to := list[0].at - at
			c.from(s.Text[done:max(to, done)], s.Piece, done)
			c.write(list[0].text)
			done = min(max(to, done)+list[0].instead, len(s.Text))
			list = list[1:]
		}
		c.from(s.Text[done:], s.Piece, done)
		at += len(s.Text)
	}
	for _, i := range list {
		c.write(i.text)
	}
}

// insertions is the markup that a line takes, by place.
func insertions(l *Line, text string, m marking) []insertion {
	from, to := trimmed(text)
	if from == to {
		return nil
	}
	body := text[from:to]
	bare := m == asComment && strings.Contains(body, "--") // cannot stand in a comment
	switch {
	case m == asTitle && !strings.HasPrefix(body, "#"):
		return []insertion{{0, from, "# "}}
	case m == asTurn && !strings.HasPrefix(body, "#"):
		return []insertion{{0, from, "## "}}
	case m == asComment && !bare:
		return []insertion{{0, from, "<!-- "}, {to, 0, " -->"}}
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
func emphases(l *Line, text string) []insertion {
	var list []insertion
	at := 0
	for i := 0; i < len(l.Segments); {
		start := at
		italic := l.Segments[i].Italic
		for i < len(l.Segments) && l.Segments[i].Italic == italic {
			at += len(l.Segments[i].Text)
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

func (l *Line) text() string {
	var b strings.Builder
	for _, s := range l.Segments {
		b.WriteString(s.Text)
	}
	return b.String()
}

// Empty reports whether nothing is typed in it.
func (p *Paragraph) Empty() bool {
	for i := range p.Lines {
		if strings.TrimSpace(p.Lines[i].text()) != "" {
			return false
		}
	}
	return true
}
