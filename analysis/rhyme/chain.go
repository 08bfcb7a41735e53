package rhyme

import "slices"

// A Link is one link of a chain of stanzas: the line that a stanza leaves
// unrhymed is answered in the next. So run terza rima, ABA BCB CDC, and the
// rubaiyat when they are chained, AABA BBCB (Baum, Principles of English
// Versification, 1922).
type Link struct {
	From int   // the line that waits, in its stanza, from 0
	To   []int // the lines that answer it, in the next
	// Share is how many of the pairs of neighbours have the link: above half … 1.
	Share float64
	// Length is the number of lines of the stanzas that are linked.
	Length int
}

// Counts that make a chain. Of two lines that have nothing to do with each other
// one pair in some sixty rhymes by chance, so two of two are no accident, and
// neither are three of four.
const (
	leastLinks = 2
	mostBroken = 0.3 // of the links
	firstPairs = 8   // in which a chain must show, or no more are looked at
)

// LinkOf finds the link that chains a poem's stanzas, if one does.
func LinkOf(stanzas []Stanza) (Link, bool) {
	n := usualLength(stanzas)
	pairs := 0
	answers := make([][]int, n) // by line, then by line of the next stanza: pairs that rhyme
	for from := range n {
		answers[from] = make([]int, n)
	}
	for i := range len(stanzas) - 1 {
		here, next := &stanzas[i], &stanzas[i+1]
		if len(here.ends) != n || len(next.ends) != n {
			continue
		}
		if pairs == firstPairs && !anyReaches(answers, pairs/2) {
			return Link{}, false
		}
		pairs++
		for from := range n {
			if here.Scheme.Letters[from] != Unrhymed {
				continue
			}
			for to := range n {
				if kind := Compare(&here.ends[from], &next.ends[to]).Kind; kind.IsFull() && kind != Identical {
					answers[from][to]++
				}
			}
		}
	}
	if pairs < leastLinks {
		return Link{}, false
	}
	best := Link{Length: n}
	for from := range n {
		var to []int
		most := 0
		for line, count := range answers[from] {
			if float64(count) >= (1-mostBroken)*float64(pairs) {
				to, most = append(to, line), max(most, count)
			}
		}
		if share := float64(most) / float64(pairs); share > best.Share {
			best.From, best.To, best.Share = from, to, share
		}
	}
	return best, best.Share > 0
}

// anyReaches reports whether a count is at least so high.
func anyReaches(counts [][]int, least int) bool {
	return slices.ContainsFunc(counts, func(row []int) bool {
		return slices.ContainsFunc(row, func(n int) bool { return n >= least })
	})
}

// usualLength is the number of lines that most stanzas have, the smaller of two.
func usualLength(stanzas []Stanza) int {
	counts := map[int]int{}
	best := 0
	for i := range stanzas {
		counts[len(stanzas[i].ends)]++
	}
	for n, count := range counts {
		if count > counts[best] || count == counts[best] && n < best {
			best = n
		}
	}
	return best
}
