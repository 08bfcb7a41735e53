package checks

import (
	"fmt"
	"strings"

	"dandle/analysis/manuscript"
	"dandle/analysis/suggest/pictures"
	"dandle/phonetics/grammar"
)

// nominal reports whether a token stands as a noun does. "Wishes" after "three" and
// "light" before "she" are nouns, whatever they are tagged as.
func (ps *passage) nominal(i int) bool {
	t := ps.at(i)
	switch {
	case t.Tag.IsNoun():
		return true
	case ps.joined(i-1) && (t.Tag == grammar.VerbThird || t.Tag == grammar.VerbPresent || t.Tag == grammar.Verb) && (ps.at(i-1).Tag == grammar.Number || ps.at(i-1).is("some", "the", "a", "an") || ps.at(i-1).Tag == grammar.Possessive):
		return grammar.CanBe(t.lower, grammar.NounPlural) || grammar.CanBe(t.lower, grammar.Noun)
	case t.Tag == grammar.Adjective && ps.joined(i) && (ps.at(i+1).in(subjects) || ps.at(i+1).Tag == grammar.Determiner || ps.at(i+1).Tag == grammar.Possessive):
		return grammar.CanBe(t.lower, grammar.Noun)
	case t.Tag == grammar.Adjective && ps.joined(i) && (ps.at(i+1).Tag == grammar.Preposition || ps.at(i+1).Tag == grammar.To):
		return (ps.at(i-1).Tag == grammar.Possessive || ps.at(i-1).Tag == grammar.Determiner) && grammar.CanBe(t.lower, grammar.Noun)
	}
	return false
}

// nounPhrase is the last token of a noun phrase that opens at token k with an article,
// a possessive, a number or a name, and ends before token to; -1 where none does.
func (ps *passage) nounPhrase(k, to int) int {
	switch d := ps.at(k); {
	case d.Tag == grammar.Name:
		k--
	case d.Tag != grammar.Determiner && d.Tag != grammar.Possessive && d.Tag != grammar.Number && d.lower != "her", d.is("all", "both", "each", "that", "this"):
		return -1
	}
	k++
	for k+1 < to && ps.joined(k) && (ps.at(k).Tag.IsAdjective() || ps.at(k).Tag == grammar.Number) && !ps.nominal(k) {
		k++
	}
	if k >= to || !ps.nominal(k) {
		return -1
	}
	for k+1 < to && ps.joined(k) && ps.at(k+1).Tag.IsNoun() {
		k++
	}
	return k
}

// helped is the first token of the verb that ends at token i, its helper and an adverb
// between them in it, and whether it is in a form that carries a clause: "lit", "did
// light", "had lit", "would often light".
func (ps *passage) helped(i int) (first int, carries bool) {
	verb, at := ps.at(i), i-1
	if ps.at(at).Tag.IsAdverb() && ps.joined(at) {
		at--
	}
	helper := ps.at(at)
	if !ps.joined(i-1) || !ps.joined(at) {
		return i, false
	}
	if helper.lower == "to" && ps.at(at-1).lower == "going" && ps.at(at-2).in(forms.be) && ps.joined(at-1) && ps.joined(at-2) && bareVerb(verb) {
		return at - 2, true
	}
	switch {
	case (helper.in(forms.do) || helper.Tag == grammar.Modal) && bareVerb(verb):
		return at, true
	case helper.in(forms.have):
		return at, verb.Tag == grammar.VerbParticiple || verb.Tag == grammar.VerbPast
	case helper.is("am", "is", "are", "was", "were"):
		return at, verb.Tag == grammar.VerbGerund
	}
	return i, verb.Tag == grammar.VerbPast || verb.Tag == grammar.VerbThird || verb.Tag == grammar.VerbParticiple && grammar.CanBe(verb.lower, grammar.VerbPast)
}

// acts reports whether a noun names a person or an animal.
func acts(t *token) bool {
	if t.Tag == grammar.Name {
		return true
	}
	kind, known := pictures.Of(lemma(t.lower))
	return known && kind.Acts()
}

