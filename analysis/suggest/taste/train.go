package taste

import (
	"math"
	"math/rand/v2"
	"slices"

	"dandle/analysis/suggest/words"
)

// An Example is a place, its candidates, and which of them the poet chose:
// more than one where the same word answers several lines.
type Example struct {
	Place   Place
	Choices []Choice
	Chosen  []int
}

// Training says how to learn.
type Training struct {
	Epochs int     // times that the examples are gone through
	Rate   float64 // of learning, at the start; it falls to 0
	Decay  float64 // of the weights of vectors and parts of speech towards 0
	Seed   uint64
}

// batch is how many examples a step learns from.
const batch = 64

// Train learns a model by Adam (Kingma and Ba 2015), and tells the mean
// log-likelihood of the last epoch.
func Train(examples []Example, how Training) (*Model, float64) {
	l := learner{}
	order := make([]int, len(examples))
	for i := range order {
		order[i] = i
	}
	random := rand.New(rand.NewPCG(how.Seed, 0))
	mean := 0.0
	for epoch := range how.Epochs {
		random.Shuffle(len(order), func(i, j int) { order[i], order[j] = order[j], order[i] })
		sum := 0.0
		rate := how.Rate * (1 - float64(epoch)/float64(how.Epochs))
		for part := range slices.Chunk(order, batch) {
			for _, i := range part {
				sum += l.learn(&examples[i])
			}
			l.step(rate, how.Decay)
		}
		mean = sum / float64(len(examples))
	}
	return &l.model, mean
}

// A learner is a model on its way.
type learner struct {
	model    Model
	gradient [weightCount]float64
	mean     [weightCount]float64 // of the gradients so far
	square   [weightCount]float64 // of their squares
	steps    int
}

// Probabilities are how likely each candidate is to be chosen.
func (m *Model) Probabilities(e *Example) []float64 {
	palate := m.At(&e.Place)
	list := make([]float64, len(e.Choices))
	for i := range e.Choices {
		list[i] = palate.Score(&e.Choices[i])
	}
	highest, sum := slices.Max(list), 0.0
	for i, score := range list {
		list[i] = math.Exp(score - highest)
		sum += list[i]
	}
	for i := range list {
		list[i] /= sum
	}
	return list
}

// learn adds an example's gradient, and tells the log-likelihood of its
// choice.
func (l *learner) learn(e *Example) float64 {
	likely := l.model.Probabilities(e)
	chosen := 0.0
	for _, i := range e.Chosen {
		chosen += likely[i]
	}
	var vectors [MostMates]words.Vector
	var parts [partCount]float32
	for i := range e.Choices {
		pull := -likely[i]
		if slices.Contains(e.Chosen, i) {
			pull += likely[i] / max(chosen, 1e-12)
		}
		if math.Abs(pull) < 1e-5 {
			continue
		}
		c := &e.Choices[i]
		for k, x := range c.Facts {
			l.gradient[k] += pull * float64(x)
		}
		for k, x := range c.Vector {
			vectors[c.Mate][k] += float32(pull) * x
		}
		for k, x := range c.shares() {
			parts[k] += float32(pull) * x
		}
	}
	l.spread(&e.Place, &vectors, &parts)
	return math.Log(max(chosen, 1e-12))
}

// spread adds the gradients of what a place makes of the weights.
func (l *learner) spread(p *Place, vectors *[MostMates]words.Vector, parts *[partCount]float32) {
	add := func(at int, list []float32, by float32) {
		for k, x := range list {
			l.gradient[at+k] += float64(by * x)
		}
	}
	var vector words.Vector
	for m := range vectors {
		addRow(vector[:], vectors[m][:])
		for i, x := range p.Mates[m] {
			add(matesAt+i*dims, vectors[m][:], x)
		}
	}
	add(vectorAt, vector[:], 1)
	add(tagVectorAt+int(p.Tag)*dims, vector[:], 1)
	for _, t := range p.terms() {
		for i, x := range t.vector {
			add(t.at+i*dims, vector[:], x)
		}
	}
	add(tagAt+int(p.Tag)*partCount, parts[:], 1)
	add(tagBeforeAt+int(p.TagBefore)*partCount, parts[:], 1)
	for i := range dims {
		add(partsBeforeAt+i*partCount, parts[:], p.Before[i])
		add(partsFurtherAt+i*partCount, parts[:], p.BeforeThat[i])
	}
}

// step moves the weights along the gradients gathered.
func (l *learner) step(rate, decay float64) {
	const keepMean, keepSquare, tiny = 0.9, 0.999, 1e-8
	l.steps++
	meanBias := 1 - math.Pow(keepMean, float64(l.steps))
	squareBias := 1 - math.Pow(keepSquare, float64(l.steps))
	for i := range l.gradient {
		g := l.gradient[i] / batch
		if i >= vectorAt {
			g -= decay * float64(l.model.w[i])
		}
		l.mean[i] = keepMean*l.mean[i] + (1-keepMean)*g
		l.square[i] = keepSquare*l.square[i] + (1-keepSquare)*g*g
		l.model.w[i] += float32(rate * (l.mean[i] / meanBias) / (math.Sqrt(l.square[i]/squareBias) + tiny))
		l.gradient[i] = 0
	}
}
