// Command sidebyside measures dandle's server against two well-known language
// servers, on one machine, one after the other: from the start of the process to
// the answer to initialize, from a letter typed to the diagnostics of that
// version, and a completion. Documents have like sizes. It prints medians and
// ratios as a table for the README.
//
//	go run ./.ci/sidebyside
//
// It builds gopls with the Go command and fetches yaml-language-server with npm,
// both pinned, into a folder that is removed again.
package main

import (
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"time"
)

// The servers that are measured against, pinned.
const (
	gopls = "golang.org/x/tools/gopls@v0.23.0"
	yaml  = "yaml-language-server@1.25.0"
)

// A server is what is measured.
type server struct {
	name     string
	command  []string
	options  json.RawMessage
	document func(size int) document
}

// How often each thing is done; the median counts.
const (
	starts = 9
	edits  = 40
)

// sizes are those of a picture book and of a long poem, in bytes.
var sizes = []int{6_000, 60_000}

func main() {
	if err := measure(); err != nil {
		fmt.Fprintln(os.Stderr, "sidebyside:", err)
		os.Exit(1)
	}
}

func measure() error {
	work, err := os.MkdirTemp("", "sidebyside")
	if err != nil {
		return err
	}
	defer os.RemoveAll(work)
	servers, err := install(work)
	if err != nil {
		return err
	}
	fmt.Println("| | size | start to `initialize` | a letter typed, to its diagnostics | a completion |\n|---|---|---|---|---|")
	var ours []figures
	for i := range servers {
		for k, size := range sizes {
			f, err := servers[i].figures(filepath.Join(work, fmt.Sprintf("folder-%d-%d", i, k)), size)
			if err != nil {
				return fmt.Errorf("%s: %w", servers[i].name, err)
			}
			if i == 0 {
				ours = append(ours, f)
			}
			fmt.Printf("| %s | %d kB | %s | %s | %s |\n", servers[i].name, size/1000,
				against(f.start, ours[k].start), against(f.typed, ours[k].typed), against(f.completed, ours[k].completed))
		}
	}
	return nil
}

// install builds dandle and fetches the others.
func install(work string) ([]server, error) {
	dandle := filepath.Join(work, "dandle")
	for _, c := range []struct {
		args []string
		env  string
	}{
		{[]string{"go", "build", "-trimpath", "-ldflags=-s -w", "-o", dandle, "./cmd/dandle"}, "CGO_ENABLED=0"},
		{[]string{"go", "install", gopls}, "GOBIN=" + work},
		{[]string{"npm", "install", "--silent", "--no-audit", "--no-fund", "--prefix", work, yaml}, "CI=1"},
	} {
		command := exec.Command(c.args[0], c.args[1:]...)
		command.Env = append(os.Environ(), c.env)
		if said, err := command.CombinedOutput(); err != nil {
			return nil, fmt.Errorf("%v: %w\n%s", c.args, err, said)
		}
	}
	return []server{
		{"dandle", []string{dandle, "serve"}, nil, verse},
		// Its own second of waiting before diagnostics is taken away.
		{"gopls", []string{filepath.Join(work, "gopls")}, json.RawMessage(`{"diagnosticsDelay":"0s"}`), program},
		{"yaml-language-server", []string{filepath.Join(work, "node_modules", ".bin", "yaml-language-server"), "--stdio"}, nil, list},
	}, nil
}

// figures are the medians of one server with one document.
type figures struct{ start, typed, completed time.Duration }

func (s *server) figures(folder string, size int) (f figures, err error) {
	d := s.document(size)
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return f, err
	}
	path := filepath.Join(folder, d.file)
	for name, text := range map[string]string{path: d.text, filepath.Join(folder, "go.mod"): "module book\n\ngo 1.26\n"} {
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			return f, err
		}
	}
	var times []time.Duration
	for range starts {
		c, took, err := start(s, folder)
		if err != nil {
			return f, err
		}
		times = append(times, took)
		c.stop()
	}
	f.start = median(times)
	c, _, err := start(s, folder)
	if err != nil {
		return f, err
	}
	defer c.stop()
	f.typed, f.completed, err = c.edit(&d, "file://"+path)
	return f, err
}

// edit opens a document, types a letter and takes it back again and again, and
// asks for completions.
func (c *client) edit(d *document, uri string) (typed, completed time.Duration, err error) {
	about := map[string]any{"uri": uri}
	diagnosed := func(version int) error {
		return c.await("diagnostics", func(m *message) bool {
			return m.Method == "textDocument/publishDiagnostics" && m.Params.URI == uri && (m.Params.Version == nil || *m.Params.Version >= version)
		})
	}
	if err := c.send(map[string]any{"method": "textDocument/didOpen", "params": map[string]any{"textDocument": map[string]any{"uri": uri, "languageId": d.language, "version": 0, "text": d.text}}}); err != nil {
		return 0, 0, err
	}
	if err := diagnosed(0); err != nil {
		return 0, 0, err
	}
	var letters, answers []time.Duration
	for version := 1; version <= edits; version++ {
		from, to, text := d.column, d.column, d.letter
		if version%2 == 0 {
			to, text = d.column+len(d.letter), ""
		}
		begun := time.Now()
		err := c.send(map[string]any{"method": "textDocument/didChange", "params": map[string]any{
			"textDocument": map[string]any{"uri": uri, "version": version},
			"contentChanges": []any{map[string]any{
				"range": map[string]any{"start": position(d.line, from), "end": position(d.line, to)}, "text": text,
			}},
		}})
		if err == nil {
			err = diagnosed(version)
		}
		if err != nil {
			return 0, 0, err
		}
		letters = append(letters, time.Since(begun))
		if version%2 == 0 {
			took, err := c.ask("textDocument/completion", map[string]any{"textDocument": about, "position": position(d.ask[0], d.ask[1])})
			if err != nil {
				return 0, 0, err
			}
			answers = append(answers, took)
		}
	}
	return median(letters), median(answers), nil
}

func position(line, column int) map[string]any {
	return map[string]any{"line": line, "character": column}
}

func median(list []time.Duration) time.Duration {
	slices.Sort(list)
	return list[len(list)/2]
}

// against is a time with its ratio to ours.
func against(took, ours time.Duration) string {
	text := fmt.Sprintf("%.2g ms", float64(took.Microseconds())/1000)
	if took >= 10*time.Millisecond {
		text = fmt.Sprintf("%d ms", took.Milliseconds())
	}
	if took == ours {
		return text
	}
	return fmt.Sprintf("%s (%.1f ×)", text, float64(took)/float64(ours))
}
