// Package memo remembers what was worked out for one version of a text, so that
// the next version works out only what is new. It knows keys and values;
// nothing of what they mean.
package memo

import "sync"

// A Memo keeps values by key for two generations: what neither this one nor the
// one before has asked for is forgotten, so that it never holds much more than
// one text needs. Many goroutines may use it. The zero Memo is ready.
type Memo[V any] struct {
	mu         sync.Mutex
	young, old map[string]V
}

// Age begins a new generation.
func (m *Memo[V]) Age() {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.young, m.old = make(map[string]V, len(m.young)), m.young
}

// Get is the value of a key, from memory or made anew. It is not locked while
// it makes one: two goroutines may make the same value, and either's is kept.
func (m *Memo[V]) Get(key string, create func() V) V {
	m.mu.Lock()
	v, ok := m.young[key]
	if !ok {
		if v, ok = m.old[key]; ok {
			m.put(key, v)
		}
	}
	m.mu.Unlock()
	if ok {
		return v
	}
	v = create()
	m.mu.Lock()
	defer m.mu.Unlock()
	m.put(key, v)
	return v
}

func (m *Memo[V]) put(key string, v V) {
	if m.young == nil {
		m.young = map[string]V{}
	}
	m.young[key] = v
}
