package lsp

import (
	"context"
	"errors"
	"io"
	"time"

	"go.lsp.dev/jsonrpc2"
	"go.lsp.dev/protocol"
	"go.uber.org/zap"
)

// Config is what the command decides for a session.
type Config struct {
	Version string    // of the program, told to the client
	Log     io.Writer // where to log, standard error or a file; nil for nowhere
	Debug   bool      // log every message too, with what the manuscript says
}

// Exit codes of a session (LSP 3.17, "Exit Notification"). An input that ends
// after shutdown counts as an exit.
const (
	exitClean   = 0 // after shutdown
	exitUnclean = 1
)

// ErrParentGone ends a session whose client's process has ended.
var ErrParentGone = errors.New("the client's process has ended")

// Serve speaks the protocol on in and out until the client sends exit, the input
// ends, the client's process is gone, or ctx ends. It returns the exit code that
// the protocol asks for: 0 after a shutdown, else 1, with an error that says
// why. Nothing but protocol is written to out.
//
// Where the session ends for another reason than exit or the end of the input,
// a goroutine stays blocked in in.Read until in is closed; Serve closes in when
// it can.
func Serve(ctx context.Context, in io.Reader, out io.Writer, config Config) (exitCode int, err error) {
	ctx, cancel := context.WithCancelCause(ctx)
	defer cancel(nil)
	frames := newStream(in, out)
	conn := jsonrpc2.NewConn(frames)
	messages := make(chan protocol.LogMessageParams, 64)
	log := newLogger(config, messages)
	if config.Debug && config.Log != nil {
		frames.trace = func(direction string, body []byte) { log.Debug(direction, zap.ByteString("message", body)) }
	}
	s := newServer(ctx, conn, frames, log, config, func() { cancel(ErrParentGone) })
	conn.Go(ctx, s.dispatcher.handle)
	finished := make(chan struct{})
	go func() {
		defer close(finished)
		forwardLog(ctx, conn, messages, s.ready)
	}()

	select {
	case <-conn.Done(): // exit, the end of the input, or a broken frame
	case <-ctx.Done():
		if c, ok := in.(io.Closer); ok {
			_ = c.Close() // the session is over either way
		}
	}
	cause := context.Cause(ctx)
	s.background.stop()
	cancel(nil)
	waitFor(s.dispatcher.workers.Wait, s.background.wait, func() { <-finished })
	if s.shut.Load() {
		return exitClean, nil
	}
	err = cause
	if err == nil {
		err = conn.Err()
	}
	log.Info("ended without shutdown and exit", zap.Error(err))
	return exitUnclean, err
}

// waitFor waits for the goroutines of a session, but not for ever: one may be
// blocked in writing to a client that no longer reads.
func waitFor(waits ...func()) {
	done := make(chan struct{})
	go func() {
		defer close(done)
		for _, wait := range waits {
			wait()
		}
	}()
	limit := time.NewTimer(5 * time.Second)
	defer limit.Stop()
	select {
	case <-done:
	case <-limit.C:
	}
}

// forwardLog hands log entries to the client, once it may be told.
func forwardLog(ctx context.Context, conn jsonrpc2.Conn, messages <-chan protocol.LogMessageParams, ready <-chan struct{}) {
	select {
	case <-ready:
	case <-ctx.Done():
		return
	}
	for {
		select {
		case m := <-messages:
			// A failure shows as the end of the connection.
			_ = conn.Notify(ctx, protocol.MethodWindowLogMessage, m)
		case <-ctx.Done():
			return
		}
	}
}
