package typescript

import (
	"regexp"
	"strings"
)

// A marking is what a paragraph is in a manuscript.
type marking uint8

const (
	asText    marking = iota
	asTitle           // of the book
	asTurn            // the heading of a spread, or another
	asNote            // for the illustrator
	asComment         // a contact, a byline: no part of the story
	asNothing         // what this program put above a title
)

var (
	// spreadLabel is how manuscripts name a spread or its pages (common practice).
	spreadLabel = regexp.MustCompile(`(?i)^\[?(?:(?:double[- ])?spreads?|pages?|pp?\.)\s*(?:\d{1,3}|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen)(?:\s*(?:[-–—/&]|and)\s*\d{1,3})?\s*[:.]?\]?$`)
	// artNote is how a note for the illustrator opens where it has no brackets.
	artNote = regexp.MustCompile(`(?i)^\(?\s*(?:art|ill?us?\.?|illos?|illustrations?|illustrator|picture)(?:\s+notes?)?(?:\s+(?:for|to)\s+illustrator)?\s*[:–—]\s*\S`)
)

// markings says what each paragraph is.
func markings(paragraphs []Paragraph) []marking {
	marks := make([]marking, len(paragraphs))
	title := titleOf(paragraphs)
	for i := range paragraphs {
		marks[i] = markingOf(&paragraphs[i])
		if marks[i] == asTitle && i != title {
			marks[i] = asTurn
		}
	}
	head(paragraphs, marks, title)
	return marks
}

func markingOf(p *Paragraph) marking {
	text := p.first()
	switch {
	case p.Empty():
		return asText
	case p.Role == TitleText || p.Role == TopHeading:
		return asTitle
	case p.Role == LowerHeading, len(p.Lines) == 1 && spreadLabel.MatchString(text):
		return asTurn
	case p.Role == SubtitleText:
		return asComment
	case p.Role == ContactText:
		return asNothing
	case len(p.Lines) > 1:
		return asText
	case artNote.MatchString(text), p.slanted() && (p.indented() || strings.HasPrefix(text, "(") && strings.HasSuffix(text, ")")):
		return asNote
	}
	return asText
}

// slanted reports whether every word is in italics.
func (p *Paragraph) slanted() bool {
	for i := range p.Lines {
		for _, s := range p.Lines[i].Segments {
			if !s.Italic && strings.TrimSpace(s.Text) != "" {
				return false
			}
		}
	}
	return true
}

func (p *Paragraph) indented() bool {
	return p.Indented || strings.HasPrefix(p.Lines[0].text(), "\t")
}
