package lsp

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"runtime"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"dandle/lsp/protocol317"
)

// patience is how long a test waits for what has to come. It is no timing: a
// sound server answers in a thousandth of it.
const patience = 3 * time.Minute

// An editor is a client in the same process, over real pipes. It keeps every
// message that passes, both ways.
type editor struct {
	t        *testing.T
	toServer *os.File
	ended    chan struct{} // Serve has returned
	exit     int
	err      error

	mu      sync.Mutex
	arrived *sync.Cond
	log     []passed
	answers map[string]func(params json.RawMessage) any // to the server's requests
	nextID  int
	gone    bool
}

// passed is a message that has passed.
type passed struct {
	fromServer bool
	raw        json.RawMessage
	wire
}

type wire struct {
	ID     json.RawMessage `json:"id"`
	Method string          `json:"method"`
	Params json.RawMessage `json:"params"`
	Result json.RawMessage `json:"result"`
	Error  *wireError      `json:"error"`
}

type wireError struct {
	Code    int    `json:"code"`
	Message string `json:"message"`
}

// connect starts a session and says nothing yet.
func connect(t *testing.T) *editor {
	t.Helper()
	theirs, toServer, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	fromServer, ours, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	e := &editor{t: t, toServer: toServer, ended: make(chan struct{}), answers: map[string]func(json.RawMessage) any{}}
	e.arrived = sync.NewCond(&e.mu)
	read := make(chan struct{})
	go func() {
		defer close(read)
		e.listen(fromServer)
	}()
	go func() {
		defer close(e.ended)
		e.exit, e.err = Serve(t.Context(), theirs, ours, Config{Version: "test"})
		ours.Close()
		theirs.Close()
	}()
	t.Cleanup(func() {
		toServer.Close()
		<-e.ended
		<-read
		noGoroutinesLeft(t)
	})
	return e
}

// noGoroutinesLeft fails where a goroutine of this package outlives its session.
func noGoroutinesLeft(t *testing.T) {
	t.Helper()
	deadline := time.Now().Add(patience)
	var left string
	for time.Now().Before(deadline) {
		left = ""
		buffer := make([]byte, 1<<20)
		for _, stack := range strings.Split(string(buffer[:runtime.Stack(buffer, true)]), "\n\n") {
			if strings.Contains(stack, "dandle/lsp.") && !strings.Contains(stack, "testing.tRunner") && !strings.Contains(stack, "testing.(*M)") {
				left += stack + "\n\n"
			}
		}
		if left == "" {
			return
		}
		runtime.Gosched()
	}
	t.Errorf("goroutines left behind:\n%s", left)
}

// listen keeps what the server says and answers its requests.
func (e *editor) listen(from io.Reader) {
	in := bufio.NewReader(from)
	defer func() {
		e.mu.Lock()
		e.gone = true
		e.mu.Unlock()
		e.arrived.Broadcast()
	}()
	for {
		head, err := in.ReadString('\n')
		if err != nil {
			if head != "" {
				e.t.Errorf("output ends inside a header: %q", head)
			}
			return
		}
		length, err := strconv.Atoi(strings.TrimSuffix(strings.TrimPrefix(head, "Content-Length: "), "\r\n"))
		if err != nil {
			e.t.Errorf("output holds what is no frame: %q", head)
			return
		}
		body := make([]byte, length+2)
		if _, err := io.ReadFull(in, body); err != nil || string(body[:2]) != "\r\n" {
			e.t.Errorf("output holds a broken frame: %v", err)
			return
		}
		p := passed{fromServer: true, raw: body[2:]}
		if err := json.Unmarshal(p.raw, &p.wire); err != nil {
			e.t.Errorf("output is not JSON: %v", err)
			return
		}
		e.mu.Lock()
		e.log = append(e.log, p)
		answer := e.answers[p.Method]
		e.mu.Unlock()
		e.arrived.Broadcast()
		if p.Method != "" && p.ID != nil {
			reply := map[string]any{"jsonrpc": "2.0", "id": p.ID, "result": nil}
			if answer != nil {
				reply["result"] = answer(p.Params)
			}
			// The session may be over by now; then nobody waits for it.
			_, _ = io.WriteString(e.toServer, frame(e.record(reply)))
		}
	}
}

// frame sets a body in a frame.
func frame(body string) string { return fmt.Sprintf("Content-Length: %d\r\n\r\n%s", len(body), body) }

// raw writes bytes as they are.
func (e *editor) raw(text string) {
	e.t.Helper()
	if _, err := io.WriteString(e.toServer, text); err != nil {
		e.t.Errorf("write to the server: %v", err)
	}
}

func (e *editor) sendValue(v any) {
	e.t.Helper()
	e.raw(frame(e.record(v)))
}

// record keeps a message of the client's, and is its text.
func (e *editor) record(v any) string {
	body, err := json.Marshal(v)
	p := passed{raw: body}
	if err == nil {
		err = json.Unmarshal(body, &p.wire)
	}
	if err != nil {
		e.t.Error(err)
		return ""
	}
	e.mu.Lock()
	e.log = append(e.log, p)
	e.mu.Unlock()
	return string(body)
}

func (e *editor) notify(method string, params any) {
	e.t.Helper()
	message := map[string]any{"jsonrpc": "2.0", "method": method}
	if params != nil {
		message["params"] = params
	}
	e.sendValue(message)
}

