package train

import (
	"math"
	"math/rand/v2"
	"slices"

	"dandle/phonetics/spelling/internal/graphone"
)

// Options are the settings of a fit.
type Options struct {
	Rounds  int     // passes over the examples
	Rate    float32 // the learning rate
	Sparse  float32 // the pull of every weight to nothing (L1)
	Shrink  float32 // the pull of every weight towards nothing (L2)
	AtLeast int     // the number of examples that must show a feature
	Most    int     // the number of weights that may be kept
	Settle  int     // further passes: the first with twice Most, the last ones with Most weights
}

// A fit is the log-linear model while it is being fitted: for every position
// of every example its features, for every feature the outputs that the
// examples show with it, and for every such pair a weight.
type fit struct {
	positions []position
	words     []int32  // the first position of every example, and the end
	features  []uint32 // perPosition of them for every position; 0 is none
	start     []uint32 // the first pair of every feature, and the end
	keys      []graphone.Key
	output    []uint8
	weight    []float32
	z, n      []float32 // the sums that FTRL keeps for every pair

	perPosition int
}

type position struct {
	outputs uint8 // how many the letter has
	gold    uint8
	weight  float32
}

// Fit learns the weights that make the examples' graphones likely, each given
// the letters and the graphones before it. The method is FTRL-Proximal
// (McMahan et al., "Ad click prediction: a view from the trenches", KDD 2013):
// gradient steps with a rate for every weight, under a penalty that sets most
// weights to nothing. The best of the others are then fitted on without it.
func Fit(examples []Aligned, inv *graphone.Inventory, o Options, log func(string, ...any)) []graphone.Weight {
	f := newFit(examples, inv, o.AtLeast, log)
	r := rand.New(rand.NewPCG(1, 2))
	order := make([]int, len(examples))
	for i := range order {
		order[i] = i
	}
	for round := range o.Rounds {
		r.Shuffle(len(order), func(i, j int) { order[i], order[j] = order[j], order[i] })
		loss := f.pass(order, o)
		log("round %d: loss %.4f, weights %d", round, loss, f.nonZero())
	}
	for round := range o.Settle {
		switch {
		case round == min(1, o.Settle-1):
			f.prune(o.Most)
			o.Sparse = 0
		case round == 0:
			f.prune(2 * o.Most)
		}
		r.Shuffle(len(order), func(i, j int) { order[i], order[j] = order[j], order[i] })
		loss := f.pass(order, o)
		log("settling %d: loss %.4f, weights %d", round, loss, f.nonZero())
	}
	var weights []graphone.Weight
	for id := range f.keys {
		for p := f.start[id]; p < f.start[id+1]; p++ {
			if f.weight[p] != 0 {
				weights = append(weights, graphone.Weight{Key: f.keys[id], Output: f.output[p], Value: f.weight[p]})
			}
		}
	}
	return weights
}

func newFit(examples []Aligned, inv *graphone.Inventory, atLeast int, log func(string, ...any)) *fit {
	f := &fit{}
	var keys []graphone.Key
	for _, e := range examples {
		f.words = append(f.words, int32(len(f.positions)))
		w := graphone.NewWord(e.Letters)
		s := graphone.Start()
		for i, l := range e.Letters {
			before := len(keys)
			keys = w.StateFeatures(w.LetterFeatures(keys, i), i, s)
			f.perPosition = len(keys) - before
			s = s.After(l, e.Outputs[i], inv[l][e.Outputs[i]])
			f.positions = append(f.positions, position{uint8(len(inv[l])), e.Outputs[i], e.Weight})
		}
	}
	f.words = append(f.words, int32(len(f.positions)))
	f.number(keys, atLeast)
	log("%d positions, %d features, %d pairs", len(f.positions), len(f.keys), len(f.output))
	return f
}

