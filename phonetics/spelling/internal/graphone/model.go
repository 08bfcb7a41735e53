package graphone

import (
	"encoding/binary"
	"fmt"
	"math"
	"slices"

	"dandle/phonetics/arpabet"
)

// A Model is a trained model, its weights read in place from the packed table.
//
// Packed, a model is: the number of buckets (4 bytes, little-endian); the
// weight of one step (4 bytes, a float32); for every bucket of features the
// place where its entries begin, and after them the place where the last
// ends (4 bytes for every eighth bucket, then a byte for each: the entries
// since); and the entries, 3 bytes each: 10 bits of the feature's hash, 6 of the
// letter's output, 8 of the weight in steps.
type Model struct {
	inventory *Inventory
	buckets   uint64
	step      float32
	coarse    string
	fine      string
	entries   string
}

const (
	entryBytes = 3
	checkBits  = 10
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

// Pack writes weights as a Model reads them. Weights too small for a step are
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

// Open reads a packed model.
func Open(packed string, inv *Inventory) (*Model, error) {
	if len(packed) < 8 {
		return nil, fmt.Errorf("open model: %d bytes", len(packed))
	}
	m := &Model{inventory: inv, buckets: uint64(uint32At(packed, 0)), step: math.Float32frombits(uint32At(packed, 4))}
	coarse := 4 * int(m.buckets/coarseStep+1)
	fine := int(m.buckets + 1)
	if len(packed) < 8+coarse+fine {
		return nil, fmt.Errorf("open model: %d bytes for %d buckets", len(packed), m.buckets)
	}
	m.coarse = packed[8 : 8+coarse]
	m.fine = packed[8+coarse : 8+coarse+fine]
	m.entries = packed[8+coarse+fine:]
	if entryBytes*m.bucketStart(m.buckets) != len(m.entries) {
		return nil, fmt.Errorf("open model: %d bytes of entries", len(m.entries))
	}
	return m, nil
}

func (m *Model) bucketStart(b uint64) int {
	return int(uint32At(m.coarse, 4*int(b/coarseStep))) + int(m.fine[b])
}

// add adds a feature's weights, in steps, to the scores of its letter's outputs.
func (m *Model) add(scores *[MaxOutputs]int32, k Key) {
	b := k.bucket(m.buckets)
	check := k.check()
	entries := m.entries[entryBytes*m.bucketStart(b) : entryBytes*m.bucketStart(b+1)]
	for len(entries) >= entryBytes {
		low := uint32(entries[0]) | uint32(entries[1])<<8
		if low&(1<<checkBits-1) == check {
			scores[low>>checkBits] += int32(int8(entries[2]))
		}
		entries = entries[entryBytes:]
	}
}

func (m *Model) addAll(scores *[MaxOutputs]int32, keys []Key) {
	for _, k := range keys {
		if k != 0 {
			m.add(scores, k)
		}
	}
}

// A Path is one reading of a word: the output of every letter.
type Path struct {
	Outputs []uint8
	LogProb float64 // natural logarithm
}

// node is a state in the beam with the way back to the start.
type node struct {
	State
	logProb float64
	back    int32
	output  uint8
}

// Beam finds the likeliest readings of a word, best first, width of them kept
// at every letter.
func (m *Model) Beam(w *Word, width int) []Path {
	n := w.Len()
	trellis := make([][]node, n+1)
	trellis[0] = []node{{State: Start()}}
	keys := make([]Key, 0, 64)
	next := make([]node, 0, width*MaxOutputs)
	for i := range n {
		var base, scores [MaxOutputs]int32
		keys = w.LetterFeatures(keys[:0], i)
		m.addAll(&base, keys)
		outputs := m.inventory[w.letters[i]]
		next = next[:0]
		for b := range trellis[i] {
			from := &trellis[i][b]
			scores = base
			keys = w.StateFeatures(keys[:0], i, from.State)
			m.addAll(&scores, keys)
			best := slices.Max(scores[:len(outputs)])
			var logProbs [MaxOutputs]float64
			sum := 0.0
			for o := range outputs {
				logProbs[o] = float64(float32(scores[o]-best) * m.step)
				sum += math.Exp(logProbs[o])
			}
			norm := math.Log(sum)
			for o := range outputs {
				p := from.logProb + logProbs[o] - norm
				if logProbs[o] < -9 {
					continue
				}
				next = append(next, node{logProb: p, back: int32(b), output: uint8(o)})
			}
		}
		slices.SortStableFunc(next, func(a, b node) int {
			switch {
			case a.logProb > b.logProb:
				return -1
			case a.logProb < b.logProb:
				return 1
			}
			return 0
		})
		kept := slices.Clone(next[:min(width, len(next))])
		for k := range kept {
			o := kept[k].output
			kept[k].State = trellis[i][kept[k].back].After(w.letters[i], o, outputs[o])
		}
		trellis[i+1] = kept
	}
	paths := make([]Path, len(trellis[n]))
	for k, end := range trellis[n] {
		outputs := make([]uint8, n)
		at := end
		for i := n; i > 0; i-- {
			outputs[i-1] = at.output
			at = trellis[i-1][at.back]
		}
		paths[k] = Path{Outputs: outputs, LogProb: end.logProb}
	}
	return paths
}

// LogProb is the natural logarithm of the probability of one reading.
func (m *Model) LogProb(w *Word, outputs []uint8) float64 {
	total := 0.0
	s := Start()
	keys := make([]Key, 0, 64)
	for i := range w.Len() {
		var scores [MaxOutputs]int32
		keys = w.StateFeatures(w.LetterFeatures(keys[:0], i), i, s)
		m.addAll(&scores, keys)
		list := m.inventory[w.letters[i]]
		best := slices.Max(scores[:len(list)])
		sum := 0.0
		for o := range list {
			sum += math.Exp(float64(float32(scores[o]-best) * m.step))
		}
		total += float64(float32(scores[outputs[i]]-best)*m.step) - math.Log(sum)
		s = s.After(w.letters[i], outputs[i], list[outputs[i]])
	}
	return total
}

// Sounds are the sounds of a reading.
func (inv *Inventory) Sounds(letters []Letter, outputs []uint8) arpabet.Sounds {
	var b []byte
	for i, l := range letters {
		b = append(b, inv[l][outputs[i]]...)
	}
	return arpabet.Sounds(b)
}
