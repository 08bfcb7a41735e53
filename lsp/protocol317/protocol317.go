// Package protocol317 holds what LSP 3.17 has and go.lsp.dev/protocol, which
// stops at 3.16, lacks or decodes wrongly, under the names of the
// specification. It is data only. Lists that the specification requires are
// never nil where they are made by this module: nil would be sent as null.
package protocol317

import (
	"encoding/json"

	"go.lsp.dev/protocol"
	"go.lsp.dev/uri"
)

// Methods that the protocol package has no name for.
const (
	MethodTextDocumentSelectionRange = "textDocument/selectionRange"
	MethodTextDocumentInlayHint      = "textDocument/inlayHint"
	MethodTextDocumentDiagnostic     = "textDocument/diagnostic"
	MethodWorkspaceDiagnostic        = "workspace/diagnostic"
	MethodCodeActionResolve          = "codeAction/resolve"
	MethodInlayHintRefresh           = "workspace/inlayHint/refresh"
	MethodDiagnosticRefresh          = "workspace/diagnostic/refresh"
)

// RequestFailed says that a request is right in form and could not be served.
const RequestFailed = -32803

// PositionEncodingKind says what a position's character counts.
type PositionEncodingKind string

// The encodings of positions.
const (
	UTF8  PositionEncodingKind = "utf-8"
	UTF16 PositionEncodingKind = "utf-16"
	UTF32 PositionEncodingKind = "utf-32"
)

// ServerCapabilities adds to the capabilities of 3.16.
type ServerCapabilities struct {
	protocol.ServerCapabilities
	PositionEncoding       PositionEncodingKind          `json:"positionEncoding,omitempty"`
	InlayHintProvider      *InlayHintOptions             `json:"inlayHintProvider,omitempty"`
	DiagnosticProvider     *DiagnosticOptions            `json:"diagnosticProvider,omitempty"`
	CompletionProvider     *CompletionOptions            `json:"completionProvider,omitempty"`
	CodeActionProvider     any                           `json:"codeActionProvider,omitempty"` // bool or CodeActionOptions
	CodeLensProvider       *CodeLensOptions              `json:"codeLensProvider,omitempty"`
	SemanticTokensProvider *SemanticTokensOptions        `json:"semanticTokensProvider,omitempty"`
	SelectionRangeProvider bool                          `json:"selectionRangeProvider,omitempty"`
	RenameProvider         any                           `json:"renameProvider,omitempty"` // bool or RenameOptions
	DocumentLinkProvider   *protocol.DocumentLinkOptions `json:"documentLinkProvider,omitempty"`
}

// InitializeResult answers initialize.
type InitializeResult struct {
	Capabilities ServerCapabilities   `json:"capabilities"`
	ServerInfo   *protocol.ServerInfo `json:"serverInfo,omitempty"`
}

// InlayHintOptions are the server's.
type InlayHintOptions struct {
	ResolveProvider bool `json:"resolveProvider"`
}

// DiagnosticOptions offer pulled diagnostics.
type DiagnosticOptions struct {
	protocol.WorkDoneProgressOptions
	Identifier            string `json:"identifier,omitempty"`
	InterFileDependencies bool   `json:"interFileDependencies"`
	WorkspaceDiagnostics  bool   `json:"workspaceDiagnostics"`
}

// CompletionOptions add what 3.17 has about labels.
type CompletionOptions struct {
	TriggerCharacters []string `json:"triggerCharacters,omitempty"`
	ResolveProvider   bool     `json:"resolveProvider"`
}

// CodeActionOptions say which kinds are offered.
type CodeActionOptions struct {
	CodeActionKinds []protocol.CodeActionKind `json:"codeActionKinds,omitempty"`
	ResolveProvider bool                      `json:"resolveProvider"`
}

// CodeLensOptions are the server's.
type CodeLensOptions struct {
	ResolveProvider bool `json:"resolveProvider"`
}

// RenameOptions are the server's.
type RenameOptions struct {
	PrepareProvider bool `json:"prepareProvider"`
}

// SemanticTokensOptions hold the legend, which the 3.16 package leaves out.
type SemanticTokensOptions struct {
	Legend SemanticTokensLegend `json:"legend"`
	Range  bool                 `json:"range"`
	Full   SemanticTokensFull   `json:"full"`
}

// SemanticTokensLegend names token types and modifiers by their place.
type SemanticTokensLegend struct {
	TokenTypes     []string `json:"tokenTypes"`
	TokenModifiers []string `json:"tokenModifiers"`
}

// SemanticTokensFull says whether the server sends deltas.
type SemanticTokensFull struct {
	Delta bool `json:"delta"`
}

// TextDocumentContentChangeEvent is a change. Without a range its text is the
// whole document; the 3.16 package cannot tell that from an insertion at 0:0.
type TextDocumentContentChangeEvent struct {
	Range *protocol.Range `json:"range,omitempty"`
	Text  string          `json:"text"`
}

// VersionedTextDocumentIdentifier names a version, which may be any integer.
type VersionedTextDocumentIdentifier struct {
	URI     uri.URI `json:"uri"`
	Version int32   `json:"version"`
}

// DidChangeTextDocumentParams tell of changes, each on top of the one before.
type DidChangeTextDocumentParams struct {
	TextDocument   VersionedTextDocumentIdentifier  `json:"textDocument"`
	ContentChanges []TextDocumentContentChangeEvent `json:"contentChanges"`
}

// TextDocumentItem is a document as it is opened.
type TextDocumentItem struct {
	URI        uri.URI `json:"uri"`
	LanguageID string  `json:"languageId"`
	Version    int32   `json:"version"`
	Text       string  `json:"text"`
}

// DidOpenTextDocumentParams open a document.
type DidOpenTextDocumentParams struct {
	TextDocument TextDocumentItem `json:"textDocument"`
}

