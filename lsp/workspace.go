package lsp

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"dandle/analysis"
	"dandle/analysis/manuscript"
	"dandle/phonetics"

	"go.lsp.dev/uri"
)

var errNotOpen = errors.New("the document is not open")

// houseFile holds the house rules of the folder it lies in, and of all below.
const houseFile = "dandle.yaml"

// maxHouseFile bounds what is read as house rules.
const maxHouseFile = 1 << 20

// A workspace is the folders, the open documents and the rules they are read
// under.
type workspace struct {
	mu        sync.Mutex
	folders   []string // paths, cleaned
	settings  Settings
	documents map[uri.URI]*document
	read      pile                  // of the documents
	houses    map[string]houseRules // by folder, as far as they were asked for
	readers   phonetics.Readers     // of all documents
}

// houseRules are what a folder's documents are read under, without settings.
type houseRules struct {
	file  string // where they stand; empty where there are none
	rules manuscript.House
	// text and problems are the file's, to be shown in it.
	text     string
	problems []manuscript.Problem
}

func newWorkspace() *workspace {
	return &workspace{
		settings:  defaultSettings(),
		documents: map[uri.URI]*document{},
		houses:    map[string]houseRules{},
	}
}

// document is the newest version of an open document, or nil.
func (w *workspace) document(u uri.URI) *document {
	w.mu.Lock()
	defer w.mu.Unlock()
	d := w.documents[u]
	if d != nil {
		w.takeUp(u)
	}
	return d
}

// takeUp notes that a document is in hand. Those that have not been for long keep
// their text alone, and are read again when they are taken up. The mutex is held.
func (w *workspace) takeUp(u uri.URI) {
	for _, below := range w.read.take(u, func(u uri.URI) int { return len(w.documents[u].text) }) {
		d := w.documents[below]
		w.documents[below] = d.under(newVoice(d.voice.options))
	}
}

// open lists the open documents, by URI.
func (w *workspace) open() []*document {
	w.mu.Lock()
	defer w.mu.Unlock()
	out := make([]*document, 0, len(w.documents))
	for _, d := range w.documents {
		out = append(out, d)
	}
	slices.SortFunc(out, func(a, b *document) int { return strings.Compare(string(a.uri), string(b.uri)) })
	return out
}

// install opens a document, or opens it anew.
func (w *workspace) install(u uri.URI, language string, version int32, m *mapper) *document {
	w.mu.Lock()
	defer w.mu.Unlock()
	d := newDocument(u, language, version, m, newVoice(w.optionsFor(u)))
	w.documents[u] = d
	w.takeUp(u)
	return d
}

// update makes the next version of an open document.
func (w *workspace) update(u uri.URI, next func(*document) (*document, error)) (*document, error) {
	w.mu.Lock()
	defer w.mu.Unlock()
	old, ok := w.documents[u]
	if !ok {
		return nil, badParams(errNotOpen)
	}
	d, err := next(old)
	if err != nil {
		return nil, err
	}
	w.documents[u] = d
	w.takeUp(u)
	return d, nil
}

// remove reports whether the document was open.
func (w *workspace) remove(u uri.URI) bool {
	w.mu.Lock()
	defer w.mu.Unlock()
	_, open := w.documents[u]
	delete(w.documents, u)
	w.read.drop(u)
	return open
}

// current are the settings that hold now.
func (w *workspace) current() Settings {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.settings
}

// set takes new settings.
func (w *workspace) set(s Settings) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.settings = s
}

// setFolders takes the workspace's folders, as URIs.
func (w *workspace) setFolders(added, removed []uri.URI) {
	w.mu.Lock()
	defer w.mu.Unlock()
	for _, u := range removed {
		if path, ok := localPath(u); ok {
			w.folders = slices.DeleteFunc(w.folders, func(f string) bool { return f == path })
		}
	}
	for _, u := range added {
		if path, ok := localPath(u); ok && !slices.Contains(w.folders, path) {
			w.folders = append(w.folders, path)
		}
	}
	clear(w.houses)
}

