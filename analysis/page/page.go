// Package page sets what was heard in a manuscript as one page of HTML that
// needs nothing but itself: no script, no font, no picture from elsewhere. It
// knows how things look; what they say is the letter's and the revision's.
//
// It writes its markup itself: a package of templates would be a fifteenth of the
// whole program. See writer for how the words of a manuscript are kept from being read as
// markup.
package page

import _ "embed"

//go:embed page.css
var style string

// head is how every page begins.
func (w *writer) head(title string) {
	w.write(`<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<meta name="color-scheme" content="light dark">
<title>%</title>
<style>
`, title)
	w.WriteString(style) // our own sheet, in which a character reference would mean nothing
	w.write("</style>\n</head>\n<body>\n")
}

// foot is how every page ends.
func (w *writer) foot() { w.write("</main>\n</body>\n</html>\n") }
