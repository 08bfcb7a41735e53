//go:build !unix

package lsp

import "context"

// watchParent does nothing here: the end of the input tells that the client is
// gone.
func watchParent(context.Context, int, func()) {}
