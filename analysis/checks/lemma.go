package checks

import (
	"slices"
	"strings"
	"sync"

	lexis "dandle/analysis/suggest/words"
)

// irregular leads from a form that no rule makes to its plain form.
var irregular = sync.OnceValue(func() map[string]string {
	plainForm := map[string]string{}
	for _, forms := range phrases("irregular") {
		for _, f := range forms[1:] {
			plainForm[f] = forms[0]
		}
	}
	return plainForm
})

// endings are those of number, tense and degree, the longest first, with what
// the plain form may have in their place: WordNet's rules of detachment (Miller
// et al., morphy(7), from memory).
var endings = []struct {
	ending string
	plain  []string
}{
	{"ies", []string{"y"}}, {"ied", []string{"y"}}, {"ves", []string{"f", "fe"}},
	{"ing", []string{"", "e"}}, {"est", []string{"", "e"}},
	{"es", []string{"", "e"}}, {"ed", []string{"", "e"}}, {"er", []string{"", "e"}},
	{"s", []string{""}},
}

// lemma is the plain form of a word, as WordNet lists it; the word itself where
// it is plain or unknown.
func lemma(word string) string {
	w := strings.TrimSuffix(strings.TrimSuffix(plain(word), "'s"), "'")
	if base, known := irregular()[w]; known {
		return base
	}
	if k := lexis.Find(w); k != lexis.None && k.HasSense() && !strings.HasSuffix(w, "ing") {
		return w
	}
	for _, e := range endings {
		rest, cut := strings.CutSuffix(w, e.ending)
		if !cut || len(rest) < 2 {
			continue
		}
		for _, end := range e.plain {
			candidates := []string{rest + end}
			if n := len(rest); end == "" && n > 2 && rest[n-1] == rest[n-2] {
				candidates = append(candidates, rest[:n-1])
			}
			for _, c := range candidates {
				if k := lexis.Find(c); k != lexis.None && k.HasSense() {
					return c
				}
			}
		}
	}
	return w
}

// usualSenses is how many of a word's senses a reader thinks of at once (ours).
const usualSenses = 2

// senses are the usual senses of a plain form.
func senses(lemma string) []lexis.Sense {
	k := lexis.Find(lemma)
	if k == lexis.None {
		return nil
	}
	list := k.Senses()
	return list[:min(len(list), usualSenses)]
}

// stepsWider is how far a wider word may lie and still say nothing new: "bird"
// beside a heron (ours).
const stepsWider = 3

// saysNoMore reports whether a word says no more than another: it shares one of
// its usual senses, or names a class that the other belongs to.
func saysNoMore(word, than string) bool {
	theirs := senses(than)
	for _, mine := range senses(word) {
		if slices.ContainsFunc(theirs, func(s lexis.Sense) bool { return s.Is(&mine) }) {
			return true
		}
		if mine.Part != lexis.Noun || len(theirs) == 0 || theirs[0].Part != lexis.Noun {
			continue
		}
		steps := 0
		for s := range wider(&theirs[0]) {
			if steps++; steps > stepsWider {
				break
			}
			if s.Is(&mine) {
				return true
			}
		}
	}
	return false
}
