package main

import (
	"bytes"
	"fmt"
	"strings"

	"dandle/analysis/checks"
)

// A row is what an editor wants to know first of one manuscript among many.
type row struct {
	name         string
	meter        string
	words, lines int
	warnings     int
}

func rowOf(r reading) row {
	m, meter := r.snapshot.Manuscript(), meterOf(r.snapshot)
	out := row{name: r.name, meter: meter.Name(), words: m.WordCount(), lines: len(m.Lines)}
	if len(m.Lines) == 0 {
		out.meter = "no verse found"
	}
	for _, f := range r.snapshot.Raised() {
		if f.Severity == checks.Warning {
			out.warnings++
		}
	}
	return out
}

// perHundred is the number of warnings per 100 lines.
func (r row) perHundred() float64 {
	if r.lines == 0 {
		return 0
	}
	return 100 * float64(r.warnings) / float64(r.lines)
}

// A table is the rows of all manuscripts of a run.
type table []row

func (t table) text(p painter) []byte {
	names, meters := width("manuscript"), width("meter")
	for _, r := range t {
		names, meters = max(names, width(printable(r.name))), max(meters, width(r.meter))
	}
	var b bytes.Buffer
	fmt.Fprintf(&b, "%s\n", p.paint(faint, fmt.Sprintf("%s  %s  %5s  %5s  %8s  %9s", padded("manuscript", names), padded("meter", meters), "words", "lines", "warnings", "per 100 l")))
	for _, r := range t {
		fmt.Fprintf(&b, "%s  %s  %5d  %5d  %8d  %9.1f\n", padded(printable(r.name), names), padded(r.meter, meters), r.words, r.lines, r.warnings, r.perHundred())
	}
	return b.Bytes()
}

// padded is text with spaces after it up to a width.
func padded(text string, to int) string { return text + strings.Repeat(" ", max(0, to-width(text))) }