// Diagnostic is a finding. Source, code and tags are as in 3.16; data is kept by
// the client between publication and the request for code actions.
type Diagnostic struct {
	Range              protocol.Range                 `json:"range"`
	Severity           int                            `json:"severity,omitempty"` // 1 error … 4 hint
	Code               string                         `json:"code,omitempty"`
	CodeDescription    *CodeDescription               `json:"codeDescription,omitempty"`
	Source             string                         `json:"source,omitempty"`
	Message            string                         `json:"message"`
	Tags               []int                          `json:"tags,omitempty"`
	RelatedInformation []DiagnosticRelatedInformation `json:"relatedInformation,omitempty"`
	Data               json.RawMessage                `json:"data,omitempty"`
}

// CodeDescription leads to a page about a code.
type CodeDescription struct {
	Href string `json:"href"`
}

// DiagnosticRelatedInformation points at another place of the same matter.
type DiagnosticRelatedInformation struct {
	Location Location `json:"location"`
	Message  string   `json:"message"`
}

// Location is a place in a document.
type Location struct {
	URI   uri.URI        `json:"uri"`
	Range protocol.Range `json:"range"`
}

// PublishDiagnosticsParams carry a version that may be 0.
type PublishDiagnosticsParams struct {
	URI         uri.URI      `json:"uri"`
	Version     *int32       `json:"version,omitempty"`
	Diagnostics []Diagnostic `json:"diagnostics"`
}

// Hover is what is shown at a position.
type Hover struct {
	Contents protocol.MarkupContent `json:"contents"`
	Range    *protocol.Range        `json:"range,omitempty"`
}

// WorkspaceEdit changes documents. Either Changes or DocumentChanges is set.
type WorkspaceEdit struct {
	Changes           map[uri.URI][]TextEdit      `json:"changes,omitempty"`
	DocumentChanges   []TextDocumentEdit          `json:"documentChanges,omitempty"`
	ChangeAnnotations map[string]ChangeAnnotation `json:"changeAnnotations,omitempty"`
}

// TextDocumentEdit changes one version of a document.
type TextDocumentEdit struct {
	TextDocument OptionalVersionedTextDocumentIdentifier `json:"textDocument"`
	Edits        []TextEdit                              `json:"edits"`
}

// OptionalVersionedTextDocumentIdentifier names a version, or any with null.
type OptionalVersionedTextDocumentIdentifier struct {
	URI     uri.URI `json:"uri"`
	Version *int32  `json:"version"`
}

// TextEdit replaces a range. AnnotationID makes it an AnnotatedTextEdit.
type TextEdit struct {
	Range        protocol.Range `json:"range"`
	NewText      string         `json:"newText"`
	AnnotationID string         `json:"annotationId,omitempty"`
}

// ChangeAnnotation says more about an edit, and may ask for a confirmation.
type ChangeAnnotation struct {
	Label             string `json:"label"`
	NeedsConfirmation bool   `json:"needsConfirmation,omitempty"`
	Description       string `json:"description,omitempty"`
}

// CodeActionParams ask for actions in a range.
type CodeActionParams struct {
	TextDocument protocol.TextDocumentIdentifier `json:"textDocument"`
	Range        protocol.Range                  `json:"range"`
	Context      CodeActionContext               `json:"context"`
}

// CodeActionContext holds the diagnostics that the client shows there, as it
// got them, and the kinds it asks for.
type CodeActionContext struct {
	Diagnostics []json.RawMessage         `json:"diagnostics"`
	Only        []protocol.CodeActionKind `json:"only,omitempty"`
	TriggerKind int                       `json:"triggerKind,omitempty"`
}

// CodeAction is a change that the writer may take.
type CodeAction struct {
	Title       string                  `json:"title"`
	Kind        protocol.CodeActionKind `json:"kind,omitempty"`
	Diagnostics []json.RawMessage       `json:"diagnostics,omitempty"`
	IsPreferred bool                    `json:"isPreferred,omitempty"`
	Edit        *WorkspaceEdit          `json:"edit,omitempty"`
	Command     *Command                `json:"command,omitempty"`
	Data        json.RawMessage         `json:"data,omitempty"`
}

// CompletionList holds completions.
type CompletionList struct {
	IsIncomplete bool             `json:"isIncomplete"`
	Items        []CompletionItem `json:"items"`
}

// CompletionItem is one completion, with the label details of 3.17 and an edit
// that may be an insertion or a replacement.
type CompletionItem struct {
	Label         string                      `json:"label"`
	LabelDetails  *CompletionItemLabelDetails `json:"labelDetails,omitempty"`
	Kind          int                         `json:"kind,omitempty"`
	Tags          []int                       `json:"tags,omitempty"`
	Detail        string                      `json:"detail,omitempty"`
	Documentation *protocol.MarkupContent     `json:"documentation,omitempty"`
	Preselect     bool                        `json:"preselect,omitempty"`
	SortText      string                      `json:"sortText,omitempty"`
	FilterText    string                      `json:"filterText,omitempty"`
	InsertText    string                      `json:"insertText,omitempty"`
	TextEdit      any                         `json:"textEdit,omitempty"` // TextEdit or InsertReplaceEdit
	Data          json.RawMessage             `json:"data,omitempty"`
}

// CompletionItemLabelDetails stand beside a label.
type CompletionItemLabelDetails struct {
	Detail      string `json:"detail,omitempty"`
	Description string `json:"description,omitempty"`
}

// InsertReplaceEdit lets the writer choose whether what follows is kept.
type InsertReplaceEdit struct {
	NewText string         `json:"newText"`
	Insert  protocol.Range `json:"insert"`
	Replace protocol.Range `json:"replace"`
}
