package main

import (
	"fmt"
	"strings"

	"dandle/testdata/manuscripts"
)

// A document is a text to edit, with the place where a letter goes in and out
// and the place where completion is asked for.
type document struct {
	file, language string
	text           string
	line, column   int    // of the letter
	letter         string // that changes what there is to say about the text
	ask            [2]int // line and column
}

// verse is a manuscript of so many bytes.
func verse(size int) document {
	lines := 40
	for len(manuscripts.Long(lines, 1)) < size {
		lines += 40
	}
	text := manuscripts.Long(lines, 1)
	middle := strings.Count(text, "\n") / 2 / 5 * 5
	end := len(strings.Split(text, "\n")[middle+2])
	return document{file: "book.verse", language: "verse", text: text, line: middle + 2, column: 6, letter: "x", ask: [2]int{middle + 2, end - 1}}
}

// program is a Go file of so many bytes, of functions that differ.
func program(size int) document {
	var b strings.Builder
	b.WriteString("package book\n\nimport \"strings\"\n\n")
	for n := 0; b.Len() < size; n++ {
		fmt.Fprintf(&b, "// Ferry%d carries so many.\nfunc Ferry%d(load int, name string) string {\n\tif load > %d {\n\t\treturn strings.Repeat(name, load)\n\t}\n\treturn strings.ToUpper(name)\n}\n\n", n, n, n*7%31)
	}
	text := b.String()
	// A letter in the name of a parameter's use leaves it unknown.
	middle := strings.Count(text, "\n") / 2 / 8 * 8
	lines := strings.Split(text, "\n")
	for !strings.HasPrefix(lines[middle], "\tif load") {
		middle++
	}
	return document{file: "book.go", language: "go", text: text, line: middle, column: len("\tif l"), letter: "x", ask: [2]int{middle + 1, len("\t\treturn strings.")}}
}

// list is a YAML file of so many bytes.
func list(size int) document {
	var b strings.Builder
	for n := 0; b.Len() < size; n++ {
		fmt.Fprintf(&b, "ferry%d:\n  load: %d\n  names: [otter, badger, heron]\n  note: the %dth on the river\n", n, n*7%31, n)
	}
	text := b.String()
	middle := strings.Count(text, "\n") / 2 / 4 * 4
	// A bracket too many cannot be read.
	return document{file: "book.yaml", language: "yaml", text: text, line: middle + 1, column: len("  load: "), letter: "[", ask: [2]int{middle + 3, len("  note: ")}}
}
