package phonetics

import (
	"strings"
	"sync"

	"dandle/phonetics/grammar"
)

// Readers makes readers that share what they remember of words: of those that
// teach nothing there is one for each dialect. Many goroutines may use it. The
// zero Readers is ready.
type Readers struct {
	// Words is how many words each reader remembers for sure, and half of what it
	// holds at most; a word takes about half a kilobyte. 0 stands for 2,048: a
	// picture book has a few hundred different words, a long poem that many.
	Words int

	mu    sync.Mutex
	plain map[Dialect]*Reader
}

// Reader is a reader of a dialect that was taught some words, as NewReader makes
// it.
func (rs *Readers) Reader(d Dialect, taught map[string]Sounds) *Reader {
	if len(taught) > 0 {
		return newReader(d, taught, rs.Words)
	}
	rs.mu.Lock()
	defer rs.mu.Unlock()
	if rs.plain == nil {
		rs.plain = map[Dialect]*Reader{}
	}
	r, made := rs.plain[d]
	if !made {
		r = newReader(d, nil, rs.Words)
		rs.plain[d] = r
	}
	return r
}

// A memory keeps how words were said, for few words make up most of a text, and
// a rare word comes back in the text that has it. It changes no answer, only how
// soon it comes.
type memory struct {
	said    recent[written, []Pronunciation]
	guesses recent[string, []reading] // of a word's letters, by the word in the dictionary's form
	rhymes  recent[Sounds, []Ending]  // of a stressed tail
}

// A written word is what says how it is said where the words beside it do not.
type written struct {
	text string
	tag  grammar.Tag
}

// cloned is the word without the text that it stands in.
func (w written) cloned() written { return written{strings.Clone(w.text), w.tag} }

func newMemory(words int) memory {
	if words <= 0 {
		words = defaultWords
	}
	return memory{
		said:    recent[written, []Pronunciation]{most: words, cloned: written.cloned},
		guesses: recent[string, []reading]{most: words, cloned: strings.Clone},
		rhymes:  recent[Sounds, []Ending]{most: fewTails, cloned: func(tail Sounds) Sounds { return Sounds(strings.Clone(string(tail))) }},
	}
}

const (
	defaultWords = 2048
	fewTails     = 96 // each with some hundred words
)

// A recent keeps values by key for as long as no more than most others have come
// since, and holds at most twice as many. The zero value remembers nothing.
type recent[K comparable, V any] struct {
	most       int
	cloned     func(K) K // the key without the text that it stands in
	mu         sync.Mutex
	young, old map[K]V
}

func (r *recent[K, V]) find(key K) (V, bool) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if v, known := r.young[key]; known {
		return v, true
	}
	v, known := r.old[key]
	if known {
		r.put(key, v)
	}
	return v, known
}

func (r *recent[K, V]) keep(key K, v V) {
	if r.cloned == nil {
		return
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	r.put(key, v)
}

// put keeps a value; the mutex is held.
func (r *recent[K, V]) put(key K, v V) {
	if r.young == nil || len(r.young) == r.most {
		r.young, r.old = map[K]V{}, r.young
	}
	r.young[r.cloned(key)] = v
}
