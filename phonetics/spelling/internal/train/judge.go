package train

import (
	"math"
	"math/rand/v2"
	"slices"

	"dandle/phonetics/arpabet"
	"dandle/phonetics/spelling/internal/graphone"
)

// A Trial is a word that the models which read it never saw, with their
// readings and the word's own sounds.
type Trial struct {
	Word     string
	Letters  []graphone.Letter
	Readings []graphone.Reading
	Answers  []arpabet.Sounds
}

// FitJudge learns the weights by which a judge, who compares whole readings
// with the word's kin in a dictionary, adds to what the two models say, so that
// the right readings become likely among the trial's. Trials whose readings are
// all wrong teach it nothing, and neither do words without kin. No word is its
// own kin.
func FitJudge(trials []Trial, known graphone.Dictionary, o Options, log func(string, ...any)) []graphone.Weight {
	type reading struct {
		base     float32
		right    bool
		from, to int32
	}
	type trial struct{ from, to int32 }
	var (
		words    []trial
		readings []reading
		features []uint32
		keys     []graphone.Key
		all      []graphone.Key
	)
	for _, t := range trials {
		if !slices.ContainsFunc(t.Readings, func(r graphone.Reading) bool { return slices.Contains(t.Answers, r.Sounds) }) {
			continue
		}
		others := func(word string) []arpabet.Sounds {
			if word == t.Word {
				return nil
			}
			return known(word)
		}
		start := int32(len(readings))
		graphone.KinFeatures(t.Letters, t.Readings, others, func(i int, keys []graphone.Key) {
			r := t.Readings[i]
			from := int32(len(all))
			all = append(all, keys...)
			readings = append(readings, reading{float32(r.LogProb), slices.Contains(t.Answers, r.Sounds), from, int32(len(all))})
		})
		if len(readings) == int(start) {
			continue // no kin
		}
		words = append(words, trial{start, int32(len(readings))})
	}
	// Number the features that are met often enough.
	keys = slices.Clone(all)
	slices.Sort(keys)
	ids := make(map[graphone.Key]uint32)
	kept := []graphone.Key{0}
	for i := 0; i < len(keys); {
		end := i
		for end < len(keys) && keys[end] == keys[i] {
			end++
		}
		if end-i >= o.AtLeast {
			ids[keys[i]] = uint32(len(kept))
			kept = append(kept, keys[i])
		}
		i = end
	}
	features = make([]uint32, len(all))
	for i, k := range all {
		features[i] = ids[k]
	}
	f := &fit{weight: make([]float32, len(kept)), z: make([]float32, len(kept)), n: make([]float32, len(kept))}
	f.n[0] = -1 // number 0 stands for the features that are too rare
	log("%d trials, %d readings, %d features", len(words), len(readings), len(kept))

	r := rand.New(rand.NewPCG(3, 4))
	pass := func() float64 {
		r.Shuffle(len(words), func(i, j int) { words[i], words[j] = words[j], words[i] })
		loss := 0.0
		var scores []float64
		for _, w := range words {
			list := readings[w.from:w.to]
			scores = scores[:0]
			for _, r := range list {
				s := r.base
				for _, id := range features[r.from:r.to] {
					s += f.weight[id]
				}
				scores = append(scores, float64(s))
			}
			best := slices.Max(scores)
			sum, right := 0.0, 0.0
			for i := range scores {
				scores[i] = math.Exp(scores[i] - best)
				sum += scores[i]
				if list[i].right {
					right += scores[i]
				}
			}
			loss -= math.Log(right / sum)
			for i, r := range list {
				g := scores[i] / sum
				if r.right {
					g -= scores[i] / right
				}
				for _, id := range features[r.from:r.to] {
					f.update(id, float32(g), o)
				}
			}
		}
		return loss / float64(len(words))
	}
	for round := range o.Rounds {
		loss := pass()
		log("judge, round %d: loss %.4f, weights %d", round, loss, f.nonZero())
	}
	f.prune(o.Most)
	o.Sparse = 0
	for round := range o.Settle {
		loss := pass()
		log("judge, settling %d: loss %.4f, weights %d", round, loss, f.nonZero())
	}
	var weights []graphone.Weight
	for id, w := range f.weight {
		if w != 0 {
			weights = append(weights, graphone.Weight{Key: kept[id], Value: w})
		}
	}
	return weights
}
