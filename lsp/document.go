package lsp

import (
	"fmt"
	"strings"
	"sync"
	"unicode/utf8"

	"dandle/analysis"
	"dandle/lsp/protocol317"

	"go.lsp.dev/jsonrpc2"
	"go.lsp.dev/uri"
)

// Limits of a document. A manuscript of 10,000 words has some 60 kB, and a
// collected works half a megabyte: what is longer is no manuscript. It is kept
// and edited, and not read. Beyond maxText the server would hold more than one message may
// carry, which no editor brings about by typing.
const (
	maxAnalysed = 1 << 19
	maxText     = maxBody
)

// A document is one version of an open text. It never changes.
type document struct {
	uri      uri.URI
	language string // the client's language id
	version  int32
	*mapper
	voice *voice
	read  func() *analysis.Snapshot
}

// newDocument makes a version of a text that voice reads when it is first asked
// for.
func newDocument(u uri.URI, language string, version int32, m *mapper, v *voice) *document {
	d := &document{uri: u, language: language, version: version, mapper: m, voice: v}
	d.read = sync.OnceValue(func() *analysis.Snapshot {
		if d.tooLong() || language == "yaml" { // house rules, not verse
			return v.read("")
		}
		s := v.read(m.text)
		if language == "markdown" && !s.Manuscript().Front.Verse {
			return v.read("") // prose in Markdown is none of ours
		}
		return s
	})
	return d
}

// tooLong reports that the text is over the size that is read for its verse.
func (d *document) tooLong() bool { return len(d.text) > maxAnalysed }

// snapshot is what is heard in this version.
func (d *document) snapshot() *analysis.Snapshot { return d.read() }

// under is the same version read by another voice.
func (d *document) under(v *voice) *document {
	return newDocument(d.uri, d.language, d.version, d.mapper, v)
}

// apply makes the next version. The changes of one notification build on each
// other. If one cannot be applied, none is.
func (d *document) apply(changes []protocol317.TextDocumentContentChangeEvent, version int32) (*document, error) {
	m := d.mapper
	for i, c := range changes {
		text := c.Text
		if !utf8.ValidString(text) {
			text = strings.ToValidUTF8(text, string(utf8.RuneError))
		}
		if c.Range == nil {
			m = newMapper(text, m.encoding)
			continue
		}
		s, err := m.span(*c.Range)
		if err != nil {
			return nil, fmt.Errorf("change %d: %w", i, err)
		}
		if len(m.text)+len(text) > maxText {
			return nil, jsonrpc2.NewError(jsonrpc2.InvalidParams, fmt.Sprintf("change %d: the text grows over %d bytes", i, maxText))
		}
		m = m.splice(s.Start, s.End, text)
	}
	return newDocument(d.uri, d.language, version, m, d.voice), nil
}

// A voice reads the versions of one document, each on top of the one it read
// last, so that a letter typed costs a line and not the whole text.
type voice struct {
	options analysis.Options
	mu      sync.Mutex
	last    *analysis.Snapshot
}

func newVoice(options analysis.Options) *voice { return &voice{options: options} }

func (v *voice) read(text string) *analysis.Snapshot {
	v.mu.Lock()
	defer v.mu.Unlock()
	if v.last == nil {
		v.last = analysis.New(text, v.options)
	} else if v.last.Manuscript().Text != text {
		v.last = v.last.With(text)
	}
	return v.last
}
