package lsp

import (
	"encoding/json"
	"slices"

	"dandle/analysis/checks"
	"dandle/analysis/manuscript"
	"dandle/lsp/protocol317"

	"go.lsp.dev/protocol"
	"go.lsp.dev/uri"
)

// maxDiagnostics bounds what is published for one document. Nobody reads more,
// and editors slow down under it.
const maxDiagnostics = 2000

// explainScheme is the scheme of a finding's page: "dandle:explain/word/filler".
// The page is in the program itself, not on the web; an editor's extension
// shows it with the command dandle.explain, and "dandle explain CODE" prints it.
const explainScheme = "dandle:explain/"

// severities are the protocol's numbers. Praise is no diagnostic.
var severities = map[checks.Severity]int{
	checks.Hint:        int(protocol.DiagnosticSeverityHint),
	checks.Information: int(protocol.DiagnosticSeverityInformation),
	checks.Warning:     int(protocol.DiagnosticSeverityWarning),
}

// unneeded are the findings about words that could go. Editors fade them.
var unneeded = map[checks.Code]bool{"word/filler": true, "word/padding-do": true, "note/redundant": true}

// diagnosticData travels with a diagnostic to the client and back.
type diagnosticData struct {
	Code       checks.Code `json:"code"`
	Expected   string      `json:"expected,omitempty"`
	Heard      string      `json:"heard,omitempty"`
	Confidence float64     `json:"confidence"`
}

// notes are the findings that a client shows as diagnostics.
func notes(d *document) []checks.Finding {
	found := d.snapshot().Raised()
	return found[:min(len(found), maxDiagnostics)]
}

// diagnostics are what is to be shown under a document's words.
func diagnostics(d *document, c client) []protocol317.Diagnostic {
	found := notes(d)
	spans := make([]manuscript.Span, len(found))
	for i, f := range found {
		spans[i] = f.Span
	}
	places := d.ranges(spans)
	out := make([]protocol317.Diagnostic, len(found))
	for i, f := range found {
		out[i] = diagnostic(d, c, f, places[i])
	}
	for _, p := range d.snapshot().Manuscript().Problems {
		if len(out) < maxDiagnostics {
			out = append(out, problem(d.mapper, p))
		}
	}
	return out
}

// problemCode is the code of what could not be read as it was meant. It is no
// finding: it cannot be allowed, and has no page.
const problemCode = "manuscript/unread"

// problem tells of something in a file that could not be read as it was meant.
func problem(m *mapper, p manuscript.Problem) protocol317.Diagnostic {
	return protocol317.Diagnostic{
		Range:    m.rangeOf(p.Span),
		Severity: int(protocol.DiagnosticSeverityInformation),
		Code:     problemCode,
		Source:   serverName,
		Message:  p.Message,
	}
}

func diagnostic(d *document, c client, f checks.Finding, place protocol.Range) protocol317.Diagnostic {
	shows := c.showsDiagnostics()
	out := protocol317.Diagnostic{
		Range:    place,
		Severity: severities[f.Severity],
		Code:     string(f.Code),
		Source:   serverName,
		Message:  f.Message,
	}
	if shows.CodeDescriptionSupport {
		out.CodeDescription = &protocol317.CodeDescription{Href: explainScheme + string(f.Code)}
	}
	if unnecessary := int(protocol.DiagnosticTagUnnecessary); unneeded[f.Code] && shows.TagSupport != nil && slices.Contains(shows.TagSupport.ValueSet, unnecessary) {
		out.Tags = []int{unnecessary}
	}
	if shows.RelatedInformation {
		for _, r := range f.Related {
			out.RelatedInformation = append(out.RelatedInformation, protocol317.DiagnosticRelatedInformation{
				Location: protocol317.Location{URI: d.uri, Range: d.rangeOf(r.Span)},
				Message:  r.Message,
			})
		}
	}
	if shows.DataSupport {
		// The struct holds strings and a finite number: it cannot fail.
		out.Data, _ = json.Marshal(diagnosticData{f.Code, f.Expected, f.Heard, f.Confidence})
	}
	return out
}

// publish pushes a document's diagnostics, or takes them back where d is nil. A
// version that is no longer current when they are ready is dropped.
func (s *server) publish(u uri.URI, d *document, current func() bool) {
	params := protocol317.PublishDiagnosticsParams{URI: u, Diagnostics: []protocol317.Diagnostic{}}
	if d != nil {
		params.Version = &d.version
		o := s.dispatcher.guard(protocol.MethodTextDocumentPublishDiagnostics, func() (any, error) {
			params.Diagnostics = diagnostics(d, s.client)
			return nil, nil
		})
		if o.err != nil {
			return // logged; what was shown before stays
		}
	}
	if current() {
		s.notify(protocol.MethodTextDocumentPublishDiagnostics, params)
	}
}
