package suggest

import (
	"math"

	"dandle/analysis/scansion"
	"dandle/phonetics/arpabet"
	"dandle/phonetics/grammar"
)

// A slot is what a line still wants after what stands in it.
type slot struct {
	// length is how likely it is, as a logarithm, that so many syllables come
	// before the last beat, by the length of the lines that this one should be
	// like; beats is the same by the beats that are still to come.
	length, beats [slotLimit]float64
	known         bool
	stride        int // syllables from beat to beat; 0 where the verse keeps no meter
}

// slotLimit bounds what one word may fill.
const slotLimit = 7

// unlikely is the logarithm for a lead that nothing speaks for.
const unlikely = -4.5

// slotAt works out the slot of a line of which the first n words stand. peers
// are the lines that it should be like, the mate first.
func slotAt(poem *scansion.Poem, line, n int, peers []int) slot {
	var s slot
	for i := range slotLimit {
		s.length[i], s.beats[i] = unlikely, unlikely
	}
	typed := voices(poem.Lines[line].Words[:n])
	s.byLength(poem, line, len(typed), peers)
	s.byBeats(poem, line, typed, peers)
	switch poem.Meter.Foot {
	case scansion.Iambic, scansion.Trochaic:
		s.stride = 2
	case scansion.Anapestic, scansion.Dactylic, scansion.Amphibrachic:
		s.stride = 3
	}
	return s
}

// byLength counts syllables: those of the pattern that the line's place calls
// for, of its mate, and of the lines at its place in other stanzas.
func (s *slot) byLength(poem *scansion.Poem, line, have int, peers []int) {
	var weight [64]float64
	total := 0.0
	add := func(length int, w float64) {
		if 0 <= length && length < len(weight) {
			weight[length] += w
			total += w
		}
	}
	if length, ok := lastBeat(poem.Lines[line].Expected); ok {
		add(length, 1)
	}
	for i, p := range peers {
		if length, ok := beatLength(&poem.Lines[p]); ok {
			w := 1.0
			if i == 0 {
				w = 2 // the mate
			}
			add(length, w)
		}
	}
	if total == 0 {
		return
	}
	s.known = true
	for lead := range slotLimit {
		// One syllable more or less is a licence; two are rare.
		p := 0.0
		for length, w := range weight {
			switch d := have + lead - length; d {
			case 0:
				p += w
			case 1, -1:
				p += 0.12 * w
			case 2, -2:
				p += 0.02 * w
			}
		}
		s.length[lead] = max(unlikely, math.Log(p/total+1e-6))
	}
}

// A voice is how readily a typed syllable takes a beat, and how readily slack,
// as costs.
type voice struct{ beat, slack float64 }

// The costs are negative logarithms, rounded: of a hundred weak syllables of
// longer words some five bear a beat, of a hundred main stresses some three
// none; a short word that carries sense prefers a beat, one that does not,
// slack.
var (
	mainStress = voice{0.03, 3.5}
	halfStress = voice{0.5, 0.9}
	noStress   = voice{3, 0.05}
	fullWord   = voice{0.25, 1.5}
	smallWord  = voice{1.5, 0.25}
	article    = voice{3, 0.05}
)

// voices are those of the syllables of words.
func voices(list []scansion.Word) []voice {
	var out []voice
	for _, w := range list {
		if len(w.Ways) == 0 {
			continue
		}
		syllables := w.Ways[0].Syllables
		if len(syllables) == 1 {
			out = append(out, voiceOf(w.Tag))
			continue
		}
		for _, y := range syllables {
			switch y.Stress {
			case arpabet.Primary:
				out = append(out, mainStress)
			case arpabet.Secondary:
				out = append(out, halfStress)
			default:
				out = append(out, noStress)
			}
		}
	}
	return out
}

func voiceOf(tag grammar.Tag) voice {
	switch tag {
	case grammar.Determiner:
		return article
	case grammar.Preposition, grammar.To, grammar.Pronoun, grammar.Possessive, grammar.Modal, grammar.Conjunction,
		grammar.Particle, grammar.There, grammar.WhDeterminer, grammar.WhPronoun, grammar.WhAdverb:
		return smallWord
	}
	return fullWord
}

// gait is how a poem's lines go: the costs of so many slacks before the first
// beat, and between two.
type gait struct{ open, gap [5]float64 }

