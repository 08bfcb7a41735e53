// Package train learns the models of package graphone from a dictionary: it
// aligns letters with sounds, and fits the weights of the features. It works
// in one order with one seed, so that the same dictionary always gives the
// same bytes.
package train

import (
	"math"
	"slices"

	"dandle/phonetics/arpabet"
	"dandle/phonetics/spelling/internal/graphone"
)

// An Example is a word with one of its pronunciations.
type Example struct {
	Word   string
	Sounds arpabet.Sounds
	Weight float32 // the words' examples weigh 1 together
}

// maxChunk is the number of sounds that one letter may stand for: "x" and the
// "u" of "unit" stand for two.
const maxChunk = 2

// chunk is the phonemes of an output, stress left out, in one number.
type chunk uint16

func chunkOf(s arpabet.Sounds) chunk {
	c := chunk(0)
	for i := range len(s) {
		c = c<<6 | chunk(s.At(i).Phone())
	}
	return c
}

const chunks = 1 << (6 * maxChunk)

// An aligner knows how probable it is that a letter stands for a chunk. The
// probabilities are learnt by expectation maximisation over all alignments
// (Dempster, Laird and Rubin 1977), from equal ones.
type aligner struct {
	prob [graphone.LetterCount][]float64
}

func newAligner(words []alignable, rounds int) *aligner {
	a := &aligner{}
	for l := range a.prob {
		a.prob[l] = make([]float64, chunks)
		for c := range a.prob[l] {
			a.prob[l][c] = 1e-3
		}
	}
	for range rounds {
		var counts [graphone.LetterCount][]float64
		for l := range counts {
			counts[l] = make([]float64, chunks)
		}
		for _, w := range words {
			a.count(&counts, w)
		}
		for l := range counts {
			total := 1e-9
			for _, n := range counts[l] {
				total += n
			}
			for c, n := range counts[l] {
				a.prob[l][c] = n / total
			}
		}
	}
	return a
}

type alignable struct {
	letters []graphone.Letter
	sounds  arpabet.Sounds
}

// count adds the expected number of times that each letter of a word stands
// for each chunk.
func (a *aligner) count(counts *[graphone.LetterCount][]float64, w alignable) {
	n, m := len(w.letters), len(w.sounds)
	at := func(i, j int) int { return i*(m+1) + j }
	forward := make([]float64, (n+1)*(m+1))
	backward := make([]float64, (n+1)*(m+1))
	forward[0] = 1
	for i, l := range w.letters {
		for j := range m + 1 {
			if p := forward[at(i, j)]; p > 0 {
				for k := 0; k <= maxChunk && j+k <= m; k++ {
					forward[at(i+1, j+k)] += p * a.prob[l][chunkOf(w.sounds[j:j+k])]
				}
			}
		}
	}
	total := forward[at(n, m)]
	if total == 0 {
		return
	}
	backward[at(n, m)] = 1
	for i := n - 1; i >= 0; i-- {
		l := w.letters[i]
		for j := range m + 1 {
			for k := 0; k <= maxChunk && j+k <= m; k++ {
				c := chunkOf(w.sounds[j : j+k])
				p := a.prob[l][c] * backward[at(i+1, j+k)]
				backward[at(i, j)] += p
				counts[l][c] += forward[at(i, j)] * p / total
			}
		}
	}
}

// align is the likeliest alignment: the sounds of every letter. It is nil
// where there is none, as for most spelled initials.
func (a *aligner) align(w alignable) []arpabet.Sounds {
	n, m := len(w.letters), len(w.sounds)
	at := func(i, j int) int { return i*(m+1) + j }
	score := make([]float64, (n+1)*(m+1))
	back := make([]int8, (n+1)*(m+1))
	for i := range score {
		score[i] = math.Inf(-1)
	}
	score[0] = 0
	for i, l := range w.letters {
		for j := range m + 1 {
			if math.IsInf(score[at(i, j)], -1) {
				continue
			}
			for k := 0; k <= maxChunk && j+k <= m; k++ {
				p := a.prob[l][chunkOf(w.sounds[j:j+k])]
				if p <= 0 {
					continue
				}
				// Of equal alignments the one whose sounds come early wins.
				if s := score[at(i, j)] + math.Log(p); s >= score[at(i+1, j+k)] {
					score[at(i+1, j+k)] = s
					back[at(i+1, j+k)] = int8(k)
				}
			}
		}
	}
	if math.IsInf(score[at(n, m)], -1) {
		return nil
	}
	outputs := make([]arpabet.Sounds, n)
	for i, j := n, m; i > 0; i-- {
		k := int(back[at(i, j)])
		outputs[i-1] = w.sounds[j-k : j]
		j -= k
	}
	return outputs
}

// An Aligned is an example whose every letter has its graphone.
type Aligned struct {
	Letters []graphone.Letter
	Outputs []uint8
	Weight  float32
}

// rare is the number of examples that must share an output of a letter;
// outputs rarer than that are slips of the dictionary or foreign names.
const rare = 4

// Align aligns the examples and lists the graphones that they need. Examples
// that no alignment fits are left out.
func Align(examples []Example) ([]Aligned, *graphone.Inventory) {
	words := make([]alignable, len(examples))
	for i, e := range examples {
		words[i] = alignable{graphone.Letters(e.Word), e.Sounds}
	}
	a := newAligner(words, 8)

	var counts [graphone.LetterCount]map[arpabet.Sounds]int
	for l := range counts {
		counts[l] = map[arpabet.Sounds]int{}
	}
	all := make([][]arpabet.Sounds, len(words))
	for i, w := range words {
		all[i] = a.align(w)
		for j, s := range all[i] {
			counts[w.letters[j]][s]++
		}
	}
	var inv graphone.Inventory
	for l, count := range counts {
		var list []arpabet.Sounds
		for s, n := range count {
			if n >= rare {
				list = append(list, s)
			}
		}
		slices.SortFunc(list, func(a, b arpabet.Sounds) int {
			if count[a] != count[b] {
				return count[b] - count[a]
			}
			if a < b {
				return -1
			}
			return 1
		})
		if len(list) == 0 {
			list = append(list, "")
		}
		inv[l] = list[:min(len(list), graphone.MaxOutputs)]
	}
	var aligned []Aligned
	for i, outputs := range all {
		if len(outputs) == 0 {
			continue
		}
		w := Aligned{Letters: words[i].letters, Weight: examples[i].Weight, Outputs: make([]uint8, len(outputs))}
		known := true
		for j, s := range outputs {
			o := slices.Index(inv[w.Letters[j]], s)
			if o < 0 {
				known = false
				break
			}
			w.Outputs[j] = uint8(o)
		}
		if known {
			aligned = append(aligned, w)
		}
	}
	return aligned, &inv
}

// Reverse turns aligned examples round, for a model that reads from the end.
func Reverse(list []Aligned) []Aligned {
	r := make([]Aligned, len(list))
	for i, w := range list {
		r[i] = Aligned{Letters: slices.Clone(w.Letters), Outputs: slices.Clone(w.Outputs), Weight: w.Weight}
		slices.Reverse(r[i].Letters)
		slices.Reverse(r[i].Outputs)
	}
	return r
}
