package lsp

import (
	"context"
	"encoding/json"

	"go.lsp.dev/protocol"
)

// A progress tells a client how far a piece of work is. A nil progress tells
// nobody.
type progress struct {
	s       *server
	token   json.RawMessage
	percent int
}

// progress begins to tell of work, under the token that the client gave for it;
// without a token nobody wants to know.
func (s *server) progress(token json.RawMessage, title string) *progress {
	if len(token) == 0 || string(token) == "null" {
		return nil
	}
	p := &progress{s: s, token: token, percent: -1}
	p.tell(map[string]any{"kind": "begin", "title": title, "cancellable": true, "percentage": 0})
	return p
}

func (p *progress) tell(value any) {
	p.s.notify(protocol.MethodProgress, map[string]any{"token": p.token, "value": value})
}

// report tells that done of all pieces are done, once for each per cent.
func (p *progress) report(what string, done, all int) {
	if p == nil || all == 0 || done*100/all == p.percent {
		return
	}
	p.percent = done * 100 / all
	p.tell(map[string]any{"kind": "report", "message": what, "percentage": p.percent})
}

func (p *progress) end() {
	if p != nil {
		p.tell(map[string]any{"kind": "end"})
	}
}

// cancellable ends the context when the client cancels the progress.
func (p *progress) cancellable(ctx context.Context) (context.Context, context.CancelFunc) {
	ctx, cancel := context.WithCancel(ctx)
	if p == nil {
		return ctx, cancel
	}
	key := string(p.token)
	p.s.cancels.Store(key, cancel)
	return ctx, func() {
		p.s.cancels.Delete(key)
		cancel()
	}
}

func (s *server) cancelProgress(params json.RawMessage) error {
	p, err := decodeParams[struct {
		Token json.RawMessage `json:"token"`
	}](params)
	if err != nil {
		return err
	}
	if cancel, ok := s.cancels.Load(string(p.Token)); ok {
		cancel.(context.CancelFunc)()
	}
	return nil
}
