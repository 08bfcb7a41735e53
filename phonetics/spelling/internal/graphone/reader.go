package graphone

import (
	"encoding/binary"
	"fmt"
	"math"
	"slices"

	"dandle/phonetics/arpabet"
)

// A Reader reads words with two models, one from the first letter on and one
// from the last letter back. Each proposes readings, both judge all of them:
// one knows what has begun, the other how the word ends.
type Reader struct {
	inventory         *Inventory
	forward, backward *Model
}

const magic = "dandspl1"

// PackReader writes a reader: the magic; the inventory, which is for each
// letter the number of its outputs and for each output its length and sounds;
// the length of the forward model (4 bytes, little-endian); the two models.
func PackReader(inv *Inventory, forward, backward []byte) []byte {
	b := []byte(magic)
	for _, list := range inv {
		b = append(b, byte(len(list)))
		for _, s := range list {
			b = append(b, byte(len(s)))
			b = append(b, s...)
		}
	}
	b = binary.LittleEndian.AppendUint32(b, uint32(len(forward)))
	b = append(b, forward...)
	return append(b, backward...)
}

// OpenReader reads a packed reader in place.
func OpenReader(packed string) (*Reader, error) {
	rest, ok := packed, len(packed) > len(magic) && packed[:len(magic)] == magic
	if !ok {
		return nil, fmt.Errorf("open reader: no magic")
	}
	rest = rest[len(magic):]
	take := func(n int) string {
		if n > len(rest) {
			ok = false
			return string(make([]byte, n))
		}
		s := rest[:n]
		rest = rest[n:]
		return s
	}
	var inv Inventory
	for l := range inv {
		n := int(take(1)[0])
		if n == 0 || n > MaxOutputs {
			return nil, fmt.Errorf("open reader: letter %d has %d outputs", l, n)
		}
		for range n {
			inv[l] = append(inv[l], arpabet.Sounds(take(int(take(1)[0]))))
		}
	}
	length := int(uint32At(take(4), 0))
	if !ok || length > len(rest) {
		return nil, fmt.Errorf("open reader: cut short")
	}
	r := &Reader{inventory: &inv}
	var err error
	if r.forward, err = Open(rest[:length], &inv); err != nil {
		return nil, err
	}
	r.backward, err = Open(rest[length:], inv.Reversed())
	return r, err
}

// A Reading is one way to say a word.
type Reading struct {
	Sounds  arpabet.Sounds
	LogProb float64 // natural logarithm
}

// beamWidth is the number of readings each model keeps. Wider beams cost time
// and mend one word in a thousand.
const beamWidth = 6

// Read is the readings of a word, likeliest first.
func (r *Reader) Read(letters []Letter) []Reading {
	if len(letters) == 0 {
		return nil
	}
	forward, backward := NewWord(letters), NewWord(reversed(letters))
	type judged struct {
		outputs []uint8
		logProb float64
	}
	var all []judged
	ahead := r.forward.Beam(forward, beamWidth)
	back := r.backward.Beam(backward, beamWidth)
	for i := range back {
		slices.Reverse(back[i].Outputs)
	}
	for _, p := range ahead {
		var other float64
		if i := slices.IndexFunc(back, func(q Path) bool { return slices.Equal(p.Outputs, q.Outputs) }); i >= 0 {
			other = back[i].LogProb
		} else {
			other = r.backward.LogProb(backward, reversed(p.Outputs))
		}
		all = append(all, judged{p.Outputs, (p.LogProb + other) / 2})
	}
	for _, q := range back {
		if !slices.ContainsFunc(ahead, func(p Path) bool { return slices.Equal(p.Outputs, q.Outputs) }) {
			all = append(all, judged{q.Outputs, (q.LogProb + r.forward.LogProb(forward, q.Outputs)) / 2})
		}
	}
	// Readings that sound the same are one.
	var readings []Reading
	for _, j := range all {
		s := r.inventory.Sounds(letters, j.outputs)
		if i := slices.IndexFunc(readings, func(r Reading) bool { return r.Sounds == s }); i >= 0 {
			readings[i].LogProb = addLog(readings[i].LogProb, j.logProb)
		} else {
			readings = append(readings, Reading{s, j.logProb})
		}
	}
	slices.SortStableFunc(readings, func(a, b Reading) int {
		switch {
		case a.LogProb > b.LogProb:
			return -1
		case a.LogProb < b.LogProb:
			return 1
		}
		return 0
	})
	return readings
}

// addLog is the logarithm of the sum of two probabilities.
func addLog(a, b float64) float64 {
	if a < b {
		a, b = b, a
	}
	return a + math.Log1p(math.Exp(b-a))
}
