package checks

import (
	"fmt"
	"strings"

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
	if ps.at(subject).Tag.IsAdverb() && ps.joined(subject-1) {
		subject-- // "she quickly ran"
	}
	switch {
	case ps.at(subject).in(forms.do) && bareVerb(verb):
		if subject--; ps.at(subject).Tag.IsAdverb() && ps.joined(subject-1) {
			subject-- // "she then did ride"
		}
	case verb.Tag != grammar.VerbPast && verb.Tag != grammar.VerbThird && verb.Tag != grammar.VerbParticiple && verb.Tag != grammar.VerbPresent:
		return 0, 0, false
	}
	switch s := ps.at(subject); {
	case s.in(subjects):
	case s.Tag.IsNoun():
		for ps.at(subject-1).Tag.IsAdjective() && ps.joined(subject-1) {
			subject-- // "the whole family"
		}
		if subject--; ps.at(subject).Tag != grammar.Determiner && ps.at(subject).Tag != grammar.Possessive {
			return 0, 0, false
		}
	case s.Tag == grammar.Name:
		for subject-1 > begin && ps.joined(subject-1) && ps.at(subject-1).Tag == grammar.Adjective {
			subject--
		}
	default:
		return 0, 0, false
	}
	return begin, subject, begin < subject && ps.joined(subject)
}

// complementFronted hears "of honey he dreamed" and "to home they went": what
// the verb asks for has gone before it. A path, a place and a time may go first.
func complementFronted(ps *passage, i int) (int, float64, string) {
	begin, subject, ok := fronted(ps, i)
	if !ok || ps.at(i).Break < manuscript.HeavyBreak && !ps.at(i+1).is("while", "when", "and", "till", "until") {
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
		quote(verb.Text), ps.told(subject, i, begin, subject-1))
}

// asksFor are verbs with the preposition of their object.
var asksFor = pairs("asksFor")

// mannerFronted hears "neatly she tied": a verb that wants an object ends the
// line without one, since its adverb has gone first.
func mannerFronted(ps *passage, i int) (int, float64, string) {
	begin, subject, ok := fronted(ps, i)
	if !ok || subject != begin+1 || ps.at(i).Break != manuscript.FullBreak || !ps.at(begin).Tag.IsAdverb() || !ps.at(subject).in(subjects) || !ps.at(i).in(unfinished) {
		return 0, 0, ""
	}
	return i, 0.66, fmt.Sprintf("%s comes first so that the line can end on %s, which still waits for what was %s.", capital(ps.words(begin, begin)), quote(ps.at(i).Text), ps.at(i).lower)
}

// unfinished are past forms of verbs that do not end a sentence by themselves.
var unfinished = listed("unfinished")

