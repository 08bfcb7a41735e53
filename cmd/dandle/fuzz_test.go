package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"dandle/analysis/docx"
)

// FuzzCommands gives any bytes to the commands that read manuscripts. They end
// with 0, or with 2 and one line where the bytes are no text; JSON is JSON, and
// nothing that could steer a terminal is passed on.
func FuzzCommands(f *testing.F) {
	for _, pattern := range []string{"../../testdata/manuscripts/*.verse", "../../testdata/docx/*.docx"} {
		paths, err := filepath.Glob(pattern)
		if err != nil || len(paths) == 0 {
			f.Fatalf("no %s to start from (%v)", pattern, err)
		}
		for _, path := range paths {
			text, err := os.ReadFile(path)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(text)
		}
	}
	for _, text := range []string{"", "\ufeff", "\r", "a\x1b[2Jb", "caf\xe9", "---\ntitle", "*[<!--", "x\u2028y", "PK\x03\x04", "%PDF-1.7", `{\rtf1`} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		for _, args := range [][]string{
			{"check", "-"},
			{"check", "-f", "json", "-"},
			{"check", "-f", "sarif", "-"},
			{"scan", "-"},
			{"scan", "-f", "json", "-"},
			{"critique", "-"},
			{"convert", "--format=verse", "-"},
			{"convert", "--format=txt", "-"},
			{"convert", "--format=docx", "-o=-", "-"},
			{"critique", "--format=docx", "-o=-", "-"},
		} {
			var out, stderr bytes.Buffer
			s := &session{in: bytes.NewReader(text), out: &out, direct: &out, err: &stderr}
			code := s.run(args)
			readable := utf8.Valid(text) && docx.Foreign(text) == nil
			if code == exitBad && (!readable || docx.Is(text)) {
				if strings.Count(stderr.String(), "\n") != 1 {
					t.Fatalf("dandle %s: said %q", strings.Join(args, " "), stderr.String())
				}
				continue
			}
			// What is amiss in the front matter is told there.
			if code != exitFine || strings.Count(stderr.String(), "\n") > 2*maxAmiss || !readable && !docx.Is(text) || strings.Contains(stderr.String(), "a fault in dandle") {
				t.Fatalf("dandle %s: exit code %d, said %q", strings.Join(args, " "), code, stderr.String())
			}
			if args[1] == "-f" && !json.Valid(out.Bytes()) {
				t.Fatalf("dandle %s: no JSON: %q", strings.Join(args, " "), out.Bytes())
			}
			if args[0] != "convert" && args[0] != "critique" && bytes.ContainsAny(out.Bytes(), "\x1b\x07\x08\r") {
				t.Fatalf("dandle %s: a control character got through: %q", strings.Join(args, " "), out.Bytes())
			}
		}
	})
}
