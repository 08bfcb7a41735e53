package ear

import (
	"math"
	"slices"
)

// A Model is the weight of every feature. It never changes once made.
type Model struct {
	w [featureCount]float32
}

// none is the score of what cannot be.
const none = float32(math.MaxFloat32 * -0.5)

// lift is how much a syllable wants a beat, in each family: the sum of its
// features' weights. 0 is indifferent, 1 is about three to one for a beat.
func (m *Model) lift(s *syllable) (sum [familyCount]float32) {
	shared := float32(0)
	for _, f := range s.list[:s.count] {
		shared += m.w[f]
	}
	for f := range sum {
		sum[f] = shared
		for _, i := range s.familyFeatures(family(f)) {
			sum[f] += m.w[i]
		}
	}
	return sum
}

// gapWeight is how much a gap between beats is liked.
func (m *Model) gapWeight(f family, gap int16, before int) float32 {
	return m.w[atGap+int(f)*gapFeatures+int(gap)] + m.w[atGapBreak+before*gaps+int(gap)%gaps]
}

// LengthCost is what it costs to read a line with another number of beats
// than its place calls for; never above 0.
func (m *Model) LengthCost(beats, wanted int) float32 {
	return m.w[atLength] * float32(max(beats-wanted, wanted-beats))
}

// A row is the best score of every phase at every number of beats.
type row [MaxBeats + 1]phases

type phases [phaseCount]float32

func (p *phases) clear() {
	for i := range p {
		p[i] = none
	}
}

func (r *row) clear() {
	for b := range r {
		r[b].clear()
	}
}

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

// lifts are the lift of each syllable of each way of each word.
type lifts [][][][familyCount]float32

func (m *Model) lifts(l *Line) lifts {
	all := make(lifts, len(l.words))
	for w, ways := range l.words {
		all[w] = make([][][familyCount]float32, len(ways))
		for v := range ways {
			all[w][v] = make([][familyCount]float32, len(ways[v].syllables))
			for i := range ways[v].syllables {
				all[w][v][i] = m.lift(&ways[v].syllables[i])
			}
		}
	}
	return all
}

// Scores are the best score of a line under each foot for each number of beats.
type Scores [FootCount][MaxBeats + 1]float32

// Possible reports whether a score belongs to a reading.
func Possible(score float32) bool { return score > none/2 }

// Scores reads the line under every foot.
func (m *Model) Scores(l *Line) *Scores {
	s := new(Scores)
	all := m.lifts(l)
	var work [4]row
	for foot := range FootCount {
		end, top := m.sweep(l, all, foot, &work)
		for b := range s[foot] {
			s[foot][b] = none
			if b > top {
				continue
			}
			first, last := live(b)
			for p := first; p < last; p++ {
				if v := end[b][p]; v > none/2 {
					s[foot][b] = max(s[foot][b], v+m.w[atEnding+int(foot)*endings+int(steps[p].ending)]+m.w[atFoot+int(foot)])
				}
			}
		}
	}
	return s
}

// sweep finds the best scores after the line's last syllable, and the most
// beats that it can have. It does what forward does, without remembering how.
func (m *Model) sweep(l *Line, all lifts, foot Foot, work *[4]row) (*row, int) {
	f := familyOf[foot]
	here, start, current, next := &work[0], &work[1], &work[2], &work[3]
	var tables [breaks]phases
	for before := range tables {
		tables[before] = m.beatWeights(foot, before)
	}
	for i := range work {
		work[i].clear() // what is never live stays impossible
	}
	here[0][0] = 0
	most := 0
	for w, ways := range l.words {
		here, start = start, here
		reach := most
		for v := range ways {
			syllables := ways[v].syllables
			top := most
			from := start
			for i := range syllables {
				advance(from, next, top, all[w][v][i][f], &tables[syllables[i].before])
				top = min(top+1, MaxBeats)
				current, next = next, current
				from = current
			}
			reach = max(reach, top)
			cost := ways[v].cost * m.w[atCost]
			for b := 0; b <= top; b++ {
				first, end := live(b)
				for p := first; p < end; p++ {
					if score := from[b][p] + cost; v == 0 || score > here[b][p] {
						here[b][p] = score
					}
				}
			}
			if v == 0 {
				for b := top + 1; b <= MaxBeats; b++ {
					here[b].clear()
				}
			}
		}
		most = reach
	}
	return here, most
}

