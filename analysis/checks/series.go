package checks

import (
	"cmp"
	"encoding/binary"
	"math"
	"math/bits"
	"slices"
	"strings"
	"sync"

	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"
	"dandle/phonetics/grammar"
)

// A stanzaSet is a set of the stanzas of a series, at most longestRun of them.
type stanzaSet uint64

func (set stanzaSet) has(s int) bool { return s >= 0 && set>>s&1 == 1 }

// all reports whether the stanzas [from, to) are in the set.
func (set stanzaSet) all(from, to int) bool {
	want := (^stanzaSet(0) >> (longestRun - (to - from))) << from
	return set&want == want
}

func (set stanzaSet) size() int { return bits.OnesCount64(uint64(set)) }

// A series is what a row of stanzas with as many lines each does, line by line.
// It depends on their words alone, so it is remembered. Of a long poem it is the
// most that is: each move stands in it once.
type series struct {
	stanzas int
	moves   []move   // that its lines make, sorted
	count   []int32  // of the lines that make each
	places  []*place // none where the row is too short to be a series, or its stanzas too long
	windows []window
}

// A moveNumber is a move by its index in its series.
type moveNumber int32

// number is that of a move; false where no line of the series makes it.
func (r *series) number(v move) (moveNumber, bool) {
	i, found := slices.BinarySearchFunc(r.moves, v, move.compare)
	return moveNumber(i), found
}

// times is how many lines of the series make a move.
func (r *series) times(v move) int {
	if i, found := r.number(v); found {
		return int(r.count[i])
	}
	return 0
}

// A window is leastHolders+1 stanzas in a row that share anything.
type window struct {
	from   int
	shared [][]move // at each place
}

// A place is one line of each stanza of a series.
type place struct {
	plain [][]moveNumber // of each stanza, those that need no dictionary
	made  []making       // by number
	worth []moveNumber   // whose lack could be felt, in the order that they are met
	once  sync.Once
	named *things
}

// A making is the stanzas that make a move at a place.
type making struct {
	move moveNumber
	by   stanzaSet
}

// madeBy are the stanzas that make a move at the place.
func (l *place) madeBy(v moveNumber) stanzaSet {
	i, found := slices.BinarySearchFunc(l.made, v, func(m making, v moveNumber) int { return cmp.Compare(m.move, v) })
	if !found {
		return 0
	}
	return l.made[i].by
}

// things are what the lines at a place name. Looking them up is slow, so it is
// left until somebody asks.
type things struct {
	of   [][]namedThing // by stanza
	made map[string]stanzaSet
}

// A namedThing is a noun that a line has for itself.
type namedThing struct {
	text    string
	classes []string
	first   bool // the first class is that of its first meaning
	sure    bool // what its first meaning is, is known
}

// A row is a series with where it stands.
type row struct {
	*series
	from int // its first stanza
}

// moves are those of all lines of a manuscript.
type moves struct {
	pass  *Pass
	lines int
	rows  []row
	often map[move]int // as far as asked for
}

func newMoves(p *Pass) *moves {
	m := p.Manuscript
	all := &moves{pass: p, lines: len(m.Lines), often: map[move]int{}}
	var key []byte
	for from := 0; from < len(m.Stanzas); {
		to := from + 1
		for to < len(m.Stanzas) && to-from < longestRun && linesOfStanza(m, to) == linesOfStanza(m, from) {
			to++
		}
		key = binary.AppendUvarint(key[:0], uint64(to-from))
		for i := m.Stanzas[from].From; i < m.Stanzas[to-1].To; i++ {
			key = binary.LittleEndian.AppendUint64(key, uint64(p.sound(i)))
			key = append(key, byte(endingOf(m, i)), truth(p.again()[i]))
		}
		all.rows = append(all.rows, row{p.Memory.series.Get(key, func() *series { return newSeries(p, from, to) }), from})
		from = to
	}
	return all
}

func linesOfStanza(m *manuscript.Manuscript, s int) int { return m.Stanzas[s].To - m.Stanzas[s].From }

