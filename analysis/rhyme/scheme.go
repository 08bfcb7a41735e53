package rhyme

import (
	"cmp"
	"encoding/binary"
	"math"
	"slices"
	"strconv"
	"sync"
)

// reach is how many lines on the ear still waits for a rhyme: the longest gap
// in the handbook forms is seven, between the outer lines of an octave's
// halves.
const reach = 8

// A table holds a number for each pair of lines of a stanza at most reach
// apart: entry [i][d] is for lines i and i+d+1.
type table [][reach]float64

func newTable(n int) table { return make(table, n) }

// evidence is how strongly each pair of ends says that the two rhyme.
func evidence(ends []End) table {
	t := newTable(len(ends))
	for i := range ends {
		for d := range reach {
			if j := i + d + 1; j < len(ends) {
				m := Compare(&ends[i], &ends[j])
				t[i][d] = m.odds(sameLetters(ends[i].word, ends[j].word))
			}
		}
	}
	return t
}

// odds is the evidence of one match, in natural logarithms: how much more
// often two lines that the poet meant to rhyme sound like this than two that
// he did not. The numbers are rounded from counts over the Chicago Rhyming
// Poetry Corpus (Reddy and Knight 2011).
func (m *Match) odds(letters bool) float64 {
	switch m.Kind {
	case Perfect:
		if letters {
			return 5.5
		}
		return 4.8
	case Mosaic, Homophone:
		return 4.5
	case Identical:
		return 2.5
	case Light:
		if letters {
			return 4.4
		}
		return 2.2
	case Wrenched:
		if letters {
			return 4.0
		}
		return 1.7
	}
	d := m.Distance
	if letters {
		switch {
		case m.bearing == oneWeak && d < 0.4:
			// Endings such as "-ing" and "-er". Old poets let them pass for
			// rhymes; the ear of today does not, so they say nothing.
			return 0
		case d < 1.5:
			return 4.0
		case d < 2.2:
			return 2.4
		default:
			return 0.5
		}
	}
	return step(d, soundOdds[m.bearing][m.Near])
}

// A rise is where a step function takes a value: odds holds for distances
// below the limit.
type rise struct{ below, odds float64 }

func step(d float64, rises []rise) float64 {
	for _, r := range rises {
		if d < r.below {
			return r.odds
		}
	}
	return -4.2
}

// soundOdds are the odds by distance of ends that neither rhyme nor look
// alike. Equal codas say most: poets of all times have let vowels drift apart
// that stood together once.
var soundOdds = [4][6][]rise{
	bothStrong: {
		OneFeature: {{0.2, 0.5}, {9, -2.4}},
		OneMore:    {{0.75, -2.1}, {9, 0}},
		Assonance:  {{0.2, 2}, {0.4, -1.5}, {0.6, -2.3}, {9, -3.2}},
		Consonance: {{1.15, 0.4}, {9, -1.9}},
		Loose:      {{0.6, -2.3}, {0.8, -3.3}},
	},
	oneStrong: {
		NoLikeness: {{0.6, 0.4}, {0.8, -0.5}, {1.4, -0.9}, {1.6, -2}, {2, -3.2}, {9, -3.7}},
	},
	neitherStrong: {
		NoLikeness: {{0.7, 0.5}, {1.2, -0.8}, {1.9, -1.5}, {9, -2.5}},
	},
	oneWeak: {
		NoLikeness: {{0.4, 0.5}, {0.8, -1.8}, {1.5, -2}, {9, -3.8}},
	},
}

// Ends are the ends of one stanza's lines, compared with each other. They never
// change once made, so one value may serve many versions of a poem.
type Ends struct {
	list  []End
	heard table
	shape string // the evidence as the lattice takes it: stanzas of one shape are alike to it
}

// Listen compares the ends of a stanza's lines.
func Listen(ends []End) *Ends {
	e := &Ends{list: ends, heard: evidence(ends)}
	shape := make([]byte, 0, 8*reach*len(ends))
	for i := range e.heard {
		for d := range min(reach, len(ends)-1-i) {
			shape = binary.LittleEndian.AppendUint64(shape, math.Float64bits(bounded(e.heard[i][d])))
		}
	}
	e.shape = strconv.Itoa(len(ends)) + " " + string(shape)
	return e
}

// A Stanza is what is heard in the ends of one stanza's lines.
type Stanza struct {
	Scheme Scheme
	ends   []End
	class  []int
	asks   *asks
}

// asks are what the form of a poem asks of its stanzas of one shape.
type asks struct {
	others table   // how often the other stanzas of the same length have each pair
	number float64 // of those
	// outlook is what the rest of the poem expects of such a stanza.
	outlook func() *outlook
}

// A Mate is a line that another rhymes with, or is wanted to rhyme with.
type Mate struct {
	Line int // in the stanza, from 0
	// Wanted is how strongly the form asks for the rhyme, whatever the line
	// ends with: 0 not at all … 1 every other stanza has it.
	Wanted float64
}

// Hear listens to the ends of all lines of a poem, stanza by stanza. Stanzas
// repeat their form, so the others say what a place in the stanza wants; and
// the units that a poem is made of say what its single stanzas are likely to
// be.
func Hear(stanzas []*Ends) []Stanza { return new(Memo).Hear(stanzas) }

// A Memo remembers the form of the poem that was heard last: most changes of a
// poem leave the ends of its lines as they are. Many goroutines may use it. The
// zero Memo is ready.
type Memo struct {
	mu   sync.Mutex
	last *formed
}

// formed is what the form of a poem comes to. It depends on the shapes of the
// stanzas alone.
type formed struct {
	shapes  []string
	group   []int // of each stanza
	asks    []*asks
	leaning []table // of each group
}

