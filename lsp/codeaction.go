package lsp

import (
	"context"
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"dandle/analysis/checks"
	"dandle/analysis/manuscript"
	"dandle/analysis/suggest"
	"dandle/lsp/protocol317"
	"dandle/phonetics"

	"go.lsp.dev/protocol"
	"go.lsp.dev/uri"
)

// Kinds of code actions beside quickfix.
const (
	kindFixAll  = protocol.CodeActionKind("source.fixAll.dandle") // marks alone: they are no matter of taste
	kindRewrite = protocol.RefactorRewrite                        // words and their order
)

func codeActionKinds() []protocol.CodeActionKind {
	return []protocol.CodeActionKind{protocol.QuickFix, kindRewrite, kindFixAll}
}

// kindOf is the kind of a finding's fixes.
func kindOf(code checks.Code) protocol.CodeActionKind {
	if code == "word/inverted-order" {
		return kindRewrite
	}
	return protocol.QuickFix
}

// refactors reports whether a request asks for refactorings by name, which
// editors do when their menu of them is opened. Those are worked out only then:
// a lamp at every word would light up nothing.
func refactors(only []protocol.CodeActionKind) bool {
	return len(only) > 0 && wants(only, kindRewrite)
}

// An offer is a code action whose edit is not made yet.
type offer struct {
	title     string
	kind      protocol.CodeActionKind
	finding   *checks.Finding // nil where it answers none
	preferred bool
	edits     []checks.Edit
}

// codeActions offers what would mend the findings in a range, or accept them,
// and to mend all marks.
func codeActions(_ context.Context, v view, p protocol317.CodeActionParams) (any, error) {
	asked, err := v.span(p.Range)
	if err != nil {
		return nil, err
	}
	lazily := v.client.resolves("edit")
	actions := []any{}
	for i, o := range v.offers(asked, refactors(p.Context.Only)) {
		if !wants(p.Context.Only, o.kind) {
			continue
		}
		a := protocol317.CodeAction{Title: o.title, Kind: o.kind}
		if o.finding != nil {
			a.Diagnostics = v.shownFor(*o.finding, p.Context.Diagnostics)
			a.IsPreferred = o.preferred && v.client.caps.TextDocument.CodeAction.IsPreferredSupport
		}
		switch {
		case !v.client.takesLiterals():
			actions = append(actions, v.asCommand(o))
			continue
		case lazily:
			a.Data, _ = json.Marshal(actionData{v.uri, v.version, asked.Start, asked.End, refactors(p.Context.Only), i}) // strings and numbers
		default:
			a.Edit = v.workspaceEdit(o.edits)
		}
		actions = append(actions, a)
	}
	return actions, nil
}

// offers are the actions for a stretch of the text, in an order that depends on
// it alone; with words, other words for the one there and other ways to say it.
func (v view) offers(asked manuscript.Span, words bool) []offer {
	var out, accept, later []offer
	var all []checks.Edit
	findings := v.snapshot().Raised()
	for i := range findings {
		f := &findings[i]
		if f.Code.Area() == "mark" && len(f.Fixes) > 0 {
			all = appendApart(all, f.Fixes[0].Edits)
		}
		if !touches(f.Span.Start, f.Span.End, asked.Start, asked.End) {
			continue
		}
		for j, fix := range v.snapshot().Fixes(f) {
			out = append(out, offer{title: fix.Title, kind: kindOf(f.Code), finding: f, preferred: j == 0, edits: fix.Edits})
		}
		accept = append(accept, offer{
			title: fmt.Sprintf("Accept this: allow %s here", f.Code), kind: protocol.QuickFix, finding: f,
			edits: []checks.Edit{v.allowance(*f)},
		})
		throughout := fmt.Sprintf("Accept all of these: allow %s in this manuscript", f.Code)
		if !slices.ContainsFunc(later, func(o offer) bool { return o.title == throughout }) {
			later = append(later, offer{
				title: throughout, kind: protocol.QuickFix, finding: f,
				edits: []checks.Edit{v.allowThroughout(string(f.Code))},
			})
		}
	}
	out = slices.Concat(out, accept, later)
	if len(all) > 0 {
		out = append(out, offer{title: "Mend all marks in this manuscript", kind: kindFixAll, edits: all})
	}
	if words {
		out = append(out, v.wordOffers(asked)...)
	}
	return out
}

// maxWords is how many other words are offered for one.
const maxWords = 8