// An ending is the voice that a line ends in.
type ending byte

const (
	tells ending = iota
	calls
	asks
)

func endingOf(m *manuscript.Manuscript, line int) ending {
	l := &m.Lines[line]
	if len(l.Words) == 0 {
		return tells
	}
	end := l.Words[len(l.Words)-1].Span.End
	switch marks := m.Text[end:max(end, l.Span.End)]; {
	case strings.Contains(marks, "!"):
		return calls
	case strings.Contains(marks, "?"):
		return asks
	}
	return tells
}

func newSeries(p *Pass, from, to int) *series {
	m := p.Manuscript
	r := &series{stanzas: to - from}
	lines := linesOfStanza(m, from)
	lists := make([][]move, 0, r.stanzas*lines)
	for s := from; s < to; s++ {
		for i := m.Stanzas[s].From; i < m.Stanzas[s].To; i++ {
			lists = append(lists, plainMoves(p.Poem.Lines[i].Words, p.said()[i], endingOf(m, i)))
		}
	}
	plain := r.enter(lists)
	if r.stanzas <= leastHolders || lines > longestStanza {
		return r
	}
	r.places = make([]*place, lines)
	by := make([]stanzaSet, len(r.moves))
	for k := range r.places {
		l := &place{plain: make([][]moveNumber, r.stanzas)}
		clear(by)
		for s := range r.stanzas {
			i := m.Stanzas[from+s].From + k
			l.plain[s] = plain[s*lines+k]
			for _, v := range l.plain[s] {
				by[v] |= 1 << s
				if !slices.Contains(l.worth, v) && r.isWorth(v, p.again()[i], &p.Poem.Lines[i]) {
					l.worth = append(l.worth, v)
				}
			}
		}
		// A stanza that lacks what fewer make lacks nothing; nor does any
		// where all make it.
		l.worth = slices.Clip(slices.DeleteFunc(l.worth, func(v moveNumber) bool {
			n := by[v].size()
			return n <= leastHolders || n == r.stanzas
		}))
		l.made = makings(by)
		r.places[k] = l
	}
	for s := 0; s+leastHolders < r.stanzas; s++ {
		w := window{from: s, shared: make([][]move, lines)}
		any := false
		for k, l := range r.places {
			w.shared[k] = r.shared(l, s, s+leastHolders+1)
			any = any || len(w.shared[k]) > 0
		}
		if any {
			r.windows = append(r.windows, w)
		}
	}
	return r
}

// enter numbers the moves of some lines; what comes back are their numbers.
func (r *series) enter(lists [][]move) [][]moveNumber {
	times, all := map[move]int32{}, 0
	for _, list := range lists {
		all += len(list)
		for _, v := range list {
			times[v]++
		}
	}
	r.moves = make([]move, 0, len(times))
	for v := range times {
		r.moves = append(r.moves, v)
	}
	slices.SortFunc(r.moves, move.compare)
	r.count = make([]int32, len(r.moves))
	number := times
	for i, v := range r.moves {
		r.count[i], number[v] = times[v], int32(i)
	}
	numbers, room := make([][]moveNumber, len(lists)), make([]moveNumber, 0, all)
	for i, list := range lists {
		start := len(room)
		for _, v := range list {
			room = append(room, moveNumber(number[v]))
		}
		numbers[i] = room[start:len(room):len(room)]
	}
	return numbers
}

// isWorth reports whether the lack of a line's move could be felt. A line that
// comes again is a refrain's, which has a check of its own: nobody is asked for
// what it does.
func (r *series) isWorth(v moveNumber, again bool, line *scansion.Line) bool {
	kind := r.moves[v].kind
	return !again && kind != holds && (kind != opensWord || !small(&line.Words[0]))
}

// makings are the moves that any stanza makes, with those that do.
func makings(by []stanzaSet) []making {
	n := 0
	for _, set := range by {
		if set != 0 {
			n++
		}
	}
	list := make([]making, 0, n)
	for v, set := range by {
		if set != 0 {
			list = append(list, making{moveNumber(v), set})
		}
	}
	return list
}

