package scansion

import "math"

// A Part is a set of stanzas that keep one meter: a whole poem, or its verses,
// or its refrains, or the song that somebody in it sings.
type Part struct {
	Meter   Meter
	Stanzas []int // indexes into the manuscript's stanzas, in order
}

const (
	// maxParts bounds the meters of one manuscript: verses, a refrain, and a
	// song or two.
	maxParts = 4
	// partCost is what a further meter must win, in units of the score, beside
	// the cost of its places: the price of naming another foot.
	partCost = 14
)

// verse is the lines of a manuscript that can be heard, stanza by stanza.
type verse struct {
	lines  [][]*heard
	places [][]int
	shares [][]int        // of each line that is not the whole of its place: its beats; 0 for the others
	index  [][]int        // of each line in the manuscript
	own    []func() *form // of each stanza by itself
}

func newVerse(stanzas int) *verse {
	return &verse{
		lines: make([][]*heard, stanzas), places: make([][]int, stanzas), shares: make([][]int, stanzas), index: make([][]int, stanzas), own: make([]func() *form, stanzas),
	}
}

// add puts in a stanza whose lines begin with one of the manuscript's.
func (v *verse) add(s, from int, heard *heardStanza) {
	v.lines[s], v.places[s] = verseOf(heard.lines)
	v.shares[s] = make([]int, len(v.places[s]))
	v.own[s] = heard.own
	v.index[s] = make([]int, len(v.places[s]))
	for k, place := range v.places[s] {
		v.index[s][k] = from + place
	}
}

// gather joins the lines of some stanzas that are the whole of their places.
func (v *verse) gather(stanzas []int) (lines []*heard, places []int) {
	for _, s := range stanzas {
		for k, h := range v.lines[s] {
			if v.shares[s][k] == 0 {
				lines, places = append(lines, h), append(places, v.places[s][k])
			}
		}
	}
	return lines, places
}

// wanted is the number of beats that a form calls for in a line of a stanza.
func (v *verse) wanted(s, line int, f *form) int {
	if share := v.shares[s][line]; share > 0 {
		return share
	}
	return f.wanted(v.places[s][line])
}

// continues reports whether a line goes on with the verse that the one before it
// began.
func (v *verse) continues(s, line int) bool {
	if line == 0 {
		return v.shares[s][0] > 0 && v.places[s][0] > 0 // of the stanza before: see seatAlone
	}
	return v.places[s][line] == v.places[s][line-1]
}

// under is how well a form explains a stanza.
func (v *verse) under(s int, f *form) float64 {
	sum := 0.0
	for k, h := range v.lines[s] {
		score, _ := h.fit(f.foot, v.wanted(s, k, f))
		sum += score
	}
	return sum
}

// A group is a set of stanzas with the form that explains them best.
type group struct {
	stanzas []int
	form    form
}

// forms parts the stanzas into groups of one form each. It begins with one, and
// lets the stanza that is explained worst, with all those that are like it,
// go over to a form of their own, as long as that explains enough more.
// A declared meter leaves no choice.
func (v *verse) forms(declared Meter) []group {
	var all []int
	for s := range v.lines {
		if len(v.lines[s]) > 0 {
			all = append(all, s)
		}
	}
	if len(all) == 0 {
		return nil
	}
	if declared.Declared {
		lines, places := v.gather(all)
		return []group{{stanzas: all, form: declaredForm(declared, lines, places)}}
	}
	groups := []group{v.group(all)}
	own := make(map[int]*form, len(all)) // each stanza's own best form
	for _, s := range all {
		own[s] = v.own[s]()
	}
	for len(groups) < maxParts {
		worst, gain := -1, 0.0
		for _, g := range groups {
			for _, s := range g.stanzas {
				if d := v.under(s, own[s]) - v.under(s, &g.form); d > gain {
					worst, gain = s, d
				}
			}
		}
		if worst < 0 {
			break
		}
		next, ok := v.split(groups, *own[worst])
		if !ok {
			break
		}
		groups = next
	}
	return groups
}

func (v *verse) group(stanzas []int) group {
	lines, places := v.gather(stanzas)
	return group{stanzas: stanzas, form: chooseForm(lines, places)}
}

// split lets every stanza choose between its group's form and a new one, then
// fits both sides anew. It reports whether enough is won by it: one stanza by
// itself is more likely to be off than to be a part.
func (v *verse) split(groups []group, f form) ([]group, bool) {
	var moved []int
	stay := make([][]int, len(groups))
	before, after, lines := 0.0, 0.0, 0
	for i, g := range groups {
		for _, s := range g.stanzas {
			here := v.under(s, &g.form)
			before += here
			if v.under(s, &f) > here+1 {
				moved = append(moved, s)
				lines += len(v.lines[s])
			} else {
				stay[i] = append(stay[i], s)
			}
		}
	}
	if len(moved) < 2 || lines < 4 {
		return groups, false
	}
	var next []group
	for i, g := range groups {
		switch len(stay[i]) {
		case 0:
		case len(g.stanzas):
			next = append(next, g) // it lost none, so its form is the same
		default:
			next = append(next, v.group(stay[i]))
		}
	}
	next = append(next, v.group(moved))
	places := 0
	for _, g := range next {
		places += len(g.form.beats)
		for _, s := range g.stanzas {
			after += v.under(s, &g.form)
		}
	}
	for _, g := range groups {
		places -= len(g.form.beats)
	}
	cost := partCost + float64(max(places, 1))*placeCost(lines)
	return next, after-before > cost && !math.IsNaN(after)
}

// isRegular reports whether lines keep a form closely enough for one of them to
// be called off. Most must be plain, or nearly all must have the beats of
// their places; and the places must come back, lest a form be made of one
// stanza's accidents. In eighty paragraphs of prose broken into lines two pass;
// of poems that a hand has scanned as metrical none fails (ours).
func (f *form) isRegular(lines int) bool {
	return f.comesBack(lines) && (f.plain >= 0.7 || f.steady >= 0.8 && f.places*3 <= lines)
}

// comesBack reports whether each place of the stanza is there twice at least.
func (f *form) comesBack(lines int) bool { return f.places*2 <= lines }

// loose is the share of a part's lines that may be off before its meter is held
// to be misheard, rather than so many lines written amiss (ours).
const loose = 0.2

// isLoose reports whether more lines are off than a part with a meter has. A
// few are always granted, lest one fault in a short piece silence all.
func isLoose(off, lines int) bool { return off > 2 && float64(off) > loose*float64(lines) }

// meterOf is a group's meter as others see it.
func meterOf(f *form) Meter {
	return Meter{Foot: footOf[f.foot], RunnerUp: f.second, Beats: f.beats, Confidence: f.steady, Declared: f.declared, Regular: f.declared}
}
