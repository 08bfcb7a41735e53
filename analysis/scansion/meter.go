package scansion

import (
	"math"
	"slices"
	"sync"

	"dandle/analysis/scansion/ear"
	"dandle/phonetics"
)

// heard is a line as the ear took it in: made ready, and its scores under every
// meter. It depends on the line's words alone, so it can be kept while the
// rest of the manuscript changes.
type heard struct {
	sound  Sound // of its memo's own
	line   *ear.Weighed
	scores *ear.Scores
	ways   [][]phonetics.Pronunciation // of each word
	ok     bool                        // false: silent, or too long for verse

	// fits are the beats of the best score, by those that its place calls for; 0 for
	// none. The score is not kept, since there are many lines.
	fits  [ear.FootCount][ear.MaxBeats + 1]int8
	frees [ear.FootCount]fit

	mu      sync.Mutex
	answers few[ask, *answer]
	held    few[ask, *holding]
	less    few[lessening, float64]
}

// A fit is a best score, and the number of beats it is had with.
type fit struct {
	score float32
	beats int8
}

func hear(words []Word) *heard {
	h := &heard{ways: make([][]phonetics.Pronunciation, len(words))}
	for i := range words {
		h.ways[i] = words[i].Ways
	}
	line, ok := ear.NewLine(words)
	if !ok {
		return h
	}
	h.line, h.ok = ear.Learned().Weigh(&line), true
	h.scores = h.line.Scores()
	for foot := range ear.FootCount {
		h.frees[foot] = best(&h.scores[foot], &noCost)
		for wanted := 1; wanted <= ear.MaxBeats; wanted++ {
			h.fits[foot][wanted] = best(&h.scores[foot], &lengthCosts[wanted]).beats
		}
	}
	return h
}

// A costs is what each number of beats costs.
type costs [ear.MaxBeats + 1]float32

var (
	noCost costs
	// lengthCosts are those where the line's place calls for so many beats.
	lengthCosts = func() (all [ear.MaxBeats + 1]costs) {
		for wanted := range all {
			for beats := range all[wanted] {
				all[wanted][beats] = ear.Learned().LengthCost(beats, wanted)
			}
		}
		return all
	}()
)

// best is the best of a line's scores under one foot, by its number of beats.
func best(scores *[ear.MaxBeats + 1]float32, costs *costs) fit {
	best := fit{score: float32(math.Inf(-1))}
	for b := 1; b <= ear.MaxBeats; b++ {
		if s := scores[b]; ear.Possible(s) {
			if v := s + costs[b]; v > best.score {
				best = fit{v, int8(b)}
			}
		}
	}
	return best
}

// fit is the best score of the line under a foot where its place calls for
// this many beats, and the number of beats it then has.
func (h *heard) fit(foot ear.Foot, wanted int) (float64, int) {
	beats := h.fits[foot][wanted]
	if beats == 0 {
		return math.Inf(-1), 0
	}
	return float64(h.scores[foot][beats] + lengthCosts[wanted][beats]), int(beats)
}

// free is the best score under a foot with any number of beats, and that number.
func (h *heard) free(foot ear.Foot) (float64, int) {
	return float64(h.frees[foot].score), int(h.frees[foot].beats)
}

// strain is what it costs to read the line under a foot with so many beats,
// over the reading that would suit it best of all.
func (h *heard) strain(foot ear.Foot, beats int) float64 {
	forced := h.scores[foot][min(beats, ear.MaxBeats)]
	if !ear.Possible(forced) {
		return farOff
	}
	best := math.Inf(-1)
	for f := range ear.FootCount {
		v, _ := h.free(f)
		best = max(best, v)
	}
	return min(best-float64(forced), farOff)
}

// A form is a meter with the beats of each place in the stanza, and how well it
// explains the lines it was found for.
type form struct {
	foot     ear.Foot
	second   Foot  // what would have been chosen next
	beats    []int // of the places in the stanza, taken in turn
	places   int   // of which so many were free to differ
	score    float64
	declared bool
	opening  int // the slacks that most lines open with; -1 where they differ
	// steady is the share of the lines that have the beats of their place, and
	// plain the share that has nothing but the foot's own gaps besides.
	steady, plain float64
}

// wanted is the number of beats that a place in the stanza calls for.
func (f *form) wanted(place int) int { return f.beats[place%len(f.beats)] }

