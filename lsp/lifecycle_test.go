package lsp

import (
	"encoding/json"
	"os"
	"strings"
	"testing"

	"dandle/lsp/protocol317"
)

// The codes and exit codes are those of LSP 3.17, "Server lifecycle" and
// "ErrorCodes".
const (
	codeParse          = -32700
	codeInvalidRequest = -32600
	codeNoMethod       = -32601
	codeInvalidParams  = -32602
	codeNotInitialized = -32002
	codeCancelled      = -32800
	codeStale          = -32801
)

func TestRequestsBeforeInitialize(t *testing.T) {
	e := connect(t)
	e.refused(codeNotInitialized, "textDocument/hover", map[string]any{})
	e.refused(codeNotInitialized, "shutdown", nil)
	e.open(demo, 1, "dropped") // a notification before initialize is dropped
	e.initialize(`{}`)
	e.refused(codeInvalidParams, "textDocument/hover", map[string]any{
		"textDocument": document0(demo), "position": map[string]any{"line": 0, "character": 0},
	})
	e.refused(codeInvalidRequest, "initialize", map[string]any{"processId": nil, "rootUri": nil, "capabilities": map[string]any{}})
	e.shutdown()
}

func TestInitializeThatFailsMayBeSentAgain(t *testing.T) {
	e := connect(t)
	e.refused(codeInvalidParams, "initialize", []any{})
	e.refused(codeInvalidParams, "initialize", map[string]any{"capabilities": 7})
	e.refused(codeInvalidParams, "initialize", nil)
	e.initialize(`{}`)
	e.shutdown()
}

func TestAfterShutdownOnlyExit(t *testing.T) {
	e := connect(t)
	e.initialize(`{}`)
	e.call("shutdown", map[string]any{}) // params are none of its business
	e.refused(codeInvalidRequest, "textDocument/hover", map[string]any{})
	e.refused(codeInvalidRequest, "shutdown", nil)
	e.open(demo, 1, "The lamp went out.")
	e.notify("exit", nil)
	<-e.ended
	if e.exit != 0 {
		t.Errorf("exit code %d, want 0", e.exit)
	}
	if got := e.publications(demo); got != nil {
		t.Errorf("published %v after shutdown", got)
	}
}

func TestExitCodes(t *testing.T) {
	for _, test := range []struct {
		name string
		end  func(e *editor)
		want int
	}{
		{"exit without shutdown", func(e *editor) { e.notify("exit", nil) }, 1},
		{"exit before initialize", func(e *editor) { e.notify("exit", nil) }, 1},
		{"end of input", func(e *editor) { e.toServer.Close() }, 1},
		{"end of input after shutdown", func(e *editor) { e.call("shutdown", nil); e.toServer.Close() }, 0},
		{"a broken header", func(e *editor) { e.raw("Content-Length: many\r\n\r\n") }, 1},
	} {
		t.Run(test.name, func(t *testing.T) {
			e := connect(t)
			if !strings.Contains(test.name, "before initialize") {
				e.initialize(`{}`)
			}
			test.end(e)
			<-e.ended
			if e.exit != test.want || test.want == 1 && e.err == nil && !strings.HasPrefix(test.name, "exit") {
				t.Errorf("exit code %d, error %v; want %d", e.exit, e.err, test.want)
			}
		})
	}
}

func TestUnknownMethods(t *testing.T) {
	e := connect(t)
	e.initialize(`{}`)
	e.refused(codeNoMethod, "textDocument/sing", map[string]any{})
	e.refused(codeNoMethod, "$/sing", nil)
	e.notify("$/sing", nil) // ignored
	e.notify("textDocument/sing", map[string]any{})
	e.shutdown()
}

// The pins matter: jsonrpc2 v1 does not compile with protocol v0.12.0, and go
// get -u would take it.
func TestPins(t *testing.T) {
	mod, err := os.ReadFile("../go.mod")
	if err != nil {
		t.Fatal(err)
	}
	for _, pin := range []string{
		"go.lsp.dev/protocol v0.12.0", "go.lsp.dev/jsonrpc2 v0.10.0", "go.lsp.dev/uri v1.0.1", "go.uber.org/zap v1.28.0",
	} {
		found := false
		for line := range strings.Lines(string(mod)) {
			line = strings.TrimSuffix(strings.TrimSpace(line), " // indirect")
			found = found || strings.TrimPrefix(line, "require ") == pin
		}
		if !found {
			t.Errorf("go.mod does not require %s", pin)
		}
	}
}

func TestInitializeNegotiatesPositions(t *testing.T) {
	for offered, want := range map[string]string{
		`{}`: "utf-16",
		`{"general":{"positionEncodings":["utf-8","utf-16"]}}`:  "utf-8",
		`{"general":{"positionEncodings":["utf-32","utf-16"]}}`: "utf-32",
		`{"general":{"positionEncodings":["utf-7"]}}`:           "utf-16",
	} {
		e := connect(t)
		r := e.initialize(offered)
		if string(r.Capabilities.PositionEncoding) != want {
			t.Errorf("%s: got %s, want %s", offered, r.Capabilities.PositionEncoding, want)
		}
		e.shutdown()
	}
}

