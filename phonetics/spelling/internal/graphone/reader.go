package graphone

import (
	"encoding/binary"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"sync"

	"dandle/phonetics/arpabet"
)

// A Reader reads words with two models, one from the first letter on and one
// from the last letter back. Each proposes readings, both judge all of them:
// one knows what has begun, the other how the word ends.
type Reader struct {
	inventory         *Inventory
	forward, backward *Model
	judge             *table // nil: none
	rooms             sync.Pool
}

// A room is what a word is read in: a search for each model.
type room struct{ forward, backward search }

const magic = "dandspl1"

// PackReader writes a reader: the magic; the inventory, which is for each
// letter the number of its outputs and for each output its length and sounds;
// and the tables of the forward model, the backward model and the judge, each
// after its length (4 bytes, little-endian). A reader may have no judge.
func PackReader(inv *Inventory, forward, backward, judge []byte) []byte {
	b := []byte(magic)
	for _, list := range inv {
		b = append(b, byte(len(list)))
		for _, s := range list {
			b = append(b, byte(len(s)))
			b = append(b, s...)
		}
	}
	for _, t := range [][]byte{forward, backward, judge} {
		b = binary.LittleEndian.AppendUint32(b, uint32(len(t)))
		b = append(b, t...)
	}
	return b
}

// OpenReader reads a packed reader in place.
func OpenReader(packed string) (*Reader, error) {
	rest, ok := strings.CutPrefix(packed, magic)
	if !ok {
		return nil, errors.New("open reader: no magic")
	}
	take := func(n int) string {
		if n > len(rest) {
			ok = false
			return ""
		}
		s := rest[:n]
		rest = rest[n:]
		return s
	}
	number := func(bytes int) int {
		n := 0
		for i, b := range []byte(take(bytes)) {
			n |= int(b) << (8 * i)
		}
		return n
	}
	var inv Inventory
	for l := range inv {
		n := number(1)
		if n == 0 || n > MaxOutputs {
			return nil, fmt.Errorf("open reader: letter %d has %d outputs", l, n)
		}
		for range n {
			inv[l] = append(inv[l], arpabet.Sounds(take(number(1))))
		}
	}
	var tables [3]*table
	for i := range tables {
		t := take(number(4))
		if !ok {
			return nil, errors.New("open reader: cut short")
		}
		if t == "" && i == 2 {
			continue
		}
		var err error
		if tables[i], err = openTable(t); err != nil {
			return nil, err
		}
	}
	return &Reader{
		inventory: &inv,
		forward:   &Model{tables[0], &inv},
		backward:  &Model{tables[1], inv.Reversed()},
		judge:     tables[2],
		rooms:     sync.Pool{New: func() any { return new(room) }},
	}, nil
}

// A Reading is one way to say a word.
type Reading struct {
	Sounds  arpabet.Sounds
	LogProb float64 // natural logarithm of its share among the word's readings
}

// Read is the readings of a word, likeliest first. A dictionary lets the judge
// compare them with the word's kin; nil leaves it to the letters alone.
func (r *Reader) Read(letters []Letter, known Dictionary, b Beam) []Reading {
	if len(letters) == 0 {
		return nil
	}
	room := r.rooms.Get().(*room)
	defer r.rooms.Put(room)
	forward, backward := &room.forward, &room.backward
	forward.begin(r.forward, NewWord(letters))
	backward.begin(r.backward, NewWord(reversed(letters)))
	type judged struct {
		outputs []uint8
		logProb float32
	}
	var all []judged
	ahead := forward.beam(b)
	back := backward.beam(b)
	for i := range back {
		slices.Reverse(back[i].Outputs)
	}
	for _, p := range ahead {
		var other float32
		if i := slices.IndexFunc(back, func(q Path) bool { return slices.Equal(p.Outputs, q.Outputs) }); i >= 0 {
			other = back[i].LogProb
		} else {
			other = backward.logProb(reversed(p.Outputs))
		}
		all = append(all, judged{p.Outputs, (p.LogProb + other) / 2})
	}
	for _, q := range back {
		if !slices.ContainsFunc(ahead, func(p Path) bool { return slices.Equal(p.Outputs, q.Outputs) }) {
			all = append(all, judged{q.Outputs, (q.LogProb + forward.logProb(q.Outputs)) / 2})
		}
	}
	// Readings that sound the same are one.
	var readings []Reading
	for _, j := range all {
		s := r.inventory.Sounds(letters, j.outputs)
		if i := slices.IndexFunc(readings, func(r Reading) bool { return r.Sounds == s }); i >= 0 {
			readings[i].LogProb = addLog(readings[i].LogProb, float64(j.logProb))
		} else {
			readings = append(readings, Reading{s, float64(j.logProb)})
		}
	}
	if r.judge != nil && known != nil {
		KinFeatures(letters, readings, known, func(i int, keys []Key) {
			var scores [MaxOutputs]int32
			r.judge.addAll(&scores, keys)
			readings[i].LogProb += float64(float32(scores[0]) * r.judge.step)
		})
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
	total := readings[0].LogProb
	for _, other := range readings[1:] {
		total = addLog(total, other.LogProb)
	}
	for i := range readings {
		readings[i].LogProb -= total
	}
	return readings
}

// addLog is the logarithm of the sum of two probabilities.
func addLog(a, b float64) float64 {
	if a < b {
		a, b = b, a
	}
	return a + math.Log1p(math.Exp(b-a))
}
