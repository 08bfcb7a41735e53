package checks

import (
	"fmt"

	"dandle/analysis/manuscript"
	"dandle/analysis/suggest/pictures"
	"dandle/phonetics/grammar"
)

// twiceNamed suspects a pronoun behind its own noun: "the moon it was bright", and with a
// pause between, "the moon, it was bright". So people speak, and so a name is presented:
// "Mister Finch, he baked all night".
func twiceNamed(ps *passage, i int) (int, float64, string) {
	if ps.at(i-1).Break == manuscript.LightBreak {
		return twiceNamedApart(ps, i)
	}
	t, noun, at := ps.at(i), ps.at(i-1), i+1
	if !t.is("it", "he", "she", "they") || !noun.Tag.IsNoun() || !ps.joined(i-1) || !ps.joined(i) || ps.endsWith(i, "?") {
		return 0, 0, ""
	}
	if ps.at(at).Tag.IsAdverb() && ps.joined(at) {
		at++ // "the bear he just nodded"
	}
	verb := ps.at(at)
	// "The sergeant he did say to us"; but "the cake he did bake" is what he baked.
	being := verb.in(forms.be) || verb.in(forms.do) && (t.lower == "it" || ps.joined(at+1) || ps.at(at+1).in(saying) || ps.at(at+1).in(alone) && acts(noun))
	k := ps.phrase(i - 1)
	head := noun
	if verb.in(forms.be) && ps.at(k-1).Tag == grammar.Preposition && ps.joined(k-1) && ps.joined(k-2) && ps.at(k-2).Tag.IsNoun() && ps.at(at+1).Tag != grammar.VerbParticiple {
		head = ps.at(k - 2) // "the man in the shop he was kind"
		k = ps.phrase(k - 2)
	}
	if head.Tag != grammar.Name && (t.lower == "they") != (head.Tag == grammar.NounPlural) {
		return 0, 0, ""
	}
	if kind, known := pictures.Of(lemma(head.lower)); t.is("he", "she") && verb.in(forms.do) && known && !kind.Acts() {
		return 0, 0, "" // "a cup she did bring"
	}
	named := 0.0
	switch d := ps.at(k); {
	case being && !goesOn(ps, at) && k == i-1 && ps.at(k-1).is("when", "as", "while", "till", "until"): // "when day it is done"
		named = 0.66
	case head.Tag != grammar.Name && goesOn(ps, at):
	case d.in(timeNouns) || head.in(timeNouns) && d != head:
	case d.Tag == grammar.Determiner || d.Tag == grammar.Possessive:
		scratches := t.lower == "it" && verb.Tag == grammar.VerbPast && !ps.joined(at) && !acts(head) // "the pen it scratched,"
		if (scratches || being || verb.in(intransitive) || verb.in(plainVerbs) || takesObject(ps, at) || head.in(weathers) && verb.Tag == grammar.VerbPast) && begins(ps, k) {
			named = 0.7
		}
	case d.Tag == grammar.Noun && k == i-1 && d.first && ps.opens(k) && t.is("he", "she") && verb.in(forms.be): // a name that is a word too: "Olive she was proud"
		named = 0.66
	case head.Tag == grammar.Name && (k == i-1 || d.is("poor", "old", "little", "dear")): // "Wilma she was cold"
		if (verb.Tag == grammar.VerbPast || being) && (d.first && ps.opens(k) || ps.at(k-1).first && ps.at(k-1).is("and", "but", "so", "then", "when")) && !ps.opens(at+1) {
			named = 0.7
		}
	}
	if named == 0 {
		return 0, 0, ""
	}
	return 1, named, fmt.Sprintf("%s has been named a word ago; %s only keeps time.", quote(capital(head.lower)), quote(t.Text))
}

