package critique

import (
	"fmt"
	"slices"

	"dandle/analysis/checks"
	"dandle/analysis/rhyme"
	"dandle/phonetics/arpabet"
)

// overusedSound is the finding that says of one sound what sounds says of all.
const overusedSound checks.Code = "rhyme/overused-sound"

// fewestPairs is how many pairs of rhymes there must be before their sounds
// are worth counting (ours).
const fewestPairs = 6

// A chime is a rhyme sound with the pair of words that brought it first.
type chime struct {
	sounds arpabet.Sounds
	first  [2]string
	pairs  int
}

// sounds says on how many sounds the verse rhymes. Where a finding says already
// that one of them comes too often, it says nothing.
func (w *writer) sounds() string {
	if slices.ContainsFunc(w.Findings, func(f checks.Finding) bool { return f.Code == overusedSound }) {
		return ""
	}
	chimes, pairs := w.chimes()
	if pairs < fewestPairs {
		return ""
	}
	most := slices.MaxFunc(chimes, func(a, b chime) int { return a.pairs - b.pairs })
	switch {
	case most.pairs == 1:
		return fmt.Sprintf("Each of your %s pairs of rhymes finds a sound of its own.", cardinal(pairs))
	case most.pairs == 2:
		return fmt.Sprintf("Your %s pairs of rhymes ring on %s sounds, and none comes more than twice.", cardinal(pairs), cardinal(len(chimes)))
	}
	return fmt.Sprintf("Your %s pairs of rhymes ring on %s sounds; that of “%s” and “%s” comes oftenest, in %s of them.",
		cardinal(pairs), cardinal(len(chimes)), most.first[0], most.first[1], cardinal(most.pairs))
}

// chimes are the sounds of the pairs that rhyme, in the order in which they are
// first heard, and the number of pairs. A pair of words that a refrain brings
// back counts once.
func (w *writer) chimes() (list []chime, pairs int) {
	seen := map[[2]string]bool{}
	for s := range w.Stanzas {
		stanza := &w.Stanzas[s]
		last := map[string]int{}
		for k, letter := range stanza.Scheme.Letters {
			before, answers := last[letter]
			last[letter] = k
			if letter == rhyme.Unrhymed || !answers {
				continue
			}
			a, b := stanza.End(before), stanza.End(k)
			m, words := rhyme.Compare(a, b), [2]string{a.Word(), b.Word()}
			if m.Kind != rhyme.Perfect || seen[words] {
				continue
			}
			seen[words] = true
			pairs++
			key := m.A.Unstressed()
			if i := slices.IndexFunc(list, func(c chime) bool { return c.sounds == key }); i >= 0 {
				list[i].pairs++
				continue
			}
			list = append(list, chime{key, words, 1})
		}
	}
	return list, pairs
}
