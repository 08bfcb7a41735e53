package main

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// shown is a block of the README that shows a command and what it prints.
var shown = regexp.MustCompile("(?m)^```console\n\\$ go run \\./cmd/dandle (.*)\n((?s:.*?))^```$")

// TestReadme runs what the README shows, at the repository's root; -update
// rewrites what it prints.
func TestReadme(t *testing.T) {
	path := filepath.Join(root(t), "README.md")
	t.Chdir(root(t))
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	blocks := 0
	current := shown.ReplaceAllStringFunc(string(text), func(block string) string {
		blocks++
		part := shown.FindStringSubmatch(block)
		var out, stderr bytes.Buffer
		s := &session{in: strings.NewReader(""), out: &out, direct: &out, err: &stderr}
		if code := s.run(strings.Fields(part[1])); code != exitFine {
			t.Errorf("dandle %s: exit code %d: %s", part[1], code, stderr.String())
		}
		return "```console\n$ go run ./cmd/dandle " + part[1] + "\n" + out.String() + "```"
	})
	if blocks == 0 {
		t.Error("the README shows no command")
	}
	if *update {
		if err := os.WriteFile(path, []byte(current), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if diff := cmp.Diff(string(text), current); diff != "" {
		t.Errorf("the README shows other output than the program prints (-README +program); go test ./cmd/dandle -update rewrites it:\n%s", diff)
	}
}
