package scansion

import (
	"encoding/binary"
	"sync"
	"sync/atomic"

	"dandle/analysis/manuscript"
	"dandle/analysis/memo"
	"dandle/analysis/scansion/ear"
	"dandle/phonetics"
	"dandle/phonetics/grammar"
)

// A Memo keeps what was heard in single lines, so that a new version of a
// manuscript has only its new lines heard again. What a line sounds like
// depends on its words, their marks and their parts of speech, and on nothing
// else of the manuscript. A memo belongs to one reader's pronunciations; many
// goroutines may use it.
type Memo struct {
	reader  *phonetics.Reader
	stanzas memo.Memo[*heardStanza]
	lines   memo.Memo[*heard]
	tagged  memo.Memo[[]grammar.Tag] // by the passage's tokens
	count   atomic.Uint64            // of lines that were heard
}

// NewMemo makes an empty memo for a reader.
func NewMemo(r *phonetics.Reader) *Memo { return &Memo{reader: r} }

// age begins a new scan: what the scan before the last used is forgotten.
func (m *Memo) age() {
	m.stanzas.Age()
	m.lines.Age()
	m.tagged.Age()
}

// A heardStanza is what is heard in a stanza by itself.
type heardStanza struct {
	tags  [][]grammar.Tag // of each line
	lines []*heard
	own   func() *form // the form that explains it best
}

// stanza is what is heard in a stanza, from memory where it was heard before.
// The key is a buffer to be used again.
func (m *Memo) stanza(lines []manuscript.Line, key *[]byte) *heardStanza {
	*key = appendLines((*key)[:0], lines)
	return m.stanzas.Get(*key, func() *heardStanza {
		tags := stanzaTags(lines, m.tags)
		h := &heardStanza{tags: tags, lines: make([]*heard, len(lines))}
		for k := range lines {
			h.lines[k] = m.line(lines[k].Words, tags[k])
		}
		heard := h.lines // lest the stanza hold on to the text that it was read from
		h.own = sync.OnceValue(func() *form {
			f := chooseForm(verseOf(heard))
			return &f
		})
		return h
	})
}

// verseOf are the lines that can be heard, with their places.
func verseOf(lines []*heard) (verse []*heard, places []int) {
	for k, h := range lines {
		if h.ok {
			verse, places = append(verse, h), append(places, k)
		}
	}
	return verse, places
}

// appendLines appends to a key all that the sound of lines depends on.
func appendLines(b []byte, lines []manuscript.Line) []byte {
	for i := range lines {
		b = binary.AppendUvarint(b, uint64(len(lines[i].Words)))
		for k := range lines[i].Words {
			w := &lines[i].Words[k]
			b = binary.AppendUvarint(b, uint64(len(w.Text)))
			b = append(append(b, w.Text...), flags(w))
		}
	}
	return b
}

// flags are what a word's sound depends on besides its letters, in a byte.
func flags(w *manuscript.Word) byte {
	b := byte(w.Break)
	if w.Emphasis {
		b |= 1 << 4
	}
	if w.Shouted {
		b |= 1 << 5
	}
	return b
}

// line is what is heard in a line, from memory where it was heard before.
func (m *Memo) line(words []manuscript.Word, tags []grammar.Tag) *heard {
	return m.lines.Get(lineKey(words, tags), func() *heard {
		var room [usualWords]Word // hear keeps none of the words
		h := hear(lineWords(room[:0], words, tags, m.reader))
		h.sound = Sound(m.count.Add(1))
		return h
	})
}

// usualWords is what nearly every line of verse has at most.
const usualWords = 16

// tags are the parts of speech of a passage.
func (m *Memo) tags(tokens []grammar.Token) []grammar.Tag {
	return m.tagged.Get(passageKey(tokens), func() []grammar.Tag { return grammar.Tags(tokens) })
}

// passageKey is all that a passage's parts of speech depend on.
func passageKey(tokens []grammar.Token) []byte {
	size := 0
	for i := range tokens {
		size += len(tokens[i].Text) + len(tokens[i].After) + 2
	}
	b := make([]byte, 0, size)
	for i := range tokens {
		b = append(b, tokens[i].Text...)
		b = append(b, 0)
		b = append(b, tokens[i].After...)
		b = append(b, 0)
	}
	return b
}

