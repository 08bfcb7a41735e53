package checks

import (
	"sync/atomic"

	"dandle/analysis/memo"
)

// A Memory keeps what checks worked out for parts of a manuscript, from one
// version to the next. It belongs to the versions of one manuscript under one
// house, read by one memo. The zero Memory is ready.
type Memory struct {
	kept     memo.Memo[any]
	frames   memo.Memo[[]frame]
	said     memo.Memo[*said] // by the line's sound
	stanzas  memo.Memo[*stanzaNotes]
	leaning  memo.Memo[[]Finding] // of the checks that leaned on a stanza's standard
	counted  atomic.Uint64        // of stanzas' notes
	pairs    memo.Memo[[]rhymePair]
	glimpses memo.Memo[*glimpse]
	series   memo.Memo[*series]
}

func (m *Memory) age() {
	m.kept.Age()
	m.frames.Age()
	m.said.Age()
	m.stanzas.Age()
	m.leaning.Age()
	m.pairs.Age()
	m.glimpses.Age()
	m.series.Age()
}

// recall is what a check works out for a part of the manuscript, from memory
// where it was worked out before. The key must hold all that it depends on.
func recall[T any](p *Pass, key string, create func() T) T {
	whole := make([]byte, 0, 64)
	whole = append(append(append(whole, p.check.Code...), 0), key...)
	kept := p.Memory.kept.Get(whole, func() any { return create() })
	return kept.(T)
}
