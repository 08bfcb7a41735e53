package lsp

import (
	"context"
	"encoding/json"

	"dandle/lsp/protocol317"

	"go.lsp.dev/protocol"
	"go.lsp.dev/uri"
	"go.uber.org/zap"
)

// serverName is what the client shows in its lists of servers and messages.
const serverName = "dandle"

func (s *server) initialize(params json.RawMessage) (work, error) {
	p, err := decodeParams[protocol317.InitializeParams](params)
	if err != nil {
		return nil, err
	}
	c := newClient(p)
	result := protocol317.InitializeResult{
		Capabilities: capabilities(c),
		ServerInfo:   &protocol.ServerInfo{Name: serverName, Version: s.config.Version},
	}
	return func(context.Context) (any, error) {
		s.client = c
		s.workspace.setFolders(rootsOf(p), nil)
		s.startSettings(p.InitializationOptions)
		if p.ProcessID != nil && *p.ProcessID > 0 && int64(int(*p.ProcessID)) == *p.ProcessID {
			s.background.run(func(ctx context.Context) { watchParent(ctx, int(*p.ProcessID), s.parentGone) })
		}
		return result, nil
	}, nil
}

// rootsOf are the folders that the client works in: those of 3.6 and later,
// else the one root of before.
func rootsOf(p protocol317.InitializeParams) []uri.URI {
	if roots := folderURIs(p.WorkspaceFolders); len(roots) > 0 {
		return roots
	}
	if p.RootURI != nil {
		if u, err := uri.Parse(*p.RootURI); err == nil {
			return []uri.URI{u}
		}
	}
	if p.RootPath != nil && *p.RootPath != "" {
		return []uri.URI{uri.File(*p.RootPath)}
	}
	return nil
}

// startSettings takes initializationOptions for settings.
func (s *server) startSettings(raw json.RawMessage) {
	settings, err := parseSettings(raw)
	if err != nil {
		s.log.Warn("initializationOptions", zap.Error(err))
		return
	}
	s.workspace.set(settings)
}

// reportsProgress tells clients that it is worth to give a token for progress.
var reportsProgress = protocol.WorkDoneProgressOptions{WorkDoneProgress: true}

// capabilities are what is offered to this client.
func capabilities(c client) protocol317.ServerCapabilities {
	caps := protocol317.ServerCapabilities{
		ServerCapabilities: protocol.ServerCapabilities{
			TextDocumentSync: &protocol.TextDocumentSyncOptions{
				OpenClose: true,
				Change:    protocol.TextDocumentSyncKindIncremental,
				Save:      &protocol.SaveOptions{},
			},
			HoverProvider:                   true,
			DefinitionProvider:              true,
			ReferencesProvider:              true,
			DocumentHighlightProvider:       true,
			DocumentSymbolProvider:          true,
			WorkspaceSymbolProvider:         &protocol.WorkspaceSymbolOptions{WorkDoneProgressOptions: reportsProgress},
			FoldingRangeProvider:            true,
			DocumentFormattingProvider:      true,
			DocumentRangeFormattingProvider: true,
			ExecuteCommandProvider:          &protocol.ExecuteCommandOptions{Commands: commandNames()},
			Workspace: &protocol.ServerCapabilitiesWorkspace{
				WorkspaceFolders: &protocol.ServerCapabilitiesWorkspaceFolders{Supported: true, ChangeNotifications: true},
			},
		},
		PositionEncoding:       c.encoding,
		SelectionRangeProvider: true,
		DocumentLinkProvider:   &protocol.DocumentLinkOptions{},
		CompletionProvider:     &protocol317.CompletionOptions{TriggerCharacters: []string{" "}, ResolveProvider: true},
		CodeLensProvider:       &protocol317.CodeLensOptions{},
		InlayHintProvider:      &protocol317.InlayHintOptions{},
		SemanticTokensProvider: &protocol317.SemanticTokensOptions{Legend: tokenLegend, Range: true, Full: protocol317.SemanticTokensFull{Delta: true}},
		RenameProvider:         true,
		CodeActionProvider:     true,
	}
	if c.takesLiterals() {
		caps.CodeActionProvider = &protocol317.CodeActionOptions{CodeActionKinds: codeActionKinds(), ResolveProvider: true}
	}
	if c.caps.TextDocument.Rename.PrepareSupport {
		caps.RenameProvider = &protocol317.RenameOptions{PrepareProvider: true}
	}
	if c.pulls {
		caps.DiagnosticProvider = &protocol317.DiagnosticOptions{WorkDoneProgressOptions: reportsProgress, Identifier: serverName, WorkspaceDiagnostics: true}
	}
	return caps
}

func (s *server) initialized(json.RawMessage) error {
	select {
	case <-s.ready:
		return nil // said twice
	default:
	}
	close(s.ready)
	s.background.run(s.introduce)
	s.log.Info("ready", zap.String("version", s.config.Version), zap.String("positions", string(s.client.encoding)))
	return nil
}

func (s *server) shutdown(json.RawMessage) (work, error) {
	s.shut.Store(true)
	s.background.stop()
	return func(context.Context) (any, error) { return nil, nil }, nil
}

func (s *server) exit(json.RawMessage) error {
	s.frames.ended = true // so that the reading goroutine ends by itself
	return nil
}
