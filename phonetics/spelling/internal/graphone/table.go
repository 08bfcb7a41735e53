package graphone

import (
	"encoding/binary"
	"fmt"
	"math"
	"slices"
)

// A table is the weights of features, read in place.
//
// Packed, it is: the number of buckets (4 bytes, little-endian); the weight of
// one step (4 bytes, a float32); for every bucket of features the place where
// its entries begin, and after them the place where the last ends (4 bytes for
// every eighth bucket, then a byte for each: the entries since); and the
// entries, 3 bytes each: 11 bits of the feature's hash, 5 of the output that it
// speaks for, 8 of the weight in steps.
type table struct {
	buckets uint64
	step    float32
	coarse  string
	fine    string
	entries string
	powers  []float32 // e to the minus 0, 1, 2, … steps
}

const (
	entryBytes = 3
	checkBits  = 11
	coarseStep = 8
)

// A Weight is what a feature adds to the score of an output of its letter.
type Weight struct {
	Key    Key
	Output uint8
	Value  float32
}

func (k Key) bucket(buckets uint64) uint64 { return (uint64(k) >> 24) * buckets >> 40 }

func (k Key) check() uint32 { return uint32(k>>1) & (1<<checkBits - 1) }

// Pack writes weights as a table reads thet. Weights too small for a step are
// left out.
func Pack(weights []Weight) []byte {
	largest := float32(0)
	for _, w := range weights {
		largest = max(largest, w.Value, -w.Value)
	}
	step := largest / 127
	if step == 0 {
		step = 1
	}
	buckets := uint64(len(weights)/6 + 1)
	slices.SortFunc(weights, func(a, b Weight) int {
		if c := int64(a.Key.bucket(buckets)) - int64(b.Key.bucket(buckets)); c != 0 {
			return int(c)
		}
		if a.Key != b.Key {
			if a.Key < b.Key {
				return -1
			}
			return 1
		}
		return int(a.Output) - int(b.Output)
	})
	var coarse, fine, entries []byte
	next := 0
	count, base := 0, 0
	for b := range buckets + 1 {
		if b%coarseStep == 0 {
			coarse = binary.LittleEndian.AppendUint32(coarse, uint32(count))
			base = count
		}
		if count-base > 255 {
			panic("graphone: a bucket overflows")
		}
		fine = append(fine, byte(count-base))
		for ; next < len(weights) && weights[next].Key.bucket(buckets) == b; next++ {
			w := weights[next]
			q := int(math.Round(float64(w.Value / step)))
			if q == 0 {
				continue
			}
			e := w.Key.check() | uint32(w.Output)<<checkBits | uint32(uint8(int8(q)))<<16
			entries = append(entries, byte(e), byte(e>>8), byte(e>>16))
			count++
		}
	}
	packed := binary.LittleEndian.AppendUint32(nil, uint32(buckets))
	packed = binary.LittleEndian.AppendUint32(packed, math.Float32bits(step))
	packed = append(packed, coarse...)
	packed = append(packed, fine...)
	return append(packed, entries...)
}

func uint32At(s string, at int) uint32 {
	return uint32(s[at]) | uint32(s[at+1])<<8 | uint32(s[at+2])<<16 | uint32(s[at+3])<<24
}

// openTable reads a packed table in place.
func openTable(packed string) (*table, error) {
	if len(packed) < 8 {
		return nil, fmt.Errorf("open weights: %d bytes", len(packed))
	}
	t := &table{buckets: uint64(uint32At(packed, 0)), step: math.Float32frombits(uint32At(packed, 4))}
	coarse := 4 * int(t.buckets/coarseStep+1)
	fine := int(t.buckets + 1)
	if len(packed) < 8+coarse+fine {
		return nil, fmt.Errorf("open weights: %d bytes for %d buckets", len(packed), t.buckets)
	}
	t.coarse = packed[8 : 8+coarse]
	t.fine = packed[8+coarse : 8+coarse+fine]
	t.entries = packed[8+coarse+fine:]
	if entryBytes*t.bucketStart(t.buckets) != len(t.entries) {
		return nil, fmt.Errorf("open weights: %d bytes of entries", len(t.entries))
	}
	if !(t.step > 0.001) {
		return nil, fmt.Errorf("open weights: a step of %v", t.step)
	}
	const least = 16 // e to the minus 16 is nothing beside 1
	for d := 0; float32(d)*t.step < least; d++ {
		t.powers = append(t.powers, float32(math.Exp(float64(-float32(d)*t.step))))
	}
	return t, nil
}

func (t *table) bucketStart(b uint64) int {
	return int(uint32At(t.coarse, 4*int(b/coarseStep))) + int(t.fine[b])
}

// addAll adds the weights of features, in steps, to the scores of the outputs
// that they speak for. It finds all the buckets before it opens any, and opens all
// before it reads any: the memory can then fetch them side by side, which takes a
// third of the time.
func (t *table) addAll(scores *[MaxOutputs]int32, keys []Key) {
	type span struct {
		from, to, check uint32
		opened          byte // what stands first, only to have it fetched
	}
	var spans [64]span
	for len(keys) > 0 {
		n := 0
		for _, k := range keys[:min(len(keys), len(spans))] {
			b := k.bucket(t.buckets)
			spans[n] = span{from: uint32(t.bucketStart(b)), to: uint32(t.bucketStart(b + 1)), check: k.check()}
			if k != 0 {
				n++
			}
		}
		keys = keys[min(len(keys), len(spans)):]
		for i := range spans[:n] {
			if s := &spans[i]; s.from < s.to {
				s.opened = t.entries[entryBytes*s.from]
			}
		}
		for _, s := range spans[:n] {
			entries := t.entries[entryBytes*s.from : entryBytes*s.to]
			for len(entries) >= entryBytes {
				low := uint32(entries[0]) | uint32(entries[1])<<8
				if low&(1<<checkBits-1) == s.check {
					scores[low>>checkBits] += int32(int8(entries[2]))
				}
				entries = entries[entryBytes:]
			}
		}
	}
}
