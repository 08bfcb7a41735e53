package checks

import (
	"slices"
	"strings"

	inflection "dandle/analysis/suggest/forms"
	lexis "dandle/analysis/suggest/words"
	"dandle/phonetics/grammar"
)

// inflections are the tags of forms that are not plain ones.
var inflections = []grammar.Tag{
	grammar.NounPlural, grammar.VerbPast, grammar.VerbParticiple, grammar.VerbThird, grammar.VerbGerund, grammar.Comparative, grammar.Superlative,
}

// lemma is the plain form of a word whose part in its sentence is not known; the
// word itself where it is plain or unknown.
func lemma(word string) string {
	w := strings.TrimSuffix(strings.TrimSuffix(plain(word), "'s"), "'")
	for _, tag := range inflections {
		if !grammar.CanBe(w, tag) {
			continue
		}
		if base, _, known := inflection.Base(w, tag); known && base.String() != w {
			return base.String()
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