// objectBeforeVerb hears "the baker his bread in the oven put": somebody opens the
// sentence, a thing follows at once, and the verb waits for the line's end. In "the
// bread the baker baked" the thing comes first, and is what he baked.
func objectBeforeVerb(ps *passage, i int) (int, float64, string) {
	verb := ps.at(i)
	first, carries := ps.helped(i)
	if verb.first || ps.joined(i) || !carries || verb.in(intransitive) || verb.in(goings) && !verb.is("rode", "sailed", "climbed") || verb.in(saying) || verb.in(forms.be) || verb.in(forms.do) && first == i {
		return 0, 0, ""
	}
	begin, _ := ps.clause(i)
	begin = max(begin, ps.lineStart(i))
	if ps.at(begin).is("and", "but", "so", "then", "when", "as", "till", "until", "while") {
		begin++
	}
	subject := ps.nounPhrase(begin, first)
	if subject < 0 || !ps.joined(subject) || !acts(ps.at(subject)) {
		return 0, 0, ""
	}
	object := ps.nounPhrase(subject+1, first)
	if bare := ps.at(subject + 1); object < 0 && bare.Tag == grammar.NounPlural && first < i {
		object = subject + 1 // "the mouse peanuts would munch"
	}
	if object < 0 || !ps.joined(object) || ps.at(subject+1).Tag == grammar.Name || ps.at(object).in(timeNouns) || ps.at(subject+1).in(timeNouns) {
		return 0, 0, ""
	}
	if ps.at(first-1).Tag.IsAdverb() && first-1 > object {
		first-- // "a kettle of tea then brewed"
	}
	end := object
	switch next := ps.at(end + 1); {
	case (next.Tag == grammar.Preposition || next.Tag == grammar.To) && ps.nounPhrase(end+2, first) > 0:
		end = ps.nounPhrase(end+2, first)
	case next.Tag == grammar.Preposition && ps.at(end+2).Tag.IsNoun(): // "with butter"
		end += 2
	case next.is("one", "each", "every") && ps.at(end+2).in(timeNouns):
		end += 2
	}
	if end != first-1 || !ps.joined(end) || ps.at(i+1).finite() || ps.endsWith(i, "?") {
		return 0, 0, ""
	}
	// "The goat the farmer sold" is what he sold.
	led := ps.at(subject+1).Tag == grammar.Possessive && end > object
	if acts(ps.at(object)) && !led && !(ps.at(subject+1).is("a", "an") && ps.at(first).in(forms.do)) {
		return 0, 0, ""
	}
	return i, 0.74, fmt.Sprintf("%s waits until the line is over; English would say %s.", quote(capital(verb.lower)),
		quote(ps.span(begin, subject).In(ps.text)+" "+ps.span(first, i).In(ps.text)+" "+ps.span(subject+1, end).In(ps.text)))
}

// participleWaits hears "the hat was of paper made": what was done follows "was", and
// then of what, by whom, or where.
func participleWaits(ps *passage, i int) (int, float64, string) {
	made := ps.at(i)
	if made.first || !ps.joined(i-1) || !ps.closes(i) || made.Tag != grammar.VerbParticiple && made.Tag != grammar.VerbPast || made.in(intransitive) || made.in(goings) || ps.endsWith(i, "?") {
		return 0, 0, ""
	}
	be := ps.find(ps.lineStart(i), i-2, func(t *token) bool { return t.is("was", "were", "is", "are") })
	if be < 0 || !ps.joined(be) || ps.at(be+1).Tag != grammar.Preposition || ps.at(be+1).is("like", "as") || be > 0 && ps.at(be-1).is("there", "here") {
		return 0, 0, ""
	}
	waits := i
	if ps.at(i-1).Tag.IsAdverb() && ps.joined(i-2) {
		waits-- // "of paper now made"
	}
	end := ps.nounPhrase(be+2, waits)
	if bare := ps.at(be + 2); end < 0 && bare.Tag.IsNoun() && be+3 == waits {
		end = be + 2
	}
	if end != waits-1 || !ps.joined(be+1) {
		return 0, 0, ""
	}
	return i, 0.7, fmt.Sprintf("%s waits until the line is over; English would say %s.", quote(capital(made.lower)),
		quote(ps.at(be).Text+" "+made.Text+" "+ps.span(be+1, end).In(ps.text)))
}