// An editor that counts otherwise than it announces may say so; what is not known
// is not taken.
func TestStatedPositions(t *testing.T) {
	for options, want := range map[string]string{
		`{"positionEncoding":"utf-8"}`: "utf-8",
		`{"positionEncoding":"bytes"}`: "utf-16",
		`{"positionEncoding":8}`:       "utf-16",
		`null`:                         "utf-16",
	} {
		e := connect(t)
		r := callInto[protocol317.InitializeResult](e, "initialize", map[string]any{
			"processId": nil, "rootUri": nil, "capabilities": map[string]any{}, "initializationOptions": json.RawMessage(options),
		})
		if string(r.Capabilities.PositionEncoding) != want {
			t.Errorf("%s: got %s, want %s", options, r.Capabilities.PositionEncoding, want)
		}
		e.shutdown()
	}
}

func TestNullIDAndStringIDs(t *testing.T) {
	e := connect(t)
	e.initialize(`{}`)
	e.sendValue(map[string]any{"jsonrpc": "2.0", "id": "quill", "method": "textDocument/sing"})
	e.await(0, "answer to a string id", func(p passed) bool { return string(p.ID) == `"quill"` && p.Error.Code == codeNoMethod })
	e.shutdown()
}

func TestBadBodiesKeepTheConnection(t *testing.T) {
	for _, test := range []struct {
		name, body string
		code       int
	}{
		{"not JSON", `{nope`, codeParse},
		{"nothing", ``, codeParse},
		{"a batch", `[{"jsonrpc":"2.0","id":1,"method":"shutdown"}]`, codeInvalidRequest},
		{"an empty object", `{}`, codeInvalidRequest},
		{"another version", `{"jsonrpc":"1.0","id":1,"method":"shutdown"}`, codeInvalidRequest},
		{"more after the message", `{"jsonrpc":"2.0","id":1,"method":"shutdown"} junk`, codeParse},
		{"a number", `7`, codeInvalidRequest},
		{"a fractional id", `{"jsonrpc":"2.0","id":1.5,"method":"shutdown"}`, codeInvalidRequest},
		{"an id over int32", `{"jsonrpc":"2.0","id":99999999999,"method":"shutdown"}`, codeInvalidRequest},
		{"an object for an id", `{"jsonrpc":"2.0","id":{},"method":"shutdown"}`, codeInvalidRequest},
		{"deep nesting", strings.Repeat("[", 1_000_000), codeParse},
		{"deep nesting in params", `{"jsonrpc":"2.0","id":1,"method":"x","params":` + strings.Repeat("[", 20_000) + strings.Repeat("]", 20_000) + `}`, codeParse},
		{"bytes that are no UTF-8", "\xff\xfe", codeParse},
	} {
		t.Run(test.name, func(t *testing.T) {
			e := connect(t)
			e.raw(frame(test.body))
			p, _ := e.await(0, "a refusal", func(p passed) bool { return p.Error != nil })
			if p.Error.Code != test.code || string(p.ID) != "null" {
				t.Errorf("got %s, want error %d with a null id", p.raw, test.code)
			}
			e.initialize(`{}`)
			e.shutdown()
		})
	}
}

func TestFramesInTheirOwnManner(t *testing.T) {
	e := connect(t)
	body := `{"jsonrpc":"2.0","id":7,"method":"initialize","params":{"processId":null,"rootUri":null,"capabilities":{}}}`
	e.raw("content-type: application/vscode-jsonrpc; charset=utf-8\r\ncontent-LENGTH:  " + json.Number(itoa(len(body))).String() + " \r\n\r\n" + body)
	if p := e.answer("7"); p.Error != nil {
		t.Errorf("got %s", p.raw)
	}
}

func TestMessageOverTheLimitIsReadAway(t *testing.T) {
	e := connect(t)
	chunk := strings.Repeat("a", 1<<20)
	e.raw("Content-Length: " + itoa(maxBody+len(chunk)) + "\r\n\r\n")
	for range maxBody/len(chunk) + 1 {
		e.raw(chunk)
	}
	p, _ := e.await(0, "a refusal", func(p passed) bool { return p.Error != nil })
	if p.Error.Code != codeInvalidRequest {
		t.Errorf("got %s", p.raw)
	}
	e.initialize(`{}`)
	e.shutdown()
}

func TestBadHeadersEndTheSession(t *testing.T) {
	for _, head := range []string{
		"X: 1\r\n\r\n", "Content-Length: x\r\n\r\n", "Content-Length: -1\r\n\r\n", "no colon\r\n\r\n",
		"Content-Length: 99999999999999999999\r\n\r\n", strings.Repeat("A", maxHeaderLine+1), "Content-Length: 1",
		strings.Repeat("A: b\r\n", maxHeaderLines+1),
	} {
		s := newStream(strings.NewReader(head), nil)
		if msg, _, err := s.Read(t.Context()); err == nil {
			t.Errorf("%.40q: no error, message %v", head, msg)
		}
	}
}
