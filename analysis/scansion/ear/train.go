package ear

import (
	"math"
	"math/rand/v2"
	"slices"
)

// An Example is a line whose scansion is known.
type Example struct {
	Words []Word
	Beats []bool // for each syllable as scanned
	Foot  Foot
	// HasFoot is set where the poem keeps one foot; without it only the
	// line's beats are learned.
	HasFoot bool
	// Wanted is the number of beats that the line's place calls for; 0 where
	// the poem keeps none.
	Wanted int
	Weight float64
}

// Training is how a model is trained.
type Training struct {
	Epochs int
	Rate   float64 // of AdaGrad (Duchi, Hazan, Singer 2011)
	Decay  float64 // of the weights towards where they start, for each example (L2)
	Seed   uint64
}

// Train learns the weights that make the known scansions most likely. Equal
// examples in equal order give equal weights. The second result is the mean
// log-likelihood in the last epoch.
func Train(examples []Example, t Training) (*Model, float64) {
	lines := make([]Line, 0, len(examples))
	kept := make([]Example, 0, len(examples))
	for _, e := range examples {
		if l, ok := NewLine(e.Words); ok && len(e.Beats) > 0 {
			lines = append(lines, l)
			kept = append(kept, e)
		}
	}
	order := make([]int, len(kept))
	for i := range order {
		order[i] = i
	}
	rng := rand.New(rand.NewPCG(t.Seed, 1))
	tr := &trainer{w: prior()}
	start := tr.w
	squares := make([]float64, featureCount)
	sum := make([]float64, featureCount) // for the average over the last half
	averaged := 0.0
	mean := 0.0
	for epoch := range t.Epochs {
		rng.Shuffle(len(order), func(i, j int) { order[i], order[j] = order[j], order[i] })
		mean = 0
		for _, i := range order {
			ll, ok := tr.gradient(&lines[i], &kept[i])
			if !ok {
				continue
			}
			mean += ll / float64(len(order))
			for _, f := range tr.touched {
				g := tr.g[f]*kept[i].Weight - t.Decay*(tr.w[f]-start[f])
				tr.g[f] = 0
				squares[f] += g * g
				if squares[f] > 0 {
					tr.w[f] += t.Rate * g / (math.Sqrt(squares[f]) + 1e-6)
				}
			}
			tr.touched = tr.touched[:0]
		}
		if epoch >= t.Epochs/2 {
			averaged++
			for f := range sum {
				sum[f] += tr.w[f]
			}
		}
	}
	m := new(Model)
	for f := range m.w {
		// Three decimals are more than the data can tell, and keep the table short.
		m.w[f] = float32(math.Round(sum[f]/averaged*1000) / 1000)
	}
	m.setAmphibrachic()
	return m, mean
}

// prior is where the weights start, and what they are drawn to where the data
// is silent: what every handbook says of stress in words.
func prior() (w [featureCount]float64) {
	for k := range kind(kinds) {
		switch k.strength() {
		case weakest:
			w[atKind+int(k)] = -1
		case middling:
			w[atKind+int(k)] = 0.3
		case strong:
			w[atKind+int(k)] = 1
		}
	}
	for i := range 4 {
		w[atWrench+i] = -3
	}
	// No scanned verse has them, but that is what they are for.
	w[atEmphasis], w[atShouted] = 2, 1.5
	w[atCost] = -1
	w[atLength] = -2
	return w
}

// setAmphibrachic gives amphibrachic meter, which no data set names, the
// weights of anapestic lines that open with one slack, but with the slack
// ending as the rule. Anapestic verse has it in one line of five, so that a
// poem must end most of its lines so before it is called amphibrachic.
func (m *Model) setAmphibrachic() {
	opening := func(f Foot, n int) *float32 { return &m.w[atOpening+int(f)*openings+n] }
	ending := func(f Foot, n int) *float32 { return &m.w[atEnding+int(f)*endings+n] }
	for n := range openings {
		*opening(Amphibrachic, n) = *opening(Anapestic, n) - 1
	}
	*opening(Amphibrachic, 1) += 1.25
	for n := range endings {
		*ending(Amphibrachic, n) = *ending(Anapestic, n) - 1
	}
	*ending(Amphibrachic, 1) += 1.75
	m.w[atFoot+int(Amphibrachic)] = m.w[atFoot+int(Anapestic)]
}

