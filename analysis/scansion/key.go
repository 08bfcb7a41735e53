package scansion

import (
	"encoding/binary"
	"math"
)

// A Sound stands for what a line sounds like: two lines read by one memo share
// it only where they have the same words, marks and parts of speech. It tells
// what was worked out for a line from what was not.
type Sound uint64

// Sound is that of the line; 0 for one that was not read by a memo.
func (l *Line) Sound() Sound {
	if l.heard == nil {
		return 0
	}
	return l.heard.sound
}

// AppendKey appends to b what tells the line from any other in what is heard of
// it: its sound, its reading, what its place calls for, and where it breaks.
// How far it deviates hangs on its standard besides. Places count from the line's
// first word.
func (l *Line) AppendKey(b []byte) []byte {
	b = binary.AppendUvarint(b, uint64(l.Sound()))
	b = append(b, byte(l.read.foot), byte(l.read.beats), byte(l.Beats), byte(len(l.Expected)))
	b = append(b, l.Expected...)
	b = append(b, byte(len(l.Variations)))
	for _, v := range l.Variations {
		b = append(b, byte(v.Kind), byte(v.From), byte(v.To))
	}
	if l.Break == nil {
		return append(b, truth(l.Fits))
	}
	b = append(b, 2+truth(l.Fits), byte(l.Break.Cause))
	for _, n := range [...]int{l.Break.From, l.Break.To, l.Break.Span.Start, l.Break.Span.End, l.Break.Spare.Start, l.Break.Spare.End} {
		b = binary.AppendVarint(b, int64(n))
	}
	return b
}

// AppendStandard appends to b what some lines are held to, besides what AppendKey
// tells of each: on both hang how far a line deviates, and what Try and Mends say.
func (p *Poem) AppendStandard(b []byte, from, to int) []byte {
	var last *standard
	for i := from; i < min(to, len(p.Lines)); i++ {
		s := p.Lines[i].standard
		if s == nil || s == last {
			b = append(b, truth(s != nil))
			continue
		}
		last = s
		f := &s.form
		b = append(b, 2+truth(f.declared), byte(f.foot), byte(f.opening), byte(len(f.beats)))
		for _, n := range f.beats {
			b = append(b, byte(n))
		}
		for _, e := range s.usual.parts() {
			b = binary.LittleEndian.AppendUint64(b, math.Float64bits(*e))
		}
	}
	return b
}

func truth(is bool) byte {
	if is {
		return 1
	}
	return 0
}
