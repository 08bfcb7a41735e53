package lsp

import (
	"errors"
	"sync"

	"dandle/analysis"

	"go.lsp.dev/uri"
)

var errNotOpen = errors.New("the document is not open")

// A workspace is the open documents and the rules they are read under. The
// reading goroutine changes it; requests read it.
type workspace struct {
	mu        sync.Mutex
	documents map[uri.URI]*document
	options   analysis.Options
}

func newWorkspace() *workspace {
	return &workspace{documents: map[uri.URI]*document{}}
}

// document is the newest version of an open document, or nil.
func (w *workspace) document(u uri.URI) *document {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.documents[u]
}

func (w *workspace) install(d *document) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.documents[d.uri] = d
}

// remove reports whether the document was open.
func (w *workspace) remove(u uri.URI) bool {
	w.mu.Lock()
	defer w.mu.Unlock()
	_, open := w.documents[u]
	delete(w.documents, u)
	return open
}

// voice reads a document under the workspace's rules.
func (w *workspace) voice() *voice {
	w.mu.Lock()
	defer w.mu.Unlock()
	return newVoice(w.options)
}
