package scansion

import "dandle/analysis/scansion/ear"

// A verse of the meter may be written in two lines, for a pause before a
// surprise or a change of speaker, and two verses in one:
//
//	And all of a sudden,
//	it came to a stop.
//
// Such lines show in a stanza that has more lines than the others, or fewer, and
// whose beats add up to theirs all the same.

// splitCost is what it costs to take two lines for one verse, or one for two: less
// than a beat too many, which costs 1.
const splitCost = 0.1

// mostMisfits is how many whole lines may have another number of beats than
// their place where the others show how a stanza is split.
const mostMisfits = 1

// seat puts the lines of stanzas that are split into their places.
func (v *verse) seat() {
	beats := v.beats()
	usual := usualBeats(beats)
	if usual == nil {
		return
	}
	for s, own := range beats {
		if n := len(own); n == 0 || n == len(usual) || v.places[s][n-1] != n-1 {
			continue
		}
		if places, shares, ok := align(own, usual); ok {
			v.places[s], v.shares[s] = places, shares
		} else if s > 0 && len(own) == 1 && len(beats[s-1]) == len(usual) {
			v.seatAlone(s, beats[s-1][len(usual)-1], own[0], usual)
		}
	}
}

// seatAlone puts a line that stands by itself into the last place of the stanza
// before it, if that one's last line wants just its beats: an end kept back,
// often for the turn of the page.
func (v *verse) seatAlone(s, before, own int, usual []int) {
	last := len(usual) - 1
	if before+own == usual[last] {
		v.shares[s-1][last] = before
		v.places[s][0], v.shares[s][0] = last, own
	}
}

// beats are those of the stanzas' lines, each as it falls by itself under the
// foot that suits the whole verse best.
func (v *verse) beats() [][]int {
	foot := v.foot()
	all := make([][]int, len(v.lines))
	for s, lines := range v.lines {
		all[s] = make([]int, len(lines))
		for k, h := range lines {
			_, all[s][k] = h.free(foot)
		}
	}
	return all
}

// foot is the one that suits the verse best, whatever its length.
func (v *verse) foot() ear.Foot {
	best, top := ear.Foot(0), 0.0
	for foot := range ear.FootCount {
		sum := 0.0
		for s := range v.lines {
			for _, h := range v.lines[s] {
				score, _ := h.free(foot)
				sum += score
			}
		}
		if foot == 0 || sum > top {
			best, top = foot, sum
		}
	}
	return best
}

// usualBeats are those of the places of the stanzas of the commonest length, as
// most of them have it; nil where all stanzas are of one length or no two are.
func usualBeats(beats [][]int) []int {
	lengths := map[int]int{}
	usual := 0
	for _, own := range beats {
		if n := len(own); n > 0 {
			lengths[n]++
		}
	}
	for n, stanzas := range lengths {
		if stanzas > lengths[usual] || stanzas == lengths[usual] && n < usual {
			usual = n
		}
	}
	if lengths[usual] < 2 || len(lengths) < 2 {
		return nil
	}
	counts := make([][ear.MaxBeats + 1]int, usual)
	out := make([]int, usual)
	for _, own := range beats {
		if len(own) != usual {
			continue
		}
		for place, n := range own {
			counts[place][n]++
			if counts[place][n] > counts[place][out[place]] {
				out[place] = n
			}
		}
	}
	return out
}

// align finds how a stanza's lines fill the places of the usual one: each line's
// place, and of a line that is not the whole of one place the beats that fall to
// it, 0 for the others. It is false where the beats do not add up.
func align(beats, usual []int) (places, shares []int, ok bool) {
	// cost[i][j] is that of i lines in j places, last how many of each the last
	// step took.
	type step struct{ lines, places int }
	const impossible = 1e6
	cost := make([][]float64, len(beats)+1)
	last := make([][]step, len(beats)+1)
	for i := range cost {
		cost[i], last[i] = make([]float64, len(usual)+1), make([]step, len(usual)+1)
		for j := range cost[i] {
			if i == 0 && j == 0 {
				continue
			}
			cost[i][j] = impossible
			take := func(s step, c float64) {
				if i < s.lines || j < s.places {
					return
				}
				if c += cost[i-s.lines][j-s.places]; c < cost[i][j] {
					cost[i][j], last[i][j] = c, s
				}
			}
			if i > 0 && j > 0 {
				take(step{1, 1}, float64(max(beats[i-1]-usual[j-1], usual[j-1]-beats[i-1])))
			}
			if i > 1 && j > 0 && beats[i-2]+beats[i-1] == usual[j-1] {
				take(step{2, 1}, splitCost)
			}
			if i > 0 && j > 1 && beats[i-1] == usual[j-2]+usual[j-1] {
				take(step{1, 2}, splitCost)
			}
		}
	}
	i, j := len(beats), len(usual)
	if cost[i][j] > mostMisfits+splitCost*float64(i+j) {
		return nil, nil, false
	}
	places, shares = make([]int, i), make([]int, i)
	for i > 0 {
		s := last[i][j]
		i, j = i-s.lines, j-s.places
		for k := i; k < i+s.lines; k++ {
			places[k] = j
			if s.lines != s.places {
				shares[k] = beats[k]
			}
		}
	}
	return places, shares, true
}
