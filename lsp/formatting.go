package lsp

import (
	"context"
	"strings"

	"dandle/analysis/checks"
	"dandle/analysis/manuscript"

	"go.lsp.dev/protocol"
)

// formatting mends spaces and marks, and no word.
func formatting(_ context.Context, v view, _ protocol.DocumentFormattingParams) (any, error) {
	return v.textEdits(v.tidy(manuscript.Span{Start: 0, End: len(v.text)})), nil
}

func rangeFormatting(_ context.Context, v view, p protocol.DocumentRangeFormattingParams) (any, error) {
	asked, err := v.span(p.Range)
	if err != nil {
		return nil, err
	}
	return v.textEdits(v.tidy(asked)), nil
}

// tidy are the edits that touch a stretch, none overlapping another: those to
// spaces, and the marks that the checks would mend whatever the sentence says.
func (v view) tidy(asked manuscript.Span) []checks.Edit {
	edits := v.spaces(asked)
	for _, f := range v.snapshot().Raised() {
		if plainMend(f.Code) && len(f.Fixes) > 0 && touches(f.Span.Start, f.Span.End, asked.Start, asked.End) {
			edits = appendApart(edits, f.Fixes[0].Edits)
		}
	}
	return edits
}

// plainMend reports whether a finding's fix changes how the text is set and
// nothing that a reader takes for the writer's. A stop or a capital more is for
// the writer to say yes to.
func plainMend(code checks.Code) bool {
	switch code {
	case "mark/apostrophe", "mark/dash", "mark/quote", "mark/space":
		return true
	}
	return false
}

// spaces are the edits to what is not seen: no spaces at a line's end or doubled
// between words, one empty line between stanzas, a line end at the end. Front
// matter is left as it is.
func (v view) spaces(asked manuscript.Span) []checks.Edit {
	m := v.snapshot().Manuscript()
	var edits []checks.Edit
	add := func(from, to int, text string) {
		if from <= asked.End && asked.Start <= to && v.text[from:to] != text {
			edits = append(edits, checks.Edit{Span: manuscript.Span{Start: from, End: to}, Text: text})
		}
	}
	empty := 0
	for n := range v.lines() {
		line := v.line(n)
		if line.Start < m.Front.Span.End {
			continue
		}
		text := line.In(v.text)
		body := strings.TrimRight(text, " \t")
		if body != "" {
			empty = 0
			add(line.Start+len(body), line.End, trailing(text[len(body):]))
			if m.LineAt(line.Start) >= 0 {
				v.singleSpaces(line.Start, body, add)
			}
			continue
		}
		empty++
		if empty > 1 && n+1 < v.lines() {
			add(line.Start, v.starts[n+1], "") // with its line end
		} else {
			add(line.Start, line.End, "")
		}
	}
	if n := len(v.text); n > 0 && v.text[n-1] != '\n' && v.text[n-1] != '\r' && strings.TrimSpace(v.text) != "" {
		last := v.line(v.lines() - 1)
		if strings.TrimSpace(last.In(v.text)) != "" && last.Start >= m.Front.Span.End {
			add(n, n, v.snapshot().Manuscript().LineEnd())
		}
	}
	return edits
}

// trailing keeps a hard line break of Markdown, two spaces or more, as two: it
// is what makes a preview keep the verse's lines.
func trailing(spaces string) string {
	if strings.HasPrefix(spaces, "  ") && strings.Trim(spaces, " ") == "" {
		return "  "
	}
	return ""
}

// singleSpaces replaces runs of spaces between words by one; an indent stays.
func (v view) singleSpaces(start int, body string, add func(from, to int, text string)) {
	indent := len(body) - len(strings.TrimLeft(body, " \t"))
	for i := indent; i < len(body); i++ {
		j := i
		for j < len(body) && body[j] == ' ' {
			j++
		}
		if j-i > 1 {
			add(start+i, start+j, " ")
		}
		if j > i {
			i = j - 1
		}
	}
}
