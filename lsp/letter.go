package lsp

import (
	"context"
	"encoding/json"
	"fmt"
	"hash/fnv"
	"os"
	"path/filepath"
	"strings"

	"dandle/analysis/critique"
	sheet "dandle/analysis/page"

	"go.lsp.dev/protocol"
	"go.lsp.dev/uri"
)

// openLetter writes the letter as a page and has the client open it outside the
// editor. A client that cannot is answered with the page's URI, to open itself.
func (s *server) openLetter(list []json.RawMessage) (work, error) {
	v, err := s.documentArgument(list)
	if err != nil {
		return nil, err
	}
	return func(ctx context.Context) (any, error) {
		parts := v.snapshot().Parts()
		place, err := keepLetter(v.uri, sheet.Critique(critique.Write(parts, critique.Full), parts))
		if err != nil {
			return nil, fmt.Errorf("write the letter: %w", err)
		}
		if !s.client.caps.Window.ShowDocument.Support {
			s.say("The letter lies at " + string(place))
			return place, nil
		}
		var result protocol.ShowDocumentResult
		if err := s.call(ctx, protocol.MethodShowDocument, protocol.ShowDocumentParams{URI: place, External: true}, &result); err != nil {
			return nil, fmt.Errorf("open the letter: %w", err)
		}
		return nil, nil
	}, nil
}

// keepLetter writes a page where only the user can read it. Each manuscript's
// letter takes the place of the one before.
func keepLetter(about uri.URI, data []byte) (uri.URI, error) {
	cache, err := os.UserCacheDir()
	if err != nil {
		return "", err
	}
	folder := filepath.Join(cache, "dandle", "letters")
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return "", err
	}
	name := filepath.Join(folder, letterName(about)+".html")
	if err := os.WriteFile(name, data, 0o600); err != nil {
		return "", err
	}
	return uri.File(name), nil
}

// letterName is a name for the letter about a document: the end of its URI, for
// the reader, and a number that tells documents of one name apart.
func letterName(about uri.URI) string {
	last := string(about)[strings.LastIndexAny(string(about), "/\\:")+1:]
	name := strings.Map(func(r rune) rune {
		if strings.ContainsRune("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_", r) {
			return r
		}
		return '-'
	}, strings.TrimSuffix(last, filepath.Ext(last)))
	number := fnv.New32a()
	number.Write([]byte(about))
	return fmt.Sprintf("%s-%08x", name[:min(len(name), 80)], number.Sum32())
}