// gaitOf learns it from the lines that stand.
func gaitOf(poem *scansion.Poem, except int, lines []int) gait {
	var open, gap [5]float64
	for i := range 5 {
		open[i], gap[i] = 0.3, 0.1
	}
	count := func(l *scansion.Line) {
		since, first := 0, true
		for _, y := range l.Reading.Syllables {
			if !y.Beat {
				since++
				continue
			}
			if first {
				open[min(since, 4)]++
			} else {
				gap[min(since, 4)]++
			}
			since, first = 0, false
		}
	}
	for _, i := range lines {
		if i != except {
			count(&poem.Lines[i])
		}
	}
	return gait{costs(open), costs(gap)}
}

func costs(counts [5]float64) (out [5]float64) {
	sum := 0.0
	for _, c := range counts {
		sum += c
	}
	for i, c := range counts {
		out[i] = -math.Log(c / sum)
	}
	return out
}

// gaitLines is how many lines on either side of the cursor's show its gait.
const gaitLines = 12

// byBeats reads what stands in every way that the gait allows, and sees after
// how many more syllables the last beat would fall.
func (s *slot) byBeats(poem *scansion.Poem, line int, typed []voice, peers []int) {
	const mostBeats = 12
	var lines []int
	for i := max(0, line-gaitLines); i < min(len(poem.Lines), line+gaitLines+1); i++ {
		lines = append(lines, i)
	}
	g := gaitOf(poem, line, lines)
	// How many beats the line wants: most likely as many as its mate.
	var wanted [mostBeats + 1]float64
	total := 0.0
	for i, p := range peers {
		w := 1.0
		if i == 0 {
			w = 2
		}
		if b := poem.Lines[p].Reading.Beats(); 0 < b && b <= mostBeats {
			wanted[b] += w
			total += w
		}
	}
	if b := poem.Lines[line].Beats; 0 < b && b <= mostBeats {
		wanted[b] += 2
		total += 2
	}
	if total == 0 {
		return
	}
	// cost[b][k]: the cheapest way to have b beats so far, the last of them k
	// syllables back.
	type row [mostBeats + 1][6]float64
	blank := func() *row {
		var r row
		for b := range r {
			for k := range r[b] {
				r[b][k] = math.Inf(1)
			}
		}
		return &r
	}
	step := func(from *row, v voice) *row {
		to := blank()
		for b := range from {
			for k, c := range from[b] {
				if math.IsInf(c, 1) {
					continue
				}
				if k < 5 {
					to[b][k+1] = min(to[b][k+1], c+v.slack)
				}
				if b < mostBeats {
					move := g.gap[min(k, 4)]
					if b == 0 {
						move = g.open[min(k, 4)]
					}
					to[b+1][0] = min(to[b+1][0], c+v.beat+move)
				}
			}
		}
		return to
	}
	now := blank()
	now[0][0] = 0
	for _, v := range typed {
		now = step(now, v)
	}
	var likelihood [slotLimit]float64
	sum := 0.0
	for lead := range slotLimit {
		last := step(now, voice{beat: 0, slack: 0})
		for b := range last {
			if wanted[b] > 0 && !math.IsInf(last[b][0], 1) {
				likelihood[lead] += wanted[b] / total * math.Exp(-last[b][0])
			}
		}
		sum += likelihood[lead]
		// A syllable of the word itself, before the one that rhymes.
		now = step(now, voice{beat: 0.7, slack: 0.7})
	}
	if sum == 0 {
		return
	}
	s.known = true
	for lead, l := range likelihood {
		s.beats[lead] = max(unlikely, math.Log(l/sum+1e-6))
	}
}

// lastBeat is the number of syllables before the last beat of a pattern.
func lastBeat(pattern string) (int, bool) {
	n, last := 0, -1
	for _, c := range []byte(pattern) {
		switch c {
		case '/':
			last = n
			n++
		case 'x':
			n++
		}
	}
	return last, last >= 0
}

// beatLength is the number of syllables before the last beat of a line.
func beatLength(l *scansion.Line) (int, bool) {
	for i := len(l.Reading.Syllables) - 1; i >= 0; i-- {
		if l.Reading.Syllables[i].Beat {
			return i, true
		}
	}
	return 0, false
}
