package main

import (
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"math"
	"path/filepath"
	"slices"
	"strings"
)

// A format is a way to print results.
type format uint8

// The formats.
const (
	textFormat format = iota
	jsonFormat
	sarifFormat
	markdownFormat
	htmlFormat
	docxFormat
	verseFormat
	typescriptFormat
)

var formatNames = [...]string{"text", "json", "sarif", "md", "html", "docx", "verse", "txt"}

func (f format) String() string { return formatNames[f] }

// A choice is the format that a command was asked for.
type choice struct {
	format
	known []format
	told  bool // whether a flag said so
}

// or is the format, or one that fits better where no flag named it.
func (c *choice) or(better format, fits bool) format {
	if fits && !c.told && slices.Contains(c.known, better) {
		return better
	}
	return c.format
}

// formatOf is the format that a file's name stands for.
func formatOf(name string) (format, bool) {
	ending := strings.ToLower(strings.TrimPrefix(filepath.Ext(name), "."))
	if ending == "htm" {
		return htmlFormat, true
	}
	i := slices.Index(formatNames[:], ending)
	return format(max(i, 0)), i >= 0
}

// formatFlag adds -f and --format for the formats that a command has; the first
// is what it prints when it is not told.
func formatFlag(flags *flag.FlagSet, known ...format) *choice {
	chosen := choice{format: known[0], known: known}
	names := make([]string, len(known))
	for i, f := range known {
		names[i] = f.String()
	}
	set := func(text string) error {
		for _, f := range known {
			if text == f.String() {
				chosen.format, chosen.told = f, true
				return nil
			}
		}
		return fmt.Errorf("use %s", orList(names))
	}
	flags.Func("f", "`FORMAT` of the output: "+orList(names)+" (also --format)", set)
	flags.Func("format", "", set)
	return &chosen
}

// orList joins names for a sentence: "text, json or sarif".
func orList(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " or " + names[last]
}

// encode writes a value as one line of JSON, with letters such as "<" left as
// they are.
func encode(w io.Writer, value any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	return e.Encode(value)
}

// rounded is a share from 0 to 1 as far as it means anything.
func rounded(share float64) float64 { return math.Round(share*1e4) / 1e4 }
