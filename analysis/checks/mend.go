package checks

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"dandle/analysis/manuscript"
)

// easy is the deviance up to which a mended line is offered. A line of the
// writer's own may strain a little; one that we offer may not (ours).
const easy = 0.3

// mended is a fix whose edits leave the line in its meter; false where they
// would not, for no fix may fail the test that the line is held to. The edits
// come in order.
func (p *Pass) mended(line int, title string, edits ...Edit) (Fix, bool) {
	span := p.Manuscript.Lines[line].Span
	var b strings.Builder
	at := span.Start
	for _, e := range edits {
		if e.Span.Start < at || e.Span.End > span.End {
			return Fix{}, false
		}
		b.WriteString(p.Manuscript.Text[at:e.Span.Start])
		b.WriteString(e.Text)
		at = e.Span.End
	}
	b.WriteString(p.Manuscript.Text[at:span.End])
	p.lean()
	trial, read := p.Poem.Try(line, b.String())
	// A line that strains already may not be strained further: what is left out
	// may be the slack that it needs.
	if !read || !trial.Fits || trial.Deviance > easy || !trial.Plain && trial.Deviance > p.Poem.Lines[line].Deviance {
		return Fix{}, false
	}
	return Fix{Title: fmt.Sprintf("%s (%s)", title, feet(trial.Reading.FeetPattern())), Edits: edits}, true
}

// without is the line without the tokens from i to j, if it still scans. A
// line's last word carries the rhyme, so it is never let go.
func (p *Pass) without(ps *passage, i, j int) []Fix {
	first, last, next := ps.at(i), ps.at(j), ps.at(j+1)
	if last.last || first.line != last.line || j+1 >= len(ps.tokens) {
		return nil
	}
	var edits []Edit
	if before := ps.at(i - 1); !first.first && before.is("a", "an") && ps.joined(i-1) {
		if article, known := articleFor(next); known && article != before.lower {
			edits = append(edits, Edit{Span: before.Span, Text: matchCase(article, before.Text)})
		}
	}
	gone := Edit{Span: manuscript.Span{Start: first.Span.Start, End: next.Span.Start}}
	// What stands before the next word and belongs to it, as a quotation's
	// mark, would go with it.
	if strings.Trim(ps.text[last.Span.End:next.Span.Start], " \t,") != "" {
		return nil
	}
	if r, _ := utf8.DecodeRuneInString(first.Text); unicode.IsUpper(r) {
		letter, size := utf8.DecodeRuneInString(ps.text[next.Span.Start:])
		gone.Span.End += size
		gone.Text = string(unicode.ToUpper(letter))
	}
	edits = append(edits, gone)
	fix, fits := p.mended(first.line, "Leave out "+ps.words(i, j), edits...)
	if !fits {
		return nil
	}
	return []Fix{fix}
}

// articleFor is the form of "a" that a word asks for; false where its sound is
// not known.
func articleFor(t *token) (string, bool) {
	if len(t.Ways) == 0 || len(t.Ways[0].Sounds) == 0 {
		return "", false
	}
	if t.Ways[0].Sounds.At(0).IsVowel() {
		return "an", true
	}
	return "a", true
}
