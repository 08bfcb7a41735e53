package lsp

import (
	"slices"

	"go.lsp.dev/uri"
)

// maxLying is how many bytes of text stay read besides the document in hand:
// some five poems of 1,000 words. What was heard in a text takes 300 to 600 times
// its room, and a poem that is taken up again is heard anew in some 15 ms.
const maxLying = 32 << 10

// A pile is the open documents that stay read, the one last in hand on top. A
// session opens many in a day and works at few.
type pile struct{ order []uri.URI }

// take brings a document to the top, and takes out those that now lie too deep,
// which it returns. No document's size is asked that is not in the pile.
func (p *pile) take(u uri.URI, size func(uri.URI) int) (below []uri.URI) {
	p.drop(u)
	p.order = slices.Insert(p.order, 0, u)
	lying := 0
	for i, other := range p.order[1:] {
		if lying += size(other); lying > maxLying {
			below = slices.Clone(p.order[1+i:])
			p.order = p.order[:1+i]
			break
		}
	}
	return below
}

// drop takes a document out.
func (p *pile) drop(u uri.URI) {
	p.order = slices.DeleteFunc(p.order, func(other uri.URI) bool { return other == u })
}
