package rhyme

import "math"

// An outlook tells what a form expects of single lines of a stanza, whatever
// they end with. All lines share the ways to make the lines above and those
// below, so that to ask about every line of a long stanza costs little more than
// to ask about one.
type outlook struct {
	heard table
	form  *form
	ways  ways
}

func newOutlook(heard table, f *form) *outlook {
	return &outlook{heard: heard, form: f, ways: waysThrough(len(heard), scores(heard, f))}
}

// A placed unit begins at a line, with the logarithm of all ways through
// the stanza that use it there.
type placed struct {
	start, unit int
	sum         float64
}

// mates is how likely a line is to rhyme with each at most reach away: entry
// reach+k is for the line k below it.
func (o *outlook) mates(line int) (out [2*reach + 1]float64) {
	list := o.around(line)
	sums := make([]float64, len(list))
	for i, p := range list {
		sums[i] = p.sum
	}
	all := logSum(sums)
	for _, p := range list {
		likely := math.Exp(p.sum - all)
		if likely < leastUse {
			continue
		}
		for _, q := range pairsOfUnits[p.unit].same {
			first, second := p.start+q[0], p.start+q[0]+q[1]+1
			switch line {
			case first:
				out[reach+second-line] += likely
			case second:
				out[reach+first-line] += likely
			}
		}
	}
	return out
}

// around lists the units that a line may stand in. The pairs that the line is in
// say nothing.
func (o *outlook) around(line int) []placed {
	list := make([]placed, 0, 2*len(units))
	for start := max(0, line+1-longestUnit); start <= line; start++ {
		for u := range units {
			to := start + len(units[u].letters)
			if to <= line || to > len(o.heard) {
				continue
			}
			sum := o.ways.before[start] + o.form.logs[u] + o.ways.after[to]
			for _, q := range pairsOfUnits[u].same {
				first := start + q[0]
				if first != line && first+q[1]+1 != line {
					sum += bounded(o.heard[first][q[1]])
				}
			}
			list = append(list, placed{start, u, sum})
		}
	}
	return list
}
