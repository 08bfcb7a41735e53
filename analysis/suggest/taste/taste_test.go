package taste

import (
	"math"
	"testing"

	"dandle/phonetics/grammar"
)

// Of two candidates the one with the fact that was always chosen is learned to
// be likelier, and of two parts of speech the one that the tag before asks for.
func TestTrainLearnsWhatIsChosen(t *testing.T) {
	var examples []Example
	for i := range 200 {
		var a, b Choice
		a.Facts[Alike] = 1
		a.Parts, b.Parts = 1<<grammar.Noun, 1<<grammar.Noun
		e := Example{Choices: []Choice{a, b}, Chosen: []int{0}}
		if i%2 == 1 {
			e.Place.Tag = grammar.Determiner
			e.Choices[0].Facts[Alike] = 0
			e.Choices[1].Parts = 1 << grammar.Verb
		}
		examples = append(examples, e)
	}
	m, mean := Train(examples, Training{Epochs: 30, Rate: 0.05, Seed: 1})
	for i, e := range examples[:2] {
		if p := m.Probabilities(&e); p[0] < 0.8 || math.Abs(p[0]+p[1]-1) > 1e-9 {
			t.Errorf("example %d: probabilities %v, want the first above 0.8", i, p)
		}
	}
	if chance := math.Log(0.5); mean < chance {
		t.Errorf("log-likelihood %.2f, by chance %.2f", mean, chance)
	}
}

func TestLearnedIsWhole(t *testing.T) {
	m := Learned()
	if got := string(m.Bytes()); got != learned {
		t.Errorf("%d bytes are read of %d", len(got), len(learned))
	}
	if m.w[Mate] < 0 || m.w[Clash] > 0 || m.w[Light] > 0 || m.w[Used] > 0 {
		t.Errorf("a likelier mate counts %.2f, a clash %.2f, a light rhyme %.2f, a word used before %.2f",
			m.w[Mate], m.w[Clash], m.w[Light], m.w[Used])
	}
}

func BenchmarkScore(b *testing.B) {
	palate := Learned().At(&Place{Tag: grammar.Determiner})
	c := Choice{Parts: 1<<grammar.Noun | 1<<grammar.Verb}
	for b.Loop() {
		palate.Score(&c)
	}
}