// Hear is the package's Hear, with the form from memory where no stanza's shape
// has changed.
func (m *Memo) Hear(stanzas []*Ends) []Stanza {
	shapes := make([]string, len(stanzas))
	for i, e := range stanzas {
		shapes[i] = e.shape
	}
	f := m.formed(shapes, stanzas)
	out := make([]Stanza, len(stanzas))
	for i, e := range stanzas {
		g := f.group[i]
		class := classes(posterior(e.heard, f.leaning[g]))
		out[i] = Stanza{Scheme: Scheme{Letters: letters(class)}, class: class, ends: e.list, asks: f.asks[g]}
	}
	return out
}

func (m *Memo) formed(shapes []string, stanzas []*Ends) *formed {
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.last == nil || !slices.Equal(m.last.shapes, shapes) {
		m.last = findForm(shapes, stanzas)
	}
	return m.last
}

// findForm finds the form of a poem, and what it asks.
func findForm(shapes []string, stanzas []*Ends) *formed {
	p := newPoem(stanzas)
	likeliest, likely := p.form()
	out := &formed{shapes: shapes, group: p.group, asks: p.asks(likeliest, likely), leaning: make([]table, len(p.first))}
	for g, own := range p.under(likeliest) {
		out.leaning[g] = logOdds(out.asks[g].wanted(own.pairs))
	}
	return out
}

// Len is the number of the stanza's lines.
func (s *Stanza) Len() int { return len(s.ends) }

// End is the end of a line of the stanza, counted from 0.
func (s *Stanza) End(line int) *End { return &s.ends[line] }

// wanted joins what the stanza's own units make likely with what the other
// stanzas have.
func (a *asks) wanted(own table) table {
	out := newTable(len(own))
	for i := range own {
		for d := range reach {
			out[i][d] = a.joined(i, d, own[i][d])
		}
	}
	return out
}

// joined is how much the pair of the lines i and i+d+1 is wanted that the
// stanza's own units make so likely.
func (a *asks) joined(i, d int, own float64) float64 {
	return (a.others[i][d] + placePrior*(0.9*own+0.1*0.15)) / (a.number + placePrior)
}

// Mates lists the lines that rhyme with a line, those before it first, the
// nearest of them first.
func (s *Stanza) Mates(line int) []int {
	var list []int
	for j := line - 1; j >= 0; j-- {
		if s.class[j] == s.class[line] {
			list = append(list, j)
		}
	}
	for j := line + 1; j < len(s.class); j++ {
		if s.class[j] == s.class[line] {
			list = append(list, j)
		}
	}
	return list
}

// Wants lists the lines that the form wants a line to rhyme with, likeliest
// first. What the line itself ends with is left out of account, so it may be
// unfinished, or the one that breaks the form.
func (s *Stanza) Wants(line int) []Mate {
	own := s.asks.outlook().mates(line)
	var list []Mate
	for j := max(0, line-reach); j <= min(len(s.class)-1, line+reach); j++ {
		if j == line {
			continue
		}
		first, gap := min(line, j), max(line, j)-min(line, j)-1
		m := Mate{Line: j, Wanted: s.asks.joined(first, gap, own[j-line+reach])}
		if m.Wanted >= 0.01 {
			list = append(list, m)
		}
	}
	slices.SortStableFunc(list, func(a, b Mate) int { return cmp.Compare(b.Wanted, a.Wanted) })
	return list
}

// classes parts the lines into classes that rhyme, so that the sum of the odds
// within classes is high: each line in turn joins the class that it has most
// to say for, until none moves.
func classes(odds table) []int {
	n := len(odds)
	class := make([]int, n)
	for i := range class {
		class[i] = -1
	}
	for pass := range 6 {
		moved := false
		for i := range n {
			best, bestSum := i, 0.0
			seen := [2*reach + 1]int{}
			sums := [2*reach + 1]float64{}
			m := 0
			for j := max(0, i-reach); j <= min(n-1, i+reach); j++ {
				if j == i || class[j] < 0 {
					continue
				}
				o := 0.0
				if j < i {
					o = odds[j][i-j-1]
				} else {
					o = odds[i][j-i-1]
				}
				k := 0
				for k < m && seen[k] != class[j] {
					k++
				}
				if k == m {
					seen[k], sums[k] = class[j], 0
					m++
				}
				sums[k] += o
			}
			for k := range m {
				if sums[k] > bestSum {
					best, bestSum = seen[k], sums[k]
				}
			}
			if best == i && bestSum == 0 {
				best = fresh(class, i)
			}
			if class[i] != best {
				class[i], moved = best, true
			}
		}
		if !moved && pass > 0 {
			break
		}
	}
	return class
}

// fresh is a class that no other line is in: i's own number, unless other
// lines have joined it.
func fresh(class []int, i int) int {
	for j, c := range class {
		if j != i && c == i {
			return len(class) + i
		}
	}
	return i
}

// letters names the classes in the order of their first lines.
func letters(class []int) []string {
	size := map[int]int{}
	for _, c := range class {
		size[c]++
	}
	names := map[int]string{}
	out := make([]string, len(class))
	for i, c := range class {
		if size[c] < 2 {
			out[i] = Unrhymed
			continue
		}
		if names[c] == "" {
			names[c] = letter(len(names))
		}
		out[i] = names[c]
	}
	return out
}

// letter is the name of class n: A … W, Y, Z, then A2 …; X is kept for a line
// that rhymes with none.
func letter(n int) string {
	const alphabet = "ABCDEFGHIJKLMNOPQRSTUVWYZ"
	name := alphabet[n%len(alphabet) : n%len(alphabet)+1]
	if n >= len(alphabet) {
		name += strconv.Itoa(n/len(alphabet) + 1)
	}
	return name
}
