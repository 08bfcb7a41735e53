package protocol317

import (
	"encoding/json"

	"go.lsp.dev/protocol"
	"go.lsp.dev/uri"
)

// DocumentSymbol is an entry of an outline; kinds are the protocol's numbers.
type DocumentSymbol struct {
	Name           string           `json:"name"`
	Detail         string           `json:"detail,omitempty"`
	Kind           int              `json:"kind"`
	Range          protocol.Range   `json:"range"`
	SelectionRange protocol.Range   `json:"selectionRange"`
	Children       []DocumentSymbol `json:"children,omitempty"`
}

// SymbolInformation is an entry of a flat list.
type SymbolInformation struct {
	Name          string   `json:"name"`
	Kind          int      `json:"kind"`
	Location      Location `json:"location"`
	ContainerName string   `json:"containerName,omitempty"`
}

// InlayHintParams ask for the hints of a range.
type InlayHintParams struct {
	TextDocument protocol.TextDocumentIdentifier `json:"textDocument"`
	Range        protocol.Range                  `json:"range"`
}

// InlayHint is a short text set into a line.
type InlayHint struct {
	Position     protocol.Position `json:"position"`
	Label        string            `json:"label"`
	Kind         int               `json:"kind,omitempty"`
	Tooltip      string            `json:"tooltip,omitempty"`
	PaddingLeft  bool              `json:"paddingLeft,omitempty"`
	PaddingRight bool              `json:"paddingRight,omitempty"`
}

// Command is something the server can be asked to do.
type Command struct {
	Title     string            `json:"title"`
	Command   string            `json:"command"`
	Arguments []json.RawMessage `json:"arguments,omitempty"`
}

// CodeLens is a line of text over a place.
type CodeLens struct {
	Range   protocol.Range `json:"range"`
	Command *Command       `json:"command,omitempty"`
}

// SemanticTokens are a document's tokens in relative encoding.
type SemanticTokens struct {
	ResultID string   `json:"resultId,omitempty"`
	Data     []uint32 `json:"data"`
}

// SemanticTokensDelta changes an earlier result.
type SemanticTokensDelta struct {
	ResultID string               `json:"resultId,omitempty"`
	Edits    []SemanticTokensEdit `json:"edits"`
}

// SemanticTokensEdit replaces some numbers of an earlier result.
type SemanticTokensEdit struct {
	Start       uint32   `json:"start"`
	DeleteCount uint32   `json:"deleteCount"`
	Data        []uint32 `json:"data,omitempty"`
}

// DocumentDiagnosticParams ask for a document's diagnostics.
type DocumentDiagnosticParams struct {
	TextDocument     protocol.TextDocumentIdentifier `json:"textDocument"`
	Identifier       string                          `json:"identifier"`
	PreviousResultID string                          `json:"previousResultId"`
}

// The kinds of a DocumentDiagnosticReport.
const (
	DiagnosticFull      = "full"
	DiagnosticUnchanged = "unchanged"
)

// FullDocumentDiagnosticReport carries a document's diagnostics.
type FullDocumentDiagnosticReport struct {
	Kind     string       `json:"kind"` // DiagnosticFull
	ResultID string       `json:"resultId,omitempty"`
	Items    []Diagnostic `json:"items"`
}

// UnchangedDocumentDiagnosticReport says that an earlier result still holds.
type UnchangedDocumentDiagnosticReport struct {
	Kind     string `json:"kind"` // DiagnosticUnchanged
	ResultID string `json:"resultId"`
}

// WorkspaceDiagnosticParams ask for the diagnostics of a workspace.
type WorkspaceDiagnosticParams struct {
	Identifier        string             `json:"identifier"`
	PreviousResultIDs []PreviousResultID `json:"previousResultIds"`
	WorkDoneToken     json.RawMessage    `json:"workDoneToken"`
}

// PreviousResultID is a result that the client holds.
type PreviousResultID struct {
	URI   uri.URI `json:"uri"`
	Value string  `json:"value"`
}

// WorkspaceDiagnosticReport holds a report for each document.
type WorkspaceDiagnosticReport struct {
	Items []any `json:"items"` // WorkspaceFull… or WorkspaceUnchangedDocumentDiagnosticReport
}

// WorkspaceFullDocumentDiagnosticReport is a full report with its document.
type WorkspaceFullDocumentDiagnosticReport struct {
	FullDocumentDiagnosticReport
	URI     uri.URI `json:"uri"`
	Version *int32  `json:"version"`
}

// WorkspaceUnchangedDocumentDiagnosticReport is an unchanged one.
type WorkspaceUnchangedDocumentDiagnosticReport struct {
	UnchangedDocumentDiagnosticReport
	URI     uri.URI `json:"uri"`
	Version *int32  `json:"version"`
}

// PrepareRenameResult says what would be renamed.
type PrepareRenameResult struct {
	Range       protocol.Range `json:"range"`
	Placeholder string         `json:"placeholder"`
}

// ApplyWorkspaceEditParams ask the client to change documents.
type ApplyWorkspaceEditParams struct {
	Label string          `json:"label,omitempty"`
	Edit  json.RawMessage `json:"edit"`
}

// ApplyWorkspaceEditResult says whether the client did.
type ApplyWorkspaceEditResult struct {
	Applied       bool   `json:"applied"`
	FailureReason string `json:"failureReason,omitempty"`
}
