package lsp

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"sync"

	"go.lsp.dev/jsonrpc2"
)

// Limits of a frame. A manuscript of a picture book has a few kilobytes; 64 MiB
// leaves room for any text that an editor can hold, and bounds what a peer can
// make the server keep.
const (
	maxHeaderLine  = 4 << 10
	maxHeaderLines = 64
	maxBody        = 64 << 20
	readAhead      = 64 << 10
)

// A stream reads and writes frames (LSP 3.17, "Base Protocol"). It bounds what a
// peer can make it allocate, takes header names in any case, and answers a
// well-framed message that it cannot decode, where jsonrpc2's own stream would
// close the connection. Read is called by one goroutine only.
type stream struct {
	in    *bufio.Reader
	ended bool // set by the reading goroutine: nothing more is to be read
	// trace is told of every body, for a log that may hold everything. It may be
	// called by several goroutines; nil tells nobody.
	trace func(direction string, body []byte)

	mu  sync.Mutex // guards out: messages that do not decode are answered by the reader
	out io.Writer
}

func newStream(in io.Reader, out io.Writer) *stream {
	return &stream{in: bufio.NewReaderSize(in, readAhead), out: out}
}

// Read returns the next message that decodes. An error ends the connection:
// after a bad header nobody knows where the next frame starts.
func (s *stream) Read(ctx context.Context) (jsonrpc2.Message, int64, error) {
	for {
		if err := ctx.Err(); err != nil {
			return nil, 0, err
		}
		if s.ended {
			return nil, 0, io.EOF
		}
		length, err := readHeader(s.in)
		if err != nil {
			return nil, 0, err
		}
		if length > maxBody {
			if _, err := io.CopyN(io.Discard, s.in, length); err != nil {
				return nil, 0, err
			}
			if err := s.refuse(jsonrpc2.InvalidRequest, fmt.Sprintf("message of %d bytes is over the limit of %d", length, maxBody)); err != nil {
				return nil, 0, err
			}
			continue
		}
		var body bytes.Buffer // grows with what arrives, not with what is promised
		if _, err := io.CopyN(&body, s.in, length); err != nil {
			return nil, 0, fmt.Errorf("read message body: %w", err)
		}
		if s.trace != nil {
			s.trace("received", body.Bytes())
		}
		msg, refusal := decode(body.Bytes())
		if refusal == nil {
			return msg, length, nil
		}
		if err := s.refuse(refusal.Code, refusal.Message); err != nil {
			return nil, 0, err
		}
	}
}

// waiting reports whether more has arrived than was read: a frame, or the start
// of one, the rest of which is then on its way. Only the reading goroutine may
// ask.
func (s *stream) waiting() bool { return s.in.Buffered() > 0 && !s.ended }

// decode reads a body. The refusal tells the peer what was wrong with it.
func decode(data []byte) (jsonrpc2.Message, *jsonrpc2.Error) {
	// encoding/json bounds nesting and reads to the end; the codec of jsonrpc2
	// does neither.
	if !json.Valid(data) {
		return nil, jsonrpc2.NewError(jsonrpc2.ParseError, "the message is not valid JSON")
	}
	msg, err := jsonrpc2.DecodeMessage(data)
	if err != nil { // a batch, an id that is no int32 or string, another version
		return nil, jsonrpc2.NewError(jsonrpc2.InvalidRequest, "not a JSON-RPC 2.0 message")
	}
	return msg, nil
}

// readHeader reads up to and with the empty line, and returns the
// Content-Length, which is never negative.
func readHeader(in *bufio.Reader) (int64, error) {
	length := int64(-1)
	for n := 0; ; n++ {
		line, err := readLine(in)
		if err != nil {
			if n == 0 && len(line) == 0 && errors.Is(err, io.EOF) {
				return 0, io.EOF // between frames: a client that is gone
			}
			return 0, fmt.Errorf("read header: %w", err)
		}
		text := strings.TrimSpace(line)
		if text == "" {
			if length < 0 {
				return 0, errors.New("read header: no Content-Length")
			}
			return length, nil
		}
		if n >= maxHeaderLines {
			return 0, errors.New("read header: too many lines")
		}
		name, value, ok := strings.Cut(text, ":")
		if !ok {
			return 0, errors.New("read header: a line without a colon")
		}
		if strings.EqualFold(strings.TrimSpace(name), jsonrpc2.HdrContentLength) {
			length, err = strconv.ParseInt(strings.TrimSpace(value), 10, 64)
			if err != nil || length < 0 {
				return 0, errors.New("read header: Content-Length is not a number of bytes")
			}
		}
	}
}

func readLine(in *bufio.Reader) (string, error) {
	var line []byte
	for {
		b, err := in.ReadByte()
		if err != nil {
			if errors.Is(err, io.EOF) && len(line) > 0 {
				err = io.ErrUnexpectedEOF
			}
			return string(line), err
		}
		if b == '\n' {
			return string(line), nil
		}
		if line = append(line, b); len(line) > maxHeaderLine {
			return "", errors.New("a line is too long")
		}
	}
}

// refuse answers with a null id (JSON-RPC 2.0, section 5), which
// jsonrpc2.Response cannot carry.
func (s *stream) refuse(code jsonrpc2.Code, text string) error {
	data, err := json.Marshal(map[string]any{
		"jsonrpc": jsonrpc2.Version, "id": nil,
		"error": map[string]any{"code": code, "message": text},
	})
	if err != nil {
		return err
	}
	return s.send(data)
}

// Write sends one message.
func (s *stream) Write(_ context.Context, msg jsonrpc2.Message) (int64, error) {
	data, err := json.Marshal(msg)
	if err != nil {
		return 0, err
	}
	return int64(len(data)), s.send(data)
}

// send puts header and body into one write, so that a peer never sees half a
// frame.
func (s *stream) send(data []byte) error {
	if s.trace != nil {
		s.trace("sent", data)
	}
	frame := make([]byte, 0, len(data)+40)
	frame = fmt.Appendf(frame, "Content-Length: %d\r\n\r\n", len(data))
	frame = append(frame, data...)
	s.mu.Lock()
	defer s.mu.Unlock()
	_, err := s.out.Write(frame)
	return err
}

// Close does nothing: whoever opened the two ends closes them.
func (s *stream) Close() error { return nil }
