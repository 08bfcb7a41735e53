// Package memo remembers what was worked out for one version of a text, so that
// the next version works out only what is new. It knows keys and values;
// nothing of what they mean.
package memo

import "sync"

// A Memo keeps values by key for two generations: what neither this one nor the
// one before has asked for is forgotten in time, so that it never holds much
// more than a quarter beyond what two texts need. Many goroutines may use it. The zero
// Memo is ready.
type Memo[V any] struct {
	mu    sync.Mutex
	slots map[string]*slot[V]
	now   uint64 // the generation
	used  int    // slots that it has asked for
}

type slot[V any] struct {
	value V
	asked uint64 // the last generation that asked for it
}

// spare is how many values are kept beyond what the rule asks for, so that a
// memo of few is not swept at every step.
const spare = 8

// Age begins a new generation.
func (m *Memo[V]) Age() {
	m.mu.Lock()
	defer m.mu.Unlock()
	if len(m.slots) > m.used+m.used/4+spare {
		for key, s := range m.slots {
			if s.asked < m.now {
				delete(m.slots, key)
			}
		}
	}
	m.now++
	m.used = 0
}

// Get is the value of a key, from memory or made anew. It is not locked while
// it makes one: two goroutines may make the same value, and either's is kept.
// The key may be changed afterwards.
func (m *Memo[V]) Get(key []byte, create func() V) V {
	if v, ok := m.recall(key); ok {
		return v
	}
	v := create()
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.slots == nil {
		m.slots = map[string]*slot[V]{}
	}
	if s, ok := m.slots[string(key)]; ok {
		return s.value
	}
	m.slots[string(key)] = &slot[V]{v, m.now}
	m.used++
	return v
}

func (m *Memo[V]) recall(key []byte) (v V, ok bool) {
	m.mu.Lock()
	defer m.mu.Unlock()
	s, ok := m.slots[string(key)]
	if !ok {
		return v, false
	}
	if s.asked < m.now {
		s.asked = m.now
		m.used++
	}
	return s.value, true
}
