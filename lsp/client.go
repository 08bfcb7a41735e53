package lsp

import (
	"encoding/json"
	"slices"

	"dandle/lsp/protocol317"

	"go.lsp.dev/protocol"
)

// A client is what the other side can do and show. It is fixed by initialize.
type client struct {
	caps     protocol317.ClientCapabilities
	encoding protocol317.PositionEncodingKind
	pulls    bool // diagnostics are asked for, so they are not pushed
}

func newClient(p protocol317.InitializeParams) client {
	return client{
		caps:     p.Capabilities,
		encoding: chooseEncoding(statedEncoding(p), p.Capabilities.General.PositionEncodings),
		pulls:    p.Capabilities.TextDocument.Diagnostic != nil,
	}
}

// statedEncoding is what positions count by the "positionEncoding" in the
// client's initializationOptions; empty where it is not there. It is for editors
// that count otherwise than the protocol wants and do not say so: ALE counts
// bytes, and after a curly quote its marks would stand under the wrong word.
func statedEncoding(p protocol317.InitializeParams) protocol317.PositionEncodingKind {
	var options struct {
		PositionEncoding protocol317.PositionEncodingKind `json:"positionEncoding"`
	}
	if json.Unmarshal(p.InitializationOptions, &options) != nil {
		return "" // what else is wrong with them is told where they are read
	}
	return options.PositionEncoding
}

// chooseEncoding takes the one that is stated, else the first of those offered,
// since the client lists them in its order of preference; UTF-16 is what every
// client has to speak, and stands in for what is not known.
func chooseEncoding(stated protocol317.PositionEncodingKind, offered []protocol317.PositionEncodingKind) protocol317.PositionEncodingKind {
	known := []protocol317.PositionEncodingKind{protocol317.UTF8, protocol317.UTF16, protocol317.UTF32}
	for _, e := range slices.Concat([]protocol317.PositionEncodingKind{stated}, offered) {
		if slices.Contains(known, e) {
			return e
		}
	}
	return protocol317.UTF16
}

// markup picks the form of text that the client likes best among those known;
// plain text where it names none, for every client shows that.
func markup(formats []protocol.MarkupKind) protocol.MarkupKind {
	for _, f := range formats {
		if f == protocol.Markdown || f == protocol.PlainText {
			return f
		}
	}
	return protocol.PlainText
}

// hoverFormat is the form of a hover.
func (c client) hoverFormat() protocol.MarkupKind {
	return markup(c.caps.TextDocument.Hover.ContentFormat)
}

// completionFormat is the form of a completion's documentation.
func (c client) completionFormat() protocol.MarkupKind {
	return markup(c.caps.TextDocument.Completion.CompletionItem.DocumentationFormat)
}

// resolvesCompletions reports whether the client asks for an item's documentation
// when the writer looks at it.
func (c client) resolvesCompletions() bool {
	return slices.Contains(c.caps.TextDocument.Completion.CompletionItem.ResolveSupport.Properties, "documentation")
}

// showsDiagnostics is what the client shows of a diagnostic.
func (c client) showsDiagnostics() protocol317.DiagnosticsClientCapabilities {
	if d := c.caps.TextDocument.Diagnostic; d != nil {
		return *d
	}
	return c.caps.TextDocument.PublishDiagnostics
}

// takesLiterals reports whether the client takes code actions, where others take
// commands only. Which kinds it names does not matter: Kate and ALE send an
// empty list and take any.
func (c client) takesLiterals() bool {
	return c.caps.TextDocument.CodeAction.CodeActionLiteralSupport != nil
}

// resolves reports whether the client asks for a code action's property later.
func (c client) resolves(property string) bool {
	a := c.caps.TextDocument.CodeAction
	return a.DataSupport && slices.Contains(a.ResolveSupport.Properties, property)
}