// filledWith hears "the sky with stars was filled" and "with apples the barrel was filled":
// what fills a thing follows the filling.
func filledWith(ps *passage, i int) (int, float64, string) {
	filled, be := ps.at(i), ps.at(i-1)
	if filled.first || !filled.in(filling) || !be.is("was", "were", "is", "are") || !ps.joined(i-1) || !ps.closes(i) || ps.endsWith(i, "?") {
		return 0, 0, ""
	}
	begin, _ := ps.clause(i)
	begin = max(begin, ps.lineStart(i))
	if ps.at(begin).is("and", "but", "so", "then", "when", "as", "till", "until", "while") {
		begin++
	}
	with := ps.find(begin, i-1, func(t *token) bool { return t.lower == "with" })
	if with < 0 || ps.any(begin, i-1, func(t *token) bool {
		return t.finite() || t.Tag == grammar.Modal || t.Tag == grammar.WhPronoun || t.is("that", "which", "who", "and")
	}) {
		return 0, 0, ""
	}
	what := ps.nounPhrase(with+1, i-1)
	if bare := ps.at(with + 1); what < 0 && bare.Tag.IsNoun() {
		what = with + 1
	}
	fronted := with == begin && what >= 0 && ps.nounPhrase(what+1, i-1) == i-2
	// "A bear with a suitcase was packed" says which bear.
	between := with > begin && what == i-2 && what == with+1 && ps.nounPhrase(begin, with) == with-1
	if !fronted && !between {
		return 0, 0, ""
	}
	return i, 0.7, fmt.Sprintf("%s waits until the line is over; English would say %s.", quote(capital(filled.lower)),
		quote(be.Text+" "+filled.Text+" "+strings.ToLower(ps.span(with, what).In(ps.text))))
}

// filling are participles that "with" follows.
var filling = listed("filling")

// objectAfterClause hears "when evening came, his pipe he would smoke": behind a clause
// that says when, the sentence itself must come, and it opens with what is done to.
func objectAfterClause(ps *passage, i int) (int, float64, string) {
	verb := ps.at(i)
	first, carries := ps.helped(i)
	if first > 0 && ps.at(first-1).Tag.IsAdverb() && ps.joined(first-1) {
		first--
	}
	subject := first - 1
	if verb.first || ps.joined(i) || !carries || subject < 1 || !ps.at(subject).in(subjects) || ps.at(subject).lower == "it" || !ps.joined(subject) || !ps.joined(subject-1) ||
		verb.in(intransitive) || verb.in(goings) || verb.in(saying) || verb.in(forms.be) || ps.at(i+1).finite() || ps.endsWith(i, "?") {
		return 0, 0, ""
	}
	begin, _ := ps.clause(i)
	if begin == 0 || ps.at(begin-1).Break != manuscript.LightBreak || ps.nounPhrase(begin, subject) != subject-1 || ps.at(begin).in(timeNouns) || ps.at(subject-1).in(timeNouns) {
		return 0, 0, ""
	}
	before, _ := ps.clause(begin - 1)
	if ps.at(before).is("and", "but", "so") {
		before++
	}
	if !ps.at(before).is("when", "as", "if", "once", "after", "before", "till", "until", "while", "because", "whenever", "since") || !ps.any(before+1, begin, func(t *token) bool { return t.finite() || t.in(forms.be) || t.in(forms.have) }) {
		return 0, 0, ""
	}
	return i, 0.74, fmt.Sprintf("%s comes first so that the line can end on %s; at breakfast I would hear %s.", capital(ps.words(begin, subject-1)), quote(verb.Text),
		ps.told(subject, i, begin, subject-1))
}

