package lsp

import (
	"context"
	"encoding/json"

	"dandle/lsp/protocol317"

	"go.lsp.dev/protocol"
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
		if p.ProcessID != nil && *p.ProcessID > 0 && int64(int(*p.ProcessID)) == *p.ProcessID {
			s.background.run(func(ctx context.Context) { watchParent(ctx, int(*p.ProcessID), s.parentGone) })
		}
		return result, nil
	}, nil
}

// capabilities are what is offered to this client.
func capabilities(c client) protocol317.ServerCapabilities {
	caps := protocol317.ServerCapabilities{
		ServerCapabilities: protocol.ServerCapabilities{
			TextDocumentSync: &protocol.TextDocumentSyncOptions{
				OpenClose: true,
				Change:    protocol.TextDocumentSyncKindIncremental,
				Save:      &protocol.SaveOptions{},
			},
			HoverProvider: true,
		},
		PositionEncoding:   c.encoding,
		CompletionProvider: &protocol317.CompletionOptions{TriggerCharacters: []string{" "}},
		CodeActionProvider: &protocol317.CodeActionOptions{
			CodeActionKinds: []protocol.CodeActionKind{protocol.QuickFix},
		},
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
