package lsp

import (
	"context"
	"sync"

	"go.lsp.dev/uri"
)

// maxHeld is how many changes wait for the input to run dry before they are read
// anyway: a client that never pauses still sees findings.
const maxHeld = 1 << 12

// A desk publishes findings. One goroutine for each document takes its newest
// version, and drops what it has made when a newer one came meanwhile; so
// nothing waits for a timer, no older version follows a newer one, and a burst
// of changes is read once or twice.
type desk struct {
	background *background
	publish    func(u uri.URI, d *document, current func() bool)

	mu      sync.Mutex
	folders map[uri.URI]*folder
	held    []uri.URI // changed since the last release
}

// A folder is what lies on the desk for one document.
type folder struct {
	newest  *document // nil where it was closed
	fresh   bool      // newest was laid down after work began on another
	due     bool      // newest was released, and no work has begun on it
	working bool      // a goroutine is at it
}

func newDesk(b *background, publish func(uri.URI, *document, func() bool)) *desk {
	return &desk{background: b, publish: publish, folders: map[uri.URI]*folder{}}
}

// put lays down a new version. It is read at the next release, but makes older
// work void at once.
func (k *desk) put(d *document) { k.lay(d.uri, d) }

// clear takes a closed document's findings back.
func (k *desk) clear(u uri.URI) { k.lay(u, nil) }

func (k *desk) lay(u uri.URI, d *document) {
	k.mu.Lock()
	f, ok := k.folders[u]
	if !ok {
		f = &folder{}
		k.folders[u] = f
	}
	f.newest, f.fresh = d, true
	k.held = append(k.held, u)
	full := len(k.held) >= maxHeld
	k.mu.Unlock()
	if full {
		k.release()
	}
}

// release starts work on what was laid down.
func (k *desk) release() {
	k.mu.Lock()
	defer k.mu.Unlock()
	for _, u := range k.held {
		f := k.folders[u]
		if f == nil || !f.fresh {
			continue
		}
		f.due = true
		if !f.working {
			f.working = true
			k.background.run(func(ctx context.Context) { k.work(ctx, u, f) })
		}
	}
	k.held = k.held[:0]
}

func (k *desk) work(ctx context.Context, u uri.URI, f *folder) {
	for {
		k.mu.Lock()
		if !f.due || ctx.Err() != nil {
			f.working = false
			if !f.fresh {
				delete(k.folders, u) // lest the desk hold on to what was read
			}
			k.mu.Unlock()
			return
		}
		d := f.newest
		f.fresh, f.due = false, false
		k.mu.Unlock()
		k.publish(u, d, func() bool {
			k.mu.Lock()
			defer k.mu.Unlock()
			return !f.fresh && ctx.Err() == nil
		})
	}
}
