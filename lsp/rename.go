package lsp

import (
	"context"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"dandle/analysis/checks"
	"dandle/analysis/manuscript"
	"dandle/lsp/protocol317"

	"go.lsp.dev/jsonrpc2"
	"go.lsp.dev/protocol"
)

// errNoName answers a rename of a word that is no name.
var errNoName = jsonrpc2.NewError(protocol317.RequestFailed, "only a name, written with a capital, is renamed through the manuscript")

// prepareRename tells what a rename at a position would rename.
func prepareRename(_ context.Context, v view, p protocol.PrepareRenameParams) (any, error) {
	span, name, ok := v.nameAt(v.offset(p.Position))
	if !ok {
		return nil, nil
	}
	return protocol317.PrepareRenameResult{Range: v.rangeOf(span), Placeholder: name}, nil
}

// nameAt finds a name, without its possessive ending.
func (v view) nameAt(offset int) (manuscript.Span, string, bool) {
	m := v.snapshot().Manuscript()
	line, word, ok := m.WordAt(offset)
	if !ok {
		return manuscript.Span{}, "", false
	}
	span := m.Lines[line].Words[word].Span
	name := bareName(span.In(v.text))
	if first, _ := utf8.DecodeRuneInString(name); !unicode.IsUpper(first) {
		return manuscript.Span{}, "", false
	}
	span.End = span.Start + len(name)
	return span, name, true
}

// bareName is a word as written without "'s" or an apostrophe at its end.
func bareName(word string) string {
	for _, ending := range []string{"'s", "’s", "'", "’"} {
		if rest, ok := strings.CutSuffix(word, ending); ok {
			return rest
		}
	}
	return word
}

// rename gives a character another name through the whole manuscript, notes and
// headings too. The lines are scanned again under the new name, and where one
// would lose the meter the client is told, if it can show that.
func rename(_ context.Context, v view, p protocol.RenameParams) (any, error) {
	_, name, ok := v.nameAt(v.offset(p.Position))
	if !ok {
		return nil, errNoName
	}
	next := strings.TrimSpace(p.NewName)
	if next == "" || strings.ContainsFunc(next, func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsMark(r) && !strings.ContainsRune(" -'’.", r)
	}) {
		// The client shows this to the writer.
		return nil, jsonrpc2.NewError(jsonrpc2.InvalidParams, fmt.Sprintf("“%s” is no name: letters, spaces, hyphens and apostrophes make one", strings.Join(strings.Fields(p.NewName), " ")))
	}
	var edits []checks.Edit
	for _, at := range wholeWords(v.text, name) {
		edits = append(edits, checks.Edit{Span: manuscript.Span{Start: at, End: at + len(name)}, Text: next})
	}
	return v.annotated(edits), nil
}

// wholeWords are the places of a word in a text that stand apart from other
// letters.
func wholeWords(text, word string) []int {
	var out []int
	for from := 0; word != ""; {
		i := strings.Index(text[from:], word)
		if i < 0 {
			break
		}
		at := from + i
		before, _ := utf8.DecodeLastRuneInString(text[:at])
		after, _ := utf8.DecodeRuneInString(text[at+len(word):])
		if !partOfWord(before) && !partOfWord(after) {
			out = append(out, at)
		}
		from = at + len(word)
	}
	return out
}

func partOfWord(r rune) bool {
	return r != utf8.RuneError && (unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.IsMark(r))
}

const breaksMeter = "breaks-meter"

// annotated is the edit of a rename, with a word on the lines whose meter it
// would break.
func (v view) annotated(edits []checks.Edit) *protocol317.WorkspaceEdit {
	list := v.textEdits(edits)
	out := v.editOf(list)
	c := v.client.caps
	if !c.TextDocument.Rename.HonorsChangeAnnotations || c.Workspace.WorkspaceEdit.ChangeAnnotationSupport == nil || out.DocumentChanges == nil {
		return out
	}
	before := v.snapshot()
	after := before.With(applyEdits(v.text, edits))
	was, now := before.Poem(), after.Poem()
	if len(was.Lines) != len(now.Lines) {
		return out
	}
	broken := map[int]bool{}
	for i, e := range edits {
		n := before.Manuscript().LineAt(e.Span.Start)
		if n >= 0 && n < len(was.Lines) && inStep(was.Lines[n]) && !inStep(now.Lines[n]) {
			list[i].AnnotationID = breaksMeter
			broken[n] = true
		}
	}
	if len(broken) > 0 {
		out.ChangeAnnotations = map[string]protocol317.ChangeAnnotation{breaksMeter: {
			Label:             "The new name loses the meter here",
			NeedsConfirmation: true,
			Description:       fmt.Sprintf("%s would no longer scan as the other lines do.", count(len(broken), "line")),
		}}
	}
	return out
}

// applyEdits is a text after edits that come in order and do not overlap.
func applyEdits(text string, edits []checks.Edit) string {
	var b strings.Builder
	last := 0
	for _, e := range edits {
		b.WriteString(text[last:e.Span.Start])
		b.WriteString(e.Text)
		last = e.Span.End
	}
	b.WriteString(text[last:])
	return b.String()
}
