package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"os/exec"
	"strconv"
	"strings"
	"time"
)

// patience is how long a server may take for one answer.
const patience = 2 * time.Minute

// A client is an editor that says no more than is measured.
type client struct {
	process *exec.Cmd
	in      io.WriteCloser
	arrived chan message
	nextID  int
	options json.RawMessage // what the server gets for its configuration
}

type message struct {
	ID     json.RawMessage `json:"id"`
	Method string          `json:"method"`
	Params struct {
		URI     string            `json:"uri"`
		Version *int              `json:"version"`
		Items   []json.RawMessage `json:"items"`
		// Diagnostics are counted, not read.
		Diagnostics []json.RawMessage `json:"diagnostics"`
	} `json:"params"`
	Error *struct {
		Message string `json:"message"`
	} `json:"error"`
}

// start starts a server and returns how long it took to answer initialize.
func start(s *server, folder string) (*client, time.Duration, error) {
	begun := time.Now()
	c := &client{process: exec.Command(s.command[0], s.command[1:]...), arrived: make(chan message, 1024), options: s.options}
	c.process.Dir = folder
	in, err := c.process.StdinPipe()
	if err != nil {
		return nil, 0, err
	}
	out, err := c.process.StdoutPipe()
	if err != nil {
		return nil, 0, err
	}
	c.in = in
	if err := c.process.Start(); err != nil {
		return nil, 0, err
	}
	go c.listen(out)
	_, err = c.ask("initialize", map[string]any{
		"processId": nil, "rootUri": "file://" + folder, "initializationOptions": s.options,
		"workspaceFolders": []any{map[string]any{"uri": "file://" + folder, "name": "folder"}},
		"capabilities": map[string]any{
			"workspace":    map[string]any{"configuration": true},
			"textDocument": map[string]any{"publishDiagnostics": map[string]any{"versionSupport": true}},
		},
	})
	took := time.Since(begun)
	if err != nil {
		return nil, 0, err
	}
	return c, took, c.send(map[string]any{"method": "initialized", "params": map[string]any{}})
}

func (c *client) listen(out io.Reader) {
	defer close(c.arrived)
	in := bufio.NewReaderSize(out, 1<<20)
	for {
		length := 0
		for {
			line, err := in.ReadString('\n')
			if err != nil {
				return
			}
			line = strings.TrimSpace(line)
			if line == "" {
				break
			}
			if value, ok := strings.CutPrefix(strings.ToLower(line), "content-length:"); ok {
				length, _ = strconv.Atoi(strings.TrimSpace(value))
			}
		}
		body := make([]byte, length)
		if _, err := io.ReadFull(in, body); err != nil {
			return
		}
		var m message
		if json.Unmarshal(body, &m) == nil {
			c.arrived <- m
		}
	}
}

func (c *client) send(m map[string]any) error {
	m["jsonrpc"] = "2.0"
	body, err := json.Marshal(m)
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(c.in, "Content-Length: %d\r\n\r\n%s", len(body), body)
	return err
}

// await reads until a message is the one, and answers the server's questions.
func (c *client) await(what string, is func(*message) bool) error {
	limit := time.After(patience)
	for {
		select {
		case m, open := <-c.arrived:
			if !open {
				return fmt.Errorf("the server ended before %s", what)
			}
			if m.Method != "" && m.ID != nil {
				if err := c.reply(&m); err != nil {
					return err
				}
				continue
			}
			if is(&m) {
				return nil
			}
		case <-limit:
			return fmt.Errorf("no %s within %v", what, patience)
		}
	}
}

// reply gives a server that asks for its configuration what it started with,
// and says nothing to all else.
func (c *client) reply(m *message) error {
	var result any
	if m.Method == "workspace/configuration" {
		list := make([]any, len(m.Params.Items))
		for i := range list {
			list[i] = c.options
		}
		result = list
	}
	return c.send(map[string]any{"id": m.ID, "result": result})
}

// ask waits for the answer to a request and returns how long it took.
func (c *client) ask(method string, params any) (time.Duration, error) {
	c.nextID++
	id := strconv.Itoa(c.nextID)
	begun := time.Now()
	if err := c.send(map[string]any{"id": c.nextID, "method": method, "params": params}); err != nil {
		return 0, err
	}
	var failed error
	err := c.await("answer to "+method, func(m *message) bool {
		if string(m.ID) != id {
			return false
		}
		if m.Error != nil {
			failed = fmt.Errorf("%s: %s", method, m.Error.Message)
		}
		return true
	})
	if err == nil {
		err = failed
	}
	return time.Since(begun), err
}

// stop ends the server.
func (c *client) stop() {
	_, _ = c.ask("shutdown", nil)
	_ = c.send(map[string]any{"method": "exit"})
	_ = c.in.Close()
	for range c.arrived {
	}
	_ = c.process.Wait()
}
