package typescript

import (
	"regexp"
	"slices"
	"strings"
	"unicode"
)

const (
	// headLength is in how many paragraphs with text the title is looked for.
	headLength = 12
	// belowTitle is how many paragraphs with text may belong to it.
	belowTitle = 4
)

// titleOf is the paragraph with the book's title, or -1. It is known by its
// style, or because it stands in the middle of the page where the verse does
// not, over a byline, or alone at the top, written as titles are.
func titleOf(paragraphs []Paragraph) int {
	var text, tops []int
	for i := range paragraphs {
		switch p := &paragraphs[i]; {
		case p.Empty():
			continue
		case p.Role == TitleText:
			return i
		case p.Role == TopHeading:
			tops = append(tops, i)
		}
		text = append(text, i)
	}
	switch len(tops) {
	case 0:
		return unstyledTitle(paragraphs, text)
	case 1:
		return tops[0]
	}
	return -1
}

// unstyledTitle looks among the first paragraphs with text.
func unstyledTitle(paragraphs []Paragraph, text []int) int {
	first := text[:min(len(text), headLength)]
	if !mostlyCentred(paragraphs) {
		centred := func(i int) bool { return paragraphs[i].Centred && markingOf(&paragraphs[i]) != asTurn }
		if k := slices.IndexFunc(first, centred); k >= 0 {
			return first[k]
		}
	}
	for k, i := range first {
		if k > 0 && byline.MatchString(paragraphs[i].first()) {
			return first[k-1]
		}
	}
	if len(text) > 1 && text[1] > text[0]+1 && markingOf(&paragraphs[text[0]]) == asText && writtenAsTitle(paragraphs[text[0]].first()) {
		return text[0]
	}
	return -1
}

// mostlyCentred reports whether the text itself stands in the middle of the
// page, so that standing there says nothing.
func mostlyCentred(paragraphs []Paragraph) bool {
	centred, all := 0, 0
	for i := range paragraphs {
		if !paragraphs[i].Empty() {
			all++
			if paragraphs[i].Centred {
				centred++
			}
		}
	}
	return centred*2 >= all
}

func (p *Paragraph) first() string { return strings.TrimSpace(p.Lines[0].text()) }

// writtenAsTitle reports whether a line has the capitals of a title (The Chicago
// Manual of Style's headline style, roughly; from memory) and no mark at its end.
func writtenAsTitle(line string) bool {
	words := strings.Fields(line)
	if len(words) == 0 || len(words) > 10 || strings.ContainsAny(line[len(line)-1:], ".,;:-") {
		return false
	}
	capitals := 0
	for _, word := range words {
		letters := []rune(strings.TrimFunc(word, func(r rune) bool { return !unicode.IsLetter(r) }))
		switch {
		case len(letters) == 0:
		case unicode.IsUpper(letters[0]):
			capitals++
		case len(letters) > len("with"): // longer than the small words of a title
			return false
		}
	}
	return capitals > 1 && capitals*2 >= len(words)
}

var (
	// A name is words in capitals; "By the back door" is a line of verse.
	byline    = regexp.MustCompile(`^(?:(?i:(?:words|text|story|written)\s+)?(?i:by))(?:\s+(?:\p{Lu}[\p{L}.'’-]*|de|la|van|von|and|&))+$`)
	wordCount = regexp.MustCompile(`(?i)^(?:(?:picture\s+book|ages?\s+[\d–-]+|approx(?:imate(?:ly)?)?\.?|about)[,:]?\s*)*(?:word\s+count:?\s*\d[\d,.]*(?:\s+words?)?|\d[\d,.]*\s+words?)\.?$`)
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
	if above < headLength && paragraphs[0].first() != "---" {
		for i := range title {
			if marks[i] == asText {
				marks[i] = asComment
			}
		}
	}
	verseElsewhere := !mostlyCentred(paragraphs)
	below := 0
	for i := title + 1; i < len(paragraphs) && below < belowTitle; i++ {
		p := &paragraphs[i]
		text := p.first()
		switch {
		case p.Empty():
		case marks[i] == asText && (p.Centred && verseElsewhere || byline.MatchString(text) || wordCount.MatchString(text)):
			marks[i] = asComment
			below++
		default:
			return
		}
	}
}
