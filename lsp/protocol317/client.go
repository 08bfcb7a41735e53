package protocol317

import (
	"encoding/json"

	"go.lsp.dev/protocol"
)

// InitializeParams are the parts of initialize's params that a server like this
// one reads. Decoding no more than these leaves less that a client may get
// wrong.
type InitializeParams struct {
	ProcessID             *int64                     `json:"processId"`
	ClientInfo            *protocol.ClientInfo       `json:"clientInfo"`
	RootURI               *string                    `json:"rootUri"`
	RootPath              *string                    `json:"rootPath"`
	InitializationOptions json.RawMessage            `json:"initializationOptions"`
	Capabilities          ClientCapabilities         `json:"capabilities"`
	Trace                 string                     `json:"trace"`
	WorkspaceFolders      []protocol.WorkspaceFolder `json:"workspaceFolders"`
}

// ClientCapabilities are what a client can do and show.
type ClientCapabilities struct {
	General struct {
		PositionEncodings []PositionEncodingKind `json:"positionEncodings"`
	} `json:"general"`
	Window struct {
		WorkDoneProgress bool        `json:"workDoneProgress"`
		ShowDocument     supportFlag `json:"showDocument"`
	} `json:"window"`
	Workspace struct {
		ApplyEdit              bool        `json:"applyEdit"`
		Configuration          bool        `json:"configuration"`
		WorkspaceFolders       bool        `json:"workspaceFolders"`
		DidChangeConfiguration dynamic     `json:"didChangeConfiguration"`
		DidChangeWatchedFiles  dynamic     `json:"didChangeWatchedFiles"`
		CodeLens               refreshable `json:"codeLens"`
		InlayHint              refreshable `json:"inlayHint"`
		SemanticTokens         refreshable `json:"semanticTokens"`
		Diagnostics            refreshable `json:"diagnostics"`
		WorkspaceEdit          struct {
			DocumentChanges         bool      `json:"documentChanges"`
			ChangeAnnotationSupport *struct{} `json:"changeAnnotationSupport"`
		} `json:"workspaceEdit"`
	} `json:"workspace"`
	TextDocument struct {
		Hover struct {
			ContentFormat []protocol.MarkupKind `json:"contentFormat"`
		} `json:"hover"`
		Completion struct {
			CompletionItem struct {
				DocumentationFormat  []protocol.MarkupKind `json:"documentationFormat"`
				LabelDetailsSupport  bool                  `json:"labelDetailsSupport"`
				InsertReplaceSupport bool                  `json:"insertReplaceSupport"`
				ResolveSupport       resolvable            `json:"resolveSupport"`
			} `json:"completionItem"`
		} `json:"completion"`
		CodeAction struct {
			CodeActionLiteralSupport *struct {
				CodeActionKind struct {
					ValueSet []protocol.CodeActionKind `json:"valueSet"`
				} `json:"codeActionKind"`
			} `json:"codeActionLiteralSupport"`
			IsPreferredSupport      bool       `json:"isPreferredSupport"`
			DataSupport             bool       `json:"dataSupport"`
			ResolveSupport          resolvable `json:"resolveSupport"`
			HonorsChangeAnnotations bool       `json:"honorsChangeAnnotations"`
		} `json:"codeAction"`
		DocumentSymbol struct {
			HierarchicalDocumentSymbolSupport bool `json:"hierarchicalDocumentSymbolSupport"`
		} `json:"documentSymbol"`
		FoldingRange struct {
			LineFoldingOnly bool   `json:"lineFoldingOnly"`
			RangeLimit      uint32 `json:"rangeLimit"`
		} `json:"foldingRange"`
		Rename struct {
			PrepareSupport          bool `json:"prepareSupport"`
			HonorsChangeAnnotations bool `json:"honorsChangeAnnotations"`
		} `json:"rename"`
		PublishDiagnostics DiagnosticsClientCapabilities  `json:"publishDiagnostics"`
		Diagnostic         *DiagnosticsClientCapabilities `json:"diagnostic"`
	} `json:"textDocument"`
}

// DiagnosticsClientCapabilities are what a client shows of a diagnostic.
type DiagnosticsClientCapabilities struct {
	RelatedInformation     bool `json:"relatedInformation"`
	CodeDescriptionSupport bool `json:"codeDescriptionSupport"`
	DataSupport            bool `json:"dataSupport"`
	TagSupport             *struct {
		ValueSet []int `json:"valueSet"`
	} `json:"tagSupport"`
}

type supportFlag struct {
	Support bool `json:"support"`
}

type dynamic struct {
	DynamicRegistration bool `json:"dynamicRegistration"`
}

type refreshable struct {
	RefreshSupport bool `json:"refreshSupport"`
}

type resolvable struct {
	Properties []string `json:"properties"`
}
