package graphone

import (
	"math"
	"slices"

	"dandle/phonetics/arpabet"
)

// A Model is a trained model: for each letter, given the letters about it and
// the graphones before it, the probabilities of its outputs.
type Model struct {
	*table
	inventory *Inventory
}

// A Path is one reading of a word: the output of every letter.
type Path struct {
	Outputs []uint8
	LogProb float32 // natural logarithm
}

// node is a state in the beam with the way back to the start.
type node struct {
	State
	logProb float32
	back    int16
	output  uint8
}

// expansion is a state before a letter with the logarithms of the
// probabilities of the letter's outputs.
type expansion struct {
	State
	logProbs [MaxOutputs]float32
	next     int32 // the place of the letter's next expansion, or 0
}

// A search is one word before one model. It remembers the states that it
// has met, since the readings of a word share most of theirs.
type search struct {
	m     *Model
	w     *Word
	base  [][MaxOutputs]int32 // for every letter what its spelling alone says
	met   []expansion         // place 0 is not used
	first []int32             // for every letter the place of its first expansion, or 0
	keys  []Key
	nodes []node
}

// begin makes a search ready for another word, in the room that the last one took.
func (s *search) begin(m *Model, w *Word) {
	n := w.Len()
	s.m, s.w = m, w
	s.base = append(s.base[:0], make([][MaxOutputs]int32, n)...)
	s.first = append(s.first[:0], make([]int32, n)...)
	s.met = append(s.met[:0], expansion{})
	for i := range n {
		s.keys = w.LetterFeatures(s.keys[:0], i)
		m.addAll(&s.base[i], s.keys)
	}
}

// expand is the expansion of a state before letter i. The next call may move
// it.
func (s *search) expand(i int, from State) *expansion {
	for k := s.first[i]; k != 0; k = s.met[k].next {
		if s.met[k].State == from {
			return &s.met[k]
		}
	}
	scores := s.base[i]
	s.keys = s.w.StateFeatures(s.keys[:0], i, from)
	s.m.addAll(&scores, s.keys)
	outputs := len(s.m.inventory[s.w.letters[i]])
	best := slices.Max(scores[:outputs])
	s.met = append(s.met, expansion{State: from, next: s.first[i]})
	s.first[i] = int32(len(s.met) - 1)
	e := &s.met[len(s.met)-1]
	sum := float32(0)
	for o, v := range scores[:outputs] {
		if d := int(best - v); d < len(s.m.powers) {
			sum += s.m.powers[d]
		}
		e.logProbs[o] = float32(v-best) * s.m.step
	}
	norm := float32(math.Log(float64(sum)))
	for o := range outputs {
		e.logProbs[o] -= norm
	}
	return e
}

// A Beam says how many readings a model follows through a word.
type Beam struct {
	Width int     // the number kept at every letter, at most maxWidth
	Depth float32 // how much less likely than the best, in natural logarithms
}

const maxWidth = 8

var (
	// Quick is the beam to read with. Wider and deeper ones mend fewer than
	// one word in a thousand.
	Quick = Beam{Width: 5, Depth: 4}
	// Wide is the beam for the judge's trials, which teach more the more
	// readings they hold.
	Wide = Beam{Width: 6, Depth: 5}
)

// beam finds the likeliest readings of the word, best first.
func (s *search) beam(b Beam) []Path {
	n := s.w.Len()
	levels := make([][]node, n+1)
	nodes := append(s.nodes[:0], node{State: Start()})
	nodes = slices.Grow(nodes, n*b.Width) // lest the levels be moved away from
	levels[0] = nodes
	var kept [maxWidth]node
	for i := range n {
		l := s.w.letters[i]
		outputs := s.m.inventory[l]
		k := 0
		for back := range levels[i] {
			from := &levels[i][back]
			e := s.expand(i, from.State)
			for o := range outputs {
				p := from.logProb + e.logProbs[o]
				if k == b.Width && p <= kept[k-1].logProb || k > 0 && p < kept[0].logProb-b.Depth {
					continue
				}
				if k < b.Width {
					k++
				}
				at := k - 1
				for ; at > 0 && kept[at-1].logProb < p; at-- {
					kept[at] = kept[at-1]
				}
				kept[at] = node{logProb: p, back: int16(back), output: uint8(o)}
			}
		}
		for k > 1 && kept[k-1].logProb < kept[0].logProb-b.Depth {
			k--
		}
		nodes = append(nodes, kept[:k]...)
		levels[i+1] = nodes[len(nodes)-k:]
		for j := range levels[i+1] {
			to := &levels[i+1][j]
			to.State = levels[i][to.back].After(l, to.output, outputs[to.output])
		}
	}
	s.nodes = nodes
	paths := make([]Path, len(levels[n]))
	all := make([]uint8, n*len(paths))
	for k, end := range levels[n] {
		outputs := all[k*n : (k+1)*n : (k+1)*n]
		at := end
		for i := n; i > 0; i-- {
			outputs[i-1] = at.output
			at = levels[i-1][at.back]
		}
		paths[k] = Path{Outputs: outputs, LogProb: end.logProb}
	}
	return paths
}

// logProb is the natural logarithm of the probability of one reading.
func (s *search) logProb(outputs []uint8) float32 {
	total := float32(0)
	state := Start()
	for i, o := range outputs {
		total += s.expand(i, state).logProbs[o]
		l := s.w.letters[i]
		state = state.After(l, o, s.m.inventory[l][o])
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
