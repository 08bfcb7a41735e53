package main

import (
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"math"
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
)

var formatNames = [...]string{"text", "json", "sarif", "md", "html"}

func (f format) String() string { return formatNames[f] }

// formatFlag adds -f and --format for the formats that a command has; the first
// is what it prints when it is not told.
func formatFlag(flags *flag.FlagSet, known ...format) *format {
	chosen := known[0]
	names := make([]string, len(known))
	for i, f := range known {
		names[i] = f.String()
	}
	set := func(text string) error {
		for _, f := range known {
			if text == f.String() {
				chosen = f
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
