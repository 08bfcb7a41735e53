package rhyme

import (
	"math"
	"slices"
	"sync"
)

// A form is the measure in which a poem uses its units.
type form struct {
	counts []float64 // how often each is used
	logs   []float64 // of their weights
}

// anyForm is the form of a poem of which nothing is known.
func anyForm() *form {
	f := &form{counts: make([]float64, len(units)), logs: make([]float64, len(units))}
	for u := range units {
		f.logs[u] = math.Log(units[u].weight)
	}
	return f
}

// newForm is the form of a poem that uses its units so often.
func newForm(counts []float64) *form {
	f := &form{counts: counts, logs: make([]float64, len(units))}
	sum, total := 0.0, 0.0
	for u := range units {
		sum += counts[u]
		total += units[u].weight
	}
	for u := range units {
		f.logs[u] = math.Log((counts[u] + unitPrior*units[u].weight/total) / (sum + unitPrior))
	}
	return f
}

// without is the form less what one stanza adds to it.
func (f *form) without(own []use) *form {
	counts := slices.Clone(f.counts)
	for _, x := range own {
		counts[x.unit] = max(0, counts[x.unit]-x.amount)
	}
	return newForm(counts)
}

// A poem is the ends of all stanzas, each put with those of its shape.
type poem struct {
	stanzas []*Ends
	group   []int   // of each stanza
	first   []*Ends // of each group
}

func newPoem(stanzas []*Ends) poem {
	p := poem{stanzas: stanzas, group: make([]int, len(stanzas))}
	groups := map[string]int{}
	for i, e := range stanzas {
		g, known := groups[e.shape]
		if !known {
			g = len(p.first)
			groups[e.shape] = g
			p.first = append(p.first, e)
		}
		p.group[i] = g
	}
	return p
}

// under are the likelihoods of the groups under a form.
func (p *poem) under(f *form) []likelihood {
	list := make([]likelihood, len(p.first))
	for g, e := range p.first {
		list[g] = lattice(e.heard, f)
	}
	return list
}

// Counts of what was never seen. A poem may use its units in its own measure
// after some ten of them; a place follows its form after some two stanzas.
const (
	unitPrior  = 6
	placePrior = 2
)

// form is the form of a poem, found in a few rounds, and the likelihoods of its
// groups under the round before.
func (p *poem) form() (*form, []likelihood) {
	f := anyForm()
	var likely []likelihood
	for range 3 {
		likely = p.under(f)
		counts := make([]float64, len(units))
		for _, g := range p.group {
			for _, x := range likely[g].uses {
				counts[x.unit] += x.amount
			}
		}
		f = newForm(counts)
	}
	return f, likely
}

// asks works out what the form of a poem asks of each group: stanzas of one
// length share theirs.
func (p *poem) asks(f *form, likely []likelihood) []*asks {
	sums := map[int]table{}
	number := map[int]float64{}
	for i, e := range p.stanzas {
		n := len(e.list)
		if sums[n] == nil {
			sums[n] = newTable(n)
		}
		number[n]++
		for k, row := range likely[p.group[i]].pairs {
			for d := range reach {
				sums[n][k][d] += row[d]
			}
		}
	}
	out := make([]*asks, len(p.first))
	for g, e := range p.first {
		n := len(e.list)
		own := likely[g].uses
		out[g] = &asks{
			others: newTable(n), number: number[n] - 1,
			// A stanza does not tell what form the poem has that it is held to.
			outlook: sync.OnceValue(func() *outlook { return newOutlook(e.heard, f.without(own)) }),
		}
		for k, row := range likely[g].pairs {
			for d := range reach {
				out[g].others[k][d] = sums[n][k][d] - row[d]
			}
		}
	}
	return out
}

// logOdds turns what is wanted into log odds.
func logOdds(wanted table) table {
	out := newTable(len(wanted))
	for i := range wanted {
		for d := range reach {
			p := min(0.98, max(0.01, wanted[i][d]))
			out[i][d] = math.Log(p / (1 - p))
		}
	}
	return out
}

// posterior joins what is heard with what is wanted, as log odds.
func posterior(heard, wanted table) table {
	out := newTable(len(heard))
	for i := range heard {
		for d := range reach {
			out[i][d] = heard[i][d] + wanted[i][d]
		}
	}
	return out
}