// roots are the workspace's folders.
func (w *workspace) roots() []string {
	w.mu.Lock()
	defer w.mu.Unlock()
	return slices.Clone(w.folders)
}

// reread reads all open documents under the rules that hold now, the house rules
// read from the disk anew, and returns them.
func (w *workspace) reread() []*document {
	w.mu.Lock()
	clear(w.houses)
	var out []*document
	for u, d := range w.documents {
		w.documents[u] = d.under(newVoice(w.optionsFor(u)))
		out = append(out, w.documents[u])
	}
	w.mu.Unlock()
	return out
}

// optionsFor are the rules of a document: its house's, with the settings on top.
// The mutex is held.
func (w *workspace) optionsFor(u uri.URI) analysis.Options {
	house, _ := w.settings.over(w.houseFor(u).rules)
	return analysis.Options{House: house, Readers: &w.readers}
}

// optionsOf are the rules of a file that is not open.
func (w *workspace) optionsOf(u uri.URI) analysis.Options {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.optionsFor(u)
}

// houseFor are the house rules of the nearest folder upwards that has any, no
// further up than the workspace folder that holds the document. A document
// outside the workspace, or in none of the file system, has none: nothing is
// read there that the user has not opened. The mutex is held.
func (w *workspace) houseFor(u uri.URI) houseRules {
	path, ok := localPath(u)
	if !ok {
		return houseRules{}
	}
	for _, root := range w.folders {
		if within(root, path) {
			return w.houseOf(filepath.Dir(path), root)
		}
	}
	return houseRules{}
}

func (w *workspace) houseOf(folder, root string) houseRules {
	if known, ok := w.houses[folder]; ok {
		return known
	}
	var found houseRules
	file := filepath.Join(folder, houseFile)
	if data, err := readFile(file, maxHouseFile); err == nil {
		found = houseRules{file: file, text: string(data)}
		found.rules, found.problems = manuscript.ParseHouse(data)
	} else if folder != root && within(root, folder) {
		found = w.houseOf(filepath.Dir(folder), root)
	}
	w.houses[folder] = found
	return found
}

// houseFiles are the house rules in use, by file.
func (w *workspace) houseFiles() map[string]houseRules {
	w.mu.Lock()
	defer w.mu.Unlock()
	out := map[string]houseRules{}
	for _, h := range w.houses {
		if h.file != "" {
			out[h.file] = h
		}
	}
	return out
}

// localPath is the path of a file URI. For any other URI there is none, and the
// file system is never touched for it.
func localPath(u uri.URI) (string, bool) {
	if !u.IsFile() {
		return "", false
	}
	path := u.FsPath()
	if path == "" || strings.ContainsRune(path, 0) || !filepath.IsAbs(path) {
		return "", false
	}
	return filepath.Clean(path), true
}

// within reports whether a path lies in a folder or is it.
func within(folder, path string) bool {
	rest, err := filepath.Rel(folder, path)
	return err == nil && rest != ".." && !strings.HasPrefix(rest, ".."+string(filepath.Separator))
}

// readFile reads a regular file that is no longer than limit.
func readFile(name string, limit int64) ([]byte, error) {
	info, err := statFile(name)
	if err != nil {
		return nil, err
	}
	if info.Size() > limit {
		return nil, errors.New("the file is too long")
	}
	file, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	return io.ReadAll(io.LimitReader(file, limit))
}

// statFile tells of a regular file.
func statFile(name string) (os.FileInfo, error) {
	info, err := os.Stat(name)
	if err == nil && !info.Mode().IsRegular() {
		err = errors.New("no regular file")
	}
	return info, err
}

// fingerprint tells rules apart. fmt prints maps in the order of their keys.
func fingerprint(o analysis.Options) string { return fmt.Sprintf("%+v", o) }