type trainer struct {
	w       [featureCount]float64
	g       [featureCount]float64
	touched []int
}

func (t *trainer) push(f int, g float64) {
	if g == 0 {
		return
	}
	if t.g[f] == 0 {
		t.touched = append(t.touched, f)
	}
	t.g[f] += g
}

func (t *trainer) pushSyllable(s *syllable, f family, g float64) {
	for _, i := range s.list[:s.count] {
		t.push(int(i), g)
	}
	for _, i := range s.familyFeatures(f) {
		t.push(i, g)
	}
}

func (t *trainer) lift(s *syllable, f family) float64 {
	sum := 0.0
	for _, i := range s.list[:s.count] {
		sum += t.w[i]
	}
	for _, i := range s.familyFeatures(f) {
		sum += t.w[i]
	}
	return sum
}

func (t *trainer) gap(f family, gap int16, before int) float64 {
	return t.w[atGap+int(f)*gapFeatures+int(gap)] + t.w[atGapBreak+before*gaps+int(gap)%gaps]
}

type plane [MaxBeats + 1][phaseCount]float64

// gradient adds the gradient of the example's log-likelihood: what the known
// scansion has, less what the model expects over all feet and readings.
func (t *trainer) gradient(l *Line, e *Example) (float64, bool) {
	feet := []Foot{e.Foot}
	if !e.HasFoot {
		feet = feet[:0]
		for f := range FootCount {
			feet = append(feet, f)
		}
	}
	known := make([]float64, len(feet))
	total := 0.0
	for i, f := range feet {
		known[i] = t.known(l, e, f, 0, false)
		total += known[i]
	}
	if total == 0 || math.IsInf(total, 0) || math.IsNaN(total) {
		return 0, false
	}
	var passes [FootCount]pass
	z := 0.0
	for f := range FootCount {
		if f == Amphibrachic && (!e.HasFoot || e.Foot != f) {
			// No data set names the foot, so it is no rival while learning: its
			// weights are set from its triple kin afterwards.
			continue
		}
		passes[f].forward(t, l, f, e.Wanted)
		z += passes[f].z
	}
	if z == 0 || math.IsInf(z, 0) || math.IsNaN(z) {
		return 0, false
	}
	for i, f := range feet {
		if known[i] > 0 {
			t.known(l, e, f, known[i]/total/known[i], true)
		}
	}
	for f := range FootCount {
		if passes[f].z > 0 {
			passes[f].backward(t, l, f, e.Wanted, 1/z)
		}
	}
	return math.Log(total / z), true
}

