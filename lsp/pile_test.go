package lsp

import (
	"fmt"
	"strings"
	"testing"

	"dandle/lsp/protocol317"

	"github.com/google/go-cmp/cmp"
	"go.lsp.dev/uri"
)

func TestPileKeepsWhatWasLastInHand(t *testing.T) {
	sizes := map[uri.URI]int{"a": 20 << 10, "b": 10 << 10, "c": 10 << 10, "long": 1 << 20}
	size := func(u uri.URI) int { return sizes[u] }
	var p pile
	for _, step := range []struct {
		take  uri.URI
		below []uri.URI
	}{
		{"a", nil},
		{"b", nil},
		{"c", nil}, // 30 kB lie below it
		{"a", nil},
		{"long", []uri.URI{"b"}},
		{"long", nil}, // however long, what is in hand stays
		{"b", []uri.URI{"long", "a", "c"}},
	} {
		if diff := cmp.Diff(step.below, p.take(step.take, size)); diff != "" {
			t.Errorf("with %s in hand too deep lie (-want +got):\n%s", step.take, diff)
		}
	}
	p.drop("b")
	if len(p.order) != 0 {
		t.Errorf("%v stay", p.order)
	}
}

// What was laid aside is the same document, and says the same when it is read
// again.
func TestDocumentsThatAreLaidAsideKeepTheirText(t *testing.T) {
	w := newWorkspace()
	text := longBook(1000)
	first := w.install("file:///0.verse", "verse", 1, newMapper(text, protocol317.UTF16))
	before := diagnostics(first, client{})
	for i := range 10 {
		u := uri.URI(fmt.Sprintf("file:///%d.verse", i+1))
		w.install(u, "verse", 1, newMapper(strings.Repeat("A lamp.\n", 1000), protocol317.UTF16))
	}
	aside := w.documents["file:///0.verse"]
	if aside.voice == first.voice {
		t.Fatal("it is still read")
	}
	again := w.document("file:///0.verse")
	if again.mapper != first.mapper || again.version != first.version {
		t.Error("it is another version")
	}
	if diff := cmp.Diff(before, diagnostics(again, client{})); diff != "" {
		t.Errorf("read again it says (-before +after):\n%s", diff)
	}
}
