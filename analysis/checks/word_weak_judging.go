package checks

import "dandle/phonetics/grammar"

// judging tells of words that judge in most places where they do not: of a size, a
// weather or a hearing.
var judging = map[string]func(ps *passage, i int) bool{
	"great": greatJudges, "pretty": prettyJudges, "bad": badJudges, "good": goodJudges, "fine": fineJudges,
	"perfect": perfectJudges, "special": specialJudges, "super": onlyJudges, "grand": onlyJudges, "ideal": onlyJudges,
}

func funJudges(ps *passage, i int) bool {
	before, next := ps.at(i-1), ps.at(i+1)
	if ps.joined(i) && next.Tag == grammar.To && !ps.at(i+2).in(beholding) {
		return false // "fun to be small" says what for
	}
	return !before.is("the", "make", "made", "making", "poke", "poked", "for", "in", "half") && !(ps.joined(i) && next.lower == "of")
}

// goodAnd are what "good and" makes more of.
var goodAnd = listed("goodAnd")

func greatJudges(ps *passage, i int) bool {
	next := ps.at(i + 1)
	if next.lower == "big" && ps.joined(i) {
		from, _ := ps.sentence(i)
		return ps.at(i-1).lower != "the" && ps.at(from).lower != "what" // "a great big grin" is big twice
	}
	if ps.joined(i) && ps.joined(i+1) && next.Tag.IsNoun() && ps.at(i+2).Tag.IsNoun() {
		return false // "a great iron key": of what it is made comes next, so it is of a size
	}
	// "The great desert" is as vast as it is known to be; a hush has no look.
	return !ps.at(i-1).is("the", "one") && !next.in(abstract)
}

// prettyJudges: "pretty soon" measures, and a pretty blue lake is pretty.
func prettyJudges(ps *passage, i int) bool {
	next := ps.at(i + 1)
	return next.in(colours) || next.lower == "little" || !(ps.joined(i) && (next.Tag.IsAdverb() || next.Tag.IsAdjective()))
}

func badJudges(ps *passage, i int) bool {
	before, next := ps.at(i-1), ps.at(i+1)
	switch {
	case before.is("gone", "went", "go", "goes", "turned"): // milk does
		return false
	case before.in(forms.be) && ps.at(i-3).Tag == grammar.Possessive: // "his hearing was bad" says that it fails him
		return false
	}
	return !ofTheBody(next) && !next.is("sort", "case", "attack")
}

func goodJudges(ps *passage, i int) bool {
	before, next := ps.at(i-1), ps.at(i+1)
	switch {
	case ps.joined(i) && next.in(timeNouns) && next.Tag == grammar.NounPlural: // "the good times" are those that one looks back on
		return false
	case ofTheBody(next): // "a good ear" hears well
		return false
	case ps.joined(i) && next.Tag.IsNoun() && ps.joined(i+1) && (ps.at(i+2).Tag == grammar.To || ps.at(i+2).lower == "for"): // "a good place to hide"
		return false
	case ps.joined(i) && next.lower == "and" && ps.at(i+2).in(goodAnd): // "good and tight"
		return false
	case before.Tag == grammar.Number, before.is("for", "no", "as", "be", "been", "any", "her", "his", "make", "made"):
		return false
	case ps.joined(i-1) && before.lower == "a" && next.is("way"):
		return false
	}
	return !next.is("one", "ones", "old", "left", "right", "long", "hard", "deep", "stiff", "half", "strong", "solid", "thick")
}

// fineJudges: fine thread and fine rain are seen, who is fine is not hurt, and on a fine
// day it does not rain.
func fineJudges(ps *passage, i int) bool {
	from, _ := ps.clause(i)
	if ps.any(from, i, func(t *token) bool { return t.is("weather", "day", "morning", "evening") }) {
		return false
	}
	if ps.joined(i) && ps.at(i+1).lower == "one" {
		return true // "a fine one"
	}
	return !(ps.joined(i) && ps.at(i+1).Tag.IsNoun()) && !(ps.joined(i-1) && ps.at(i-2).in(subjects))
}

// perfectJudges: it measures a circle.
func perfectJudges(ps *passage, i int) bool { return !(ps.joined(i) && ps.at(i+1).in(exact)) }

// specialJudges: "a special hook for hats" is a hook of its own.
func specialJudges(ps *passage, i int) bool {
	return !(ps.at(i+1).Tag.IsNoun() && ps.joined(i+1) && ps.at(i+2).is("for", "to", "where", "that", "which"))
}

// onlyJudges hears words that judge wherever they are adjectives.
func onlyJudges(ps *passage, i int) bool { return ps.at(i).Tag.IsAdjective() }
