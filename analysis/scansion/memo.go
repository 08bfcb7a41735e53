package scansion

import (
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
	reader *phonetics.Reader
	lines  memo.Memo[*heard]
	tagged memo.Memo[[]grammar.Tag] // by the passage's tokens
	count  atomic.Uint64            // of lines that were heard
}

// NewMemo makes an empty memo for a reader.
func NewMemo(r *phonetics.Reader) *Memo { return &Memo{reader: r} }

// age begins a new scan: what the scan before the last used is forgotten.
func (m *Memo) age() {
	m.lines.Age()
	m.tagged.Age()
}

// line is what is heard in a line, from memory where it was heard before.
func (m *Memo) line(words []manuscript.Word, tags []grammar.Tag) *heard {
	return m.lines.Get(lineKey(words, tags), func() *heard {
		h := hear(lineWords(words, tags, m.reader))
		h.sound = Sound(m.count.Add(1))
		return h
	})
}

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

// words joins the words of a line with what was heard in them.
func (m *Memo) words(words []manuscript.Word, tags []grammar.Tag, h *heard) []Word {
	list := make([]Word, len(words))
	for k, w := range words {
		list[k] = Word{Word: w, Tag: tags[k], Ways: h.ways[k]}
	}
	return list
}

// lineKey is all that a line's sound depends on.
func lineKey(words []manuscript.Word, tags []grammar.Tag) []byte {
	size := 0
	for i := range words {
		size += len(words[i].Text) + 3
	}
	b := make([]byte, 0, size)
	for i, w := range words {
		flags := byte(w.Break)
		if w.Emphasis {
			flags |= 1 << 4
		}
		if w.Shouted {
			flags |= 1 << 5
		}
		b = append(b, w.Text...)
		b = append(b, 0, flags, byte(tags[i]))
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
	if a, ok := h.answers[key]; ok {
		return a
	}
	a := &answer{}
	if a.Reading, a.ok = ear.Learned().Read(&h.line, len(h.ways), foot, beats); a.ok {
		a.feet = divide(a.Beats, foot)
		a.variations = variations(a.Beats, foot)
		a.expected = expected(a.Beats, foot, beats)
		a.syllables = h.syllables(&a.Reading)
		a.variations = append(a.variations, lightEnding(a.syllables)...)
	}
	if h.answers == nil {
		h.answers = map[ask]*answer{}
	}
	h.answers[key] = a
	return a
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