// known is the weight of all the ways to say the line that its scansion allows;
// with push set it adds their expected features times scale.
func (t *trainer) known(l *Line, e *Example, foot Foot, scale float64, push bool) float64 {
	f := familyOf[foot]
	n := len(e.Beats)
	if foot == Amphibrachic && !e.HasFoot {
		return 0
	}
	// The meter's shape is fixed by the scansion, but for breaks before beats,
	// which depend on where words start: they go with the syllables.
	shape := t.w[atFoot+int(foot)]
	p := phase(0)
	at := make([]phase, n)
	beats := 0
	for i, b := range e.Beats {
		at[i] = p
		if b {
			beats++
			if steps[p].opening >= 0 {
				shape += t.w[atOpening+int(foot)*openings+int(steps[p].opening)]
			}
			p = steps[p].beat
		} else {
			p = steps[p].slack
		}
	}
	if beats > MaxBeats {
		return 0
	}
	ending := atEnding + int(foot)*endings + int(steps[p].ending)
	shape += t.w[ending] + t.w[atLength]*lengthValue(beats, e.Wanted)
	fore := make([][]float64, len(l.words)+1)
	for i := range fore {
		fore[i] = make([]float64, n+1)
	}
	fore[0][0] = math.Exp(shape)
	weigh := func(w *way, from int) float64 {
		if from+len(w.syllables) > n {
			return 0
		}
		s := float64(w.cost) * t.w[atCost]
		for i := range w.syllables {
			if k := from + i; e.Beats[k] {
				s += t.lift(&w.syllables[i], f)
				if steps[at[k]].opening < 0 {
					s += t.gap(f, steps[at[k]].gap, int(w.syllables[i].before))
				}
			}
		}
		return math.Exp(s)
	}
	for w, ways := range l.words {
		for from, v := range fore[w] {
			if v == 0 {
				continue
			}
			for k := range ways {
				if x := weigh(&ways[k], from); x > 0 {
					fore[w+1][from+len(ways[k].syllables)] += v * x
				}
			}
		}
	}
	z := fore[len(l.words)][n]
	if !push || z == 0 {
		return z
	}
	t.push(atFoot+int(foot), z*scale)
	t.push(ending, z*scale)
	t.push(atLength, z*scale*lengthValue(beats, e.Wanted))
	for i, b := range e.Beats {
		if b && steps[at[i]].opening >= 0 {
			t.push(atOpening+int(foot)*openings+int(steps[at[i]].opening), z*scale)
		}
	}
	back := make([]float64, n+1)
	back[n] = 1
	for w := len(l.words) - 1; w >= 0; w-- {
		earlier := make([]float64, n+1)
		for from := range earlier {
			if fore[w][from] == 0 {
				continue
			}
			for k := range l.words[w] {
				wy := &l.words[w][k]
				x := weigh(wy, from)
				if x == 0 {
					continue
				}
				rest := back[from+len(wy.syllables)]
				earlier[from] += x * rest
				share := fore[w][from] * x * rest * scale
				if share == 0 {
					continue
				}
				t.push(atCost, share*float64(wy.cost))
				for i := range wy.syllables {
					if q := from + i; e.Beats[q] {
						t.pushSyllable(&wy.syllables[i], f, share)
						if g := steps[at[q]].gap; g >= 0 {
							t.push(atGap+int(f)*gapFeatures+int(g), share)
							t.push(atGapBreak+int(wy.syllables[i].before)*gaps+int(g)%gaps, share)
						}
					}
				}
			}
		}
		back = earlier
	}
	return z
}

// lengthValue is how far a line is from the beats that its place calls for.
func lengthValue(beats, wanted int) float64 {
	if wanted == 0 {
		return 0
	}
	return math.Abs(float64(beats - wanted))
}

// A pass is the forward and backward sums over all readings under one foot.
type pass struct {
	at    [][][]plane // word, way, before each syllable and after the last
	start []plane     // before each word, and after the last
	z     float64
}

func (p *pass) forward(t *trainer, l *Line, foot Foot, wanted int) {
	f := familyOf[foot]
	p.start = make([]plane, len(l.words)+1)
	p.at = make([][][]plane, len(l.words))
	p.start[0][0][0] = 1
	for w, ways := range l.words {
		p.at[w] = make([][]plane, len(ways))
		for v := range ways {
			wy := &ways[v]
			states := make([]plane, len(wy.syllables)+1)
			states[0] = p.start[w]
			for i := range wy.syllables {
				lift := t.lift(&wy.syllables[i], f)
				edges := t.edges(foot, lift, int(wy.syllables[i].before))
				for b := range states[i] {
					for ph, x := range states[i][b] {
						if x == 0 {
							continue
						}
						states[i+1][b][steps[ph].slack] += x
						if b < MaxBeats {
							states[i+1][b+1][steps[ph].beat] += x * edges[ph]
						}
					}
				}
			}
			cost := math.Exp(float64(wy.cost) * t.w[atCost])
			last := &states[len(wy.syllables)]
			for b := range last {
				for ph, x := range last[b] {
					p.start[w+1][b][ph] += x * cost
				}
			}
			p.at[w][v] = states
		}
	}
	end := &p.start[len(l.words)]
	for b := range end {
		for ph, x := range end[b] {
			if x > 0 {
				p.z += x * t.finish(foot, phase(ph), b, wanted)
			}
		}
	}
}