// beatWeights are what a beat adds in each phase, but for its own lift.
func (m *Model) beatWeights(foot Foot, before int) (w phases) {
	for p := range w {
		if st := &steps[p]; st.opening >= 0 {
			w[p] = m.w[atOpening+int(foot)*openings+int(st.opening)]
		} else {
			w[p] = m.gapWeight(familyOf[foot], st.gap, before)
		}
	}
	return w
}

// advance reads one syllable: it moves the scores of all phases, up to top
// beats, to where a slack and where a beat would take them. It is steps written
// out, since it is where the time goes: a slack moves every phase to the one
// beside it, a beat to the first of the gap that it closes. Only the phases that
// are live with so many beats are looked at.
func advance(from, to *row, top int, lift float32, w *phases) {
	for b := 0; b <= min(top+1, MaxBeats); b++ {
		n := &to[b]
		first, end := live(b)
		switch {
		case b > top:
			for p := first; p < end; p++ {
				n[p] = none
			}
		case b == 0:
			c := &from[0]
			n[0], n[1], n[2], n[3] = none, c[0], c[1], larger(c[2], c[3])
		default:
			c := &from[b]
			for k := first; k+gaps <= end; k += gaps {
				n, c := n[k:k+gaps:k+gaps], c[k:k+gaps:k+gaps]
				n[0], n[1], n[2], n[3], n[4] = none, c[0], c[1], c[2], larger(c[3], c[4])
			}
		}
		switch b {
		case 0:
		case 1:
			c := &from[0]
			for o := range openings {
				p := inGap(gaps+min(o, 2), 0)
				n[p] = larger(n[p], c[o]+w[o]+lift)
			}
		default:
			// The best way to each gap over all contexts.
			c := &from[b-1]
			g0, g1, g2, g3, g4 := none, none, none, none, none
			first, end := live(b - 1)
			for k := first; k+gaps <= end; k += gaps {
				c, w := c[k:k+gaps:k+gaps], w[k:k+gaps:k+gaps]
				g0, g1, g2 = larger(g0, c[0]+w[0]), larger(g1, c[1]+w[1]), larger(g2, c[2]+w[2])
				g3, g4 = larger(g3, c[3]+w[3]), larger(g4, c[4]+w[4])
			}
			for g, best := range [gaps]float32{g0, g1, g2, g3, g4} {
				p := inGap(g, 0)
				n[p] = larger(n[p], best+lift)
			}
		}
	}
}

// larger is max without its care for NaN, which no score is.
func larger(a, b float32) float32 {
	if a > b {
		return a
	}
	return b
}

// A mark remembers how the best score of a state was reached.
type mark struct {
	from phase
	beat bool
}

// marks has, for each word and way, for each of its syllables, a mark for every
// state; and for each word the way that won each state.
type marks struct {
	inWay [][][][MaxBeats + 1][phaseCount]mark
	won   [][MaxBeats + 1][phaseCount]uint8
}