// twiceNamedApart hears a noun with its article that opens a sentence, a comma, and the pronoun
// that means it, with its verb.
func twiceNamedApart(ps *passage, i int) (int, float64, string) {
	t, noun := ps.at(i), ps.at(i-1)
	if !t.is("it", "he", "she", "they") || i == 0 || noun.Tag != grammar.Noun && noun.Tag != grammar.NounPlural || ps.at(i-1).line != t.line || !ps.joined(i) || ps.endsWith(i, "?") || noun.in(timeNouns) {
		return 0, 0, ""
	}
	verb := i + 1
	if ps.at(verb).Tag.IsAdverb() && ps.joined(verb) {
		verb++
	}
	k := ps.phrase(i - 1)
	for k > 1 && ps.joined(k-1) && ps.at(k-1).Tag.IsAdverb() {
		k-- // "my really nice robe"
	}
	if before := ps.at(k - 1); k > 0 && ps.joined(k-1) && (before.Tag == grammar.Determiner || before.Tag == grammar.Possessive) {
		k--
	}
	opens := ps.opens(k) || ps.at(k-1).is("and", "but", "then", "so") && ps.opens(k-1) || ps.at(k-1).lower == "then" && ps.at(k-2).lower == "and" && ps.opens(k-2)
	fits := (t.lower == "they") == (noun.Tag == grammar.NounPlural) && (t.lower == "they" || (t.lower == "it") != acts(noun))
	if d := ps.at(k); !opens || !fits || d.Tag != grammar.Determiner && d.Tag != grammar.Possessive || d.is("this", "that", "no", "what", "all", "each", "every") || !ps.at(verb).finite() && !ps.at(verb).in(forms.be) && !ps.at(verb).in(forms.do) {
		return 0, 0, ""
	}
	if from, _ := ps.sentence(i); ps.any(from, k, func(t *token) bool {
		return t.finite() || t.Tag == grammar.Preposition || t.is("when", "as", "while", "if")
	}) {
		return 0, 0, ""
	}
	// "My mother, she told me. My father, he knew." sets one against the other.
	for o := ps.lineStart(i); o <= ps.lineEnd(i); o++ {
		if o != i && o > 0 && ps.at(o).is("it", "he", "she", "they") && ps.at(o-1).Tag.IsNoun() && ps.at(o-1).Break == manuscript.LightBreak {
			return 0, 0, ""
		}
	}
	return 1, 0.6, fmt.Sprintf("%s has been named a word ago; %s only keeps time.", quote(capital(noun.lower)), quote(t.Text))
}

// twiceTogether suspects "both together" and "together both".
func twiceTogether(ps *passage, i int) (int, float64, string) {
	t, before := ps.at(i), ps.at(i-1)
	if !t.is("both", "together") || !before.is("both", "together") || t.lower == before.lower || !ps.joined(i-1) {
		return 0, 0, ""
	}
	return 1, 0.68, fmt.Sprintf("%s has said it already; %s only keeps time.", quote(capital(before.lower)), quote(t.lower))
}

// twiceLast suspects "finally" where "at last" has been said.
func twiceLast(ps *passage, i int) (int, float64, string) {
	if ps.at(i).lower != "finally" {
		return 0, 0, ""
	}
	from, _ := ps.sentence(i)
	last := ps.find(from, i, func(t *token) bool { return t.lower == "last" })
	if last < 1 || ps.at(last-1).lower != "at" {
		return 0, 0, ""
	}
	return 1, 0.68, "“At last” has said it already; “finally” only keeps time."
}

// twiceHow suspects an adverb that its verb holds: "whispered quietly", "shouted out loudly".
func twiceHow(ps *passage, i int) (int, float64, string) {
	t, k := ps.at(i), i-1
	holders := heldHow[t.lower]
	if holders == nil {
		return 0, 0, ""
	}
	if ps.joined(k) && ps.at(k).is("out", "up", "off", "away", "along") {
		k--
	}
	verb := ps.at(k)
	if k < 0 || !ps.joined(k) || !ps.joined(i-1) || !verb.Tag.IsVerb() || !holders[lemma(verb.lower)] {
		return 0, 0, ""
	}
	return 1, 0.68, fmt.Sprintf("%s is how one does it; %s only keeps time.", quote(capital(verb.lower)), quote(t.lower))
}

// heldHow are, for an adverb, the verbs that hold it.
var heldHow = holding("heldHow")

// onward suspects "on" before another particle of the way: "climbed on up to the top". Who
// goes on after a stop goes on.
func onward(ps *passage, i int) (int, float64, string) {
	t, verb, next := ps.at(i), ps.at(i-1), ps.at(i+1)
	if !t.is("on", "right") || !ps.joined(i-1) || !ps.joined(i) || !ps.joined(i+1) || !verb.in(goings) && !verb.is("headed", "jumped", "leapt") ||
		!next.is("up", "down", "over", "out", "in", "back", "off") || !ps.at(i+2).is("to", "into", "through") {
		return 0, 0, ""
	}
	if from, _ := ps.sentence(i); ps.any(from, i, func(t *token) bool { return t.is("then", "still", "but", "again", "till", "until", "after", "when") }) {
		return 0, 0, ""
	}
	return 1, 0.6, fmt.Sprintf("%s goes %s by itself; %s only keeps time.", quote(capital(verb.lower)), next.lower, quote(t.lower))
}

