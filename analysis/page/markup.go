package page

import (
	"fmt"
	"html"
	"strings"
	"unicode"
)

// A markup is HTML of our own. Its type keeps what a writer typed out of it: Go
// turns a constant into markup by itself, and a variable never.
type markup string

// A writer sets a page. What it is given as a value comes out as text, whatever it
// holds: each value stands between elements or in a quoted attribute, and there
// nothing but these characters has a meaning: & < > " ' (HTML Living Standard, 13.1.2).
type writer struct{ strings.Builder }

// write adds markup with values in the places of its percent signs; two of them
// stand for one.
func (w *writer) write(m markup, values ...any) {
	for m != "" {
		before, after, found := strings.Cut(string(m), "%")
		w.WriteString(before)
		m = markup(after)
		switch {
		case !found:
		case strings.HasPrefix(after, "%"):
			w.WriteByte('%')
			m = m[1:]
		case len(values) > 0:
			w.WriteString(html.EscapeString(clean(fmt.Sprint(values[0]))))
			values = values[1:]
		}
	}
}

// clean is text without the characters that HTML may not hold.
func clean(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\t' || r == '\n' || r == '\r':
			return ' '
		case unicode.IsControl(r):
			return unicode.ReplacementChar
		}
		return r
	}, strings.ToValidUTF8(text, string(unicode.ReplacementChar)))
}
