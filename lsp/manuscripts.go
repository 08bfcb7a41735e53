package lsp

import (
	"context"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"time"

	"go.lsp.dev/uri"
)

// Limits of what is read in a workspace unasked for by name. A publisher's
// folder has some hundred manuscripts; a home folder that was opened by mistake
// must not be read through.
const (
	maxManuscripts = 1000
	maxVisited     = 50_000
)

// manuscriptEnd is the file extension of a manuscript.
const manuscriptEnd = ".verse"

// A shelf keeps the manuscripts of the workspace that are not open, as they were
// when they were last read.
type shelf struct {
	mu    sync.Mutex
	files map[string]shelved
}

type shelved struct {
	changed time.Time
	size    int64
	rules   string // under which it was read
	d       *document
}

func newShelf() *shelf { return &shelf{files: map[string]shelved{}} }

// eachManuscript visits the open documents and the manuscripts of the workspace
// that are not open, by path. A file that cannot be read is left out.
func (s *server) eachManuscript(ctx context.Context, e errand, visit func(d *document, open bool)) error {
	files := manuscriptFiles(ctx, s.workspace.roots())
	s.shelf.keepOnly(files)
	p := s.progress(ctx, e, len(files)-s.shelf.len())
	defer p.end()
	ctx, stop := p.cancellable(ctx)
	defer stop()
	open := map[uri.URI]bool{}
	for _, d := range s.workspace.open() {
		if ctx.Err() != nil {
			return ctx.Err()
		}
		open[d.uri] = true
		visit(d, true)
	}
	for i, file := range files {
		if ctx.Err() != nil {
			return ctx.Err()
		}
		p.report(filepath.Base(file), i, len(files))
		u := uri.File(file)
		if open[u] {
			continue
		}
		if d := s.shelf.read(s, file, u); d != nil {
			visit(d, false)
		}
	}
	return nil
}

// manuscriptFiles lists the manuscripts in folders, sorted. Hidden folders and
// those of package managers are left out.
func manuscriptFiles(ctx context.Context, roots []string) []string {
	var out []string
	visited := 0
	for _, root := range roots {
		// An error in one folder leaves that folder out.
		_ = filepath.WalkDir(root, func(path string, entry fs.DirEntry, err error) error {
			visited++
			switch {
			case ctx.Err() != nil || visited > maxVisited || len(out) >= maxManuscripts:
				return fs.SkipAll
			case err != nil && entry != nil && entry.IsDir():
				return fs.SkipDir
			case err != nil:
				return nil
			case entry.IsDir() && path != root && (strings.HasPrefix(entry.Name(), ".") || entry.Name() == "node_modules"):
				return fs.SkipDir
			case entry.Type().IsRegular() && strings.EqualFold(filepath.Ext(path), manuscriptEnd):
				out = append(out, path)
			}
			return nil
		})
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// read reads a file, or finds it as it was read before.
func (k *shelf) read(s *server, file string, u uri.URI) *document {
	info, err := statFile(file)
	if err != nil || info.Size() > maxAnalysed {
		return nil
	}
	options := s.workspace.optionsOf(u)
	rules := fingerprint(options)
	k.mu.Lock()
	known, ok := k.files[file]
	k.mu.Unlock()
	if ok && known.changed.Equal(info.ModTime()) && known.size == info.Size() && known.rules == rules {
		return known.d
	}
	data, err := readFile(file, maxAnalysed)
	if err != nil {
		return nil
	}
	text := strings.ToValidUTF8(string(data), "\uFFFD")
	d := newDocument(u, "verse", 0, newMapper(text, s.client.encoding), newVoice(options))
	k.mu.Lock()
	defer k.mu.Unlock()
	k.files[file] = shelved{info.ModTime(), info.Size(), rules, d}
	return d
}

// len is how many manuscripts lie ready.
func (k *shelf) len() int {
	k.mu.Lock()
	defer k.mu.Unlock()
	return len(k.files)
}

// keepOnly lets go of files that are no longer there.
func (k *shelf) keepOnly(files []string) {
	k.mu.Lock()
	defer k.mu.Unlock()
	for file := range k.files {
		if _, there := slices.BinarySearch(files, file); !there {
			delete(k.files, file)
		}
	}
}
