package lsp

import (
	"context"
	"encoding/json"
	"hash/fnv"
	"strconv"

	"dandle/lsp/protocol317"

	"go.lsp.dev/uri"
)

// documentDiagnostic answers a client that asks for diagnostics. A manuscript's
// findings depend on no other document, so there are no related ones.
func documentDiagnostic(_ context.Context, v view, p protocol317.DocumentDiagnosticParams) (any, error) {
	items, id := pulled(v.document, v.client)
	if id == p.PreviousResultID {
		return protocol317.UnchangedDocumentDiagnosticReport{Kind: protocol317.DiagnosticUnchanged, ResultID: id}, nil
	}
	return protocol317.FullDocumentDiagnosticReport{Kind: protocol317.DiagnosticFull, ResultID: id, Items: items}, nil
}

// pulled are a document's diagnostics with an id made of what they say, so that
// the same findings have the same id whatever was typed and taken back between.
func pulled(d *document, c client) ([]protocol317.Diagnostic, string) {
	items := diagnostics(d, c)
	data, _ := json.Marshal(items) // strings, numbers and lists
	h := fnv.New64a()
	_, _ = h.Write(data) // never fails
	return items, strconv.FormatUint(h.Sum64(), 36)
}

// workspaceDiagnostic answers for every manuscript of the workspace: as it is in
// the editor where it is open, else as it is on the disk.
func (s *server) workspaceDiagnostic(params json.RawMessage) (work, error) {
	p, err := decodeParams[protocol317.WorkspaceDiagnosticParams](params)
	if err != nil {
		return nil, err
	}
	before := map[uri.URI]string{}
	for _, r := range p.PreviousResultIDs {
		before[r.URI] = r.Value
	}
	return func(ctx context.Context) (any, error) {
		report := protocol317.WorkspaceDiagnosticReport{Items: []any{}}
		err := s.eachManuscript(ctx, errand{p.WorkDoneToken, "Reading the manuscripts"}, func(d *document, open bool) {
			items, id := pulled(d, s.client)
			var version *int32
			if open {
				version = &d.version
			}
			if before[d.uri] == id {
				report.Items = append(report.Items, protocol317.WorkspaceUnchangedDocumentDiagnosticReport{
					UnchangedDocumentDiagnosticReport: protocol317.UnchangedDocumentDiagnosticReport{Kind: protocol317.DiagnosticUnchanged, ResultID: id},
					URI:                               d.uri, Version: version,
				})
				return
			}
			report.Items = append(report.Items, protocol317.WorkspaceFullDocumentDiagnosticReport{
				FullDocumentDiagnosticReport: protocol317.FullDocumentDiagnosticReport{Kind: protocol317.DiagnosticFull, ResultID: id, Items: items},
				URI:                          d.uri, Version: version,
			})
		})
		return report, err
	}, nil
}
