// Package page sets what was heard in a manuscript as one page of HTML that
// needs nothing but itself: no script, no font, no picture from elsewhere. It
// knows how things look; what they say is the letter's and the revision's.
package page

import (
	"bytes"
	_ "embed"
	"html/template"
	"strings"
	"unicode"
)

//go:embed page.css
var style string

//go:embed page.gohtml
var source string

// templates holds every page; it is read once and never changes.
var templates = template.Must(template.New("page").Funcs(template.FuncMap{"clean": clean}).Parse(source))

// A frame is what every page has.
type frame struct {
	Title string
	Style template.CSS
}

func newFrame(title string) frame {
	return frame{Title: clean(title), Style: template.CSS(style)} //nolint:gosec // our own style sheet, not the writer's
}

func render(name string, view any) ([]byte, error) {
	var b bytes.Buffer
	if err := templates.ExecuteTemplate(&b, name, view); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
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