// phrase is the first token of the noun phrase that ends with token i.
func (ps *passage) phrase(i int) int {
	for i > 0 && ps.joined(i-1) && (ps.at(i).Tag.IsNoun() || ps.at(i).Tag.IsAdjective()) {
		switch before := ps.at(i - 1); {
		case before.Tag == grammar.Determiner || before.Tag == grammar.Possessive:
			return i - 1
		case !before.Tag.IsNoun() && !before.Tag.IsAdjective():
			return i
		}
		i--
	}
	return i
}

// begins reports whether a clause begins with token k, or with the word that
// joins it to the one before.
func begins(ps *passage, k int) bool {
	if ps.opens(k) {
		return true
	}
	from, _ := ps.clause(k)
	before, lead := ps.at(k-1), ps.at(from)
	if before.is("when", "as", "while", "till", "until", "because") {
		return true
	}
	// "Then all of a sudden the sneeze": nothing has been told yet.
	if (lead.Tag.IsAdverb() && !lead.is("up", "down", "in", "out", "over", "off", "along", "around", "through") || lead.is("then", "soon", "now")) && before.Tag != grammar.Preposition && before.Tag != grammar.To && !ps.any(from, k, func(t *token) bool { return t.Tag.IsVerb() || t.Tag == grammar.Modal }) {
		return true
	}
	return before.is("and", "but", "then", "for") && ps.opens(k-1) || before.is("and", "but") && ps.any(from, k-1, (*token).finite)
}

// goesOn reports whether the verb at i, behind its pronoun, ends nothing but a
// clause within a longer one: "the hat he was wearing" is one thing, of which
// more is said. What an "and" adds is said of something else.
func goesOn(ps *passage, i int) bool {
	_, to := ps.clause(i)
	own := ps.at(i).in(intransitive) && ps.at(i-1).is("it", "he", "she") && (ps.at(i-1).lower == "it") != acts(ps.at(i-2))
	if and := ps.find(i+1, to, func(t *token) bool { return t.lower == "and" || own && t.is("when", "as", "while", "till", "until") }); and >= 0 {
		to = and // "the lid it rose when she gave it a push"
	}
	doing := ps.at(i+1).Tag == grammar.VerbGerund && !ps.at(i-2).first && !ps.opens(ps.phrase(i-2))
	return to <= i+1 && ps.at(i).in(forms.be) || doing || ps.any(i+1, to, (*token).finite)
}

// takesObject reports whether the verb at i has its object behind it: "the crow she wore
// a vest". Of "the vest she wore" the object stands before.
func takesObject(ps *passage, i int) bool {
	verb, next := ps.at(i), ps.at(i+1)
	if told := ps.at(i - 2); verb.is("told", "gave", "asked", "called", "helped", "sent", "showed", "taught", "made", "let") && next.is("him", "me", "us", "them", "it") && acts(told) && ps.joined(i) {
		return true // "his mother she told him"
	}
	if verb.Tag != grammar.VerbPast || verb.in(forms.have) || !ps.joined(i) || next.in(timeNouns) || ps.at(i+2).in(timeNouns) || ps.at(i-2).in(manners) {
		return false
	}
	if next.Tag == grammar.Predeterminer || next.lower == "all" || next.Tag == grammar.Preposition && ps.at(i+2).lower == "every" {
		return ps.at(i+2).Tag == grammar.Determiner || ps.at(i+2).Tag == grammar.Possessive
	}
	return next.Tag == grammar.Determiner && !next.is("all", "each", "that", "this", "both") || next.Tag == grammar.Possessive || next.Tag == grammar.Number
}

// weathers are nouns of the sky, which nobody acts on: "the wind it blew".
var weathers = listed("weathers")

// alone are verbs of what one does to nothing and nobody.
var alone = listed("alone")

// manners are nouns of which a clause may tell without a word to join it: "the way she
// held her spoon".
var manners = listed("manners")
