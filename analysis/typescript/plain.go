package typescript

import (
	"strings"
	"unicode"
)

// Plain finds the manuscript in plain text that was typed for a publisher, as
// Set types it: double-spaced, its contact above a title in the middle of the
// page. It is false where the text has markup of its own, and is to be read as
// it stands.
func Plain(text string) (Manuscript, bool) {
	text = strings.TrimPrefix(text, "\ufeff")
	rows := strings.Split(strings.TrimSuffix(strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(text), "\n"), "\n")
	paragraphs := make([]Paragraph, len(rows))
	for i, row := range rows {
		trimmed := strings.TrimSpace(row)
		if strings.HasPrefix(trimmed, "#") && trimmed != "#" || strings.HasPrefix(trimmed, ">") || strings.HasPrefix(trimmed, "<!--") || trimmed == "---" {
			return Manuscript{}, false
		}
		paragraphs[i] = Paragraph{Lines: []Line{{Segments: []Segment{{Text: row, Piece: -1}}}}, Centred: inMiddle(row), Before: -1, After: -1}
	}
	return Read(paragraphs, ""), true
}

// middle is how many spaces stand at least before a line that is typed in the
// middle of the page. Ours.
const middle = 8

// inMiddle reports whether a line is set off as a title is: in the middle, and
// in capitals, or naming who wrote it.
func inMiddle(row string) bool {
	text := strings.TrimLeft(row, " ")
	if len(row)-len(text) < middle {
		return false
	}
	return byline.MatchString(text) || strings.ContainsFunc(text, unicode.IsLetter) && text == strings.ToUpper(text)
}
