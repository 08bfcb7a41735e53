package lsp

import (
	"strings"
	"unicode/utf8"

	"go.lsp.dev/protocol"
)

// A page gathers a hover's text in the form that the client shows.
type page struct {
	kind protocol.MarkupKind
	text strings.Builder
}

func newPage(kind protocol.MarkupKind) *page { return &page{kind: kind} }

// plainWidth is how wide a plain hover is set, in columns. Terminals show what is
// wider on more rows than they count: Emacs then scrolls the first one away.
const plainWidth = 78

// line adds a sentence as a paragraph.
func (p *page) line(text string) { p.write("", text) }

// write adds a sentence with something before it that is no text.
func (p *page) write(before, text string) {
	text = p.escaped(text)
	if p.kind != protocol.Markdown {
		text = wrapped(before+text, plainWidth)
	} else {
		text = before + text
	}
	p.text.WriteString(text + "\n")
}

// pattern adds a sentence with a pattern of beats before it.
func (p *page) pattern(pattern, text string) {
	switch {
	case pattern == "":
		p.line(text)
	case p.kind == protocol.Markdown:
		p.write("`"+pattern+"` ", text)
	default:
		p.write(pattern+"  ", text)
	}
}

// paragraph parts what follows from what stands before, where there is room: a
// plain hover has few rows.
func (p *page) paragraph() {
	if p.kind == protocol.Markdown {
		p.text.WriteString("\n")
	}
}

// item adds a sentence to a list.
func (p *page) item(text string) {
	if p.kind == protocol.Markdown {
		p.write("- ", text)
		return
	}
	p.line(text)
}

// code adds a block whose columns are kept.
func (p *page) code(block string) {
	if block == "" {
		return
	}
	if p.kind != protocol.Markdown {
		p.text.WriteString(strings.ReplaceAll(block, "\n\n", "\n"))
		return
	}
	p.text.WriteString("\n" + fenced(block) + "\n")
}

// fenced is a block of code in Markdown, whatever the block holds.
func fenced(block string) string {
	fence := "```"
	for strings.Contains(block, fence) {
		fence += "`"
	}
	return fence + "text\n" + block + fence + "\n"
}

func (p *page) content() protocol.MarkupContent {
	return protocol.MarkupContent{Kind: p.kind, Value: strings.TrimRight(p.text.String(), "\n")}
}

// markdownSigns are the signs that Markdown or HTML would take for marks inside
// a line.
var markdownSigns = strings.NewReplacer(
	`\`, `\\`, "`", "\\`", "*", `\*`, "_", `\_`, "[", `\[`, "]", `\]`, "~", `\~`, "&", "&amp;", "<", "&lt;",
)

// escaped makes text that may quote a manuscript safe where Markdown is read.
func (p *page) escaped(text string) string {
	if p.kind != protocol.Markdown {
		return strings.Join(strings.Fields(text), " ")
	}
	return escapedMarkdown(text)
}

// escapedMarkdown is a text on one line that Markdown shows as it is.
func escapedMarkdown(text string) string {
	text = markdownSigns.Replace(strings.Join(strings.Fields(text), " "))
	if strings.HasPrefix(text, "#") || strings.HasPrefix(text, ">") || strings.HasPrefix(text, "-") || strings.HasPrefix(text, "+") || strings.HasPrefix(text, "=") {
		text = `\` + text
	}
	return text
}

// wrapped breaks a text on one line between its words, so that no row is wider
// than it has to be.
func wrapped(text string, columns int) string {
	var b strings.Builder
	at := 0 // columns of the row so far
	for i, word := range strings.Split(text, " ") {
		wide := utf8.RuneCountInString(word)
		switch {
		case i == 0:
		case at+1+wide > columns:
			b.WriteByte('\n')
			at = 0
		default:
			b.WriteByte(' ')
			at++
		}
		b.WriteString(word)
		at += wide
	}
	return b.String()
}
