package scansion

import (
	"sync"

	"dandle/analysis/manuscript"
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

	mu sync.Mutex
	// Lines not asked for in the last two scans are forgotten.
	young, old map[string]*heard
}

// NewMemo makes an empty memo for a reader.
func NewMemo(r *phonetics.Reader) *Memo {
	return &Memo{reader: r, young: map[string]*heard{}}
}

// age begins a new scan: what the scan before the last used is forgotten.
func (m *Memo) age() {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.young, m.old = make(map[string]*heard, len(m.young)), m.young
}

// line is what is heard in a line, from memory where it was heard before.
func (m *Memo) line(words []manuscript.Word, tags []grammar.Tag) *heard {
	key := lineKey(words, tags)
	m.mu.Lock()
	h := m.young[key]
	if h == nil {
		if h = m.old[key]; h != nil {
			m.young[key] = h
		}
	}
	m.mu.Unlock()
	if h != nil {
		return h
	}
	h = hear(lineWords(words, tags, m.reader))
	m.mu.Lock()
	m.young[key] = h
	m.mu.Unlock()
	return h
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
func lineKey(words []manuscript.Word, tags []grammar.Tag) string {
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
	return string(b)
}

// A reading is asked for under a foot with a number of beats.
type ask struct {
	foot  ear.Foot
	beats int
}

// read is the line's best reading under a foot with a number of beats.
func (h *heard) read(foot ear.Foot, beats int) (ear.Reading, bool) {
	key := ask{foot, beats}
	h.mu.Lock()
	defer h.mu.Unlock()
	if r, ok := h.readings[key]; ok {
		return r, len(r.Beats) > 0
	}
	r, ok := ear.Learned().Read(&h.line, len(h.ways), foot, beats)
	if h.readings == nil {
		h.readings = map[ask]ear.Reading{}
	}
	h.readings[key] = r
	return r, ok
}
