package checks

import (
	"fmt"
	"strings"

	"dandle/analysis/scansion"
	"dandle/phonetics/arpabet"
	"dandle/phonetics/grammar"
)

const praiseConsonanceDoc = `
Stressed syllables near each other close on one sound.

It rhymes without rhyming: the vowels change and the close stays. Counted are stressed syllables
of different words, three within eight syllables, whose consonants after the vowel are the same
(the numbers are ours). The endings _-s_ and _-ed_ count for nothing, and what rhymes outright
is another matter.

In 8,905 lines of Housman and Kipling it praises 24, once in 371.

    A duck on a dock with a sack on his back took a look.

Not here, where only the endings agree:

    He hopped and he skipped and he clapped as he went.
`

var praiseConsonance = &Check{
	Code:     "praise/consonance",
	Severity: Praise,
	Reach:    OneStanza,
	Doc:      praiseConsonanceDoc,
	Run: praiseRecurrence(consonance, 0.36, func(syllables, words string) string {
		return fmt.Sprintf("%s close on one sound while their vowels change: %s.", capital(syllables), words)
	}),
}

// leastCloses is how many closes are heard as one sound (ours).
const leastCloses = 3

// consonance is the richest stretch of a line with one close. No vowel may come
// twice, lest it be assonance or rhyme.
func consonance(line *scansion.Line, list []strongSyllable) (best recurrence) {
	for a := range list {
		if list[a].coda == "" || inflectedClose(&line.Words[list[a].word]) {
			continue
		}
		vowels := map[arpabet.Phone]bool{}
		words := map[int]bool{}
		last := a
		for b := a; b < len(list) && list[b].index < list[a].index+assonanceReach; b++ {
			s := &list[b]
			if s.coda != list[a].coda || vowels[s.vowel] || words[s.word] || inflectedClose(&line.Words[s.word]) {
				continue
			}
			vowels[s.vowel], words[s.word] = true, true
			last = b
		}
		if len(vowels) >= leastCloses && len(vowels) > best.n {
			best = recurrence{list[a].word, list[last].word, len(vowels)}
		}
	}
	return best
}

// inflectedClose reports whether a word closes with an ending of number or tense.
func inflectedClose(w *scansion.Word) bool {
	switch w.Tag {
	case grammar.NounPlural, grammar.NamePlural, grammar.VerbThird:
		return true
	case grammar.VerbPast, grammar.VerbParticiple:
		return strings.HasSuffix(plain(w.Text), "ed")
	default:
		return false
	}
}
