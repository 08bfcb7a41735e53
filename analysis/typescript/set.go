// Package typescript sets a manuscript as one types it for a publisher, in plain
// text. It knows what such a page looks like; it knows nothing of verse.
package typescript

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"dandle/analysis/manuscript"
)

// Set is a manuscript in plain text: the contact, the length, the title, then
// the text with the labels of its spreads and the notes for the illustrator in
// brackets, double-spaced (SCBWI's page on format; common practice). Emphasis
// stands between underscores, as typists underline it. Front matter, comments
// and a reviewer's notes are left out. Every line ends with a line feed.
func Set(m *manuscript.Manuscript) string {
	var b strings.Builder
	author := Value(m, "author")
	for _, line := range append([]string{author}, strings.Split(Value(m, "contact"), "\n")...) {
		if line != "" {
			fmt.Fprintln(&b, line)
		}
	}
	fmt.Fprintf(&b, "%s\n\n\n", Length(m))
	if title := Title(m); title != "" {
		fmt.Fprintln(&b, centred(strings.ToUpper(title)))
		if author != "" {
			fmt.Fprintln(&b, centred("by "+author))
		}
		b.WriteString("\n\n")
	}
	gap := false // an empty line is due
	for _, line := range lines(m) {
		switch {
		case line == "":
			gap = true
			continue
		case gap:
			b.WriteByte('\n')
		}
		gap = false
		b.WriteString(line + "\n\n")
	}
	return strings.TrimRight(b.String(), "\n") + "\n"
}

// Title is what the book is called; "" where it has no name.
func Title(m *manuscript.Manuscript) string {
	if m.Title.Text != "" {
		return m.Title.Text
	}
	return m.Front.Title
}

// Length is what a publisher wants to know first: "Picture book, ages 3–6, 384
// words".
func Length(m *manuscript.Manuscript) string {
	words := fmt.Sprintf("%d words", m.WordCount())
	if a := m.Front.Ages; a.To > 0 {
		return fmt.Sprintf("Picture book, ages %d–%d, %s", a.From, a.To, words)
	}
	return words
}

// Value is a key of the front matter that is the writer's own, such as
// "author": a scalar, or the lines of a block or a list. It is "" where there
// is none.
func Value(m *manuscript.Manuscript, name string) string {
	for _, k := range m.Front.Keys {
		if k.Name != name {
			continue
		}
		text := k.Value.In(m.Text)
		if block := strings.TrimSpace(text); block != "" && strings.Trim(block, "|>+-") == "" {
			text = indented(m.Text[k.Value.End:max(k.Value.End, m.Front.Span.End)])
		}
		var list []string
		for _, line := range strings.FieldsFunc(text, isBreak) {
			if line = strings.TrimPrefix(strings.TrimSpace(line), "- "); line != "" {
				list = append(list, unquoted(line))
			}
		}
		return strings.Join(list, "\n")
	}
	return ""
}

func isBreak(r rune) bool { return r == '\n' || r == '\r' }

// indented are the lines of a block scalar (YAML 1.2, 8.1): all behind the first
// line break that are indented.
func indented(text string) string {
	var b strings.Builder
	for _, line := range strings.FieldsFunc(text, isBreak) {
		if line[0] != ' ' && line[0] != '\t' {
			break
		}
		b.WriteString(line + "\n")
	}
	return b.String()
}

func unquoted(text string) string {
	if n := len(text); n > 1 && (text[0] == '"' || text[0] == '\'') && text[n-1] == text[0] {
		return text[1 : n-1]
	}
	return text
}

// page is how many characters stand on a line of a typed page.
const page = 60

func centred(text string) string {
	return strings.Repeat(" ", max(0, (page-utf8.RuneCountInString(text))/2)) + text
}

// lines are the lines of the text as they are typed.
func lines(m *manuscript.Manuscript) []string {
	var list []string
	rest := m.Text[m.Front.Span.End:]
	at := m.Front.Span.End
	for rest != "" {
		line := rest
		next := len(rest)
		if n := strings.IndexAny(rest, "\r\n"); n >= 0 {
			line, next = rest[:n], n+1
			if strings.HasPrefix(rest[n:], "\r\n") {
				next++
			}
		}
		trimmed := strings.TrimSpace(strings.TrimPrefix(line, "\ufeff"))
		switch isTitle := m.Title.Span.Len() > 0 && m.Title.Span.Start >= at && m.Title.Span.Start < at+len(line)+1; {
		case strings.HasPrefix(trimmed, ">"), isTitle:
		case strings.HasPrefix(trimmed, "#"):
			list = append(list, "", strings.TrimSpace(strings.Trim(trimmed, "#")), "")
		case trimmed == "":
			list = append(list, "")
		default:
			if typed := plain(trimmed); typed != "" {
				list = append(list, typed)
			}
		}
		rest, at = rest[next:], at+next
	}
	return list
}

// plain is a line without markup.
func plain(line string) string {
	var b strings.Builder
	for i := 0; i < len(line); {
		switch rest := line[i:]; {
		case strings.HasPrefix(rest, "<!--"):
			end := len(rest)
			if n := strings.Index(rest, "-->"); n >= 0 {
				end = n + len("-->")
			}
			i += end
			continue
		case rest[0] == '\\' && len(rest) > 1 && unicode.IsPunct(rune(rest[1])):
			b.WriteByte(rest[1])
			i += 2
			continue
		case rest[0] == '*':
			n := len(rest) - len(strings.TrimLeft(rest, "*"))
			if strings.TrimLeft(line, "* ") == "" { // a break between scenes
				return "#"
			}
			b.WriteByte('_')
			i += n
			continue
		}
		_, size := utf8.DecodeRuneInString(line[i:])
		b.WriteString(line[i : i+size])
		i += size
	}
	return strings.TrimSpace(b.String())
}
