package lsp

import (
	"context"
	"encoding/json"
	"slices"
	"strings"

	"dandle/analysis/checks"
	"dandle/lsp/protocol317"

	"go.lsp.dev/protocol"
	"go.lsp.dev/uri"
)

// codeActions offers what would mend the findings in a range.
func codeActions(_ context.Context, v view, p protocol317.CodeActionParams) (any, error) {
	actions := []protocol317.CodeAction{}
	if !v.client.takesLiterals() || !wants(p.Context.Only, protocol.QuickFix) {
		return actions, nil
	}
	asked, err := v.span(p.Range)
	if err != nil {
		return nil, err
	}
	for _, f := range v.snapshot().Findings() {
		if !touches(f.Span.Start, f.Span.End, asked.Start, asked.End) {
			continue
		}
		shown := v.shownFor(f, p.Context.Diagnostics)
		for i, fix := range f.Fixes {
			actions = append(actions, protocol317.CodeAction{
				Title:       fix.Title,
				Kind:        protocol.QuickFix,
				Diagnostics: shown,
				IsPreferred: i == 0 && len(shown) > 0 && v.client.caps.TextDocument.CodeAction.IsPreferredSupport,
				Edit:        v.workspaceEdit(fix.Edits),
			})
		}
	}
	return actions, nil
}

// wants reports whether a request that asks only for some kinds asks for this
// one; a kind stands for all under it (LSP 3.17, "Code Action Kind").
func wants(only []protocol.CodeActionKind, kind protocol.CodeActionKind) bool {
	return len(only) == 0 || slices.ContainsFunc(only, func(o protocol.CodeActionKind) bool {
		return o == kind || o == "" || strings.HasPrefix(string(kind), string(o)+".")
	})
}

// touches reports whether two stretches share a place; a cursor shares the
// edges of a word.
func touches(start, end, from, to int) bool { return start <= to && from <= end }

// shownFor picks the diagnostics of a finding among those the client shows, as
// the client sent them.
func (v view) shownFor(f checks.Finding, shown []json.RawMessage) []json.RawMessage {
	var out []json.RawMessage
	place := v.rangeOf(f.Span)
	for _, raw := range shown {
		var d struct {
			Range protocol.Range `json:"range"`
			Code  any            `json:"code"`
		}
		if json.Unmarshal(raw, &d) == nil && d.Code == string(f.Code) && d.Range == place {
			out = append(out, raw)
		}
	}
	return out
}

// workspaceEdit makes the client's edit of a fix: of this version alone where
// the client can tell versions apart.
func (v view) workspaceEdit(edits []checks.Edit) *protocol317.WorkspaceEdit {
	list := []protocol317.TextEdit{}
	for _, e := range edits {
		list = append(list, protocol317.TextEdit{Range: v.rangeOf(e.Span), NewText: e.Text})
	}
	if v.client.caps.Workspace.WorkspaceEdit.DocumentChanges {
		return &protocol317.WorkspaceEdit{DocumentChanges: []protocol317.TextDocumentEdit{{
			TextDocument: protocol317.OptionalVersionedTextDocumentIdentifier{URI: v.uri, Version: &v.version},
			Edits:        list,
		}}}
	}
	return &protocol317.WorkspaceEdit{Changes: map[uri.URI][]protocol317.TextEdit{v.uri: list}}
}
