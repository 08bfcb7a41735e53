package lsp

import (
	"context"
	"path/filepath"
	"regexp"
	"strings"

	"dandle/analysis/manuscript"

	"go.lsp.dev/protocol"
	"go.lsp.dev/uri"
)

var (
	webAddress = regexp.MustCompile(`https?://[^\s\])>"']+`)
	// A file beside the manuscript: a sketch, a reference, another draft.
	fileName = regexp.MustCompile(`(?i)[\pL\pN_][\pL\pN_./-]*\.(?:png|jpe?g|gif|webp|svg|pdf|md|txt|docx|verse)\b`)
)

// documentLinks makes the addresses and file names in notes open. Files are
// looked for beside the manuscript, and only in its own folder and below.
func documentLinks(_ context.Context, v view, _ protocol.DocumentLinkParams) (any, error) {
	out := []protocol.DocumentLink{}
	for _, n := range v.snapshot().Manuscript().Notes {
		text := n.Span.In(v.text)
		var taken []manuscript.Span
		for _, at := range webAddress.FindAllStringIndex(text, -1) {
			span := manuscript.Span{Start: n.Span.Start + at[0], End: n.Span.Start + at[0] + len(strings.TrimRight(text[at[0]:at[1]], ".,;:!?"))}
			taken = append(taken, span)
			if target, err := uri.Parse(span.In(v.text)); err == nil {
				out = append(out, protocol.DocumentLink{Range: v.rangeOf(span), Target: target})
			}
		}
		for _, at := range fileName.FindAllStringIndex(text, -1) {
			span := manuscript.Span{Start: n.Span.Start + at[0], End: n.Span.Start + at[1]}
			if target, ok := beside(v.uri, text[at[0]:at[1]]); ok && !overlapsAny(span, taken) {
				out = append(out, protocol.DocumentLink{Range: v.rangeOf(span), Target: target})
			}
		}
	}
	return out, nil
}

func overlapsAny(s manuscript.Span, others []manuscript.Span) bool {
	for _, o := range others {
		if s.Start < o.End && o.Start < s.End {
			return true
		}
	}
	return false
}

// beside is a file that lies in the document's folder or below.
func beside(u uri.URI, name string) (uri.URI, bool) {
	path, ok := localPath(u)
	if !ok {
		return "", false
	}
	folder := filepath.Dir(path)
	file := filepath.Join(folder, filepath.FromSlash(name))
	if !within(folder, file) {
		return "", false
	}
	if _, err := statFile(file); err != nil {
		return "", false
	}
	return uri.File(file), true
}