// wordOffers are other words that fit in a word's place, and its other ways to
// be said, to be taught.
func (v view) wordOffers(asked manuscript.Span) []offer {
	s := v.snapshot()
	m, poem := s.Manuscript(), s.Poem()
	line, word, ok := m.WordAt(asked.Start)
	if !ok || line >= len(poem.Lines) || word >= len(poem.Lines[line].Words) {
		return nil
	}
	var out []offer
	found := suggest.Replacements(s.Place(asked.Start), line, word)
	for _, item := range found[:min(len(found), maxWords)] {
		out = append(out, offer{
			title: fmt.Sprintf("Write “%s” (%s)", item.Text, item.Pattern), kind: kindRewrite,
			edits: []checks.Edit{{Span: item.Span, Text: item.Text}},
		})
	}
	heard := poem.Lines[line]
	for i, way := range heard.Words[word].Ways {
		if word < len(heard.Reading.Ways) && heard.Reading.Ways[word] == i && way.Source != phonetics.FromSpelling {
			continue // as it is said already, and sure
		}
		text := strings.ToLower(heard.Words[word].Text)
		out = append(out, offer{
			title: fmt.Sprintf("Say “%s” as /%s/ throughout", text, way.IPA(s.Reader().Dialect())), kind: kindRewrite,
			edits: []checks.Edit{v.teaching(text, way.Sounds.String())},
		})
	}
	return out
}

// appendApart adds edits unless one would overlap another.
func appendApart(all, more []checks.Edit) []checks.Edit {
	for _, e := range more {
		for _, other := range all {
			if e.Span.Start < other.Span.End && other.Span.Start < e.Span.End || e.Span == other.Span {
				return all
			}
		}
	}
	return append(all, more...)
}

// allowance is the directive that accepts a finding, at the end of its line.
func (v view) allowance(f checks.Finding) checks.Edit {
	line := v.line(v.lineAt(f.Span.Start))
	end := line.Start + len(strings.TrimRight(line.In(v.text), " \t"))
	space := " "
	if end == line.Start {
		space = ""
	}
	return checks.Edit{Span: manuscript.Span{Start: end, End: line.End}, Text: fmt.Sprintf("%s<!-- dandle: allow %s -->", space, f.Code)}
}

// actionData leads from an action that is to be resolved back to its offer.
type actionData struct {
	URI     uri.URI `json:"uri"`
	Version int32   `json:"version"`
	Start   int     `json:"start"`
	End     int     `json:"end"`
	Words   bool    `json:"words"`
	Offer   int     `json:"offer"`
}

// codeActionResolve makes the edit of an action.
func (s *server) codeActionResolve(params json.RawMessage) (work, error) {
	action, err := decodeParams[map[string]json.RawMessage](params)
	if err != nil {
		return nil, err
	}
	var data actionData
	if err := json.Unmarshal(action["data"], &data); err != nil {
		return nil, badParams(fmt.Errorf("data: %w", err))
	}
	d := s.workspace.document(data.URI)
	if d == nil {
		return nil, badParams(errNotOpen)
	}
	if d.version != data.Version {
		return nil, errStale
	}
	v := s.view(d)
	return func(context.Context) (any, error) {
		offers := v.offers(manuscript.Span{Start: data.Start, End: data.End}, data.Words)
		if data.Offer < 0 || data.Offer >= len(offers) {
			return nil, badParams(fmt.Errorf("data: no such action"))
		}
		var err error
		action["edit"], err = json.Marshal(v.workspaceEdit(offers[data.Offer].edits))
		return action, err
	}, nil
}

// wants reports whether a request that asks only for some kinds asks for this
// one; a kind stands for all under it (LSP 3.17, "Code Action Kind"). What a
// client did not ask for by name is not made for it in passing: source actions
// act on the whole text.
func wants(only []protocol.CodeActionKind, kind protocol.CodeActionKind) bool {
	if len(only) == 0 {
		return true
	}
	return slices.ContainsFunc(only, func(o protocol.CodeActionKind) bool {
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
	return v.editOf(v.textEdits(edits))
}

func (v view) textEdits(edits []checks.Edit) []protocol317.TextEdit {
	list := []protocol317.TextEdit{}
	for _, e := range edits {
		list = append(list, protocol317.TextEdit{Range: v.rangeOf(e.Span), NewText: e.Text})
	}
	return list
}

func (v view) editOf(list []protocol317.TextEdit) *protocol317.WorkspaceEdit {
	if v.client.caps.Workspace.WorkspaceEdit.DocumentChanges {
		return &protocol317.WorkspaceEdit{DocumentChanges: []protocol317.TextDocumentEdit{{
			TextDocument: protocol317.OptionalVersionedTextDocumentIdentifier{URI: v.uri, Version: &v.version},
			Edits:        list,
		}}}
	}
	return &protocol317.WorkspaceEdit{Changes: map[uri.URI][]protocol317.TextEdit{v.uri: list}}
}

// asCommand is an action for clients that take no more than commands: the
// server then asks them to apply the edit.
func (v view) asCommand(o offer) protocol317.Command {
	return protocol317.Command{Title: o.title, Command: commandApply, Arguments: rawList([]any{v.workspaceEdit(o.edits)})}
}
