package lsp

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"runtime"
	"runtime/debug"
	"sync"

	"go.lsp.dev/jsonrpc2"
	"go.lsp.dev/protocol"
	"go.uber.org/zap"
)

// state is a session's place in the protocol's life cycle.
type state int

const (
	fresh   state = iota // nothing but initialize is served
	running              // everything but initialize is served
	down                 // after shutdown: nothing but exit
)

// maxPending bounds the requests that are unanswered at one time. A client that
// asks for more without reading its answers waits, as on any full pipe.
const maxPending = 1 << 10

// errStale answers a request whose document has changed since it was asked,
// where an old answer would do harm.
var errStale = jsonrpc2.NewError(protocol.CodeContentModified, "the manuscript has changed since")

// errCancelled answers a request that the client has cancelled.
var errCancelled = jsonrpc2.NewError(protocol.CodeRequestCancelled, "cancelled")

// work is a request made ready: it sees only values that never change, and runs
// beside others.
type work func(ctx context.Context) (any, error)

// A dispatcher orders work. Notifications run on the reading goroutine, in the
// order of arrival; each request is prepared there too, and then runs in a
// goroutine of its own, so it may be slow and may be cancelled.
type dispatcher struct {
	log *zap.Logger
	// notify handles a notification. It must not wait for the client.
	notify func(method string, params json.RawMessage)
	// prepare makes a request ready, in the order of arrival.
	prepare func(method string, params json.RawMessage) (work, error)
	// handled is called after each message, on the reading goroutine.
	handled func()

	state   state // touched by the reading goroutine only
	slots   chan struct{}
	busy    chan struct{} // as many requests work at a time as there are processors
	mu      sync.Mutex
	pending map[jsonrpc2.ID]context.CancelFunc
	workers sync.WaitGroup
}

func newDispatcher(log *zap.Logger) *dispatcher {
	return &dispatcher{
		log:     log,
		slots:   make(chan struct{}, maxPending),
		busy:    make(chan struct{}, max(2, runtime.GOMAXPROCS(0))),
		pending: map[jsonrpc2.ID]context.CancelFunc{},
	}
}

// handle is the connection's handler. It returns no error: one would close the
// connection.
func (d *dispatcher) handle(ctx context.Context, reply jsonrpc2.Replier, req jsonrpc2.Request) error {
	defer d.handled()
	params := json.RawMessage(req.Params())
	call, isCall := req.(*jsonrpc2.Call)
	if !isCall {
		d.notification(req.Method(), params)
		return nil
	}
	job, err := d.admit(call, params)
	if call.Method() == protocol.MethodInitialize {
		// Nothing may be sent before this answer, so it is written before the
		// next message is read.
		d.answer(reply, call, d.initialize(ctx, job, err))
		return nil
	}
	d.run(ctx, reply, call, job, err)
	return nil
}

// outcome is what a request came to.
type outcome struct {
	result any
	err    error
}

func (d *dispatcher) initialize(ctx context.Context, job work, err error) outcome {
	if err != nil {
		return outcome{err: err}
	}
	o := d.guard(protocol.MethodInitialize, func() (any, error) { return job(ctx) })
	if o.err == nil {
		d.state = running
	}
	return o
}

func (d *dispatcher) run(ctx context.Context, reply jsonrpc2.Replier, call *jsonrpc2.Call, job work, refusal error) {
	d.slots <- struct{}{}
	ctx, cancel := context.WithCancel(ctx)
	if refusal == nil {
		d.mu.Lock()
		if _, used := d.pending[call.ID()]; used {
			refusal = jsonrpc2.NewError(jsonrpc2.InvalidRequest, "a request with this id is not answered yet")
		} else {
			d.pending[call.ID()] = cancel
		}
		d.mu.Unlock()
	}
	d.workers.Go(func() {
		defer func() { <-d.slots }()
		defer cancel()
		if refusal != nil {
			d.answer(reply, call, outcome{err: refusal})
			return
		}
		o := d.perform(ctx, call, job)
		d.mu.Lock()
		delete(d.pending, call.ID())
		d.mu.Unlock()
		d.answer(reply, call, o)
	})
}