func (t *trainer) edges(foot Foot, lift float64, before int) (e [phaseCount]float64) {
	for ph := range e {
		s := lift
		if st := &steps[ph]; st.opening >= 0 {
			s += t.w[atOpening+int(foot)*openings+int(st.opening)]
		} else {
			s += t.gap(familyOf[foot], st.gap, before)
		}
		e[ph] = math.Exp(s)
	}
	return e
}

func (t *trainer) finish(foot Foot, ph phase, beats, wanted int) float64 {
	if beats == 0 {
		return 0
	}
	return math.Exp(t.w[atFoot+int(foot)] + t.w[atEnding+int(foot)*endings+int(steps[ph].ending)] +
		t.w[atLength]*lengthValue(beats, wanted))
}

// backward takes what the model expects off the gradient.
func (p *pass) backward(t *trainer, l *Line, foot Foot, wanted int, scale float64) {
	f := familyOf[foot]
	var back plane
	end := &p.start[len(l.words)]
	for b := range back {
		for ph := range back[b] {
			back[b][ph] = t.finish(foot, phase(ph), b, wanted)
			if share := end[b][ph] * back[b][ph] * scale; share > 0 {
				t.push(atFoot+int(foot), -share)
				t.push(atEnding+int(foot)*endings+int(steps[ph].ending), -share)
				t.push(atLength, -share*lengthValue(b, wanted))
			}
		}
	}
	for w, ways := range slices.Backward(l.words) {
		var merged plane
		for v := range ways {
			wy := &ways[v]
			cost := math.Exp(float64(wy.cost) * t.w[atCost])
			here := back
			through := 0.0
			last := &p.at[w][v][len(wy.syllables)]
			for b := range here {
				for ph := range here[b] {
					here[b][ph] *= cost
					through += last[b][ph] * here[b][ph]
				}
			}
			t.push(atCost, -through*scale*float64(wy.cost))
			for i := len(wy.syllables) - 1; i >= 0; i-- {
				lift := t.lift(&wy.syllables[i], f)
				before := int(wy.syllables[i].before)
				edges := t.edges(foot, lift, before)
				var earlier plane
				var byGap [gapFeatures]float64
				var byOpening [openings]float64
				on := 0.0
				for b := range earlier {
					for ph, x := range p.at[w][v][i][b] {
						st := &steps[ph]
						earlier[b][ph] = here[b][st.slack]
						if b == MaxBeats {
							continue
						}
						y := edges[ph] * here[b+1][st.beat]
						earlier[b][ph] += y
						if share := x * y * scale; share > 0 {
							on += share
							if st.opening >= 0 {
								byOpening[st.opening] += share
							} else {
								byGap[st.gap] += share
							}
						}
					}
				}
				if on > 0 {
					t.pushSyllable(&wy.syllables[i], f, -on)
					for o, share := range byOpening {
						t.push(atOpening+int(foot)*openings+o, -share)
					}
					for g, share := range byGap {
						if share > 0 {
							t.push(atGap+int(f)*gapFeatures+g, -share)
							t.push(atGapBreak+before*gaps+g%gaps, -share)
						}
					}
				}
				here = earlier
			}
			for b := range merged {
				for ph := range merged[b] {
					merged[b][ph] += here[b][ph]
				}
			}
		}
		back = merged
	}
}
