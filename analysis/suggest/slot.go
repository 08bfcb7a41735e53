package suggest

import (
	"math"
	"slices"

	"dandle/analysis/scansion"
	"dandle/phonetics"
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

// A stand is what stands in a line already, and how the lines round it go.
type stand struct {
	poem   *scansion.Poem
	line   int
	typed  []saying
	gait   gait
	stride int // syllables from beat to beat; 0 where the verse keeps no meter
}

// newStand listens to the first n words of a line.
func newStand(poem *scansion.Poem, line, n int) stand {
	s := stand{poem: poem, line: line, gait: gaitOf(poem, line)}
	for i := range poem.Lines[line].Words[:n] {
		if ways := saysOf(&poem.Lines[line].Words[i]); len(ways) > 0 {
			s.typed = append(s.typed, ways)
		}
	}
	switch poem.Meter.Foot {
	case scansion.Iambic, scansion.Trochaic:
		s.stride = 2
	case scansion.Anapestic, scansion.Dactylic, scansion.Amphibrachic:
		s.stride = 3
	}
	return s
}

// slot works out what the line still wants. peers are the lines that it should
// be like, the mate first.
func (s *stand) slot(peers []int) slot {
	var out slot
	for i := range slotLimit {
		out.length[i], out.beats[i] = unlikely, unlikely
	}
	out.stride = s.stride
	s.byLength(&out, peers)
	s.byBeats(&out, peers)
	return out
}

// longest is the most syllables of a line that are counted.
const longest = 64

// byLength counts syllables: those of the pattern that the line's place calls
// for, of its mate, and of the lines at its place in other stanzas.
func (s *stand) byLength(out *slot, peers []int) {
	var wanted [longest]float64
	total := 0.0
	add := func(length int, w float64) {
		if 0 <= length && length < longest {
			wanted[length] += w
			total += w
		}
	}
	if length, ok := lastBeat(s.poem.Lines[s.line].Expected); ok {
		add(length, 1)
	}
	for i, p := range peers {
		if length, ok := beatLength(&s.poem.Lines[p]); ok {
			add(length, peerWeight(i))
		}
	}
	if total == 0 {
		return
	}
	out.known = true
	have := s.lengths()
	for lead := range slotLimit {
		p := 0.0
		for n, likely := range have {
			if likely == 0 {
				continue
			}
			for off, licence := range licences {
				for _, length := range [2]int{n + lead - off, n + lead + off} {
					if 0 <= length && length < longest {
						p += likely * licence * wanted[length]
					}
					if off == 0 {
						break
					}
				}
			}
		}
		out.length[lead] = max(unlikely, math.Log(p/total+1e-6))
	}
}

// licences are how likely a line is to have so many syllables more or fewer
// than its peer: one is a licence, two are rare.
var licences = [...]float64{1, 0.12, 0.02}

// peerWeight is how much peer i says: the mate, which comes first, most.
func peerWeight(i int) float64 {
	if i == 0 {
		return 2
	}
	return 1
}

// lengths is how likely what stands is to have each number of syllables.
func (s *stand) lengths() (have [longest]float64) {
	have[0] = 1
	for _, ways := range s.typed {
		var next [longest]float64
		sum := 0.0
		for _, way := range ways {
			sum += math.Exp(-way.cost)
		}
		for _, way := range ways {
			for n := range longest - len(way.voices) {
				next[n+len(way.voices)] += have[n] * math.Exp(-way.cost) / sum
			}
		}
		have = next
	}
	return have
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

// A saying is a word in the ways that it may be said: "flower" has one
// syllable or two.
type saying []manner

type manner struct {
	voices []voice
	cost   float64 // how much less usual than the most usual way
}

// mostManners bounds the ways of one word that are tried.
const mostManners = 4

func saysOf(w *scansion.Word) saying {
	var list saying
	for _, way := range w.Ways {
		m := manner{voices: voices(way, w.Tag), cost: float64(way.Cost)}
		same := func(other manner) bool { return slices.Equal(m.voices, other.voices) }
		if len(list) < mostManners && len(m.voices) > 0 && !slices.ContainsFunc(list, same) {
			list = append(list, m)
		}
	}
	return list
}

// voices are those of the syllables of one way to say a word.
func voices(way phonetics.Pronunciation, tag grammar.Tag) []voice {
	if len(way.Syllables) == 1 {
		return []voice{voiceOf(tag)}
	}
	out := make([]voice, len(way.Syllables))
	for i, y := range way.Syllables {
		switch y.Stress {
		case arpabet.Primary:
			out[i] = mainStress
		case arpabet.Secondary:
			out[i] = halfStress
		default:
			out[i] = noStress
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

// gaitLines is how many lines on either side of the cursor's show its gait.
const gaitLines = 12

// gaitOf learns it from the lines round one, which is unfinished.
func gaitOf(poem *scansion.Poem, line int) gait {
	var open, gap [5]float64
	for i := range 5 {
		open[i], gap[i] = 0.3, 0.1
	}
	for i := max(0, line-gaitLines); i < min(len(poem.Lines), line+gaitLines+1); i++ {
		if i == line {
			continue
		}
		since, first := 0, true
		for _, y := range poem.Lines[i].Reading.Syllables {
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

// mostBeats is the longest line whose beats are counted.
const mostBeats = 12

// paces[b][k] is the cheapest way to have had b beats so far, the last of them
// k syllables ago.
type paces [mostBeats + 1][6]float64

func noPaces() (p paces) {
	for b := range p {
		for k := range p[b] {
			p[b][k] = math.Inf(1)
		}
	}
	return p
}

// step adds a syllable.
func (p *paces) step(g *gait, v voice) paces {
	to := noPaces()
	for b := range p {
		for k, c := range p[b] {
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

// say adds a word, in whichever way is cheapest at each pace.
func (p *paces) say(g *gait, word saying) paces {
	best := noPaces()
	for _, way := range word {
		now := *p
		for _, v := range way.voices {
			now = now.step(g, v)
		}
		for b := range now {
			for k, c := range now[b] {
				best[b][k] = min(best[b][k], c+way.cost)
			}
		}
	}
	return best
}

// byBeats reads what stands in every way that the gait allows, and sees after
// how many more syllables the last beat would fall.
func (s *stand) byBeats(out *slot, peers []int) {
	wanted, ok := s.beatsWanted(peers)
	if !ok {
		return
	}
	now := noPaces()
	now[0][0] = 0
	for _, word := range s.typed {
		now = now.say(&s.gait, word)
	}
	var likelihood [slotLimit]float64
	sum := 0.0
	for lead := range slotLimit {
		last := now.step(&s.gait, voice{beat: 0, slack: 0})
		for b, w := range wanted {
			if w > 0 && !math.IsInf(last[b][0], 1) {
				likelihood[lead] += w * math.Exp(-last[b][0])
			}
		}
		sum += likelihood[lead]
		// A syllable of the word itself, before the one that rhymes.
		now = now.step(&s.gait, voice{beat: 0.7, slack: 0.7})
	}
	if sum == 0 {
		return
	}
	out.known = true
	for lead, l := range likelihood {
		out.beats[lead] = max(unlikely, math.Log(l/sum+1e-6))
	}
}

// beatsWanted is how likely the line is to want each number of beats: most
// likely as many as its mate. It is false where no line tells.
func (s *stand) beatsWanted(peers []int) (wanted [mostBeats + 1]float64, ok bool) {
	total := 0.0
	add := func(beats int, w float64) {
		if 0 < beats && beats <= mostBeats {
			wanted[beats] += w
			total += w
		}
	}
	for i, p := range peers {
		add(s.poem.Lines[p].Reading.Beats(), peerWeight(i))
	}
	add(s.poem.Lines[s.line].Beats, 2)
	for b := range wanted {
		wanted[b] /= max(total, 1)
	}
	return wanted, total > 0
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
