// Package checks holds the findings that a verse editor would make, one file
// for each. A check sees a manuscript and what was heard in it, and reports; it
// reads no file and knows no protocol.
package checks

import "dandle/analysis/manuscript"

// A Code names a kind of finding, "area/name".
type Code string

// A Severity is how much a finding matters.
type Severity uint8

// The severities, least first. There is no error: verse is never an error.
const (
	Praise      Severity = iota // shown in hover and letter only
	Hint                        // what may be meant
	Information                 // what weakens the read
	Warning                     // what breaks the read
)

var severityNames = [...]string{"praise", "hint", "information", "warning"}

// String is the name used in output, such as "warning".
func (s Severity) String() string { return severityNames[s] }

// A Finding is one note about one place.
type Finding struct {
	Code       Code
	Severity   Severity
	Span       manuscript.Span
	Line       int    // index of the verse line; -1 where it is about no line
	Message    string // one or two kind sentences: what the ear hears and why
	Expected   string // the pattern relied on, if any: "xx/|xx/"
	Heard      string
	Confidence float64 // 0 … 1
	Fixes      []Fix
	Related    []Related
}

// A Fix is a way to mend a finding. Its edits do not overlap.
type Fix struct {
	Title string
	Edits []Edit
}

// An Edit replaces a stretch of the text.
type Edit struct {
	Span manuscript.Span
	Text string
}

// Related points at another place that the finding speaks of.
type Related struct {
	Span    manuscript.Span
	Message string
}
