package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// module is the module's path, and the start of every package's of ours.
const module = "dandle"

// A floor is a part of the program, with what it may stand on.
type floor struct {
	name    string
	below   []string // the floors it may import, besides itself
	unknown []string // what it must not know, by the start of the import path
}

// floors are the program's parts from the top down.
var floors = []floor{
	{name: "cmd", below: []string{"lsp", "analysis", "phonetics"}, unknown: []string{"go.lsp.dev/"}},
	{name: "lsp", below: []string{"analysis", "phonetics"}},
	{name: "analysis", below: []string{"phonetics"}, unknown: []string{"encoding/json", "go.lsp.dev/", "go.uber.org/zap"}},
	{name: "phonetics", unknown: []string{"encoding/json", "go.lsp.dev/", "go.uber.org/zap"}},
}

type listed struct {
	Name                               string
	ImportPath                         string
	Imports, TestImports, XTestImports []string
}

// TestFloors reads every import of the module: arrows go down only.
func TestFloors(t *testing.T) {
	packages := listPackages(t)
	if len(packages) < len(floors) {
		t.Fatalf("only %d packages listed", len(packages))
	}
	for _, p := range packages {
		for _, imported := range p.Imports {
			if p.Name == "main" && floorOf(p.ImportPath) != "cmd" && !strings.HasPrefix(imported, module+"/") {
				continue // a program that makes a package's data, which nothing can import
			}
			if fault := upward(p.ImportPath, imported); fault != "" {
				t.Errorf("%s imports %s: %s", p.ImportPath, imported, fault)
			}
		}
		for _, imported := range slices.Concat(p.TestImports, p.XTestImports) {
			// A test may use any package's words and the test harness, but no floor above it.
			if strings.HasPrefix(imported, module+"/") && floorOf(imported) != "testdata" {
				if fault := upward(p.ImportPath, imported); fault != "" && imported != module+"/analysis" {
					t.Errorf("the tests of %s import %s: %s", p.ImportPath, imported, fault)
				}
			}
		}
	}
}

// TestUpwardFindsFaults keeps TestFloors honest.
func TestUpwardFindsFaults(t *testing.T) {
	for _, c := range []struct {
		from, to string
		fine     bool
	}{
		{"dandle/cmd/dandle", "dandle/lsp", true},
		{"dandle/lsp", "dandle/analysis/checks", true},
		{"dandle/analysis", "dandle/analysis/checks", true},
		{"dandle/analysis/checks", "dandle/analysis/scansion", true},
		{"dandle/phonetics", "dandle/phonetics/arpabet", true},
		{"dandle/lsp", "encoding/json", true},
		{"dandle/analysis/checks", "dandle/analysis", false},
		{"dandle/analysis", "dandle/lsp", false},
		{"dandle/analysis/checks", "encoding/json", false},
		{"dandle/analysis", "go.lsp.dev/protocol", false},
		{"dandle/phonetics", "dandle/analysis/scansion", false},
		{"dandle/lsp", "dandle/cmd/dandle", false},
		{"dandle/attic", "fmt", false},
	} {
		if fault := upward(c.from, c.to); (fault == "") != c.fine {
			t.Errorf("%s → %s: fault %q", c.from, c.to, fault)
		}
	}
}

// upward says what is wrong with an import, or nothing.
func upward(from, to string) string {
	at := floorOf(from)
	if at == "testdata" {
		return ""
	}
	i := slices.IndexFunc(floors, func(f floor) bool { return f.name == at })
	if i < 0 {
		return "the importing package stands on no floor"
	}
	for _, prefix := range floors[i].unknown {
		if to == prefix || strings.HasPrefix(to, prefix) {
			return "the " + at + " floor knows nothing of that"
		}
	}
	if !strings.HasPrefix(to, module+"/") {
		return ""
	}
	target := floorOf(to)
	if target != at && !slices.Contains(floors[i].below, target) {
		return "imports go down only"
	}
	if at == "analysis" && to == module+"/analysis" && from != to {
		return "a room never imports the façade"
	}
	return ""
}

// floorOf is the first folder of a package's path.
func floorOf(importPath string) string {
	name, _, _ := strings.Cut(strings.TrimPrefix(importPath, module+"/"), "/")
	return name
}

func listPackages(t *testing.T) []listed {
	t.Helper()
	command := exec.CommandContext(t.Context(), "go", "list", "-json", "./...")
	command.Dir = root(t)
	var stderr bytes.Buffer
	command.Stderr = &stderr
	data, err := command.Output()
	if err != nil {
		t.Fatalf("go list: %v\n%s", err, stderr.String())
	}
	var packages []listed
	for decoder := json.NewDecoder(bytes.NewReader(data)); ; {
		var p listed
		if err := decoder.Decode(&p); errors.Is(err, io.EOF) {
			return packages
		} else if err != nil {
			t.Fatalf("go list: %v", err)
		}
		packages = append(packages, p)
	}
}

// TestTopLevel lets nothing gather at the top of the repository.
func TestTopLevel(t *testing.T) {
	allowed := []string{
		"cmd", "lsp", "analysis", "phonetics", "editors", "testdata",
		"go.mod", "go.sum", "README.md", "DEVELOPERS.md", "LICENSE", "NOTICE",
	}
	entries, err := os.ReadDir(root(t))
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		built := e.Name() == module && !e.IsDir() // "go build ./cmd/dandle" leaves it; git ignores it
		if !strings.HasPrefix(e.Name(), ".") && !built && !slices.Contains(allowed, e.Name()) {
			t.Errorf("%s does not belong at the top level", e.Name())
		}
	}
}

// root is the repository's root.
func root(t *testing.T) string {
	t.Helper()
	dir, err := filepath.Abs(filepath.Join("..", ".."))
	if err != nil {
		t.Fatal(err)
	}
	return dir
}
