package main

import (
	"bytes"
	"encoding/json"
	"net/url"
	"path/filepath"

	"dandle/analysis/checks"
	"dandle/analysis/manuscript"
)

// This file writes findings as SARIF 2.1.0 (OASIS Standard, 27 March 2020, with
// errata 01), which code hosts and build servers show beside a change.

type sarifTool struct {
	Driver sarifDriver `json:"driver"`
}

type sarifDriver struct {
	Name    string      `json:"name"`
	Version string      `json:"version,omitempty"`
	Rules   []sarifRule `json:"rules"`
}

type sarifRule struct {
	ID                   string             `json:"id"`
	ShortDescription     sarifText          `json:"shortDescription"`
	FullDescription      sarifText          `json:"fullDescription"`
	Help                 sarifText          `json:"help"`
	DefaultConfiguration sarifConfiguration `json:"defaultConfiguration"`
}

type sarifText struct {
	Text     string `json:"text"`
	Markdown string `json:"markdown,omitempty"`
}

type sarifConfiguration struct {
	Level string `json:"level"`
}

type sarifResult struct {
	RuleID           string          `json:"ruleId"`
	Level            string          `json:"level"`
	Rank             float64         `json:"rank"` // 0 … 100, how sure it is
	Message          sarifText       `json:"message"`
	Locations        []sarifLocation `json:"locations"`
	RelatedLocations []sarifLocation `json:"relatedLocations,omitempty"`
	Fixes            []sarifFix      `json:"fixes,omitempty"`
}

type sarifLocation struct {
	ID       *int          `json:"id,omitempty"`
	Physical sarifPhysical `json:"physicalLocation"`
	Message  *sarifText    `json:"message,omitempty"`
}

type sarifPhysical struct {
	Artifact sarifArtifact `json:"artifactLocation"`
	Region   sarifRegion   `json:"region"`
}

type sarifArtifact struct {
	URI string `json:"uri"`
}

type sarifRegion struct {
	StartLine   int        `json:"startLine"`
	StartColumn int        `json:"startColumn"`
	EndLine     int        `json:"endLine"`
	EndColumn   int        `json:"endColumn"`
	Snippet     *sarifText `json:"snippet,omitempty"`
}

type sarifFix struct {
	Description sarifText     `json:"description"`
	Changes     []sarifChange `json:"artifactChanges"`
}

type sarifChange struct {
	Artifact     sarifArtifact      `json:"artifactLocation"`
	Replacements []sarifReplacement `json:"replacements"`
}

type sarifReplacement struct {
	Deleted  sarifRegion `json:"deletedRegion"`
	Inserted sarifText   `json:"insertedContent"`
}

const sarifSchema = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"

// sarifList is one run of the tool, with its results to come.
func sarifList() list {
	tool := sarifTool{Driver: sarifDriver{Name: "dandle", Version: version(), Rules: []sarifRule{}}}
	for _, c := range checks.All {
		if c.Severity == checks.Praise {
			continue
		}
		page, _ := checks.Explain(c.Code)
		tool.Driver.Rules = append(tool.Driver.Rules, sarifRule{
			ID:                   string(c.Code),
			ShortDescription:     sarifText{Text: c.Summary()},
			FullDescription:      sarifText{Text: c.Summary()},
			Help:                 sarifText{Text: page, Markdown: page},
			DefaultConfiguration: sarifConfiguration{Level: sarifLevel(c.Severity)},
		})
	}
	head, err := json.Marshal(tool)
	if err != nil {
		panic(err) // a tool holds nothing but strings
	}
	return list{
		head: `{"$schema":"` + sarifSchema + `","version":"2.1.0","runs":[{"tool":` + string(head) +
			`,"columnKind":"unicodeCodePoints","results":[`,
		between: ",\n",
		foot:    "]}]}\n",
	}
}

// sarifLevel is the standard's word for a severity: it has one for all that is
// less than a warning.
func sarifLevel(s checks.Severity) string {
	if s == checks.Warning {
		return "warning"
	}
	return "note"
}

// sarifResults are the results of one file, parted by commas.
func sarifResults(r reading, found []checks.Finding) ([]byte, error) {
	m, artifact := r.snapshot.Manuscript(), sarifArtifact{URI: fileReference(r.name)}
	var b bytes.Buffer
	for i, f := range found {
		if i > 0 {
			b.WriteString(",\n")
		}
		f.Fixes = r.snapshot.Fixes(&f)
		data, err := json.Marshal(sarifResultOf(m, artifact, f))
		if err != nil {
			return nil, err
		}
		b.Write(data)
	}
	return b.Bytes(), nil
}

func sarifResultOf(m *manuscript.Manuscript, artifact sarifArtifact, f checks.Finding) sarifResult {
	at := sarifRegionOf(m, f.Span)
	at.Snippet = &sarifText{Text: f.Span.In(m.Text)}
	result := sarifResult{
		RuleID:    string(f.Code),
		Level:     sarifLevel(f.Severity),
		Rank:      100 * f.Confidence,
		Message:   sarifText{Text: f.Message},
		Locations: []sarifLocation{{Physical: sarifPhysical{artifact, at}}},
	}
	for i, related := range f.Related {
		result.RelatedLocations = append(result.RelatedLocations, sarifLocation{
			ID: &i, Physical: sarifPhysical{artifact, sarifRegionOf(m, related.Span)}, Message: &sarifText{Text: related.Message},
		})
	}
	for _, fix := range f.Fixes {
		change := sarifChange{Artifact: artifact}
		for _, edit := range fix.Edits {
			change.Replacements = append(change.Replacements, sarifReplacement{
				Deleted: sarifRegionOf(m, edit.Span), Inserted: sarifText{Text: edit.Text},
			})
		}
		if len(change.Replacements) > 0 {
			result.Fixes = append(result.Fixes, sarifFix{Description: sarifText{Text: fix.Title}, Changes: []sarifChange{change}})
		}
	}
	return result
}

func sarifRegionOf(m *manuscript.Manuscript, span manuscript.Span) sarifRegion {
	r := regionOf(m, span)
	return sarifRegion{StartLine: r.Line, StartColumn: r.Column, EndLine: r.EndLine, EndColumn: r.EndColumn}
}

// fileReference is a file's name as a URI reference: relative where the name is.
func fileReference(name string) string {
	if name == standardInput {
		return "stdin"
	}
	ref := url.URL{Path: filepath.ToSlash(name)}
	if filepath.IsAbs(name) {
		ref.Scheme = "file"
	}
	return ref.String()
}