// forward is the best scores after the line's last syllable, for no more beats
// than most. work is room for it.
func (m *Model) forward(l *Line, all lifts, foot Foot, most int, work *[4]row, trace *marks) *row {
	f := familyOf[foot]
	var tables [breaks]phases
	for before := range tables {
		tables[before] = m.beatWeights(foot, before)
	}
	here, start, current, next := &work[0], &work[1], &work[2], &work[3]
	here.clear()
	here[0][0] = 0
	reached := 0 // beats so far, at most
	for w, ways := range l.words {
		here, start = start, here
		here.clear()
		trace.inWay = append(trace.inWay, make([][][MaxBeats + 1][phaseCount]mark, len(ways)))
		trace.won = append(trace.won, [MaxBeats + 1][phaseCount]uint8{})
		reach := reached
		for v := range ways {
			way := &ways[v]
			from := start
			top := reached
			trace.inWay[w][v] = make([][MaxBeats + 1][phaseCount]mark, len(way.syllables))
			for i := range way.syllables {
				follow(from, next, min(top, most), most, all[w][v][i][f], &tables[way.syllables[i].before], &trace.inWay[w][v][i])
				top = min(top+1, MaxBeats)
				current, next = next, current
				from = current
			}
			cost := way.cost * m.w[atCost]
			for b := 0; b <= min(top, most); b++ {
				first, end := live(b)
				for p := first; p < end; p++ {
					if score := from[b][p]; score > none/2 && score+cost > here[b][p] {
						here[b][p] = score + cost
						trace.won[w][b][p] = uint8(v)
					}
				}
			}
			reach = max(reach, top)
		}
		reached = reach
	}
	return here
}

// follow reads one syllable: it moves the scores of up to top beats to where a
// slack and where a beat would take them, and marks where each came from.
func follow(from, to *row, top, most int, lift float32, w *phases, back *[MaxBeats + 1][phaseCount]mark) {
	for b := range min(top+1, most) + 1 {
		to[b].clear()
	}
	for b := range top + 1 {
		first, end := live(b)
		for p := first; p < end; p++ {
			score := from[b][p]
			if score <= none/2 {
				continue
			}
			st := &steps[p]
			if score > to[b][st.slack] {
				to[b][st.slack] = score
				back[b][st.slack] = mark{from: phase(p)}
			}
			if b == most {
				continue
			}
			score += lift
			if score += w[p]; score > to[b+1][st.beat] {
				to[b+1][st.beat] = score
				back[b+1][st.beat] = mark{from: phase(p), beat: true}
			}
		}
	}
}

// Read is the best reading of the line under a foot, with this number of
// beats; a negative number asks for the best of any. The second result is
// false where there is none.
func (m *Model) Read(l *Line, words int, foot Foot, beats int) (Reading, bool) {
	all := m.lifts(l)
	most := MaxBeats
	if beats >= 0 {
		most = min(beats, MaxBeats)
	}
	var work [4]row
	var trace marks
	here := m.forward(l, all, foot, most, &work, &trace)
	best, at, phaseAt := none, 0, phase(0)
	for b := range here {
		if beats >= 0 && b != beats {
			continue
		}
		for p, v := range here[b] {
			if v <= none/2 {
				continue
			}
			if v += m.w[atEnding+int(foot)*endings+int(steps[p].ending)] + m.w[atFoot+int(foot)]; v > best {
				best, at, phaseAt = v, b, phase(p)
			}
		}
	}
	if best <= none/2 {
		return Reading{}, false
	}
	r := Reading{Score: best, Ways: make([]int, words)}
	f := familyOf[foot]
	for w := len(l.words) - 1; w >= 0; w-- {
		v := trace.won[w][at][phaseAt]
		r.Ways[l.wordIndex[w]] = l.words[w][v].index
		for i := len(l.words[w][v].syllables) - 1; i >= 0; i-- {
			k := trace.inWay[w][v][i][at][phaseAt]
			r.Beats = append(r.Beats, k.beat)
			r.Lifts = append(r.Lifts, all[w][v][i][f])
			r.Strong = append(r.Strong, l.words[w][v].syllables[i].heavy())
			r.Light = append(r.Light, l.words[w][v].syllables[i].light())
			phaseAt = k.from
			if k.beat {
				at--
			}
		}
	}
	slices.Reverse(r.Beats)
	slices.Reverse(r.Lifts)
	slices.Reverse(r.Strong)
	slices.Reverse(r.Light)
	r.Shape = best
	for i, beat := range r.Beats {
		if beat {
			r.Shape -= r.Lifts[i]
		}
	}
	return r, true
}