// longestPeriod bounds the places of a stanza that may differ in length. The
// sonnet's 14 lines are all alike; the longest stanza in use whose places
// differ is the 11-line one of the roundel (from memory).
const longestPeriod = 12

// placeCost is what each further place with a length of its own must win, in
// units of the score: half the logarithm of the lines, as the Bayesian
// information criterion has it (Schwarz 1978), and a little more, since
// neighbouring places are seldom free of each other.
func placeCost(lines int) float64 { return 0.5*math.Log(float64(max(lines, 2))) + 1 }

// handed are forms that stanzas have had for centuries: a poem in one of them
// need only win the cost of two places. Common and short measure and the
// limerick, as handbooks give them (craft of hymns: Baum; limerick: Webster 1913).
var handed = [][]int{{4, 3}, {3, 3, 4, 3}, {3, 3, 2, 2, 3}}

// bestForm finds the form under one foot that explains the lines best.
func bestForm(foot ear.Foot, lines []*heard, places []int) form {
	longest := 0
	for _, place := range places {
		longest = max(longest, place+1)
	}
	var usual [8][ear.MaxBeats + 1]float64 // most stanzas are no longer
	table := usual[:min(longest, len(usual))]
	if longest > len(usual) {
		table = make([][ear.MaxBeats + 1]float64, longest) // by place, then beats
	}
	for i, h := range lines {
		for n := 1; n <= ear.MaxBeats; n++ {
			score, _ := h.fit(foot, n)
			table[places[i]][n] += score
		}
	}
	best := form{foot: foot, score: math.Inf(-1)}
	var sums [longestPeriod][ear.MaxBeats + 1]float64
	var room [longestPeriod]int
	for period := 1; period <= min(longest, longestPeriod); period++ {
		for p := range period {
			sums[p] = [ear.MaxBeats + 1]float64{}
		}
		for place := range table {
			for n := 1; n <= ear.MaxBeats; n++ {
				sums[place%period][n] += table[place][n]
			}
		}
		f := form{foot: foot, beats: room[:period], places: period}
		for p := range period {
			top := math.Inf(-1)
			for n := 1; n <= ear.MaxBeats; n++ {
				if sums[p][n] > top {
					top, f.beats[p] = sums[p][n], n
				}
			}
			f.score += top
		}
		f.score -= float64(period-1) * placeCost(len(lines))
		if f.score > best.score {
			best = f
			best.beats = slices.Clone(f.beats)
		}
	}
	for _, beats := range handed {
		if longest%len(beats) != 0 {
			continue
		}
		f := form{foot: foot, beats: beats, places: 1, score: -2 * placeCost(len(lines))}
		for place := range table {
			f.score += table[place][f.wanted(place)]
		}
		if f.score > best.score {
			best = f
		}
	}
	best.beats = spread(best.beats, longest)
	best.weigh(lines, places)
	return best
}

// declaredForm is the form that a writer has named; a length left out is heard.
func declaredForm(m Meter, lines []*heard, places []int) form {
	foot := ear.Foot(slices.Index(footOf[:], m.Foot))
	f := bestForm(foot, lines, places)
	if len(m.Beats) > 0 {
		f.beats = m.Beats
		f.weigh(lines, places)
	}
	f.declared = true
	return f
}

// weigh finds how closely the lines keep the form, and how they open.
func (f *form) weigh(lines []*heard, places []int) {
	steady := 0
	for i, h := range lines {
		if _, b := h.free(f.foot); b == f.wanted(places[i]) {
			steady++
		}
	}
	f.steady = float64(steady) / float64(max(len(lines), 1))
}

// spread writes the beats out for a whole stanza where its last round of places
// is cut short, as a limerick's 3-3-2-2-3 is; equal beats become one entry.
func spread(beats []int, stanza int) []int {
	if len(slices.Compact(slices.Clone(beats))) <= 1 {
		return beats[:min(len(beats), 1)]
	}
	if stanza <= len(beats) || stanza%len(beats) == 0 || stanza > longestPeriod {
		return beats
	}
	full := make([]int, stanza)
	for p := range full {
		full[p] = beats[p%len(beats)]
	}
	return full
}

var footOf = [ear.FootCount]Foot{Iambic, Trochaic, Anapestic, Dactylic, Amphibrachic, Mixed}
