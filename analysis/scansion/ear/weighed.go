package ear

import "dandle/analysis/manuscript"

// A Weighed line is a line with all that reading it takes, as one model weighs
// it. It never changes; it is small, for many of them are kept.
type Weighed struct {
	model *Model
	words []weighedWord
	all   int // words of the line, the silent ones too
}

type weighedWord struct {
	index int // among the line's words
	ways  []weighedWay
}

type weighedWay struct {
	pulses []pulse
	cost   float32 // what the way takes from the score; never below 0
	index  int     // in the word's Ways
}

// A pulse is a syllable of a weighed line.
type pulse struct {
	lift   [familyCount]float32
	before manuscript.Break
	heavy  bool
	light  bool
}

// Weigh makes a line ready to be read.
func (m *Model) Weigh(l *Line) *Weighed {
	w := &Weighed{model: m, words: make([]weighedWord, len(l.words)), all: l.all}
	count, size := 0, 0
	for _, ways := range l.words {
		count += len(ways)
		for v := range ways {
			size += len(ways[v].syllables)
		}
	}
	ways, pulses := make([]weighedWay, count), make([]pulse, size)
	for k := range l.words {
		n := len(l.words[k])
		w.words[k] = weighedWord{index: l.wordIndex[k], ways: ways[:n:n]}
		ways = ways[n:]
		for v := range l.words[k] {
			from, to := &l.words[k][v], &w.words[k].ways[v]
			n := len(from.syllables)
			*to = weighedWay{pulses: pulses[:n:n], cost: -(from.cost * m.w[atCost]), index: from.index}
			pulses = pulses[n:]
			for i := range from.syllables {
				s := &from.syllables[i]
				to.pulses[i] = pulse{lift: m.lift(s), before: s.before, heavy: s.heavy(), light: s.light()}
			}
		}
	}
	return w
}
