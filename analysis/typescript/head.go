package typescript

import (
	"regexp"
	"slices"
	"strings"
)

// The head of a manuscript is searched in so many paragraphs with text.
const headLength = 12

// titleOf is the paragraph with the book's title, or -1: by its style, or the
// first centred one where the verse is not.
func titleOf(paragraphs []Paragraph) int {
	var tops, text, centred []int
	for i := range paragraphs {
		p := &paragraphs[i]
		if p.Empty() {
			continue
		}
		text = append(text, i)
		switch {
		case p.Role == TitleText:
			return i
		case p.Role == TopHeading:
			tops = append(tops, i)
		}
		if p.Centred && markingOf(p) != asTurn {
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
func head(paragraphs []Paragraph, marks []marking, title int) {
	if title < 0 {
		return
	}
	marks[title] = asTitle
	above := 0
	for i := range title {
		if !paragraphs[i].Empty() {
			above++
		}
	}
	if first := strings.TrimSpace(paragraphs[0].Lines[0].text()); above < headLength && first != "---" {
		for i := range title {
			if marks[i] == asText {
				marks[i] = asComment
			}
		}
	}
	for i := title + 1; i < len(paragraphs); i++ {
		p := &paragraphs[i]
		text := strings.TrimSpace(p.Lines[0].text())
		centred := p.Centred
		switch {
		case p.Empty():
		case marks[i] == asText && (centred || byline.MatchString(text) || wordCount.MatchString(text)):
			marks[i] = asComment
		default:
			return
		}
	}
}
