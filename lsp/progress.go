package lsp

import (
	"context"
	"encoding/json"
	"fmt"

	"go.lsp.dev/protocol"
)

// A progress tells a client how far a piece of work is. A nil progress tells
// nobody.
type progress struct {
	s       *server
	token   json.RawMessage
	percent int
}

// An errand is work on the whole workspace, as the client asked for it.
type errand struct {
	token json.RawMessage // under which the client wants to be told of it; empty for none
	title string
}

// longErrand is from how many manuscripts that are still to be read on a client
// is told of work that it gave no token for: about half a second of it.
const longErrand = 40

// progress begins to tell of an errand that has so many manuscripts to read:
// under the client's own token, else, where the work is long and the client
// shows such, under one that it is asked to take.
func (s *server) progress(ctx context.Context, e errand, unread int) *progress {
	token := e.token
	if len(token) == 0 || string(token) == "null" {
		if unread < longErrand || !s.client.caps.Window.WorkDoneProgress {
			return nil
		}
		token = fmt.Appendf(nil, `"%s/%d"`, serverName, s.errands.Add(1))
		if err := s.call(ctx, protocol.MethodWorkDoneProgressCreate, map[string]any{"token": json.RawMessage(token)}, nil); err != nil {
			return nil // it does not want to know
		}
	}
	p := &progress{s: s, token: token, percent: -1}
	p.tell(map[string]any{"kind": "begin", "title": e.title, "cancellable": true, "percentage": 0})
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
