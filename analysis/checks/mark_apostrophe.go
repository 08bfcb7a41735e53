package checks

import (
	"fmt"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"dandle/analysis/manuscript"
)

const markApostropheDoc = `
A left quotation mark does an apostrophe's work, or two kinds of apostrophe stand in one manuscript.

Writing software turns every mark before a word into an opening quote, and makes _‘tis_ of
_’tis_; a slip of the finger makes _baker‘s_. An apostrophe is U+2019 wherever it stands (Chicago Manual of Style, Q&A). The
typewriter's straight mark is quite all right too, if it is the only one; where a manuscript
has both, the fewer are raised.

In 8,905 lines of Housman and Kipling it is never raised.

Raised here, at the left mark:

    ‘Twas dark in the loft, and the lantern was low.
    The baker‘s own goose had a room down below.

Not here:

    ’Twas dark in the loft, and the lantern was low.
    ‘Twenty,’ said the owl, and ’twas all that he’d say.
`

var markApostrophe = &Check{
	Code:      "mark/apostrophe",
	Severity:  Information,
	Sometimes: Hint,
	Doc:       markApostropheDoc,
	Run: func(p *Pass) {
		leftQuotes(p)
		leftInWord(p)
		mixedApostrophes(p)
	},
}

// elided finds a left quote before a word that loses its beginning.
var elided = regexp.MustCompile(`(?i)‘(` + strings.Join(strings.Fields(section("elided")), "|") + `)(?:[^\pL]|$)`)

func leftQuotes(p *Pass) {
	text := p.Manuscript.Text
	for i := range p.Manuscript.Lines {
		span := p.Manuscript.Lines[i].Span
		// The mark may stand just before the first word.
		line := span.In(text)
		for _, at := range elided.FindAllStringSubmatchIndex(line, -1) {
			mark := manuscript.Span{Start: span.Start + at[0], End: span.Start + at[0] + len("‘")}
			word := line[at[2]:at[3]]
			if closesLater(p.Manuscript, i, span.Start+at[3]) {
				continue // it may open a quotation after all
			}
			p.Report(Finding{
				Span:       mark,
				Line:       i,
				Message:    fmt.Sprintf("%s has lost its beginning, and an apostrophe (’) says so; this mark opens a quotation.", quote(word)),
				Confidence: 0.9,
				Fixes:      []Fix{{Title: "Set an apostrophe", Edits: []Edit{{Span: mark, Text: "’"}}}},
			})
		}
	}
}

// leftInWord reports a left quote right behind a letter: what opens a quotation
// has a space before it, or a mark.
func leftInWord(p *Pass) {
	text := p.Manuscript.Text
	for i := range p.Manuscript.Lines {
		span := p.Manuscript.Lines[i].Span
		line := span.In(text)
		for at, r := range line {
			if r != '‘' {
				continue
			}
			if before, _ := utf8.DecodeLastRuneInString(line[:at]); !unicode.IsLetter(before) {
				continue
			}
			mark := manuscript.Span{Start: span.Start + at, End: span.Start + at + len("‘")}
			p.Report(Finding{
				Span:       mark,
				Line:       i,
				Message:    "This mark opens a quotation, and it stands behind a letter, where an apostrophe (’) belongs.",
				Confidence: 0.9,
				Fixes:      []Fix{{Title: "Set an apostrophe", Edits: []Edit{{Span: mark, Text: "’"}}}},
			})
		}
	}
}

// closesLater reports whether a right quote closes something after the offset
// in the line's stanza: one that no letter follows, in a word that does not end
// in a dropped letter.
func closesLater(m *manuscript.Manuscript, line, offset int) bool {
	end := m.StanzaSpan(m.Lines[line].Stanza).End
	rest := m.Text[offset:end]
	for {
		i := strings.Index(rest, "’")
		if i < 0 {
			return false
		}
		before, after := rest[:i], rest[i+len("’"):]
		if opened := strings.LastIndex(before, "‘"); opened >= 0 && !elided.MatchString(before[opened:]) {
			return false // what closes is a quotation that opened later
		}
		// After a mark it closes; after a letter it may be "the goats’ bell".
		if strings.HasSuffix(before, ",") || strings.HasSuffix(before, ".") || strings.HasSuffix(before, "!") || strings.HasSuffix(before, "?") {
			return true
		}
		rest = after
	}
}

// mixedApostrophes reports the rarer kind where a manuscript has both.
func mixedApostrophes(p *Pass) {
	type place struct {
		span manuscript.Span
		line int
	}
	var plainMarks, curly []place
	for i := range p.Manuscript.Lines {
		for _, w := range p.Manuscript.Lines[i].Words {
			word := w.Span.In(p.Manuscript.Text)
			for k, r := range word {
				switch r {
				case '\'':
					plainMarks = append(plainMarks, place{manuscript.Span{Start: w.Span.Start + k, End: w.Span.Start + k + 1}, i})
				case '’':
					curly = append(curly, place{manuscript.Span{Start: w.Span.Start + k, End: w.Span.Start + k + len("’")}, i})
				}
			}
		}
	}
	if len(plainMarks) == 0 || len(curly) == 0 {
		return
	}
	fewer, sign, name := plainMarks, "’", "curly"
	if len(curly) < len(plainMarks) {
		fewer, sign, name = curly, "'", "straight"
	}
	for _, f := range fewer {
		p.Report(Finding{
			Severity:   Hint,
			Span:       f.span,
			Line:       f.line,
			Message:    fmt.Sprintf("Most apostrophes in this manuscript are %s, and this one is not; one kind throughout spares the typesetter.", name),
			Confidence: 0.9,
			Fixes:      []Fix{{Title: "Set it like the others", Edits: []Edit{{Span: f.span, Text: sign}}}},
		})
	}
}
