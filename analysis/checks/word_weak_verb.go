package checks

import "dandle/phonetics/grammar"

var (
	plainVerbs = listed("plainVerbs")
	// mannerAdverbs say how a plain verb is done.
	mannerAdverbs = listed("mannerAdverbs")
	// getting are forms of "get" that a tale is told in.
	getting = listed("getting")
	// gotFixed are what "get" makes a phrase with.
	gotFixed = listed("gotFixed")
)

// wentAlone is the confidence in one plain verb of going: it stays below the usual
// threshold, since a tale must get its people from place to place (ours).
const wentAlone = 0.5

// plainGoings are forms of "go" that a tale is told in.
var plainGoings = listed("plainGoings")

// onlyGoes reports whether somebody goes somewhere, by a way that could be seen: "the
// mole went down the lane". What goes on, out, off or to bed does not walk.
func onlyGoes(ps *passage, i int) bool {
	who, way, where := ps.at(i-1), ps.at(i+1), ps.at(i+2)
	if !ps.joined(i-1) || !ps.joined(i) || !way.in(ways) || !(where.Tag == grammar.Determiner || where.Tag == grammar.Possessive) || ps.endsWith(i, "?") {
		return false
	}
	return who.is("he", "she", "they", "we", "i") || who.Tag.IsNoun() && acts(who)
}

// ways are prepositions that a way can be seen by.
var ways = listed("ways")

// leansOnManner reports whether a plain verb has an adverb after it to say how,
// with nothing that asks for two words: a comparison, a contrast, another verb.
func leansOnManner(ps *passage, i int) bool {
	how := ps.at(i + 1)
	if !ps.joined(i) || !how.in(mannerAdverbs) || how.raised() || ps.at(i).line != how.line || !ps.at(i).Tag.IsVerb() {
		return false
	}
	from, _ := ps.clause(i)
	if ps.any(from, i, func(t *token) bool { return t.in(forms.negation) || t.is("how", "so", "as", "more", "to") }) {
		return false
	}
	return !ps.joined(i+1) && !ps.at(i+2).in(mannerAdverbs) || ps.joined(i+1) && !ps.at(i+2).is("and", "but", "as", "than", "enough")
}

// "Got cold" by itself is how everybody talks, so it stays below the usual
// threshold; "got very cold" leans on a second word, and two in a stanza are a
// habit (ours).
const (
	gotAlone = 0.5
	gotVery  = 0.6
)

// gotSo is the last token of "got cold" or "got very cold", where one verb could
// show the change; i where no such thing is said.
func gotSo(ps *passage, i int) int {
	last := i + 1
	for last < i+3 && ps.joined(last) && (degrees[ps.at(last).lower] != nil || ps.at(last).is("all", "too")) {
		last++
	}
	how := ps.at(last)
	if !ps.joined(i) || how.Tag != grammar.Adjective && !how.in(moods) && !(last > i+1 && leanedOn(how)) || how.raised() || how.in(gotFixed) ||
		ps.at(i).line != how.line || ps.joined(last) && (ps.at(last+1).Tag.IsNoun() || ps.at(last+1).Tag.IsAdjective() || ps.at(last+1).is("that", "as", "to", "at", "enough")) {
		return i
	}
	if ps.at(i-1).lower == "it" && how.in(skies) {
		return i // "it got dark" is of no one thing, and nothing to watch
	}
	from, _ := ps.clause(i)
	if ps.any(from, i, func(t *token) bool {
		return t.in(forms.negation) || t.in(forms.modal) || t.in(forms.have) || t.is("how", "to")
	}) {
		return i
	}
	return last
}

// skies are what the day or the weather can be.
var skies = listed("skies")
