package rhyme

import (
	"math"
	"slices"
)

// A unit is a group of lines that rhyme among themselves; stanzas are made of
// units. The forms are those of the handbooks (Baum, Principles of English
// Versification, 1922).
type unit struct {
	letters string // "." is a line that rhymes with none
	weight  float64
}

var units = []unit{
	{".", 0.4},
	{"AA", 0.30},
	{"AAA", 0.04},
	{"AAAA", 0.01},
	{"ABAB", 0.20},
	{"ABBA", 0.04},
	{".A.A", 0.15},
	{"AA.A", 0.01},
	{"ABA", 0.01},
	{"AABBA", 0.02},
	{"ABABB", 0.02},
	{"ABAAB", 0.02},
	{".A.AA", 0.005},
	{"ABBBA", 0.005},
	{"AABAB", 0.005},
	{"AABBB", 0.005},
	{".AA.A", 0.002},
	{"AABCCB", 0.03},
	{"AABAAB", 0.005},
	{"ABABAB", 0.01},
	{"ABABCC", 0.02},
	{"ABCABC", 0.01},
	{".A.A.A", 0.01},
	{"ABABBCC", 0.03},
	{"ABABABCC", 0.03},
	{"AAABCCCB", 0.01},
	{"ABBAABBA", 0.01},
	{"ABABBCBCC", 0.03},
	{"ABABBCBCCDCDEE", 0.01},
}

// longestUnit is the number of lines of the longest unit.
var longestUnit = len(slices.MaxFunc(units, func(a, b unit) int { return len(a.letters) - len(b.letters) }).letters)

// pairsOf lists the pairs of a unit's lines that rhyme, as places in a table,
// and those that do not.
type unitPairs struct{ same, other [][2]int }

var pairsOfUnits = buildPairs()

func buildPairs() []unitPairs {
	list := make([]unitPairs, len(units))
	for u, unit := range units {
		s := unit.letters
		for i := range len(s) {
			for j := i + 1; j < len(s) && j <= i+reach; j++ {
				p := [2]int{i, j - i - 1}
				if s[i] == s[j] && s[i] != '.' {
					list[u].same = append(list[u].same, p)
				} else {
					list[u].other = append(list[u].other, p)
				}
			}
		}
	}
	return list
}

// A likelihood is how likely each pair of a stanza's lines is to rhyme, if the
// stanza is made of units with certain weights, and how much it uses each unit.
type likelihood struct {
	pairs table
	uses  []use
}

// A use is how much of a unit is used at one place.
type use struct {
	unit   int
	amount float64
}

// bounded is how far a pair of lines speaks for or against a unit: evidence
// beyond it says no more.
func bounded(odds float64) float64 { return min(4, max(-4, odds)) }

// lattice finds the likelihood of a stanza under a form.
func lattice(t table, f *form) likelihood {
	n := len(t)
	score := scores(t, f)
	w := waysThrough(n, score)
	out := likelihood{pairs: newTable(n)}
	for s := range n {
		for u := range units {
			to := s + len(units[u].letters)
			if to > n {
				continue
			}
			p := math.Exp(w.before[s] + score[s*len(units)+u] + w.after[to] - w.before[n])
			if p < leastUse {
				continue
			}
			out.uses = append(out.uses, use{u, p})
			for _, q := range pairsOfUnits[u].same {
				out.pairs[s+q[0]][q[1]] += p
			}
		}
	}
	return out
}

// leastUse is how likely a unit must be at a place to be counted.
const leastUse = 1e-6

// scores are the logarithms of how well each unit explains the lines from each
// on, by line, then by unit.
func scores(t table, f *form) []float64 {
	n := len(t)
	list := make([]float64, n*len(units))
	for s := range n {
		for u := range units {
			if s+len(units[u].letters) > n {
				continue
			}
			sum := f.logs[u]
			for _, p := range pairsOfUnits[u].same {
				sum += bounded(t[s+p[0]][p[1]])
			}
			list[s*len(units)+u] = sum
		}
	}
	return list
}

// ways are all ways to make a stanza of units, as logarithms of their sums:
// before a line, for the lines above it; after, for it and those below.
type ways struct{ before, after []float64 }

func waysThrough(n int, score []float64) ways {
	both := make([]float64, 2*(n+1))
	w := ways{both[:n+1], both[n+1:]}
	room := make([]float64, 0, len(units))
	for s := 1; s <= n; s++ {
		sums := room
		for u := range units {
			if from := s - len(units[u].letters); from >= 0 {
				sums = append(sums, w.before[from]+score[from*len(units)+u])
			}
		}
		w.before[s] = logSum(sums)
	}
	for s := n - 1; s >= 0; s-- {
		sums := room
		for u := range units {
			if to := s + len(units[u].letters); to <= n {
				sums = append(sums, score[s*len(units)+u]+w.after[to])
			}
		}
		w.after[s] = logSum(sums)
	}
	return w
}

// logSum is the logarithm of the sum of what has these logarithms; minus infinity
// for none.
func logSum(logs []float64) float64 {
	most := math.Inf(-1)
	for _, x := range logs {
		most = max(most, x)
	}
	if math.IsInf(most, -1) {
		return most
	}
	sum := 0.0
	for _, x := range logs {
		sum += math.Exp(x - most)
	}
	return most + math.Log(sum)
}
