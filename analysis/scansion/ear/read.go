package ear

import "slices"

// A Reading is the best way found to read a line under one foot with one
// number of beats.
type Reading struct {
	Ways  []int  // the pronunciation of each word, by its index in Ways; 0 for silent words
	Beats []bool // for each syllable
	Score float32
	// Lifts say for each syllable how much it wants its beat (above 0) or
	// its slack (below): what the meter had to overcome.
	Lifts []float32
	// Strong is set for syllables that speech stresses: main stresses of
	// nouns, verbs, adjectives and the like.
	Strong []bool
	// Light is set for those that speech passes over: unstressed syllables and
	// small words.
	Light []bool
	// Shape is the part of the score that the meter's own shape gave.
	Shape float32
}

// Read is the best reading of the line under a foot, with this number of beats.
// The second result is false where there is none.
func (w *Weighed) Read(foot Foot, beats int) (Reading, bool) {
	if beats < 0 || beats > MaxBeats {
		return Reading{}, false
	}
	var room [3]row
	t, _ := w.model.trails.Get().(*trail)
	if t == nil {
		t = new(trail)
	}
	defer w.model.trails.Put(t)
	t.begin(w, beats)
	score, at, ok := t.last(w, foot, t.follow(w, foot, &room))
	if !ok {
		return Reading{}, false
	}
	return t.reading(w, familyOf[foot], at, score), true
}

// A trail remembers how the least cost of each way to stand was come by, up to
// a number of beats.
type trail struct {
	most  int
	words []wordTrail
	marks []mark // the room for the words' marks, their lists and their winners
	lists [][]mark
	won   []winner
}

type wordTrail struct {
	ways [][]mark // of each way, for each of its syllables, by the beats after it
	won  []winner // the way of least cost, by the beats; nil where there is but one
}

// A winner is the way of a word that won each way to stand after it: the entry of
// slacks g and context c is g*gaps + c; before the first beat, the slacks.
type winner [gaps * gaps]uint8

// A mark tells how the ways to stand after a syllable were come by.
type mark struct {
	// long has a bit for each context in which as many slacks as are counted
	// stood there before the syllable already, and not one less.
	long uint8
	// from is, for a beat, what came before the slacks that it closes; for the
	// first beat, these slacks.
	from [gaps]uint8
}

// begin makes a trail ready for a line, in the room that the last one took: what
// is read of it has been written before.
func (t *trail) begin(w *Weighed, most int) {
	pulses, ways, choices := 0, 0, 0
	for k := range w.words {
		ways += len(w.words[k].ways)
		if len(w.words[k].ways) > 1 {
			choices++
		}
		for v := range w.words[k].ways {
			pulses += len(w.words[k].ways[v].pulses)
		}
	}
	each := most + 1
	t.most = most
	t.words = slices.Grow(t.words[:0], len(w.words))[:len(w.words)]
	t.marks = slices.Grow(t.marks[:0], pulses*each)[:pulses*each]
	t.lists = slices.Grow(t.lists[:0], ways)[:ways]
	t.won = slices.Grow(t.won[:0], choices*each)[:choices*each]
	marks, lists, won := t.marks, t.lists, t.won
	for k := range w.words {
		n := len(w.words[k].ways)
		t.words[k] = wordTrail{ways: lists[:n:n]}
		lists = lists[n:]
		if n > 1 {
			t.words[k].won, won = won[:each:each], won[each:]
		}
		for v := range w.words[k].ways {
			n := len(w.words[k].ways[v].pulses) * each
			t.words[k].ways[v], marks = marks[:n:n], marks[n:]
		}
	}
}

// follow does what sweep does, and marks its trail; what comes back are the least
// costs after the line's last syllable.
func (t *trail) follow(w *Weighed, foot Foot, room *[3]row) *row {
	f := familyOf[foot]
	opening, bill := w.model.openings(foot), w.model.bill(f)
	say := func(r *row, way *weighedWay, marks []mark) {
		for i := range way.pulses {
			p := &way.pulses[i]
			r.follow(t.most, p.lift[f], &opening, &bill[p.before], marks[i*(t.most+1):])
		}
		if way.cost != 0 {
			r.add(way.cost, t.most)
		}
	}
	here, try, merged := &room[0], &room[1], &room[2]
	here.clear(t.most)
	here.opening[0] = 0
	for k := range w.words {
		ways := w.words[k].ways
		if len(ways) == 1 {
			say(here, &ways[0], t.words[k].ways[0])
			continue
		}
		merged.clear(t.most)
		for v := range ways {
			try.opening = here.opening
			copy(try.after[:t.most+1], here.after[:])
			say(try, &ways[v], t.words[k].ways[v])
			merged.joinMarked(try, v, t.words[k].won)
		}
		here, merged = merged, here
	}
	return here
}

// joinMarked keeps what a way of a word does for less, and marks that it did. won
// has an entry for each number of beats.
func (r *row) joinMarked(other *row, way int, won []winner) {
	for o, cost := range other.opening {
		if cost < r.opening[o] {
			r.opening[o], won[0][o] = cost, uint8(way)
		}
	}
	for b := 1; b < len(won); b++ {
		for g := range gaps {
			for c, cost := range other.after[b][g] {
				if cost < r.after[b][g][c] {
					r.after[b][g][c], won[b][g*gaps+c] = cost, uint8(way)
				}
			}
		}
	}
}