// pronounLast hears "up the hill went she": a noun may follow its verb so, a
// pronoun of today may not.
func pronounLast(ps *passage, i int) (int, float64, string) {
	subject, verb := ps.at(i), ps.at(i-1)
	if subject.first || !subject.is("he", "she", "they", "we", "i") || ps.joined(i) || !ps.joined(i-1) || verb.Tag != grammar.VerbPast ||
		verb.in(forms.be) || verb.in(forms.do) || verb.in(forms.have) && verb.lower != "had" || verb.in(saying) || ps.endsWith(i, "?") || subject.Quoted {
		return 0, 0, ""
	}
	begin, _ := ps.clause(i)
	if owned := ps.nounPhrase(begin, i-1); verb.lower == "had" { // "a letter in her bill had she"
		if owned < 0 || ps.at(begin).lower != "a" || ps.any(owned, i-1, func(t *token) bool { return t.Tag.IsVerb() || t.Tag == grammar.WhPronoun }) {
			return 0, 0, ""
		}
		return i - 1, 0.7, fmt.Sprintf("The line turns round so that %s can rhyme; my ear expects %s.", quote(subject.Text), quote(subject.Text+" "+verb.Text))
	}
	if begin >= i-1 || ps.any(begin, i, func(t *token) bool {
		return t.in(forms.negation) || t.in(subjects) && t != subject || t.is("only", "so", "than", "as", "if", "had", "were", "how", "what", "where", "when", "seldom", "rarely", "who")
	}) {
		return 0, 0, ""
	}
	if first := ps.at(begin); first.Tag != grammar.Preposition && first.Tag != grammar.Particle && !first.Tag.IsAdverb() && first.lower != "home" {
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

// objectBeforeSubject hears "down in the cellar a barrel he found": the clause
// opens with a phrase of its own, so what stands before subject and verb is no
// thing of which more is said. After "and" it is heard where the same one acted
// already: "he opened the door and a lantern he lit".
func objectBeforeSubject(ps *passage, i int) (int, float64, string) {
	verb := ps.at(i)
	if verb.first || ps.joined(i) || !ps.joined(i-1) || verb.in(intransitive) || verb.in(saying) && verb.lower != "see" || verb.in(forms.be) || verb.in(forms.have) && verb.lower != "had" || verb.in(forms.do) ||
		ps.endsWith(i, "?") || ps.endsWith(i, "!") {
		return 0, 0, ""
	}
	first, carries := ps.helped(i)
	s := first - 1
	if !carries || !ps.at(s).in(subjects) || ps.at(s).lower == "it" || !ps.joined(s) || !ps.joined(s-1) {
		return 0, 0, ""
	}
	begin, _ := ps.clause(i)
	k := s - 1 // the object: from its article to its noun
	if !ps.nominal(k) {
		return 0, 0, ""
	}
	for k > begin && (ps.at(k).Tag.IsNoun() || ps.at(k).Tag.IsAdjective()) {
		k--
	}
	d, lead := ps.at(k), ps.at(begin)
	if lead.is("and", "but", "then", "so") && begin+1 < k {
		lead = ps.at(begin + 1)
	}
	// "Firmly the dough with her knuckles she presses": a phrase of means may stand between.
	if with := k - 1; k > begin && ps.at(with).is("with", "from", "to") && with-1 > begin && ps.nominal(with-1) {
		if from := ps.phrase(with - 1); ps.at(from).Tag == grammar.Determiner || ps.at(from).Tag == grammar.Possessive {
			k, d = from, ps.at(from)
		}
	}
	if k <= begin || ps.at(k-1).line != verb.line || d.Tag != grammar.Determiner && d.Tag != grammar.Possessive || d.is("all", "each", "every", "that", "this") ||
		(ps.at(k-1).Tag == grammar.Preposition || ps.at(k-1).Tag == grammar.To) && !ps.doubled(k-1) || ps.at(s-1).in(timeNouns) || ps.at(k+1).in(timeNouns) ||
		ps.any(begin, s, func(t *token) bool {
			return t.Tag == grammar.WhPronoun || t.Tag == grammar.WhDeterminer || t.Tag == grammar.Modal || t.is("that", "as", "when", "where", "while", "if", "because", "than", "like", "till", "until", "what", "how")
		}) {
		return 0, 0, ""
	}
	if ps.at(i+1).finite() && !ps.doubled(k-1) {
		return 0, 0, ""
	}
	message := fmt.Sprintf("%s comes before the telling of it, so that the line can end on %s; English would say %s first.",
		capital(ps.words(k, s-1)), quote(verb.Text), quote(ps.span(s, i).In(ps.text)))
	acts := ps.find(begin, k, (*token).finite)
	switch {
	case acts < 0 && (ps.doubled(k-1) || lead.is("every", "each", "one", "that", "next") && ps.at(begin+1).in(timeNouns) || lead.is("round", "past") || lead.Tag == grammar.Preposition || lead.Tag == grammar.To || lead.Tag.IsAdverb() || lead.Tag == grammar.Particle):
		return i, 0.74, message
	case acts > begin && ps.at(acts-1).lower == ps.at(s).lower && ps.at(k-1).lower == "and" && !d.is("the") && !ps.at(acts).in(forms.have) && !ps.at(acts).in(forms.be):
		return i, 0.64, message
	}
	return 0, 0, ""
}

// placeThenDid hears "and on the ropes did heave": the phrase of place stands before a verb whose
// subject has been named a clause ago.
func placeThenDid(ps *passage, i int) (int, float64, string) {
	verb, did := ps.at(i), ps.at(i-1)
	if verb.first || !ps.joined(i-1) || !did.in(forms.do) || !bareVerb(verb) || !ps.closes(i) || ps.endsWith(i, "?") {
		return 0, 0, ""
	}
	begin, _ := ps.clause(i)
	begin = max(begin, ps.lineStart(i))
	if ps.at(begin).is("and", "who", "then") {
		begin++
	}
	place := ps.at(begin)
	if place.Tag != grammar.Preposition || place.is("like", "as", "that", "if", "of") || ps.nounPhrase(begin+1, i-1) != i-2 || ps.at(i-2).in(weathers) {
		return 0, 0, "" // "and down the rain did pour"
	}
	return i, 0.7, fmt.Sprintf("%s comes first so that the line can end on %s; English would say %s.", capital(ps.words(begin, i-2)), quote(verb.Text),
		quote(ps.span(i-1, i).In(ps.text)+" "+strings.ToLower(ps.span(begin, i-2).In(ps.text))))
}

// doubled reports whether a token says again what stands before an "and": "round and
// round" opens no phrase.
func (ps *passage) doubled(i int) bool {
	return ps.at(i-1).lower == "and" && ps.at(i-2).lower == ps.at(i).lower && ps.joined(i-2) && ps.joined(i-1)
}

// goalFirst hears "the moose to the library came", "the ducklings up to the table did
// climb" and "when to the counter a guest came": where somebody goes is said before the
// going.
func goalFirst(ps *passage, i int) (int, float64, string) {
	verb, end, confidence := ps.at(i), i, 0.68
	if ps.at(i-1).in(forms.do) && ps.joined(i-1) && bareVerb(verb) {
		end, confidence = i-1, 0.74
	} else if verb.Tag != grammar.VerbPast && verb.Tag != grammar.VerbThird || !verb.in(goings) {
		return 0, 0, ""
	}
	if verb.first || !ps.closes(i) || ps.endsWith(i, "?") {
		return 0, 0, ""
	}
	begin, _ := ps.clause(i)
	begin = max(begin, ps.lineStart(i))
	to := ps.find(begin, end, func(t *token) bool { return t.is("to", "into", "unto", "towards", "toward") })
	if to < 0 || ps.any(to+1, end, func(t *token) bool {
		return t.finite() || t.Tag == grammar.Verb || t.Tag == grammar.Modal || t.is("that", "which", "who", "where")
	}) || ps.any(begin, to, func(t *token) bool { return t.finite() || t.Tag == grammar.Modal }) {
		return 0, 0, ""
	}
	goer, first := to-1, ps.at(begin)
	if end < i && ps.at(goer).is("up", "down", "home", "back", "out", "over") {
		goer--
	}
	subject := ps.at(goer)
	switch {
	case goer >= begin && subject.Tag.IsNoun() && !subject.in(leading) && (first.Tag == grammar.Determiner || first.Tag == grammar.Possessive || first.is("and", "but", "as", "so")) &&
		!ps.any(begin, goer, func(t *token) bool { return t.Tag == grammar.Preposition && !t.is("as") }) && !ps.any(to+1, end, func(t *token) bool { return t.in(subjects) }):
		// One phrase stands between the goer and the going.
		nouns := 0
		for k := to + 1; k < end; k++ {
			if ps.at(k).Tag.IsNoun() && !ps.at(k+1).Tag.IsNoun() {
				nouns++
			}
		}
		if nouns != 1 {
			return 0, 0, ""
		}
	case end == i && to == begin+1 && first.is("when", "as", "till", "until", "while", "before") && (ps.at(to+1).Tag == grammar.Determiner || ps.at(to+1).Tag == grammar.Possessive):
	default:
		return 0, 0, ""
	}
	said := verb.lower
	if end < i {
		said = ps.span(end, i).In(ps.text)
	}
	return i, confidence, fmt.Sprintf("%s waits until the line is over; English would say first who %s, and then where.", quote(capital(verb.lower)), said)
}

var (
	// goings are past forms of verbs of going, which end in a place.
	goings = listed("goings")
	// leading are nouns that lead somewhere by themselves: "the road to the mill".
	leading = listed("leading")
)

// predicateFirst hears "Wilma very chilly grew": what somebody became is said
// before the becoming.
func predicateFirst(ps *passage, i int) (int, float64, string) {
	verb, adjective := ps.at(i), ps.at(i-1)
	if verb.first || !verb.in(becoming) || adjective.Tag != grammar.Adjective || !ps.joined(i-1) || !ps.closes(i) || ps.endsWith(i, "?") {
		return 0, 0, ""
	}
	start, k := ps.lineStart(i), i-2
	for k > start && ps.joined(k) && (ps.at(k).Tag.IsAdverb() || ps.at(k).Tag == grammar.Adjective || ps.at(k).lower == "and" || ps.at(k).lower == "all") {
		k--
	}
	subject := ps.at(k)
	if k < start || !ps.joined(k) || !subject.in(subjects) && !subject.Tag.IsNoun() {
		return 0, 0, ""
	}
	from, _ := ps.clause(i)
	if ps.any(from, i, func(t *token) bool {
		return t.finite() || t.Tag == grammar.Verb || t.Tag == grammar.VerbPresent || t.is("that", "what", "how", "as")
	}) {
		return 0, 0, ""
	}
	return i, 0.74, fmt.Sprintf("%s waits until the line is over; English would say %s.", quote(capital(verb.lower)),
		quote(subject.Text+" "+verb.Text+" "+ps.span(k+1, i-1).In(ps.text)))
}

// becoming are past forms of verbs that join what somebody is like to his name.
var becoming = listed("becoming")

// toPlaceFirst hears "to the barn she quickly ran" and "to the hill he did
// climb". "To the fair they went" and "down the hill he ran" are English; with one
// word more before the verb, that word and the place have both been moved.
func toPlaceFirst(ps *passage, i int) (int, float64, string) {
	begin, subject, ok := fronted(ps, i)
	if !ok {
		return 0, 0, ""
	}
	to := ps.find(begin, subject, func(t *token) bool { return t.lower == "to" })
	if helper := ps.at(i - 1); to < 0 || !helper.in(forms.do) && !(helper.Tag.IsAdverb() && ps.at(i).in(goings)) || ps.any(to, subject, func(t *token) bool { return t.in(timeNouns) }) || to > begin && !ps.at(to-1).in(timeNouns) {
		return 0, 0, ""
	}
	if d := ps.at(to + 1); d.Tag != grammar.Determiner && d.Tag != grammar.Possessive && !d.is("bed", "town", "school", "sea", "church", "market", "shore", "work", "supper") || ps.any(to+2, subject, func(t *token) bool {
		return t.Tag.IsVerb() || t.Tag == grammar.Modal || t.lower == "and" || t.is("that", "which", "who", "where")
	}) {
		return 0, 0, ""
	}
	return i, 0.64, fmt.Sprintf("%s comes first so that the line can end on %s; at breakfast I would hear %s.", capital(ps.words(to, subject-1)), quote(ps.at(i).Text),
		ps.told(subject, i, to, subject-1))
}

// objectInClause hears "if the light they can't see": a clause that "if" or
// "when" opens, and that ends with its verb, has its object before its subject.
// "If the songs they sing are long" goes on to another verb.
func objectInClause(ps *passage, i int) (int, float64, string) {
	verb := ps.at(i)
	if verb.first || ps.joined(i) || !ps.joined(i-1) || verb.in(intransitive) || verb.in(goings) || verb.in(forms.be) || verb.in(forms.do) || ps.endsWith(i, "?") {
		return 0, 0, ""
	}
	s := i - 1
	if helper := ps.at(s); (helper.Tag == grammar.Modal || helper.in(forms.do) || helper.in(forms.modal) || helper.in(forms.negation)) && bareVerb(verb) ||
		helper.in(forms.have) && (verb.Tag == grammar.VerbParticiple || verb.Tag == grammar.VerbPast) {
		s--
	} else if verb.Tag != grammar.VerbPast && verb.Tag != grammar.VerbThird && verb.Tag != grammar.VerbPresent {
		return 0, 0, ""
	}
	if !ps.at(s).in(subjects) || !ps.joined(s) || !ps.joined(s-1) || !ps.at(s-1).Tag.IsNoun() || ps.at(s-1).in(timeNouns) {
		return 0, 0, ""
	}
	k := ps.phrase(s - 1)
	if d := ps.at(k); d.Tag != grammar.Determiner && d.Tag != grammar.Possessive || k == 0 || !ps.joined(k-1) {
		return 0, 0, ""
	}
	opener := ps.at(k - 1)
	if !opener.is("if", "when", "because", "till", "until", "unless", "since") || opener.Quoted {
		return 0, 0, ""
	}
	// What goes on after the comma must have a subject of its own.
	aside := k > 1 && ps.opens(k-1) && ps.at(k-2).Tag.IsNoun() // "the bear, when the honey he smelled, came"
	if next := ps.at(i + 1); ps.at(i).Break == manuscript.LightBreak && next.finite() && !aside {
		return 0, 0, ""
	}
	return i, 0.72, fmt.Sprintf("%s comes before the telling of it, so that the line can end on %s; English would say %s.", capital(ps.words(k, s-1)), quote(verb.Text),
		ps.told(s, i, k, s-1))
}

// objectAfterAnd hears "and a photo took": whoever acted in the clause before
// acts on, and the verb still waits for its object when the sentence ends.
func objectAfterAnd(ps *passage, i int) (int, float64, string) {
	verb := ps.at(i)
	if verb.first || ps.at(i).Break != manuscript.FullBreak || !ps.joined(i-1) || !verb.in(unfinished) || !ps.at(i-1).Tag.IsNoun() {
		return 0, 0, ""
	}
	k := ps.phrase(i - 1)
	if d := ps.at(k); d.Tag != grammar.Determiner && d.Tag != grammar.Possessive || k == 0 || ps.at(k-1).lower != "and" || !ps.at(k-1).first {
		return 0, 0, ""
	}
	begin, _ := ps.sentence(i)
	if !ps.any(begin, k-1, (*token).finite) {
		return 0, 0, ""
	}
	return i, 0.68, fmt.Sprintf("%s waits until the line is over; English would say %s.", quote(capital(verb.lower)), quote(verb.Text+" "+ps.span(k, i-1).In(ps.text)))
}

// thereLast hears "if a flower there might be": what there is is said before
// that it is.
func thereLast(ps *passage, i int) (int, float64, string) {
	be := ps.at(i)
	if be.first || !be.in(forms.be) || ps.joined(i) || !ps.joined(i-1) || ps.endsWith(i, "?") {
		return 0, 0, ""
	}
	there := i - 1
	if ps.at(there).in(forms.modal) {
		there--
	}
	if ps.at(there).lower != "there" || !ps.joined(there) || !ps.joined(there-1) || !ps.at(there-1).Tag.IsNoun() {
		return 0, 0, ""
	}
	k := ps.phrase(there - 1)
	if d := ps.at(k); d.Tag != grammar.Determiner || d.is("all", "the", "that", "this") {
		return 0, 0, ""
	}
	return i, 0.7, fmt.Sprintf("%s comes before it is said to be there, so that the line can end on %s; English would say %s.", capital(ps.words(k, there-1)), quote(be.Text),
		ps.told(there, i, k, there-1))
}