// start sends a request and returns its id.
func (e *editor) start(method string, params any) string {
	e.t.Helper()
	e.mu.Lock()
	e.nextID++
	id := e.nextID
	e.mu.Unlock()
	message := map[string]any{"jsonrpc": "2.0", "id": id, "method": method}
	if params != nil {
		message["params"] = params
	}
	e.sendValue(message)
	return strconv.Itoa(id)
}

// await waits for the first message from the server, of those from the place
// after on, that passes the test.
func (e *editor) await(after int, what string, test func(passed) bool) (passed, int) {
	e.t.Helper()
	expired := false
	timer := time.AfterFunc(patience, func() {
		e.mu.Lock()
		expired = true
		e.mu.Unlock()
		e.arrived.Broadcast()
	})
	defer timer.Stop()
	e.mu.Lock()
	defer e.mu.Unlock()
	for i := after; ; i++ {
		for i >= len(e.log) {
			if e.gone || expired {
				e.t.Fatalf("never came: %s", what)
			}
			e.arrived.Wait()
		}
		if p := e.log[i]; p.fromServer && test(p) {
			return p, i + 1
		}
	}
}

// answer waits for the reply to a request.
func (e *editor) answer(id string) passed {
	e.t.Helper()
	p, _ := e.await(0, "the answer to "+id, func(p passed) bool { return p.Method == "" && string(p.ID) == id })
	return p
}

// call asks and fails on an error.
func (e *editor) call(method string, params any) json.RawMessage {
	e.t.Helper()
	p := e.answer(e.start(method, params))
	if p.Error != nil {
		e.t.Fatalf("%s: error %d: %s", method, p.Error.Code, p.Error.Message)
	}
	return p.Result
}

// callInto asks and decodes the result.
func callInto[R any](e *editor, method string, params any) R {
	e.t.Helper()
	var r R
	if err := json.Unmarshal(e.call(method, params), &r); err != nil {
		e.t.Fatalf("%s: %v", method, err)
	}
	return r
}

// refused asks and wants this error.
func (e *editor) refused(code int, method string, params any) {
	e.t.Helper()
	p := e.answer(e.start(method, params))
	if p.Error == nil || p.Error.Code != code {
		e.t.Errorf("%s: got %s, want error %d", method, p.raw, code)
	}
}

// initialize opens the session with these capabilities.
func (e *editor) initialize(capabilities string) protocol317.InitializeResult {
	e.t.Helper()
	r := callInto[protocol317.InitializeResult](e, "initialize", map[string]any{
		"processId": nil, "rootUri": nil, "capabilities": json.RawMessage(capabilities),
	})
	e.notify("initialized", map[string]any{})
	return r
}

// shutdown closes the session as the protocol asks, and waits for its end.
func (e *editor) shutdown() {
	e.t.Helper()
	e.call("shutdown", nil)
	e.notify("exit", nil)
	<-e.ended
	if e.exit != 0 || e.err != nil {
		e.t.Errorf("exit code %d, %v; want 0", e.exit, e.err)
	}
}

const demo = "file:///manuscripts/lamp.verse"

func document0(uri string) map[string]any { return map[string]any{"uri": uri} }

func (e *editor) open(uri string, version int, text string) {
	e.t.Helper()
	e.notify("textDocument/didOpen", map[string]any{"textDocument": map[string]any{
		"uri": uri, "languageId": "verse", "version": version, "text": text,
	}})
}

func (e *editor) change(uri string, version int, changes ...map[string]any) {
	e.t.Helper()
	e.notify("textDocument/didChange", map[string]any{
		"textDocument": map[string]any{"uri": uri, "version": version}, "contentChanges": changes,
	})
}

func span(line, from, toLine, to int) map[string]any {
	return map[string]any{
		"start": map[string]any{"line": line, "character": from},
		"end":   map[string]any{"line": toLine, "character": to},
	}
}

// published waits for the diagnostics of a version.
func (e *editor) published(uri string, version int) protocol317.PublishDiagnosticsParams {
	e.t.Helper()
	var got protocol317.PublishDiagnosticsParams
	e.await(0, fmt.Sprintf("diagnostics of version %d", version), func(p passed) bool {
		got = protocol317.PublishDiagnosticsParams{} // lest what an earlier one says stay in it
		if p.Method != "textDocument/publishDiagnostics" || json.Unmarshal(p.Params, &got) != nil {
			return false
		}
		return string(got.URI) == uri && got.Version != nil && int(*got.Version) == version
	})
	return got
}

// publications are the versions of a document whose diagnostics came; -1 for
// none.
func (e *editor) publications(uri string) []int {
	e.mu.Lock()
	defer e.mu.Unlock()
	var out []int
	for _, p := range e.log {
		var got protocol317.PublishDiagnosticsParams
		if !p.fromServer || p.Method != "textDocument/publishDiagnostics" || json.Unmarshal(p.Params, &got) != nil || string(got.URI) != uri {
			continue
		}
		if got.Version == nil {
			out = append(out, -1)
		} else {
			out = append(out, int(*got.Version))
		}
	}
	return out
}

func compact(t *testing.T, raw json.RawMessage) string {
	t.Helper()
	var b bytes.Buffer
	if err := json.Compact(&b, raw); err != nil {
		t.Fatal(err)
	}
	return b.String()
}