// follow reads one syllable as advance does, for up to most beats, and marks where
// each cost came from.
func (r *row) follow(most int, lift float32, opening *[openings]float32, t *tolls, back []mark) {
	for b := most; b > 1; b-- {
		c, before, toll := &r.after[b], &r.after[b-1], &t.later
		if b == 2 {
			toll = &t.second
		}
		back[b].long = c.slackMarked()
		for g := range gaps {
			c[0][g], back[b].from[g] = before.beatMarked(g, toll, lift)
		}
	}
	o := &r.opening
	if most > 0 {
		c := &r.after[1]
		back[1] = mark{long: c.slackMarked(), from: [gaps]uint8{0, 1, 2}}
		c[0] = [gaps]float32{
			o[0] - lift + opening[0], o[1] - lift + opening[1], o[2] - lift + opening[2], unreachable, unreachable,
		}
		if longer := o[3] - lift + opening[3]; longer < c[0][2] {
			c[0][2], back[1].from[2] = longer, 3
		}
	}
	back[0].long = 0
	if o[3] < o[2] {
		back[0].long = 1
	}
	*o = [openings]float32{unreachable, o[0], o[1], min(o[2], o[3])}
}

// slackMarked is slack; it tells in which contexts the longest slack stays.
func (c *cell) slackMarked() (long uint8) {
	for k := range gaps {
		if c[maxGap][k] < c[maxGap-1][k] {
			long |= 1 << k
		}
	}
	c.slack()
	return long
}

// beatMarked is the least cost of a beat after g slacks, and the context that it
// is had in.
func (c *cell) beatMarked(g int, toll *cell, lift float32) (least float32, from uint8) {
	least = unreachable
	for k := range gaps {
		if v := c[g][k] - lift + toll[g][k]; v < least {
			least, from = v, uint8(k)
		}
	}
	return least, from
}

// A stand is a way to stand after some number of beats: the slacks since the last
// one and what came before it; without a beat, the slacks alone.
type stand struct{ beats, slacks, context int }

// last is the way to stand at the line's end that costs least, and the score.
func (t *trail) last(w *Weighed, foot Foot, r *row) (float32, stand, bool) {
	m := w.model
	best, at := none, stand{}
	consider := func(cost float32, s stand, ending int) {
		if cost >= unreachable/2 {
			return
		}
		if v := -cost + (m.w[atEnding+int(foot)*endings+ending] + m.w[atFoot+int(foot)]); v > best {
			best, at = v, s
		}
	}
	if t.most == 0 {
		for o, cost := range r.opening {
			consider(cost, stand{slacks: o}, maxEnding)
		}
		return best, at, Possible(best)
	}
	for c := range gaps {
		for g := range gaps {
			consider(r.after[t.most][g][c], stand{t.most, g, c}, min(g, maxEnding))
		}
	}
	return best, at, Possible(best)
}

// before is the way to stand before a syllable from which one after it was come
// by, and whether the syllable bears a beat.
func (s stand) before(back []mark) (stand, bool) {
	k := &back[s.beats]
	switch {
	case s.beats == 0 && s.slacks == maxOpening && k.long != 0, s.beats > 0 && s.slacks == maxGap && k.long>>s.context&1 != 0:
		return s, false
	case s.beats == 0 || s.slacks > 0:
		return stand{s.beats, s.slacks - 1, s.context}, false
	case s.beats == 1:
		return stand{slacks: int(k.from[s.context])}, true
	}
	return stand{s.beats - 1, s.context, int(k.from[s.context])}, true
}

// reading goes the trail back from the line's end.
func (t *trail) reading(w *Weighed, f family, at stand, score float32) Reading {
	longest := 0
	for k := range w.words {
		most := 0
		for v := range w.words[k].ways {
			most = max(most, len(w.words[k].ways[v].pulses))
		}
		longest += most
	}
	flags, lifts := make([]bool, 3*longest), make([]float32, longest)
	beats, strong, light := flags[:longest:longest], flags[longest:2*longest:2*longest], flags[2*longest:]
	r := Reading{Score: score, Ways: make([]int, w.all)}
	i := longest
	for k := len(w.words) - 1; k >= 0; k-- {
		v := t.words[k].winner(at)
		way := &w.words[k].ways[v]
		r.Ways[w.words[k].index] = way.index
		for n := len(way.pulses) - 1; n >= 0; n-- {
			i--
			p := &way.pulses[n]
			at, beats[i] = at.before(t.words[k].ways[v][n*(t.most+1):])
			lifts[i], strong[i], light[i] = p.lift[f], p.heavy, p.light
		}
	}
	r.Beats, r.Lifts, r.Strong, r.Light = beats[i:], lifts[i:], strong[i:], light[i:]
	r.Shape = score
	for i, beat := range r.Beats {
		if beat {
			r.Shape -= r.Lifts[i]
		}
	}
	return r
}

// winner is the way of the word that a way to stand after it was come by.
func (w *wordTrail) winner(at stand) int {
	switch {
	case w.won == nil:
		return 0
	case at.beats == 0:
		return int(w.won[0][at.slacks])
	}
	return int(w.won[at.beats][at.slacks*gaps+at.context])
}