// number gives the features that are not too rare their numbers, one kind of
// feature after the other so that the tables stay small.
func (f *fit) number(keys []graphone.Key, atLeast int) {
	type pair struct {
		key      graphone.Key
		gold     uint8
		position int32
	}
	f.features = make([]uint32, len(keys))
	f.keys = []graphone.Key{0}
	f.start = []uint32{0, 0}
	pairs := make([]pair, 0, len(f.positions))
	for t := range f.perPosition {
		pairs = pairs[:0]
		for p := range f.positions {
			if k := keys[p*f.perPosition+t]; k != 0 {
				pairs = append(pairs, pair{k, f.positions[p].gold, int32(p)})
			}
		}
		slices.SortFunc(pairs, func(a, b pair) int {
			switch {
			case a.key != b.key:
				if a.key < b.key {
					return -1
				}
				return 1
			case a.gold != b.gold:
				return int(a.gold) - int(b.gold)
			}
			return int(a.position - b.position)
		})
		for i := 0; i < len(pairs); {
			end := i
			for end < len(pairs) && pairs[end].key == pairs[i].key {
				end++
			}
			if end-i >= atLeast {
				id := uint32(len(f.keys))
				f.keys = append(f.keys, pairs[i].key)
				for j := i; j < end; j++ {
					if j == i || pairs[j].gold != pairs[j-1].gold {
						f.output = append(f.output, pairs[j].gold)
					}
					f.features[int(pairs[j].position)*f.perPosition+t] = id
				}
				f.start = append(f.start, uint32(len(f.output)))
			}
			i = end
		}
	}
	f.weight = make([]float32, len(f.output))
	f.z = make([]float32, len(f.output))
	f.n = make([]float32, len(f.output))
}

func (f *fit) pass(order []int, o Options) float64 {
	loss := 0.0
	var scores [graphone.MaxOutputs]float32
	var probs [graphone.MaxOutputs]float32
	for _, w := range order {
		for at := f.words[w]; at < f.words[w+1]; at++ {
			p := f.positions[at]
			features := f.features[int(at)*f.perPosition : (int(at)+1)*f.perPosition]
			clear(scores[:p.outputs])
			for _, id := range features {
				for i := f.start[id]; i < f.start[id+1]; i++ {
					scores[f.output[i]] += f.weight[i]
				}
			}
			best := slices.Max(scores[:p.outputs])
			sum := float32(0)
			for i, s := range scores[:p.outputs] {
				probs[i] = float32(math.Exp(float64(s - best)))
				sum += probs[i]
			}
			loss -= math.Log(float64(probs[p.gold] / sum))
			for i := range probs[:p.outputs] {
				probs[i] = probs[i] / sum * p.weight
			}
			probs[p.gold] -= p.weight
			for _, id := range features {
				for i := f.start[id]; i < f.start[id+1]; i++ {
					f.update(i, probs[f.output[i]], o)
				}
			}
		}
	}
	return loss / float64(len(f.positions))
}

// update takes one step of FTRL-Proximal. Weights that were pruned stay 0.
func (f *fit) update(i uint32, g float32, o Options) {
	n := f.n[i]
	if n < 0 || (g < 1e-4 && g > -1e-4) {
		return
	}
	after := n + g*g
	root := float32(math.Sqrt(float64(after)))
	f.z[i] += g - (root-float32(math.Sqrt(float64(n))))/o.Rate*f.weight[i]
	f.n[i] = after
	z := f.z[i]
	switch {
	case z > o.Sparse:
		f.weight[i] = (o.Sparse - z) / ((1+root)/o.Rate + o.Shrink)
	case z < -o.Sparse:
		f.weight[i] = (-o.Sparse - z) / ((1+root)/o.Rate + o.Shrink)
	default:
		f.weight[i] = 0
	}
}

func (f *fit) nonZero() int {
	n := 0
	for _, w := range f.weight {
		if w != 0 {
			n++
		}
	}
	return n
}

// prune keeps the most useful weights: those that are large and often met.
func (f *fit) prune(most int) {
	value := func(i int) float32 {
		w := f.weight[i]
		return w * w * (f.n[i] + 0.1)
	}
	var values []float32
	for i, w := range f.weight {
		if w != 0 {
			values = append(values, value(i))
		}
	}
	least := float32(0)
	if len(values) > most {
		slices.Sort(values)
		least = values[len(values)-most]
	}
	for i, w := range f.weight {
		if w == 0 || value(i) < least {
			f.weight[i] = 0
			f.n[i] = -1
		}
	}
}
