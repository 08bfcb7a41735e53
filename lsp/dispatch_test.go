package lsp

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"strings"
	"testing"

	"go.lsp.dev/jsonrpc2"
	"go.uber.org/zap"
	"go.uber.org/zap/zapcore"
)

// toy makes a session of a dispatcher whose requests are: "slow", which ends
// when it is cancelled; "read", which answers with the number of notifications
// that came before it; "boom", which panics in its work, and "bang", which
// panics in its preparation.
func toy(t *testing.T, log *zap.Logger) (d *dispatcher, send func(string), expect func(string)) {
	t.Helper()
	d = newDispatcher(log)
	d.state = running
	changes := 0
	d.handled = func() {}
	d.notify = func(method string, _ json.RawMessage) {
		if method == "boom" {
			panic("the moon rows over")
		}
		changes++
	}
	d.prepare = func(method string, _ json.RawMessage) (work, error) {
		if method == "bang" {
			panic(method)
		}
		seen := changes
		return func(ctx context.Context) (any, error) {
			switch method {
			case "slow":
				<-ctx.Done()
			case "boom":
				panic("the moon rows over")
			}
			return seen, nil
		}, nil
	}
	theirs, toServer := io.Pipe()
	fromServer, ours := io.Pipe()
	conn := jsonrpc2.NewConn(newStream(theirs, ours))
	conn.Go(t.Context(), d.handle)
	t.Cleanup(func() {
		toServer.Close()
		fromServer.Close()
		<-conn.Done()
		d.workers.Wait()
	})
	replies := newStream(fromServer, io.Discard)
	send = func(body string) {
		t.Helper()
		if _, err := io.WriteString(toServer, frame(body)); err != nil {
			t.Fatal(err)
		}
	}
	expect = func(part string) {
		t.Helper()
		msg, _, err := replies.Read(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		text, err := json.Marshal(msg)
		if err != nil || !strings.Contains(string(text), part) {
			t.Fatalf("got %s, want %s", text, part)
		}
	}
	return d, send, expect
}

func TestCancelByNumberAndByName(t *testing.T) {
	_, send, expect := toy(t, zap.NewNop())
	for _, id := range []string{"1", `"one"`} {
		send(`{"jsonrpc":"2.0","id":` + id + `,"method":"slow"}`)
		send(`{"jsonrpc":"2.0","id":2,"method":"read"}`)
		expect(`"id":2`) // does not wait for the slow one
		send(`{"jsonrpc":"2.0","method":"$/cancelRequest","params":{"id":` + id + `}}`)
		expect(fmt.Sprint(codeCancelled))
	}
	send(`{"jsonrpc":"2.0","method":"$/cancelRequest","params":{"id":99}}`) // of nothing
	send(`{"jsonrpc":"2.0","method":"$/cancelRequest","params":[]}`)
	send(`{"jsonrpc":"2.0","id":3,"method":"read"}`)
	expect(`"id":3`)
}

func TestCancelWhileWaitingForAPlace(t *testing.T) {
	d, send, expect := toy(t, zap.NewNop())
	for n := range cap(d.busy) {
		send(fmt.Sprintf(`{"jsonrpc":"2.0","id":%d,"method":"slow"}`, n))
	}
	send(`{"jsonrpc":"2.0","id":1000,"method":"slow"}`)
	send(`{"jsonrpc":"2.0","method":"$/cancelRequest","params":{"id":1000}}`)
	expect(fmt.Sprint(codeCancelled))
	for n := range cap(d.busy) {
		send(fmt.Sprintf(`{"jsonrpc":"2.0","method":"$/cancelRequest","params":{"id":%d}}`, n))
		expect(fmt.Sprint(codeCancelled))
	}
}

func TestARequestSeesTheChangesBeforeItAndNoOthers(t *testing.T) {
	_, send, expect := toy(t, zap.NewNop())
	for n := 1; n <= 200; n++ {
		send(`{"jsonrpc":"2.0","method":"change"}`)
		send(fmt.Sprintf(`{"jsonrpc":"2.0","id":%d,"method":"read"}`, n))
		expect(fmt.Sprintf(`"result":%d,"id":%d`, n, n))
	}
}

func TestAnIDInUseIsRefused(t *testing.T) {
	_, send, expect := toy(t, zap.NewNop())
	send(`{"jsonrpc":"2.0","id":1,"method":"slow"}`)
	send(`{"jsonrpc":"2.0","id":1,"method":"read"}`)
	expect(fmt.Sprint(codeInvalidRequest))
	send(`{"jsonrpc":"2.0","method":"$/cancelRequest","params":{"id":1}}`)
	expect(fmt.Sprint(codeCancelled))
	send(`{"jsonrpc":"2.0","id":1,"method":"read"}`) // free again
	expect(`"result":0`)
}

func TestAPanicIsContainedAndQuotesNoVerse(t *testing.T) {
	var text bytes.Buffer
	encoder := zapcore.NewConsoleEncoder(zap.NewProductionEncoderConfig())
	log := zap.New(zapcore.NewCore(encoder, zapcore.Lock(zapcore.AddSync(&text)), zap.InfoLevel))
	_, send, expect := toy(t, log)
	send(`{"jsonrpc":"2.0","method":"boom"}`)
	send(`{"jsonrpc":"2.0","id":"a","method":"boom"}`)
	expect("-32603")
	send(`{"jsonrpc":"2.0","id":"b","method":"bang"}`)
	expect("-32603")
	send(`{"jsonrpc":"2.0","id":2,"method":"read"}`)
	expect(`"id":2`)
	if got := text.String(); strings.Count(got, "panic") < 3 || !strings.Contains(got, "dispatch_test.go") || strings.Contains(got, "moon") {
		t.Errorf("the log has to hold three panics with their stacks and no verse:\n%s", got)
	}
}
