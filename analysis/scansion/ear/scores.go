package ear

// Scores are the best score of a line under each foot for each number of beats.
type Scores [FootCount][MaxBeats + 1]float32

// Possible reports whether a score belongs to a reading.
func Possible(score float32) bool { return score > none/2 }

// Scores reads the line under every foot. This is where the time goes when a
// line is heard for the first time, so it is written for the processor: it counts costs,
// which are scores turned round, since the least of two numbers takes fewer
// instructions than the greatest and, unlike a comparison, no branch to guess.
func (w *Weighed) Scores() *Scores {
	s := new(Scores)
	var room [3]row
	m := w.model
	for foot := range FootCount {
		end, most := w.sweep(foot, &room)
		for b := range s[foot] {
			s[foot][b] = none
			if b > most {
				continue
			}
			for slacks, cost := range end.leasts(b) {
				if cost < unreachable/2 {
					s[foot][b] = max(s[foot][b], -cost+m.w[atEnding+int(foot)*endings+min(slacks, maxEnding)]+m.w[atFoot+int(foot)])
				}
			}
		}
	}
	return s
}

// unreachable is the cost of what cannot be.
const unreachable = -none

// A cell is the least cost of each way to stand after some number of beats: by
// the slacks since the last one, then by what came before it. That is the gap
// that it closed; or, where it is the first, the opening of 0, 1, 2 or more slacks.
type cell [gaps][gaps]float32

// A row is the least cost of each way to stand in a line.
type row struct {
	opening [openings]float32  // before the first beat, by the slacks so far
	after   [MaxBeats + 1]cell // by the beats so far; the first is not in use
}

// Tolls are what a beat costs, by the slacks before it and by what came before
// these, but for its own lift.
type tolls struct {
	second cell // for the second beat
	later  cell // for all that follow
}

func (m *Model) tolls(f family, before int) (t tolls) {
	for g := range gaps {
		for c := range gaps {
			t.later[g][c] = -m.gapWeight(f, int16(c*gaps+g), before)
			if c < contexts-gaps {
				t.second[g][c] = -m.gapWeight(f, int16((gaps+c)*gaps+g), before)
			}
		}
	}
	return t
}

// openings are what a first beat costs, by the slacks before it.
func (m *Model) openings(foot Foot) (costs [openings]float32) {
	for o := range costs {
		costs[o] = -m.w[atOpening+int(foot)*openings+o]
	}
	return costs
}

// sweep finds the least costs after the line's last syllable, and the most
// beats that it can have.
func (w *Weighed) sweep(foot Foot, room *[3]row) (end *row, most int) {
	f := familyOf[foot]
	opening, bill := w.model.openings(foot), w.model.bill(f)
	here, try, merged := &room[0], &room[1], &room[2]
	here.opening = [openings]float32{0, unreachable, unreachable, unreachable}
	for k := range w.words {
		ways := w.words[k].ways
		if len(ways) == 1 {
			most = here.say(&ways[0], most, f, &opening, bill)
			continue
		}
		reach := -1
		for v := range ways {
			try.opening = here.opening
			copy(try.after[1:most+1], here.after[1:most+1])
			top := try.say(&ways[v], most, f, &opening, bill)
			reach = merged.join(try, top, reach)
		}
		here, merged, most = merged, here, reach
	}
	return here, most
}

// say reads a word one way; top is the most beats before it, and what comes back
// the most after it.
func (r *row) say(way *weighedWay, top int, f family, opening *[openings]float32, bill *bill) int {
	for i := range way.pulses {
		p := &way.pulses[i]
		r.advance(top, p.lift[f], opening, &bill[p.before])
		top = min(top+1, MaxBeats)
	}
	if way.cost != 0 {
		r.add(way.cost, top)
	}
	return top
}

// advance reads one syllable: it moves the costs, up to top beats, to where a slack
// and where a beat would take them. It goes down from the most beats, so that
// each cell is read before it is changed.
func (r *row) advance(top int, lift float32, opening *[openings]float32, t *tolls) {
	for b := min(top+1, MaxBeats); b > 1; b-- {
		c, before := &r.after[b], &r.after[b-1]
		if b <= top {
			c.slack()
		} else {
			c.clear()
		}
		if b == 2 {
			before.beat(&t.second, lift, &c[0])
		} else {
			before.beat(&t.later, lift, &c[0])
		}
	}
	o, c := &r.opening, &r.after[1]
	if top > 0 {
		c.slack()
	} else {
		c.clear()
	}
	c[0] = [gaps]float32{
		o[0] + opening[0] - lift,
		o[1] + opening[1] - lift,
		min(o[2]+opening[2]-lift, o[3]+opening[3]-lift),
		unreachable, unreachable,
	}
	*o = [openings]float32{unreachable, o[0], o[1], min(o[2], o[3])}
}

// slack moves each way of standing one slack on, but for the last, which stands
// for all that are longer.
func (c *cell) slack() {
	for k := range gaps {
		c[maxGap][k] = min(c[maxGap-1][k], c[maxGap][k])
	}
	c[3], c[2], c[1] = c[2], c[1], c[0]
}

// beat finds the least cost of a beat after each number of slacks.
func (c *cell) beat(toll *cell, lift float32, to *[gaps]float32) {
	for g := range gaps {
		c, t := &c[g], &toll[g]
		to[g] = min(c[0]+t[0], c[1]+t[1], c[2]+t[2], c[3]+t[3], c[4]+t[4]) - lift
	}
}

// clear leaves no way to stand after up to most beats.
func (r *row) clear(most int) {
	r.opening = [openings]float32{unreachable, unreachable, unreachable, unreachable}
	for b := range most + 1 {
		r.after[b].clear()
	}
}

func (c *cell) clear() {
	for g := range c {
		c[g] = [gaps]float32{unreachable, unreachable, unreachable, unreachable, unreachable}
	}
}

// add puts a cost on every way to stand after up to top beats.
func (r *row) add(cost float32, top int) {
	for o := range r.opening {
		r.opening[o] += cost
	}
	for b := 1; b <= top; b++ {
		for g := range gaps {
			for c := range gaps {
				r.after[b][g][c] += cost
			}
		}
	}
}

// join keeps what another row, of up to top beats, has for less; reach is how many
// beats the row has so far, -1 for a row that holds nothing yet. It returns how many
// it has now.
func (r *row) join(other *row, top, reach int) int {
	for o := range r.opening {
		if reach < 0 || other.opening[o] < r.opening[o] {
			r.opening[o] = other.opening[o]
		}
	}
	for b := 1; b <= top; b++ {
		if b > reach {
			r.after[b] = other.after[b]
			continue
		}
		for g := range gaps {
			for c := range gaps {
				r.after[b][g][c] = min(r.after[b][g][c], other.after[b][g][c])
			}
		}
	}
	return max(reach, top)
}

// leasts are the least costs after so many beats, by the slacks that end the
// line; before the first beat all slacks end it.
func (r *row) leasts(beats int) (least [gaps]float32) {
	if beats == 0 {
		least = [gaps]float32{unreachable, unreachable, unreachable, unreachable, unreachable}
		least[maxEnding] = min(r.opening[0], r.opening[1], r.opening[2], r.opening[3])
		return least
	}
	for g := range least {
		c := &r.after[beats][g]
		least[g] = min(c[0], c[1], c[2], c[3], c[4])
	}
	return least
}