// songTheySang hears "they danced, and a song they sang": whoever acted in the clause
// before acts again, and the thing is told first.
func songTheySang(ps *passage, i int) (int, float64, string) {
	verb := ps.at(i)
	first, carries := ps.helped(i)
	subject := first - 1
	if ps.at(subject).is("all", "both") && ps.joined(subject) {
		subject--
	}
	if verb.first || ps.joined(i) || !carries || subject < 2 || !ps.at(subject).in(subjects) || !ps.joined(subject) || !ps.joined(subject-1) ||
		verb.in(intransitive) || verb.in(goings) || verb.in(forms.be) || verb.in(forms.have) || ps.at(i+1).finite() || ps.endsWith(i, "?") {
		return 0, 0, ""
	}
	begin, _ := ps.clause(i)
	if ps.at(begin).lower != "and" || begin == 0 || ps.nounPhrase(begin+1, subject) != subject-1 || ps.at(subject-1).in(timeNouns) {
		return 0, 0, ""
	}
	from, _ := ps.sentence(i)
	// "A candle she lit, and the curtains she drew": one clause turned as the other.
	both := ps.at(begin-2).lower == ps.at(subject).lower && ps.at(begin-1).Tag == grammar.VerbPast && ps.nounPhrase(from, begin-2) == begin-3
	// Nobody says "the yarn that she did wind".
	what, who := ps.at(subject-1), ps.at(subject)
	named := acts(what) || who.lower == "it" || who.lower == "they" && what.Tag == grammar.NounPlural // "the bell it did ring" is named twice
	did := first == i-1 && ps.at(first).in(forms.do) && !ps.at(i+1).finite() && !named
	if !both && !did && !ps.at(begin+1).is("a", "an", "some") {
		return 0, 0, ""
	}
	if did && (ps.any(from, begin, (*token).finite) || ps.at(begin+1).is("a", "an")) {
		return i, 0.66, turnedAfterAnd(ps, begin, subject, i)
	}
	does := ps.find(from, begin, func(t *token) bool { return t.finite() && !t.in(owning) && !t.in(forms.have) })
	if does < 0 || !ps.sameActor(does, subject) {
		return 0, 0, ""
	}
	return i, 0.66, turnedAfterAnd(ps, begin, subject, i)
}

// turnedAfterAnd says how a clause that "and" opens at token begin would be told.
func turnedAfterAnd(ps *passage, begin, subject, i int) string {
	return fmt.Sprintf("%s comes before the telling of it, so that the line can end on %s; English would say %s.", capital(ps.words(begin+1, subject-1)), quote(ps.at(i).Text),
		quote(ps.span(subject, i).In(ps.text)+" "+strings.ToLower(ps.span(begin+1, subject-1).In(ps.text))))
}

// sameActor reports whether who does what a verb tells may be whom a pronoun means: the
// same pronoun stands before it, or a name or a person stands next to it.
func (ps *passage) sameActor(verb, pronoun int) bool {
	who := ps.at(pronoun)
	if before := ps.at(verb - 1); before.lower == who.lower {
		return true
	} else if before.Tag.IsNoun() && acts(before) {
		return who.is("he", "she", "they")
	}
	after := ps.at(verb + 1)
	return ps.at(verb).in(saying) && after.Tag.IsNoun() && acts(after) && who.is("he", "she", "they")
}

// objectBeforeDoer hears "on Tuesdays the laundry my uncle would do": a phrase of time or
// place opens the sentence, and what is done stands before who does it. So does "to the
// hedgehog a slice the baker passed", where the sentence has no other verb.
func objectBeforeDoer(ps *passage, i int) (int, float64, string) {
	verb := ps.at(i)
	first, carries := ps.helped(i)
	if verb.first || ps.joined(i) || !carries || verb.in(intransitive) || verb.in(goings) || verb.in(saying) || verb.in(forms.be) || ps.at(i+1).finite() || ps.endsWith(i, "?") {
		return 0, 0, ""
	}
	begin, _ := ps.sentence(i)
	if ps.at(begin).is("and", "but", "so", "then") {
		begin++
	}
	if begin < ps.lineStart(i) || ps.any(begin, i, func(t *token) bool { return t.Break != manuscript.NoBreak }) || ps.at(begin).Tag != grammar.Preposition {
		return 0, 0, ""
	}
	when := ps.nounPhrase(begin+1, first)
	if bare := ps.at(begin + 1); when < 0 && bare.Tag.IsNoun() {
		when = begin + 1
	}
	object := ps.nounPhrase(when+1, first)
	if when < 0 || object < 0 || acts(ps.at(object)) || ps.at(object).in(timeNouns) {
		return 0, 0, ""
	}
	if given := ps.at(begin).lower == "to" && acts(ps.at(when)); first == i && !(given && ps.at(i).Break != manuscript.NoBreak && (ps.at(i).Break >= manuscript.HeavyBreak || ps.tellsAllThere(i))) {
		return 0, 0, ""
	}
	subject := ps.nounPhrase(object+1, first)
	if subject != first-1 || !acts(ps.at(subject)) {
		return 0, 0, ""
	}
	return i, 0.66, fmt.Sprintf("%s comes before the telling of it, so that the line can end on %s; English would say %s.", capital(ps.words(when+1, object)), quote(verb.Text),
		ps.told(object+1, i, when+1, object))
}
