// Package lsp speaks the Language Server Protocol 3.17 for manuscripts of
// verse: sessions, open documents, positions in the client's encoding, and the
// translation of what package analysis hears into replies. It makes no finding
// of its own and knows no verse.
//
// What the protocol packages do well is theirs here: message types, method
// names, the connection. Frames, order of work, life cycle and routing are
// ours.
//
// The reading goroutine handles notifications in the order of arrival and gives
// each request the version of the document it was asked on; the request then
// runs beside the others, on values that never change, and can be cancelled.
// Findings are published by one goroutine for each document, which always takes
// the newest version.
//
// A request is one file: a pure function of a view (one version of a document,
// the client, its settings) and the request's params, named in the table routes,
// offered in capabilities, and shown by a marker test under testdata/marker.
// After a change in what is heard, "go test ./lsp -run Markers -update" writes
// the goldens anew, to be read before they are kept.
package lsp
