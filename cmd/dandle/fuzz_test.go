package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"
)

// FuzzCommands gives any bytes to the commands that read manuscripts. They end
// with 0, or with 2 and one line where the bytes are no text; JSON is JSON, and
// nothing that could steer a terminal is passed on.
func FuzzCommands(f *testing.F) {
	paths, err := filepath.Glob("../../testdata/manuscripts/*.verse")
	if err != nil || len(paths) == 0 {
		f.Fatalf("no manuscripts to start from (%v)", err)
	}
	for _, path := range paths {
		text, err := os.ReadFile(path)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(text)
	}
	for _, text := range []string{"", "\ufeff", "\r", "a\x1b[2Jb", "caf\xe9", "---\ntitle", "*[<!--", "x\u2028y"} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		for _, args := range [][]string{
			{"check", "-"}, {"check", "-f", "json", "-"}, {"check", "-f", "sarif", "-"}, {"scan", "-"}, {"scan", "-f", "json", "-"},
		} {
			var out, stderr bytes.Buffer
			s := &session{in: bytes.NewReader(text), out: &out, direct: &out, err: &stderr}
			code := s.run(args)
			if !utf8.Valid(text) {
				if code != exitBad || strings.Count(stderr.String(), "\n") != 1 {
					t.Fatalf("dandle %s: exit code %d, said %q", strings.Join(args, " "), code, stderr.String())
				}
				continue
			}
			// What is amiss in the front matter is told there.
			if code != exitFine || strings.Count(stderr.String(), "\n") > maxAmiss || strings.Contains(stderr.String(), "a fault in dandle") {
				t.Fatalf("dandle %s: exit code %d, said %q", strings.Join(args, " "), code, stderr.String())
			}
			if len(args) == 4 && !json.Valid(out.Bytes()) {
				t.Fatalf("dandle %s: no JSON: %q", strings.Join(args, " "), out.Bytes())
			}
			if bytes.ContainsAny(out.Bytes(), "\x1b\x07\x08\r") {
				t.Fatalf("dandle %s: a control character got through: %q", strings.Join(args, " "), out.Bytes())
			}
		}
	})
}