// shared are the moves that the stanzas [from, to) all make at a place.
func (r *series) shared(l *place, from, to int) []move {
	var list []move
	for _, v := range l.plain[from] {
		if l.madeBy(v).all(from, to) {
			list = append(list, r.moves[v])
		}
	}
	return list
}

// small reports whether a line opens with a word that only joins or points: so
// many lines do that nobody follows it from verse to verse.
func small(w *scansion.Word) bool {
	if w.Tag.IsNoun() || w.Tag.IsVerb() || w.Tag.IsAdjective() {
		return false
	}
	lower := plain(w.Text)
	for _, tag := range []grammar.Tag{
		grammar.Conjunction, grammar.Determiner, grammar.Pronoun, grammar.Possessive, grammar.Interjection,
		grammar.WhPronoun, grammar.WhAdverb, grammar.WhDeterminer, grammar.Modal, grammar.There,
	} {
		if w.Tag == tag || grammar.CanBe(lower, tag) {
			return true
		}
	}
	return false
}

// chance is how often a line makes a move, by the lines of the manuscript at
// other places and by what is known of verse.
func (all *moves) chance(v move, made, of int) float64 {
	const weight = 8 // lines that general knowledge is worth
	often, known := all.often[v]
	if !known {
		for _, r := range all.rows {
			often += r.times(v)
		}
		all.often[v] = often
	}
	elsewhere := max(often-made, 0)
	return (float64(elsewhere) + weight*v.chance()) / float64(max(all.lines-of, 0)+weight)
}

// things are what the lines at a place of a row name and no other line there:
// what all of them name is the frame that the list is set in.
func (all *moves) things(r row, at int) *things {
	l := r.places[at]
	l.once.Do(func() { l.named = all.lookUp(r, at) })
	return l.named
}

func (all *moves) lookUp(r row, at int) *things {
	m, poem, said := all.pass.Manuscript, all.pass.Poem, all.pass.said()
	line := func(s int) int { return m.Stanzas[r.from+s].From + at }
	times, pronouns := map[string]int{}, 0 // lines that have a stem; that have a pronoun
	for s := range r.stanzas {
		if slices.ContainsFunc(poem.Lines[line(s)].Words, isPronoun) {
			pronouns++
		}
		seen := map[string]bool{}
		for _, root := range said[line(s)].stems() {
			if !seen[root] {
				seen[root] = true
				times[root]++
			}
		}
	}
	found := &things{of: make([][]namedThing, r.stanzas), made: map[string]stanzaSet{}}
	for s := range r.stanzas {
		words, said := poem.Lines[line(s)].Words, said[line(s)]
		for k := range words {
			if words[k].Tag.IsNoun() && times[said.stems()[k]] == 1 {
				found.add(s, all.classified(said.words[k]))
			}
			// A pronoun may stand for anything, unless the frame has one too.
			if isPronoun(words[k]) && 2*pronouns <= r.stanzas {
				found.add(s, namedThing{text: said.words[k]})
			}
		}
	}
	return found
}

func (found *things) add(stanza int, t namedThing) {
	found.of[stanza] = append(found.of[stanza], t)
	for _, c := range t.classes {
		found.made[c] |= 1 << stanza
	}
}

func isPronoun(w scansion.Word) bool { return w.Tag == grammar.Pronoun }

// missing are the moves at a place which one stanza of a row lacks. Things are
// looked at only round the stanzas that open a series.
func (all *moves) missing(r row, at int, together []int) []missing {
	var found []missing
	try := func(v move, made stanzaSet) {
		for s := range r.stanzas {
			// The first stanza sets out and the last comes home: either may
			// stand by itself.
			if r.from+s == 0 || r.from+s == len(all.pass.Manuscript.Stanzas)-1 {
				continue
			}
			if x, is := all.lacks(r, at, s, v, made); is {
				found = append(found, x)
			}
		}
	}
	for _, v := range r.places[at].worth {
		try(r.moves[v], r.places[at].madeBy(v))
	}
	tried := map[string]bool{}
	for _, s := range together {
		here := all.things(r, at)
		for _, t := range slices.Concat(here.of[s : s+leastHolders+1]...) {
			for _, c := range t.classes {
				if !tried[c] {
					tried[c] = true
					try(move{names, c}, here.made[c])
				}
			}
		}
	}
	slices.SortStableFunc(found, func(a, b missing) int { return cmp.Compare(b.evidence(), a.evidence()) })
	return found
}

