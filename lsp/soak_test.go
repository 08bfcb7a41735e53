package lsp

import (
	"encoding/json"
	"flag"
	"fmt"
	"math/rand/v2"
	"net"
	"runtime"
	"slices"
	"sync"
	"testing"
	"time"

	"dandle/lsp/protocol317"

	"go.lsp.dev/jsonrpc2"
)

var soak = flag.Duration("soak", 0, "how long TestSoak edits; without it, for some hundred edits")

// TestSoak edits and asks at random over a real socket: no reply is lost, none
// is an internal error, and memory stays flat. Run it for ten minutes with
//
//	go test ./lsp -run Soak -soak 10m -v -timeout 0
func TestSoak(t *testing.T) {
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Skipf("no sockets here: %v", err)
	}
	defer listener.Close()
	served := make(chan int, 1)
	go func() {
		conn, err := listener.Accept()
		if err != nil {
			served <- -1
			return
		}
		defer conn.Close()
		code, _ := Serve(t.Context(), conn, conn, Config{})
		served <- code
	}()
	conn, err := net.Dial("tcp", listener.Addr().String())
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()

	var mu sync.Mutex
	waiting := map[string]string{} // id → method
	counts := map[string]int{}
	free := make(chan struct{}, 16) // how many requests may be open
	read := make(chan error, 1)
	go func() {
		frames := newStream(conn, nil)
		for {
			length, err := readHeader(frames.in)
			if err != nil {
				read <- err
				return
			}
			body := make([]byte, length)
			for n := 0; n < len(body); {
				m, err := frames.in.Read(body[n:])
				if err != nil {
					read <- err
					return
				}
				n += m
			}
			var w wire
			if err := json.Unmarshal(body, &w); err != nil {
				read <- err
				return
			}
			mu.Lock()
			if w.Method == "" {
				if _, ok := waiting[string(w.ID)]; !ok {
					t.Errorf("an answer to nothing: %.200s", body)
				}
				delete(waiting, string(w.ID))
				counts["answers"]++
				if w.Error != nil {
					counts[fmt.Sprint("error ", w.Error.Code)]++
					if jsonrpc2.Code(w.Error.Code) == jsonrpc2.InternalError {
						t.Errorf("%.300s", body)
					}
				}
				<-free
			} else {
				counts[w.Method]++
			}
			mu.Unlock()
		}
	}()
	send := func(v map[string]any) {
		v["jsonrpc"] = "2.0"
		body, err := json.Marshal(v)
		if err == nil {
			_, err = conn.Write([]byte(frame(string(body))))
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	id := 0
	ask := func(method string, params any) {
		free <- struct{}{}
		id++
		mu.Lock()
		waiting[itoa(id)] = method
		mu.Unlock()
		send(map[string]any{"id": id, "method": method, "params": params})
	}
	ask("initialize", map[string]any{"processId": nil, "rootUri": nil, "capabilities": map[string]any{"textDocument": map[string]any{"codeAction": map[string]any{"codeActionLiteralSupport": map[string]any{"codeActionKind": map[string]any{"valueSet": []any{}}}}}}})
	for range cap(free) { // initialize is answered
		free <- struct{}{}
	}
	for range cap(free) {
		<-free
	}
	send(map[string]any{"method": "initialized", "params": map[string]any{}})
	r := rand.New(rand.NewPCG(3, 5))
	start := model(encodeUTF16(longBook(600)))
	m := start
	send(map[string]any{"method": "textDocument/didOpen", "params": map[string]any{"textDocument": map[string]any{"uri": demo, "languageId": "verse", "version": 0, "text": m.String()}}})
	var heaps []uint64
	begun := time.Now()
	for n := 1; *soak == 0 && n <= 300 || *soak > 0 && time.Since(begun) < *soak; n++ {
		var changes []change
		if changes, m = randomChanges(r, m); n%100 == 0 {
			m = start // so that the text neither grows nor fades
			changes = []change{{Text: m.String()}}
		}
		send(map[string]any{"method": "textDocument/didChange", "params": protocol317.DidChangeTextDocumentParams{
			TextDocument: protocol317.VersionedTextDocumentIdentifier{URI: demo, Version: int32(n)}, ContentChanges: changes,
		}})
		for method := range routes {
			if r.IntN(8) > 0 || method == "shutdown" || method == "workspace/executeCommand" {
				continue
			}
			at := m.position(m.pick(r))
			place := map[string]any{"start": at, "end": at}
			ask(method, map[string]any{
				"textDocument": document0(demo), "position": at, "positions": []any{at}, "range": place, "newName": "Moll", "query": "moon",
				"context": map[string]any{"diagnostics": []any{}, "includeDeclaration": true}, "options": map[string]any{"tabSize": 4, "insertSpaces": true},
				"previousResultId": "1", "previousResultIds": []any{},
			})
			if r.IntN(3) == 0 {
				send(map[string]any{"method": "$/cancelRequest", "params": map[string]any{"id": id}})
			}
		}
		if n%200 == 0 {
			var stats runtime.MemStats
			runtime.GC()
			runtime.ReadMemStats(&stats)
			heaps = append(heaps, stats.HeapAlloc)
		}
	}
	ask("shutdown", nil)
	send(map[string]any{"method": "exit"})
	if code := <-served; code != 0 {
		t.Errorf("exit code %d", code)
	}
	<-read
	if len(waiting) > 0 {
		t.Errorf("never answered: %v", waiting)
	}
	t.Logf("%d edits; %v", len(heaps)*200, counts)
	// What is remembered fills up at first; from the second quarter on the heap
	// has to be flat.
	if quarter := len(heaps) / 4; quarter > 1 {
		early, late := slices.Max(heaps[quarter:2*quarter]), slices.Max(heaps[3*quarter:])
		t.Logf("heap at most %d kB in the second quarter, %d kB in the last", early>>10, late>>10)
		if late > early+early/4+(1<<20) {
			t.Errorf("the heap grew from %d to %d bytes", early, late)
		}
	}
}
