package checks

import (
	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"
)

// Strays are the words of a stanza that image/stray suspects, the likeliest
// first, whether or not it is sure enough to speak.
func Strays(poem *scansion.Poem, stanza manuscript.Stanza) []string {
	ear := newImageEar(&Pass{check: imageStray, Memory: &Memory{}})
	found := picture(poem.Lines[stanza.From:stanza.To])
	var texts []string
	for _, w := range ear.seen(ear.ranked(&found)) {
		texts = append(texts, w.text)
	}
	return texts
}
