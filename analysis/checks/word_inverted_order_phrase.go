package checks

import (
	"fmt"

	"dandle/analysis/manuscript"
	"dandle/phonetics/grammar"
)

// fronted is a clause of one line in which a phrase comes first, then subject
// and verb: "of honey he dreamed". It is false for any other.
func fronted(ps *passage, i int) (begin, subject int, ok bool) {
	verb := ps.at(i)
	if verb.first || !ps.joined(i-1) || ps.joined(i) || ps.endsWith(i, "?") {
		return 0, 0, false
	}
	begin, _ = ps.clause(i)
	begin = max(begin, ps.lineStart(i))
	if ps.at(begin).is("and", "but", "then", "so") {
		begin++
	}
	subject = i - 1
	switch helper := ps.at(i - 1); {
	case helper.in(forms.do) && bareVerb(verb):
		subject = i - 2
	case verb.Tag != grammar.VerbPast && verb.Tag != grammar.VerbThird && verb.Tag != grammar.VerbParticiple && verb.Tag != grammar.VerbPresent:
		return 0, 0, false
	}
	switch s := ps.at(subject); {
	case s.in(subjects):
	case s.Tag.IsNoun() && (ps.at(subject-1).Tag == grammar.Determiner || ps.at(subject-1).Tag == grammar.Possessive):
		subject--
	default:
		return 0, 0, false
	}
	return begin, subject, begin < subject && ps.joined(subject)
}

// complementFronted hears "of honey he dreamed" and "to home they went": what
// the verb asks for has gone before it. A path, a place and a time may go first.
func complementFronted(ps *passage, i int) (int, float64, string) {
	begin, subject, ok := fronted(ps, i)
	if !ok || ps.at(i).Break < manuscript.HeavyBreak {
		return 0, 0, ""
	}
	preposition, verb := ps.at(begin), ps.at(i)
	if !asksFor[verb.lower+" "+preposition.lower] && !(preposition.lower == "to" && ps.at(begin+1).lower == "home") {
		return 0, 0, ""
	}
	// One phrase and nothing else stands between: no verb, no second clause.
	if ps.any(begin+1, subject, func(t *token) bool {
		return t.Tag.IsVerb() || t.Tag == grammar.Modal || t.Tag == grammar.WhPronoun || t.is("that", "which", "who", "all", "this", "these", "what", "each", "one") || t.in(timeNouns)
	}) {
		return 0, 0, ""
	}
	return i, 0.72, fmt.Sprintf("%s comes first so that the line can end on %s; English would say %s.", capital(ps.words(begin, subject-1)),
		quote(verb.Text), quote(ps.span(subject, i).In(ps.text)+" "+ps.span(begin, subject-1).In(ps.text)))
}

// asksFor are verbs with the preposition of their object.
var asksFor = pairs("asksFor")

// mannerFronted hears "neatly she tied": a verb that wants an object ends the
// line without one, since its adverb has gone first.
func mannerFronted(ps *passage, i int) (int, float64, string) {
	begin, subject, ok := fronted(ps, i)
	if !ok || subject != begin+1 || ps.at(i).Break != manuscript.FullBreak || !ps.at(begin).Tag.IsAdverb() || !ps.at(subject).in(subjects) || !ps.at(i).in(wanting) {
		return 0, 0, ""
	}
	return i, 0.66, fmt.Sprintf("%s comes first so that the line can end on %s, which still waits for what was %s.", capital(ps.words(begin, begin)), quote(ps.at(i).Text), ps.at(i).lower)
}

// wanting are past forms of verbs that do not end a sentence by themselves.
var wanting = listed("wanting")

// pronounLast hears "up the hill went she": a noun may follow its verb so, a
// pronoun of today may not.
func pronounLast(ps *passage, i int) (int, float64, string) {
	subject, verb := ps.at(i), ps.at(i-1)
	if subject.first || !subject.is("he", "she", "they", "we", "i") || ps.joined(i) || !ps.joined(i-1) || verb.Tag != grammar.VerbPast ||
		verb.in(forms.be) || verb.in(forms.do) || verb.in(forms.have) || verb.in(saying) || ps.endsWith(i, "?") || subject.Quoted {
		return 0, 0, ""
	}
	begin, _ := ps.clause(i)
	if begin >= i-1 || ps.any(begin, i, func(t *token) bool {
		return t.in(forms.negation) || t.in(subjects) && t != subject || t.is("only", "so", "than", "as", "if", "had", "were", "how", "what", "where", "when", "seldom", "rarely", "who")
	}) {
		return 0, 0, ""
	}
	if first := ps.at(begin); first.Tag != grammar.Preposition && first.Tag != grammar.Particle && !first.Tag.IsAdverb() {
		return 0, 0, ""
	}
	return i, 0.7, fmt.Sprintf("The line turns round so that %s can rhyme; my ear expects %s.", quote(subject.Text), quote(subject.Text+" "+verb.Text))
}

// prepositionLast hears "she sat the table upon".
func prepositionLast(ps *passage, i int) (int, float64, string) {
	t, noun := ps.at(i), ps.at(i-1)
	if t.first || !t.is("upon", "beside", "beneath", "among", "amid", "into") || !ps.joined(i-1) || !ps.closes(i) || !noun.Tag.IsNoun() {
		return 0, 0, ""
	}
	k := i - 1
	for k > 0 && ps.joined(k-1) && (ps.at(k).Tag.IsNoun() || ps.at(k).Tag.IsAdjective()) {
		k--
	}
	if d := ps.at(k); d.Tag != grammar.Determiner && d.Tag != grammar.Possessive || k == 0 || !ps.joined(k-1) {
		return 0, 0, ""
	}
	// "The chair the cat sat upon" has a verb before it; "the stool to stand
	// upon" too. A verb that rests before the noun has lost its preposition.
	if !ps.at(k-1).in(resting) && !ps.at(k-1).in(intransitive) {
		return 0, 0, ""
	}
	return i, 0.74, fmt.Sprintf("%s has moved behind its noun for the rhyme; English would say %s.", quote(capital(t.lower)), quote(t.Text+" "+ps.span(k, i-1).In(ps.text)))
}

// objectAfterModal hears "he would his boat repair".
func objectAfterModal(ps *passage, i int) (int, float64, string) {
	verb := ps.at(i)
	if verb.first || !ps.joined(i-1) || !ps.closes(i) || !bareVerb(verb) || !ps.at(i-1).Tag.IsNoun() {
		return 0, 0, ""
	}
	k := i - 1
	for k > 0 && ps.joined(k-1) && (ps.at(k).Tag.IsNoun() || ps.at(k).Tag.IsAdjective()) {
		k--
	}
	if d := ps.at(k); d.Tag != grammar.Determiner && d.Tag != grammar.Possessive || k < 2 || !ps.joined(k-1) || ps.at(k).line != verb.line {
		return 0, 0, ""
	}
	modal, subject := ps.at(k-1), ps.at(k-2)
	if modal.Tag != grammar.Modal || !ps.joined(k-2) || !subject.in(subjects) || ps.endsWith(i, "?") {
		return 0, 0, ""
	}
	return i, 0.76, fmt.Sprintf("%s waits until the line is over; English would say %s.", quote(capital(verb.lower)),
		quote(ps.span(k-2, k-1).In(ps.text)+" "+verb.Text+" "+ps.span(k, i-1).In(ps.text)))
}
