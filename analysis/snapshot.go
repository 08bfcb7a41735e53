package analysis

import (
	"sync"

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
	options    Options
	manuscript *manuscript.Manuscript
	reader     *phonetics.Reader
	// Shared with the snapshots before and after, while the reader stays.
	memo   *scansion.Memo
	memory *checks.Memory

	poem     func() *scansion.Poem
	ends     func() [][]rhyme.End // of the lines, by stanza
	stanzas  func() []rhyme.Stanza
	findings func() []checks.Finding
}

// New reads a text.
func New(text string, options Options) *Snapshot {
	m := manuscript.Parse(text)
	reader := newReader(m, options.House)
	return newSnapshot(m, options, reader, scansion.NewMemo(reader), &checks.Memory{})
}

// With is the snapshot of another text under the same options. It takes over
// from s what still holds; s does not change.
func (s *Snapshot) With(text string) *Snapshot {
	m := manuscript.Parse(text)
	if sameSounds(&m.Front, &s.manuscript.Front) {
		return newSnapshot(m, s.options, s.reader, s.memo, s.memory)
	}
	reader := newReader(m, s.options.House)
	return newSnapshot(m, s.options, reader, scansion.NewMemo(reader), &checks.Memory{})
}

func newSnapshot(m *manuscript.Manuscript, options Options, reader *phonetics.Reader, memo *scansion.Memo, memory *checks.Memory) *Snapshot {
	m.Problems = append(m.Problems, problems(m)...)
	s := &Snapshot{options: options, manuscript: m, reader: reader, memo: memo, memory: memory}
	s.poem = sync.OnceValue(func() *scansion.Poem { return scansion.Scan(m, memo) })
	s.ends = sync.OnceValue(func() [][]rhyme.End { return lineEnds(m, s.poem()) })
	s.stanzas = sync.OnceValue(func() []rhyme.Stanza { return rhyme.Hear(s.ends()) })
	s.findings = sync.OnceValue(func() []checks.Finding {
		return checks.Run(checks.Pass{
			Manuscript: m, Poem: s.poem(), Schemes: s.Schemes(), Reader: reader, House: options.House, Memory: memory,
		})
	})
	return s
}

// Manuscript is the text, read into its parts.
func (s *Snapshot) Manuscript() *manuscript.Manuscript { return s.manuscript }

// Reader pronounces words in the manuscript's dialect, with the words that its
// writer has taught.
func (s *Snapshot) Reader() *phonetics.Reader { return s.reader }

// Poem is the meter and every line's reading.
func (s *Snapshot) Poem() *scansion.Poem { return s.poem() }

// Stanzas are what is heard in the ends of the lines, one for each stanza.
func (s *Snapshot) Stanzas() []rhyme.Stanza { return s.stanzas() }

// Schemes are the rhyme schemes, one for each stanza.
func (s *Snapshot) Schemes() []rhyme.Scheme {
	list := make([]rhyme.Scheme, len(s.stanzas()))
	for i := range list {
		list[i] = s.stanzas()[i].Scheme
	}
	return list
}

// Findings are the notes of all checks, by place, then by code; those that the
// writer has allowed are left out.
func (s *Snapshot) Findings() []checks.Finding { return s.findings() }

// lineEnds are the ends of all lines, by stanza, with the beat that the meter
// puts last.
func lineEnds(m *manuscript.Manuscript, poem *scansion.Poem) [][]rhyme.End {
	stanzas := make([][]rhyme.End, len(m.Stanzas))
	for i, stanza := range m.Stanzas {
		for k := stanza.From; k < stanza.To; k++ {
			line := &poem.Lines[k]
			words := line.Words[max(0, len(line.Words)-3):]
			tail := make([]rhyme.Word, len(words))
			for j, w := range words {
				tail[j] = rhyme.Word{Text: w.Text, Ways: w.Ways}
			}
			stanzas[i] = append(stanzas[i], rhyme.NewEnd(tail, slackAtEnd(&line.Reading)))
		}
	}
	return stanzas
}

// slackAtEnd is the number of syllables after the last beat.
func slackAtEnd(r *scansion.Reading) int {
	for i := len(r.Syllables) - 1; i >= 0; i-- {
		if r.Syllables[i].Beat {
			return len(r.Syllables) - 1 - i
		}
	}
	return rhyme.Unheard
}