func (d *dispatcher) perform(ctx context.Context, call *jsonrpc2.Call, job work) outcome {
	// A command may wait for the client, which may wait for another answer.
	if call.Method() != protocol.MethodWorkspaceExecuteCommand {
		select {
		case d.busy <- struct{}{}:
			defer func() { <-d.busy }()
		case <-ctx.Done():
			return outcome{err: errCancelled}
		}
	}
	o := d.guard(call.Method(), func() (any, error) { return job(ctx) })
	if ctx.Err() != nil {
		return outcome{err: errCancelled}
	}
	return o
}

// admit applies the life cycle (LSP 3.17, "Server lifecycle"), then prepares the
// request.
func (d *dispatcher) admit(call *jsonrpc2.Call, params json.RawMessage) (work, error) {
	method := call.Method()
	switch {
	case d.state == fresh && method != protocol.MethodInitialize:
		return nil, jsonrpc2.NewError(jsonrpc2.ServerNotInitialized, "the first request has to be initialize")
	case d.state != fresh && method == protocol.MethodInitialize:
		return nil, jsonrpc2.NewError(jsonrpc2.InvalidRequest, "initialize has been answered before")
	case d.state == down:
		return nil, jsonrpc2.NewError(jsonrpc2.InvalidRequest, "after shutdown nothing but exit is served")
	case method == protocol.MethodShutdown:
		d.state = down
	}
	var job work
	o := d.guard(method, func() (_ any, err error) {
		job, err = d.prepare(method, params)
		return nil, err
	})
	return job, o.err
}

func (d *dispatcher) notification(method string, params json.RawMessage) {
	switch {
	case method == protocol.MethodCancelRequest:
		var p struct{ ID jsonrpc2.ID } // takes numbers and strings
		if json.Unmarshal(params, &p) == nil {
			d.cancel(p.ID)
		}
	case d.state == running || method == protocol.MethodExit:
		d.guard(method, func() (any, error) {
			d.notify(method, params)
			return nil, nil
		})
	}
}

func (d *dispatcher) cancel(id jsonrpc2.ID) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if cancel, ok := d.pending[id]; ok {
		cancel()
	}
}

// guard turns a panic into an internal error, and logs it with its stack.
func (d *dispatcher) guard(method string, f func() (any, error)) (o outcome) {
	defer func() {
		if cause := recover(); cause != nil {
			// The cause may quote the manuscript; it is for the debug log alone.
			d.log.Error("panic", zap.String("method", method), zap.ByteString("stack", debug.Stack()))
			d.log.Debug("panic", zap.Any("cause", cause))
			o = outcome{err: jsonrpc2.NewError(jsonrpc2.InternalError, "internal error in "+method)}
		}
	}()
	result, err := f()
	return outcome{result, err}
}

func (d *dispatcher) answer(reply jsonrpc2.Replier, call *jsonrpc2.Call, o outcome) {
	var wire *jsonrpc2.Error
	if o.err != nil && !errors.As(o.err, &wire) {
		o.err = jsonrpc2.NewError(jsonrpc2.InternalError, o.err.Error()) // else its code would be 0
	}
	// The reply goes out even when the request's context has ended.
	if err := reply(context.Background(), o.result, o.err); err != nil {
		d.log.Warn("reply", zap.String("method", call.Method()), zap.Error(err))
	}
}

// decodeParams reads a message's params. Absent or null params are an error:
// those that may be absent are not decoded.
func decodeParams[P any](raw json.RawMessage) (P, error) {
	var p P
	if len(bytes.TrimSpace(raw)) == 0 || bytes.Equal(bytes.TrimSpace(raw), []byte("null")) {
		return p, badParams(errors.New("there are none"))
	}
	if err := json.Unmarshal(raw, &p); err != nil {
		return p, badParams(err)
	}
	return p, nil
}

func badParams(err error) error {
	return jsonrpc2.NewError(jsonrpc2.InvalidParams, fmt.Sprintf("params: %v", err))
}