// join joins the words of a line with what was heard in them, in the room that
// there is for them.
func (h *heard) join(words []manuscript.Word, tags []grammar.Tag, room []Word) []Word {
	for k, w := range words {
		room[k] = Word{Word: w, Tag: tags[k], Ways: h.ways[k]}
	}
	return room[:len(words):len(words)]
}

// lineKey is all that a line's sound depends on.
func lineKey(words []manuscript.Word, tags []grammar.Tag) []byte {
	size := 0
	for i := range words {
		size += len(words[i].Text) + 3
	}
	b := make([]byte, 0, size)
	for i := range words {
		b = append(b, words[i].Text...)
		b = append(b, 0, flags(&words[i]), byte(tags[i]))
	}
	return b
}

// A reading is asked for under a foot with a number of beats.
type ask struct {
	foot  ear.Foot
	beats int
}

// An answer is a line's best reading, as the ear has it and as a reader sees it.
type answer struct {
	ear.Reading
	ok         bool
	feet       []int
	variations []Variation
	syllables  []Syllable // their spans count from their word's start
	expected   string
}

// read is the line's best reading under a foot with a number of beats.
func (h *heard) read(foot ear.Foot, beats int) (ear.Reading, bool) {
	a := h.answer(foot, beats)
	return a.Reading, a.ok
}

func (h *heard) answer(foot ear.Foot, beats int) *answer {
	key := ask{foot, beats}
	h.mu.Lock()
	defer h.mu.Unlock()
	if a, ok := h.answers.find(key); ok {
		return a
	}
	a := &answer{}
	if a.Reading, a.ok = h.line.Read(foot, beats); a.ok {
		a.feet = divide(a.Beats, foot)
		a.variations = variations(a.Beats, foot)
		a.expected = expected(a.Beats, foot, beats)
		a.syllables = h.syllables(&a.Reading)
		a.variations = append(a.variations, lightEnding(a.syllables)...)
	}
	h.answers.put(key, a)
	return a
}

// holding is what comes of holding the line to a form of so many beats.
func (h *heard) holding(key ask, create func() *holding) *holding {
	return remembered(&h.mu, &h.held, key, create)
}

// lessened is the strain of the line less some words, from memory where it was
// asked before.
func (h *heard) lessened(key lessening, create func() float64) float64 {
	return remembered(&h.mu, &h.less, key, create)
}

// remembered is the value of a key, from memory or made anew. It is not locked
// while it is made.
func remembered[K comparable, V any](mu *sync.Mutex, list *few[K, V], key K, create func() V) V {
	mu.Lock()
	value, ok := list.find(key)
	mu.Unlock()
	if ok {
		return value
	}
	value = create()
	mu.Lock()
	defer mu.Unlock()
	list.put(key, value)
	return value
}

// A few is a map of few keys. A line is asked for two or three readings, and a map
// would take room for eight.
type few[K comparable, V any] []struct {
	key   K
	value V
}

func (f few[K, V]) find(key K) (value V, found bool) {
	for i := range f {
		if f[i].key == key {
			return f[i].value, true
		}
	}
	return value, false
}

func (f *few[K, V]) put(key K, value V) {
	for i := range *f {
		if (*f)[i].key == key {
			(*f)[i].value = value
			return
		}
	}
	*f = append(*f, struct {
		key   K
		value V
	}{key, value})
}

// syllables are those of a reading, with their places in their words.
func (h *heard) syllables(r *ear.Reading) []Syllable {
	list := make([]Syllable, 0, len(r.Beats))
	for w := range h.ways {
		if len(h.ways[w]) == 0 {
			continue
		}
		for _, s := range h.ways[w][r.Ways[w]].Syllables {
			list = append(list, Syllable{
				Word: w, Span: manuscript.Span{Start: s.Start, End: s.End}, Stress: s.Stress, Beat: r.Beats[len(list)],
			})
		}
	}
	return list
}
