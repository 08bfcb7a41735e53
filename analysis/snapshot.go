package analysis

import (
	"encoding/binary"
	"sync"

	"dandle/analysis/checks"
	"dandle/analysis/manuscript"
	"dandle/analysis/memo"
	"dandle/analysis/rhyme"
	"dandle/analysis/scansion"
	"dandle/phonetics"
)

// Options are what holds for every manuscript of a workspace.
type Options struct {
	House manuscript.House
	// Readers are shared by manuscripts that are read in one run; nil lets each
	// have a reader of its own.
	Readers *phonetics.Readers
}

// A Snapshot is one version of a manuscript with everything heard in it. It
// never changes, and may be used by many goroutines; what is costly is worked
// out when it is first asked for.
type Snapshot struct {
	options    Options
	manuscript *manuscript.Manuscript
	memory     *memory // shared with the snapshots before and after, while the reader stays

	poem    func() *scansion.Poem
	stanzas func() []rhyme.Stanza
	hearing func() *checks.Hearing
	raised  func() []checks.Finding
	all     func() []checks.Finding
}

// A memory is what the versions of a manuscript have in common: who pronounces
// its words, and what was worked out for lines and stanzas.
type memory struct {
	reader *phonetics.Reader
	lines  *scansion.Memo
	ends   memo.Memo[*rhyme.Ends] // by the sounds of a stanza's lines
	rhymes rhyme.Memo
	notes  checks.Memory
}

func newMemory(m *manuscript.Manuscript, options Options) *memory {
	reader := newReader(m, options)
	return &memory{reader: reader, lines: scansion.NewMemo(reader)}
}

// New reads a text.
func New(text string, options Options) *Snapshot { return first(manuscript.Parse(text), options) }

// NewExtract reads a text that was taken out of a file of another kind, whose
// lines begin at the given offsets.
func NewExtract(text string, lines []int, options Options) *Snapshot {
	return first(manuscript.ParseExtract(text, lines), options)
}

func first(m *manuscript.Manuscript, options Options) *Snapshot {
	return newSnapshot(m, options, newMemory(m, options))
}

// With is the snapshot of another text under the same options. It takes over
// from s what still holds; s does not change.
func (s *Snapshot) With(text string) *Snapshot {
	m := manuscript.Parse(text)
	if sameSounds(&m.Front, &s.manuscript.Front) {
		return newSnapshot(m, s.options, s.memory)
	}
	return newSnapshot(m, s.options, newMemory(m, s.options))
}

func newSnapshot(m *manuscript.Manuscript, options Options, memory *memory) *Snapshot {
	m.Problems = append(m.Problems, problems(m)...)
	s := &Snapshot{options: options, manuscript: m, memory: memory}
	s.poem = sync.OnceValue(func() *scansion.Poem { return scansion.Scan(m, memory.lines) })
	s.stanzas = sync.OnceValue(func() []rhyme.Stanza { return memory.rhymes.Hear(memory.lineEnds(m, s.poem())) })
	s.hearing = sync.OnceValue(func() *checks.Hearing {
		return checks.Listen(checks.Pass{
			Manuscript: m, Poem: s.poem(), Rhymes: s.stanzas(), Reader: memory.reader, House: options.House, Memory: &memory.notes,
		})
	})
	s.raised = sync.OnceValue(func() []checks.Finding { return s.hearing().Raised() })
	s.all = sync.OnceValue(func() []checks.Finding { return checks.ByPlace(s.raised(), s.hearing().Praise()) })
	return s
}

// Manuscript is the text, read into its parts.
func (s *Snapshot) Manuscript() *manuscript.Manuscript { return s.manuscript }

// Reader pronounces words in the manuscript's dialect, with the words that its
// writer has taught.
func (s *Snapshot) Reader() *phonetics.Reader { return s.memory.reader }

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
func (s *Snapshot) Findings() []checks.Finding { return s.all() }

// Raised are the findings without praise.
func (s *Snapshot) Raised() []checks.Finding { return s.raised() }

// lineEnds are the ends of all lines, by stanza.
func (m *memory) lineEnds(text *manuscript.Manuscript, poem *scansion.Poem) []*rhyme.Ends {
	m.ends.Age()
	stanzas := make([]*rhyme.Ends, len(text.Stanzas))
	var key []byte
	for i, stanza := range text.Stanzas {
		lines := poem.Lines[stanza.From:stanza.To]
		key = key[:0]
		for k := range lines {
			key = binary.LittleEndian.AppendUint64(key, uint64(lines[k].Sound()))
		}
		stanzas[i] = m.ends.Get(key, func() *rhyme.Ends { return rhyme.Listen(endsOf(lines)) })
	}
	return stanzas
}

func endsOf(lines []scansion.Line) []rhyme.End {
	ends := make([]rhyme.End, len(lines))
	for i := range lines {
		ends[i] = lines[i].End()
	}
	return ends
}
