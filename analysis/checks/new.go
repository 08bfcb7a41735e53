//go:build ignore

// New scaffolds a check: its file, its fixture and its line in the registry.
//
//	go run analysis/checks/new.go word/NAME
//
// It runs at the module's root, and overwrites nothing. The new check's test
// fails until its fixture and its Run are written.
package main

import (
	"fmt"
	"go/format"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
)

var (
	codeForm = regexp.MustCompile(`^[a-z]+/[a-z]+(-[a-z]+)*$`)
	entry    = regexp.MustCompile(`(?m)^\t(\w+), +// (\S+)$`)
)

const registry = "analysis/checks/registry.go"

func main() {
	if len(os.Args) != 2 || !codeForm.MatchString(os.Args[1]) {
		fmt.Fprintln(os.Stderr, "usage: go run analysis/checks/new.go AREA/NAME")
		os.Exit(2)
	}
	if err := scaffold(os.Args[1]); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func scaffold(code string) error {
	area, name, _ := strings.Cut(code, "/")
	file := filepath.Join("analysis/checks", strings.ReplaceAll(area+"_"+name, "-", "_")+".go")
	fixture := filepath.Join("testdata/checks", area, name+".verse")
	variable := camel(area + "-" + name)

	list, err := os.ReadFile(registry)
	if err != nil {
		return fmt.Errorf("read the registry: %w", err)
	}
	listed, err := register(string(list), variable, code)
	if err != nil {
		return err
	}
	if err := create(file, checkSource(variable, code)); err != nil {
		return err
	}
	if err := create(fixture, "# "+code+"\n\nA line that is raised.\nA line that looks alike and is not.\n"); err != nil {
		return err
	}
	if err := os.WriteFile(registry, listed, 0o644); err != nil {
		return fmt.Errorf("write the registry: %w", err)
	}
	fmt.Printf("%s\n%s\n%s\n", file, fixture, registry)
	return nil
}

// create writes a file that is not there yet.
func create(path, text string) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return fmt.Errorf("make the folder of %s: %w", path, err)
	}
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return fmt.Errorf("create %s: %w", path, err)
	}
	if _, err := f.WriteString(text); err != nil {
		f.Close()
		return fmt.Errorf("write %s: %w", path, err)
	}
	return f.Close()
}

// register adds a line to the list and puts it in the order of codes.
func register(source, variable, code string) ([]byte, error) {
	open := strings.Index(source, "[]*Check{\n")
	if open < 0 {
		return nil, fmt.Errorf("%s holds no list of checks", registry)
	}
	open += len("[]*Check{\n")
	end := open + strings.Index(source[open:], "}")
	codes := map[string]string{code: variable}
	for _, m := range entry.FindAllStringSubmatch(source[open:end], -1) {
		if m[2] == code {
			return nil, fmt.Errorf("%s is registered already", code)
		}
		codes[m[2]] = m[1]
	}
	var order []string
	for c := range codes {
		order = append(order, c)
	}
	slices.Sort(order)
	var b strings.Builder
	for _, c := range order {
		fmt.Fprintf(&b, "\t%s, // %s\n", codes[c], c)
	}
	return format.Source([]byte(source[:open] + b.String() + source[end:]))
}

func camel(name string) string {
	parts := strings.Split(name, "-")
	for i, p := range parts[1:] {
		parts[i+1] = strings.ToUpper(p[:1]) + p[1:]
	}
	return strings.Join(parts, "")
}

func checkSource(variable, code string) string {
	return fmt.Sprintf(`package checks

const %[1]sDoc = %[2]s
What is heard, in one sentence.

Why it matters, and when it is meant.

Raised here:

    A line of our own.

Not here:

    Another line of our own.
%[2]s

var %[1]s = &Check{
	Code:     %[3]q,
	Severity: Information,
	Doc:      %[1]sDoc,
	Run: func(p *Pass) {
		for i := range p.Poem.Lines {
			_ = i // report what is heard in this line
		}
	},
}
`, variable, "`", code)
}
