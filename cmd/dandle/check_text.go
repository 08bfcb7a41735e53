package main

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"

	"dandle/analysis/checks"
	"dandle/analysis/manuscript"
)

var severityInks = [noLimit]ink{checks.Praise: faint, checks.Hint: faint, checks.Information: blue, checks.Warning: yellow}

// checkText is a file's findings for a person: each with its line, the words
// it is about underlined, the feet, and what could be tried.
func (s *session) checkText(r reading, found []checks.Finding) []byte {
	m, p := r.snapshot.Manuscript(), s.paint
	var b bytes.Buffer
	for i, f := range found {
		if i > 0 {
			b.WriteByte('\n')
		}
		line, column := place(m, f.Span.Start)
		fmt.Fprintf(&b, "%s:%d:%d: %s %s  %s\n", printable(r.name), line, column,
			p.paint(severityInks[f.Severity], f.Severity.String()), p.paint(bold, string(f.Code)), printable(oneLine(f.Message)))
		before, marked, after := cut(m, f.Span)
		fmt.Fprintf(&b, "    %s%s%s\n", before, p.paint(bold, marked), after)
		fmt.Fprintf(&b, "    %s%s\n", strings.Repeat(" ", width(before)), p.paint(severityInks[f.Severity], strings.Repeat("^", max(1, width(marked)))))
		detail(&b, p, "expected", f.Expected)
		detail(&b, p, "heard", f.Heard)
		for _, fix := range r.snapshot.Fixes(&f) {
			detail(&b, p, "try", printable(fix.Title))
		}
	}
	return b.Bytes()
}

func detail(b *bytes.Buffer, p painter, label, text string) {
	if text != "" {
		fmt.Fprintf(b, "    %s %s\n", p.paint(faint, fmt.Sprintf("%-9s", label)), text)
	}
}

// cut is the line of the file that a span starts in, in three parts: before
// the span, the span as far as it lies in the line, and after it. A long indent
// is left out.
func cut(m *manuscript.Manuscript, span manuscript.Span) (before, marked, after string) {
	line := around(m, span.Start)
	end := min(max(span.End, span.Start), line.End)
	start := min(span.Start, end)
	before = strings.TrimLeft(strings.TrimPrefix(m.Text[line.Start:start], bom), " \t")
	return printable(before), printable(m.Text[start:end]), printable(m.Text[end:line.End])
}

// summary is the last line: what was found in how many manuscripts.
func summary(counts tally, files int) string {
	var parts []string
	for severity := checks.Warning; severity >= checks.Hint; severity-- {
		if n := counts[severity]; n > 0 {
			parts = append(parts, countOf(n, severity))
		}
	}
	where := "1 manuscript"
	if files != 1 {
		where = strconv.Itoa(files) + " manuscripts"
	}
	if len(parts) == 0 {
		return "Nothing to mark in " + where + "."
	}
	last := len(parts) - 1
	if last == 0 {
		return parts[0] + " in " + where + "."
	}
	return strings.Join(parts[:last], ", ") + " and " + parts[last] + " in " + where + "."
}

// countOf is a number of findings in words; "information" takes no plural.
func countOf(n int, severity checks.Severity) string {
	name := severity.String()
	if severity == checks.Information {
		return fmt.Sprintf("%d for information", n)
	}
	if n != 1 {
		name += "s"
	}
	return fmt.Sprintf("%d %s", n, name)
}