// together are the stanzas of a row from which on leastHolders+1 are a series
// by what they have in common besides the things that they name.
func (all *moves) together(r row) []int {
	const enough = 0.8 // of the evidence; the things make up for the rest
	var list []int
	for _, w := range r.windows {
		sum := 0.0
		for _, shared := range w.shared {
			sum += all.strongest(shared, leastHolders+1)
		}
		if sum >= leastSeries*enough {
			list = append(list, w.from)
		}
	}
	return list
}

// lacks reports whether a stanza lacks a move that those round it make.
func (all *moves) lacks(r row, at, s int, v move, made stanzaSet) (missing, bool) {
	if made.has(s) {
		return missing{}, false
	}
	from, to := s, s+1
	for made.has(from - 1) {
		from--
	}
	for to < r.stanzas && made.has(to) {
		to++
	}
	// Three openings alike are as often luck, and so are four phrases.
	holders := to - from - 1
	if holders < leastHolders || v.kind != names && holders == leastHolders || v.kind == opensPhrase && holders == leastHolders+1 {
		return missing{}, false
	}
	// A list may open otherwise ("First came … Next came"), and what opens its
	// last line may close it ("Last came").
	if from == s || to == s+1 && (v.kind == opensWord || v.kind == opensPhrase) {
		return missing{}, false
	}
	x := missing{move: v, row: r, place: at, stanza: r.from + s}
	for h := from; h < to; h++ {
		if h != s {
			x.holders = append(x.holders, r.from+h)
		}
	}
	x.gap = float64(holders) * -math.Log(all.chance(v, holders, to-from))
	x.series = all.evidence(r, from, to, at, v)
	if x.gap < leastGap || x.series < leastSeries {
		return missing{}, false
	}
	return x, v.kind != names || all.known(&x) && all.called(&x)
}

// known reports whether nothing that the stanza names could be of the class
// after all: a thing of which not all is known may be.
func (all *moves) known(x *missing) bool {
	return !slices.ContainsFunc(all.things(x.row, x.place).of[x.stanza-x.row.from], func(t namedThing) bool {
		return !t.sure || recall(all.pass, t.text+"\x00"+x.move.value, func() bool { return t.mayBe(x.move.value) })
	})
}

// called reports whether most of the holders name their class by the first
// meaning of a word: a chest is a place too, but seldom.
func (all *moves) called(x *missing) bool {
	n := 0
	for _, s := range x.holders {
		named := all.things(x.row, x.place).of[s-x.row.from]
		if slices.ContainsFunc(named, func(t namedThing) bool { return t.isFirst(x.move.value) }) {
			n++
		}
	}
	return 4*n >= 3*len(x.holders)
}

// evidence is how surely the stanzas [from, to) of a row belong together, from
// the moves that all of them make, the one in question left out. At one place
// only the strongest counts, since the others follow from it.
func (all *moves) evidence(r row, from, to, at int, except move) float64 {
	sum := 0.0
	for k, l := range r.places {
		shared := r.shared(l, from, to)
		if k == at {
			shared = slices.DeleteFunc(shared, func(v move) bool { return v.kind == except.kind })
		}
		sum += all.strongest(shared, to-from)
	}
	return sum
}

// strongest is the evidence of the least likely of moves that so many stanzas
// share at one place.
func (all *moves) strongest(shared []move, stanzas int) float64 {
	strongest := 0.0
	for _, v := range shared {
		strongest = max(strongest, float64(stanzas)*-math.Log(all.chance(v, stanzas, stanzas)))
	}
	return strongest
}
