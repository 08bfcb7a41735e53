package scansion

import (
	"cmp"
	"slices"

	"dandle/analysis/scansion/ear"
)

// A Leaning is a meter that some lines would keep of a poem that keeps none.
type Leaning struct {
	Meter Meter
	Lines []int // of the manuscript, in order
}

const (
	// atEase is what a reading may cost over the one that suits a line best of
	// all for the line to be said to keep its meter by itself (ours).
	atEase = 2
	// leastLeaning is the share of the lines that each of two meters must draw to be
	// worth naming, and mostLeaning that of one alone (ours).
	leastLeaning = 0.25
	mostLeaning  = 0.5
)

// Leanings are the meters that pull at a poem whose lines keep no one of them: at
// most one that moves in twos and one that moves in threes, the one with more
// lines first. Each line is given to the one that it keeps more easily; it is
// empty where the poem keeps a meter, and where few lines keep either.
func (p *Poem) Leanings() []Leaning {
	if p.Meter.Regular {
		return nil
	}
	duple, triple := p.pull(ear.Iambic, ear.Trochaic), p.pull(ear.Anapestic, ear.Dactylic, ear.Amphibrachic)
	pulls := []Leaning{{Meter: duple}, {Meter: triple}}
	heard := 0
	for i := range p.Lines {
		h := p.Lines[i].heard
		if h == nil || !h.ok {
			continue
		}
		heard++
		best, least := -1, float64(atEase)
		for k := range pulls {
			foot := ear.Foot(slices.Index(footOf[:], pulls[k].Meter.Foot))
			if cost := h.strain(foot, pulls[k].Meter.Beats[0]); cost < least {
				best, least = k, cost
			}
		}
		if best >= 0 {
			pulls[best].Lines = append(pulls[best].Lines, i)
		}
	}
	draws := func(l Leaning, share float64) bool { return float64(len(l.Lines)) >= share*float64(heard) }
	pulls = slices.DeleteFunc(pulls, func(l Leaning) bool { return !draws(l, leastLeaning) })
	if len(pulls) == 1 && !draws(pulls[0], mostLeaning) {
		return nil
	}
	slices.SortStableFunc(pulls, func(a, b Leaning) int { return cmp.Compare(len(b.Lines), len(a.Lines)) })
	return pulls
}

// pull is the meter in one of some feet, all lines of one length, that explains
// the lines best.
func (p *Poem) pull(feet ...ear.Foot) Meter {
	var best Meter
	top := 0.0
	for _, foot := range feet {
		for beats := 1; beats <= ear.MaxBeats; beats++ {
			sum := 0.0
			for i := range p.Lines {
				if h := p.Lines[i].heard; h != nil && h.ok {
					score, _ := h.fit(foot, beats)
					sum += score
				}
			}
			if best.Foot == NoMeter || sum > top {
				best, top = Meter{Foot: footOf[foot], Beats: []int{beats}, Regular: true}, sum
			}
		}
	}
	return best
}
