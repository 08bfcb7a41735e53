package main

import (
	"encoding/json"
	"flag"
	"fmt"

	"dandle/analysis/checks"
	"dandle/analysis/manuscript"
)

func checkCommand() *command {
	return &command{
		name: "check", synopsis: "[-f text|json|sarif] [--fail-on SEVERITY] FILE|FOLDER…", summary: "what an editor would mark, and what could be tried",
		help: `
Reads manuscripts and prints what an editor would mark: where, what the ear hears and
why, the feet that were expected and the feet that were heard, and fixes that scan.
Lines and columns count from 1, columns in Unicode characters. Of several manuscripts a
table stands at the end.

` + inputHelp + `

Severities are warning (it breaks the read), information (it weakens the read) and hint
(it may be meant). Findings leave the exit code at 0 unless --fail-on says otherwise.

Examples:

  dandle check lamp.verse
  dandle check lamp.docx
  dandle check --fail-on warning manuscripts
  dandle check -f json lamp.verse
  dandle check -f sarif *.verse > notes.sarif
  pbpaste | dandle check -
`,
		flags: func(flags *flag.FlagSet) action {
			f := formatFlag(flags, textFormat, jsonFormat, sarifFormat)
			limit := checks.Severity(noLimit)
			flags.Func("fail-on", "exit with 1 when a finding is of this `SEVERITY` or graver: hint, information or warning", func(text string) error {
				var err error
				limit, err = parseSeverity(text)
				return err
			})
			return func(s *session, args []string) (int, error) { return s.check(f.format, limit, args) }
		},
	}
}

// noLimit is graver than every severity.
const noLimit = checks.Warning + 1

func parseSeverity(text string) (checks.Severity, error) {
	var names []string
	for severity := checks.Hint; severity <= checks.Warning; severity++ {
		if severity.String() == text {
			return severity, nil
		}
		names = append(names, severity.String())
	}
	return noLimit, fmt.Errorf("use %s", orList(names))
}

// A tally counts findings by their severity.
type tally [noLimit]int

func tallyOf(found []checks.Finding) (t tally) {
	for _, f := range found {
		t[f.Severity]++
	}
	return t
}

func (t *tally) add(other tally) {
	for severity, n := range other {
		t[severity] += n
	}
}

// reaches reports whether a finding is as grave as limit.
func (t *tally) reaches(limit checks.Severity) bool {
	for severity := limit; severity < noLimit; severity++ {
		if t[severity] > 0 {
			return true
		}
	}
	return false
}

func (s *session) check(f format, limit checks.Severity, named []string) (int, error) {
	type checked struct {
		counts tally
		output []byte
		row    row
	}
	out, render := s.checkLayout(f)
	var counts tally
	var rows table
	files, complete, err := s.files(named)
	if err != nil {
		return exitBad, err
	}
	all, err := readManuscripts(s, files, func(r reading) (checked, error) {
		found := r.snapshot.Raised()
		output, err := render(r, found)
		return checked{tallyOf(found), output, rowOf(r)}, err
	}, func(c checked) error {
		counts.add(c.counts)
		rows = append(rows, c.row)
		return out.add(c.output)
	})
	if err != nil {
		return exitBad, err
	}
	if err := out.end(); err != nil {
		return exitBad, err
	}
	if f == textFormat && len(rows) > 0 {
		if out.started {
			fmt.Fprintln(s.out)
		}
		if len(rows) > 1 {
			fmt.Fprintf(s.out, "%s\n", rows.text(s.paint))
		}
		fmt.Fprintln(s.out, summary(counts, len(rows)))
	}
	switch {
	case !all || !complete:
		return exitBad, nil
	case counts.reaches(limit):
		return exitFailed, nil
	}
	return exitFine, nil
}

// A render turns the findings of a file into output.
type render func(reading, []checks.Finding) ([]byte, error)

func (s *session) checkLayout(f format) (*listWriter, render) {
	switch f {
	case jsonFormat:
		return filesList.to(s.out), func(r reading, found []checks.Finding) ([]byte, error) {
			return json.Marshal(checkedFileOf(r, found))
		}
	case sarifFormat:
		return sarifList().to(s.out), sarifResults
	}
	return list{between: "\n"}.to(s.out), func(r reading, found []checks.Finding) ([]byte, error) {
		return s.checkText(r, found), nil
	}
}

type checkedFile struct {
	File     string           `json:"file"`
	Findings []checkedFinding `json:"findings"`
}

type checkedFinding struct {
	Code     string `json:"code"`
	Severity string `json:"severity"`
	region
	Text       string       `json:"text"`
	Message    string       `json:"message"`
	Confidence float64      `json:"confidence"`
	Expected   string       `json:"expected,omitempty"`
	Heard      string       `json:"heard,omitempty"`
	Fixes      []checkedFix `json:"fixes"`
}

type checkedFix struct {
	Title string        `json:"title"`
	Edits []checkedEdit `json:"edits"`
}

type checkedEdit struct {
	region
	NewText string `json:"newText"`
}

// A region is a stretch of a file: lines and columns from 1, columns in code
// points, the end just past its last character.
type region struct {
	Line      int `json:"line"`
	Column    int `json:"column"`
	EndLine   int `json:"endLine"`
	EndColumn int `json:"endColumn"`
}

func regionOf(m *manuscript.Manuscript, span manuscript.Span) region {
	var r region
	r.Line, r.Column = place(m, span.Start)
	r.EndLine, r.EndColumn = place(m, span.End)
	return r
}

// checkedFileOf is a file's findings in the shape of the JSON.
func checkedFileOf(r reading, found []checks.Finding) checkedFile {
	m := r.snapshot.Manuscript()
	file := checkedFile{File: r.name, Findings: make([]checkedFinding, len(found))}
	for i, f := range found {
		out := checkedFinding{
			Code: string(f.Code), Severity: f.Severity.String(), region: regionOf(m, f.Span), Text: f.Span.In(m.Text),
			Message: f.Message, Confidence: rounded(f.Confidence), Expected: f.Expected, Heard: f.Heard,
		}
		fixes := r.snapshot.Fixes(&f)
		out.Fixes = make([]checkedFix, len(fixes))
		for k, fix := range fixes {
			out.Fixes[k] = checkedFix{Title: fix.Title, Edits: make([]checkedEdit, len(fix.Edits))}
			for n, edit := range fix.Edits {
				out.Fixes[k].Edits[n] = checkedEdit{region: regionOf(m, edit.Span), NewText: edit.Text}
			}
		}
		file.Findings[i] = out
	}
	return file
}
