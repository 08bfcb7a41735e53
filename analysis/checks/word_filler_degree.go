package checks

import (
	"fmt"
	"strings"

	"dandle/analysis/manuscript"
	"dandle/phonetics/grammar"
)

// A degree is a word of degree with what stands round it. Before is empty where the
// degree opens its clause.
type degree struct {
	ps           *passage
	at           int
	before, next *token
	said         string // what is said of most of them
}

// A degreeRule answers as a fillerRule does, for one word of degree.
type degreeRule func(d *degree) (n int, confidence float64, message string)

// degrees are the words of degree with their rules. Their licences are those of the
// handbooks' deletion test: where the sentence leans on the word, it stays.
var degrees = map[string]degreeRule{
	"very": (*degree).very, "so": (*degree).so, "ever": (*degree).everSo, "oh": (*degree).everSo, "pretty": (*degree).pretty,
	"quite": (*degree).quite, "terribly": (*degree).quite, "awfully": (*degree).quite, "incredibly": (*degree).quite, "extremely": (*degree).quite, "rather": (*degree).rather,
	"really": (*degree).really, "actually": (*degree).really, "truly": (*degree).truly, "simply": (*degree).truly,
	"just": (*degree).just, "such": (*degree).such, "most": (*degree).most,
	"totally": (*degree).wholly, "completely": (*degree).wholly, "absolutely": (*degree).wholly, "utterly": (*degree).wholly, "entirely": (*degree).wholly,
	"dreadfully": (*degree).quite, "frightfully": (*degree).quite, "positively": (*degree).quite, "mighty": (*degree).quite, "super": (*degree).quite, "extra": (*degree).quite, "certainly": (*degree).certainly, "definitely": (*degree).certainly, "indeed": (*degree).indeed, "fairly": (*degree).rather, "downright": (*degree).quite,
}

// intensifier suspects degree words before a plain adjective or adverb.
func intensifier(ps *passage, i int) (int, float64, string) {
	t, next, before := ps.at(i), ps.at(i+1), ps.at(i-1)
	rule := degrees[t.lower]
	if rule == nil || !ps.joined(i) || before.lower == t.lower || next.lower == t.lower || ps.chants(i) || ps.climbs(i) {
		return 0, 0, ""
	}
	// Denial needs the word; a cry opens with "how" or "what".
	if from, _ := ps.clause(i); ps.any(from, i, func(t *token) bool { return t.in(forms.negation) || t.is("how", "what") }) {
		return 0, 0, ""
	}
	if ps.opens(i) {
		before = &token{}
	}
	head := i + 1
	for degrees[ps.at(head).lower] != nil && ps.joined(head) {
		head++ // of "really so wet" it is "wet"
	}
	return rule(&degree{ps: ps, at: i, before: before, next: next, said: fmt.Sprintf(
		"%s keeps time but shows me nothing; %s could carry the line alone, or one longer word could do the work of both.", quote(capital(t.lower)), quote(ps.at(head).Text))})
}

func (d *degree) very() (int, float64, string) {
	if from, to := d.ps.sentence(d.at); d.ps.at(from).is("just", "only", "nothing") && !d.ps.any(from, to, (*token).finite) {
		return 0, 0, "" // "just a very small key" says that it was no more
	}
	if d.before.lower == "the" && d.ps.joined(d.at+1) && d.ps.at(d.at+2).is("end", "edge", "top", "bottom", "back", "middle", "tip", "start") {
		return 0, 0, "" // "the very far end" is the end itself
	}
	if after := d.ps.at(d.at + 2); d.next.lower == "much" && d.ps.joined(d.at+1) && d.before.in(forms.be) && after.Tag == grammar.Adjective && !after.is("like", "alive", "alike") {
		return 2, 0.7, d.said
	}
	if !d.next.gradable() || d.next.Tag == grammar.Superlative ||
		d.next.is("first", "last", "next", "same", "best", "worst", "own", "much", "few", "many", "well", "nearly", "likely", "soon", "middle", "top", "end", "edge") {
		return 0, 0, ""
	}
	return 1, 0.82, d.said
}

func (d *degree) so() (int, float64, string) { return soBefore(d.ps, d.at, d.said) }

func (d *degree) just() (int, float64, string) { return justBefore(d.ps, d.at) }

// everSo hears "ever so" and "oh so".
func (d *degree) everSo() (int, float64, string) {
	if d.next.lower != "so" {
		return 0, 0, ""
	}
	n, c, _ := soBefore(d.ps, d.at+1, "")
	leads := d.ps.at(d.at + 2)
	if d.ps.at(d.at).lower == "ever" && d.ps.joined(d.at+1) && leads.gradable() && !leads.in(soMeasures) {
		n, c = 1, 0.78 // "ever so" leads to no "that"
	}
	if n == 0 {
		return 0, 0, ""
	}
	return 2, max(c, 0.78), fmt.Sprintf("%s keeps time but shows me nothing; %s could carry the line alone.", capital(d.ps.words(d.at, d.at+1)), quote(leads.Text))
}

// pretty hears "it was pretty cold"; a pretty little house is pretty.
func (d *degree) pretty() (int, float64, string) {
	joins := d.before.in(forms.be) || d.before.is("felt", "looked", "seemed", "got", "grew") || d.before.Tag.IsVerb() && d.ps.joined(d.at-1)
	if !joins || d.next.Tag != grammar.Adjective || d.next.is("sure", "much", "little") || d.ps.joined(d.at+1) && d.ps.at(d.at+2).Tag.IsNoun() {
		return 0, 0, ""
	}
	return 1, 0.62, d.said
}

// moods are participles of how somebody feels, which has degrees.
var moods = listed("moods")

// absolute are what a thing is or is not: "quite still" is still to the last whisker.
var absolute = listed("absolute")

// quite hears "quite", and "terribly" and "awfully" as it.
func (d *degree) quite() (int, float64, string) {
	if !d.next.gradable() && !leanedOn(d.next) && !d.next.in(moods) || d.next.Tag == grammar.VerbParticiple && !d.next.in(moods) || d.concedes() ||
		d.next.is("in", "at", "out", "enough", "so", "often") || d.next.in(absolute) || d.next.lower == "well" && d.before.lower != "was" {
		return 0, 0, ""
	}
	if d.ps.at(d.at).lower != "quite" && d.next.in(soMeasures) && d.ps.at(d.at+2).is("way", "time", "while") {
		return 0, 0, "" // "an awfully long way home" measures
	}
	return 1, 0.76, d.said
}

// wholly hears "totally" where nothing could be so by half; who is completely lost has no
// way back.
func (d *degree) wholly() (int, float64, string) {
	if d.next.Tag == grammar.VerbParticiple && !d.next.in(moods) || d.next.is("different") {
		return 0, 0, ""
	}
	if n, _, message := d.quite(); n > 0 {
		return n, 0.64, message
	}
	return 0, 0, ""
}

// most hears "a most amazing shawl", which is compared with no other.
func (d *degree) most() (int, float64, string) {
	if !d.before.is("a", "an") || !d.next.gradable() || !d.ps.joined(d.at-1) {
		return 0, 0, ""
	}
	return 1, 0.74, d.said
}

func (d *degree) rather() (int, float64, string) {
	if !d.next.gradable() && !leanedOn(d.next) || d.concedes() || d.next.is("than", "like", "far") || d.before.in(forms.modal) || d.before.is("or", "had", "i'd") {
		return 0, 0, ""
	}
	return 1, 0.74, d.said
}

func (d *degree) truly() (int, float64, string) {
	if d.ps.at(d.at).lower == "simply" && d.next.is("adored", "loved", "hated", "adores", "loves", "hates") && (d.before.in(subjects) || d.before.Tag.IsNoun()) {
		return 1, 0.64, d.said
	}
	// "She really is", "they knew it really happened", "it had simply gone", "is it truly so?".
	// So does what only seemed otherwise: "it was really a frog, though it sounded like a door".
	from, to := d.ps.sentence(d.at)
	if d.ps.at(d.at).lower == "simply" && d.next.Tag == grammar.VerbPast && !d.next.in(forms.be) && !d.next.in(forms.have) && (d.before.in(subjects) || d.before.Tag.IsNoun()) && !d.next.in(handingOn) {
		return 1, 0.58, d.said
	}
	needed := hasHad(d.before) || d.ps.any(from, to, func(t *token) bool { return t.is("though", "although", "but") }) && d.next.is("a", "an") || d.ps.endsWith(d.at, "?") || d.next.in(forms.be) || d.next.in(forms.do) || d.ps.any(d.at-9, d.at, func(t *token) bool { return t.in(handingOn) })
	if insists := d.ps.at(d.at).lower == "truly" && d.next.in(forms.be) && d.ps.joined(d.at+1) && d.before.in(subjects) && d.ps.at(d.at+2).Tag == grammar.Determiner; insists && !d.ps.endsWith(d.at, "?") && !d.ps.any(d.at-9, d.at, func(t *token) bool { return t.in(handingOn) }) {
		return 1, 0.6, fmt.Sprintf("%s insists on what nobody doubted; %s could stand without it.", quote(capital(d.ps.at(d.at).lower)), quote(d.next.Text)) // "we truly are the best"
	}
	if !needed && d.before.is("was", "were", "is", "are") && d.next.is("a", "an", "the") && !d.ps.at(d.at).is("simply") {
		return 1, 0.6, fmt.Sprintf("%s insists on what nobody doubted; %s could stand without it.", quote(capital(d.ps.at(d.at).lower)), quote(d.before.Text))
	}
	if needed || !d.next.gradable() || d.next.is("not", "never") {
		return 0, 0, ""
	}
	return 1, 0.74, d.said
}

// certainly hears "he certainly was a sight" and "it was certainly cold", where nobody doubted
// it. What is guessed at, or granted against another thing, needs the word.
func (d *degree) certainly() (int, float64, string) {
	ps, i := d.ps, d.at
	from, to := ps.sentence(i)
	needed := ps.endsWith(i, "?") || hasHad(d.before) || ps.any(from, to, func(t *token) bool {
		return t.is("but", "though", "although", "if") || t.in(forms.modal) || t.in(handingOn)
	})
	be := d.next.in(forms.be) && ps.joined(i+1) && (d.before.in(subjects) || d.before.Tag.IsNoun())
	if needed || !be && !(d.before.in(forms.be) && (d.next.gradable() || leanedOn(d.next))) {
		return 0, 0, ""
	}
	said := d.next
	if !be {
		said = d.before
	}
	return 1, 0.64, fmt.Sprintf("%s insists on what nobody doubted; %s could stand without it.", quote(capital(ps.at(i).lower)), quote(said.Text))
}

// indeed hears "the owl was indeed wise" and "was indeed very wise".
func (d *degree) indeed() (int, float64, string) {
	if !d.before.in(forms.be) || !d.next.gradable() && !leanedOn(d.next) || d.ps.endsWith(d.at, "?") {
		return 0, 0, ""
	}
	return 1, 0.62, "“Indeed” nods at what nobody doubted; the sentence could go on without it."
}

// really hears what truly does, and "it really looked": before a verb nothing is leant on.
func (d *degree) really() (int, float64, string) {
	if n, c, message := d.truly(); n > 0 || d.next.gradable() {
		return n, c, message
	}
	lately := func(is func(*token) bool) bool { return d.ps.any(d.at-9, d.at, is) }
	teller := d.before.in(subjects) || d.before.lower == "just"
	tells := d.next.Tag.IsVerb() && d.next.Tag != grammar.Verb || teller && grammar.CanBe(d.next.lower, grammar.Verb)
	if !tells || hasHad(d.before) || d.next.in(forms.be) || d.next.in(forms.do) || d.before.is("but", "what", "who", "if") || d.ps.endsWith(d.at, "?") ||
		lately(func(t *token) bool { return t.in(handingOn) || t.lower == d.next.lower }) {
		return 0, 0, ""
	}
	return 1, 0.64, d.said
}

// hasHad reports whether a token has a form of "have" in it: of "he'd really believed it" the
// word tells what was so.
func hasHad(t *token) bool {
	return t.in(forms.have) || strings.HasSuffix(t.lower, "'d") || strings.HasSuffix(t.lower, "'ve")
}

// such hears "such a pretty shell" where nothing comes of it.
func (d *degree) such() (int, float64, string) {
	ps, i, adjective := d.ps, d.at, d.ps.at(d.at+2)
	if d.next.in(weakJudging) && ps.joined(i+1) && adjective.Tag.IsNoun() && d.before.in(forms.be) && !ps.endsWith(i, "?") {
		return 1, 0.6, fmt.Sprintf("%s asks me to marvel without showing me why; %s could do that by itself.", quote("Such"), quote(d.next.Text)) // "it was such great fun"
	}
	if !d.next.is("a", "an") || !adjective.gradable() && adjective.lower != "fun" || d.before.is("no", "any", "with") {
		return 0, 0, ""
	}
	_, end := ps.sentence(i)
	from, to := ps.clause(i)
	if last := ps.at(to - 1); from == i && (!ps.any(i, to, (*token).finite) || last.in(forms.be) && ps.at(to-2).in(subjects)) {
		return 0, 0, "" // a cry of delight: "such a lovely old clock!", "such a sight it was"
	}
	if ps.endsWith(i, "?") || ps.any(i+2, min(end, to+1), func(t *token) bool { return t.is("that", "as") }) {
		return 0, 0, ""
	}
	return 1, 0.6, fmt.Sprintf("%s asks me to marvel without showing me why; %s could do that by itself.", quote("Such"), quote(adjective.Text))
}

// chants reports whether the line says the token and the one after it twice: "a really big
// worry, a really big frown".
func (ps *passage) chants(i int) bool {
	for k := ps.lineStart(i); k < ps.lineEnd(i); k++ {
		if k != i && ps.at(k).lower == ps.at(i).lower && ps.at(k+1).lower == ps.at(i+1).lower {
			return true
		}
	}
	return false
}

// climbs reports whether the degree goes one step up from what the line has said: "old,
// very old", or is beaten like a drum: "a very old, very small, very pink pig".
func (ps *passage) climbs(i int) bool {
	beaten := 0
	for k := ps.lineStart(i); k <= ps.lineEnd(i); k++ {
		if k < i && ps.at(k).lower == ps.at(i+1).lower {
			return true
		}
		if ps.at(k).lower == ps.at(i).lower {
			beaten++
		}
	}
	return beaten >= 3
}

// concedes reports whether what the degree measures is granted against what a "but" brings
// in the same breath: "the stairs were quite steep, but he climbed them".
func (d *degree) concedes() bool {
	but := d.ps.at(d.at + 2)
	return d.ps.at(d.at).is("quite", "rather") && !d.ps.joined(d.at+1) && but.is("but", "yet") && but.line == d.next.line
}

// leanedOn reports whether what is tagged as a noun behind a degree is an adjective:
// nobody is "rather cross" as a cross is.
func leanedOn(t *token) bool {
	return t.Tag == grammar.Noun && grammar.CanBe(t.lower, grammar.Adjective)
}

// soBefore suspects "so" before an adjective that nothing follows from.
func soBefore(ps *passage, i int, said string) (int, float64, string) {
	next, before := ps.at(i+1), ps.at(i-1)
	if next.lower == "good" && ps.any(i-3, i, func(t *token) bool { return t.lower == "so" }) {
		return 0, 0, "" // "so far, so good"
	}
	measured := next.in(soMeasures) && !(next.lower == "long" && before.Tag == grammar.Noun && !before.in(timeNouns) && ps.joined(i-1) && !ps.joined(i+1)) // "a carrot so long"
	if !next.gradable() || !ps.joined(i) || measured {
		return 0, 0, ""
	}
	if !ps.opens(i) && (before.in(soNeeded) || before.in(objects)) {
		return 0, 0, "" // "even so bright"; "to see it so high" points at how high
	}
	if ps.endsWith(i, "?") {
		return 0, 0, "" // "was it really so deep?" asks how deep
	}
	// "So" opens many clauses as a connective: "so gladly they went".
	if ps.opens(i) && next.Tag.IsAdverb() {
		return 0, 0, ""
	}
	// The thing of which it is so may need no "that": "so cold he shook".
	last := i + 1
	for ps.joined(last) && (ps.at(last+1).is("and", "or") && ps.at(last+2).gradable()) {
		last += 2
	}
	if first := i - 3; ps.opens(i) && ps.at(i+2).lower == "and" && ps.at(i+3).lower == "so" || first >= 0 && ps.opens(first) && ps.at(first).lower == "so" && before.lower == "and" {
		return 0, 0, "" // "a heron, so thin and so narrow" beats its measure twice
	}
	begin, end := ps.sentence(i)
	_, close := ps.clause(last)
	if ps.any(last+1, end, func(t *token) bool { return t.lower == "that" }) || ps.any(last+1, close, func(t *token) bool { return t.lower == "as" }) {
		return 0, 0, ""
	}
	// "Never a bank so wide" compares.
	if ps.any(begin, i, func(t *token) bool { return t.in(forms.negation) }) {
		return 0, 0, ""
	}
	// "The moon so bright, the owl began": no sentence, but what goes with one.
	if from, to := ps.clause(i); before.Tag.IsNoun() && ps.at(from).Tag != grammar.Preposition && !ps.any(from, to, (*token).finite) && ps.at(last).Break == manuscript.LightBreak && ps.any(last+1, end, (*token).finite) {
		return 0, 0, ""
	}
	after := ps.at(last + 1)
	if after.in(forms.be) {
		return 0, 0, "" // "so happy was he": its order is another check's matter
	}
	if ps.joined(last) {
		// In "through the snow so deep she walked" nothing has been told yet of
		// which the depth could come to something.
		from, _ := ps.clause(i)
		_, to := ps.clause(last + 1)
		told := ps.any(from, i, func(t *token) bool { return t.finite() || t.in(forms.be) })
		comes := ps.any(last+1, to, func(t *token) bool { return t.Tag == grammar.Modal || t.in(forms.negation) })
		if ps.at(from).Tag == grammar.Preposition && !told && !comes {
			return 1, 0.66, said
		}
		if after.subject() || after.is("it", "he", "she", "we", "they", "you", "i", "even", "not") {
			return 0, 0, ""
		}
	} else if ps.at(last).Break != manuscript.FullBreak && last+1 < end {
		// After a comma, what follows may be what it led to: "so still, you
		// could hear it". A list of like clauses is not.
		leads := ps.any(last+1, end, func(t *token) bool { return t.in(forms.modal) || t.in(forms.negation) })
		// Where the line ends and the next says only how things are, nothing has come of it.
		_, to := ps.clause(last + 1)
		is := ps.find(last+1, to, (*token).finite)
		likeIt := ps.any(last+1, end, func(t *token) bool { return t.is("so", "and", "but") }) || ps.at(last).last && is >= 0 && ps.at(is).in(forms.be)
		// "The moon comes out, so pale and thin," describes; only what is so comes to something.
		likeIt = likeIt || ps.opens(i) && ps.at(last).last && ps.any(begin, i, (*token).finite)
		if leads || after.subject() && !likeIt {
			return 0, 0, ""
		}
	}
	return 1, 0.76, said
}

var (
	// soMeasures are words that "so" measures: "so many", "so far" say how much.
	soMeasures = listed("soMeasures")
	// soNeeded are words that make a phrase with "so" after them.
	soNeeded = listed("soNeeded")
	// objects are pronouns that stand after their verb.
	objects = listed("objects")
)

// justBefore suspects "just" before a plain verb or adjective. Before what it
// can limit, it means "only", "exactly" or "a moment ago".
func justBefore(ps *passage, i int) (int, float64, string) {
	next, before := ps.at(i+1), ps.at(i-1)
	if next.is("really", "actually", "simply") && ps.joined(i+1) && grammar.CanBe(ps.at(i+2).lower, grammar.Verb) && before.in(subjects) {
		return 1, 0.66, fmt.Sprintf("%s adds a beat and no picture; %s could stand without it.", quote("Just"), quote(ps.at(i+2).Text))
	}
	if ps.opens(i) {
		if from, _ := ps.sentence(i); ps.any(from, i, func(t *token) bool { return t.in(forms.negation) }) {
			return 0, 0, "" // "he never said a word, just hummed" did no more
		}
		before = &token{}
	}
	if before.in(forms.have) || before.in(forms.modal) || before.is("but", "only", "not", "to", "that", "it's", "who'd", "i'd") {
		return 0, 0, ""
	}
	said := fmt.Sprintf("%s adds a beat and no picture; %s could stand without it.", quote("Just"), quote(next.Text))
	switch {
	case next.is("right", "enough", "then", "now", "about", "as", "like", "so", "because", "what", "where", "when", "how", "who", "why", "if", "in", "for", "to", "one", "once", "fine", "past"):
		return 0, 0, ""
	case next.in(narrowly), ps.joined(i+1) && ps.at(i+2).lower == "enough":
		return 0, 0, "" // "it just fitted" would not have by an inch
	case next.Tag == grammar.VerbPast, // but "he just wants" is "only wants"
		next.Tag == grammar.VerbParticiple && grammar.CanBe(next.lower, grammar.VerbPast) && !before.in(forms.be):
		if next.in(forms.be) || next.in(forms.have) || next.in(forms.negation) {
			return 0, 0, ""
		}
		return 1, 0.66, said
	case next.Tag.IsAdjective() && (before.in(forms.be) || before.in(becoming) && !ps.any(i-9, i, func(t *token) bool { return t.in(handingOn) })) && next.Tag == grammar.Adjective:
		return 1, 0.64, said
	case next.Tag == grammar.VerbGerund && before.in(goings):
		return 1, 0.62, said // "it came just tumbling down"
	}
	return 0, 0, ""
}

// narrowly are verbs of what is done by a hair's breadth or not at all.
var narrowly = listed("narrowly")

// emptyAll suspects "all" where there is nothing to count.
func emptyAll(ps *passage, i int) (int, float64, string) {
	t, before, next := ps.at(i), ps.at(i-1), ps.at(i+1)
	if t.lower != "all" || !ps.joined(i) || next.in(allFixed) || next.in(forms.be) { // "all was well" counts everything
		return 0, 0, ""
	}
	if degrees[next.lower] != nil && ps.joined(i+1) && before.in(forms.be) && (ps.at(i+2).Tag == grammar.VerbParticiple || ps.at(i+2).Tag == grammar.Adjective) && ps.at(i-2).Tag != grammar.NounPlural && !ps.at(i-2).is("they", "we", "you") {
		return 2, 0.7, fmt.Sprintf("%s counts nothing here, and %s says it alone.", capital(ps.words(i, i+1)), quote(ps.at(i+2).Text)) // "was all completely soaked"
	}
	describes := ps.opens(i) && grammar.CanBe(next.lower, grammar.Adjective) && ps.at(i+2).lower == "and" && grammar.CanBe(ps.at(i+3).lower, grammar.Adjective) || next.Tag == grammar.Adjective || next.Tag == grammar.Noun && !ps.joined(i+1) && grammar.CanBe(next.lower, grammar.Adjective) || next.Tag == grammar.VerbParticiple || next.Tag == grammar.VerbPast && !before.Tag.IsNoun() && before.Tag != grammar.Pronoun
	if !describes || next.Tag != grammar.VerbParticiple && ps.joined(i+1) && ps.at(i+2).Tag.IsNoun() && !ps.at(i+2).is("inside", "outside", "over") {
		return 0, 0, ""
	}
	if ps.joined(i+1) && ps.at(i+2).Tag == grammar.NounPlural {
		return 0, 0, "" // "all lost things" counts them
	}
	if ps.opens(i) {
		if after := ps.at(i + 2); !next.Tag.IsAdjective() && ps.joined(i+1) && after.Tag == grammar.Preposition {
			return 0, 0, "" // "all covered in frost" is so from end to end
		}
		if many := ps.at(i - 1); many.Tag == grammar.NounPlural && many.Break == manuscript.LightBreak {
			return 0, 0, "" // "there were spoons, all stacked" counts them
		}
		// "All muddy, the fox came in": what it describes stands after it.
		if !t.first && ps.at(i-1).Break != manuscript.LightBreak {
			return 0, 0, ""
		}
		return 1, 0.6, fmt.Sprintf("%s counts nothing here, and %s says it alone.", quote("All"), quote(next.Text))
	}
	if before.Tag == grammar.Noun && next.Tag == grammar.Adjective && (!ps.joined(i+1) || ps.at(i+2).lower == "and" && ps.at(i+3).Tag == grammar.Adjective) {
		// "It blew the day all sunny": one thing, and nothing of it to count.
		return 1, 0.66, fmt.Sprintf("%s counts nothing here, and %s says it alone.", quote("All"), quote(next.Text))
	}
	if first := ps.at(i - 2); before.lower == "and" && first.Tag == grammar.Adjective && next.Tag == grammar.Adjective && ps.joined(i-2) {
		return 1, 0.62, fmt.Sprintf("%s counts nothing here, and %s says it alone.", quote("All"), quote(next.Text)) // "cold and all empty"
	}
	if !before.is("was", "is", "felt", "looked", "seemed", "grew", "got", "turned", "gone", "went", "goes", "it's", "he's", "she's") {
		return 0, 0, ""
	}
	// A subject of many can be counted: "the crowd was all wet" hardly ever
	// stands, but "the lot of us was" does; a plural name before "was" too.
	if s := ps.at(i - 2); s.Tag == grammar.NounPlural || s.is("they", "we", "you", "this", "that") {
		return 0, 0, ""
	}
	return 1, 0.74, fmt.Sprintf("%s counts nothing here, and %s says it alone.", quote("All"), quote(next.Text))
}

// allFixed are words that make a phrase with "all" before them.
var allFixed = listed("allFixed")

// hedge suspects words that blur the one after them.
func hedge(ps *passage, i int) (int, float64, string) {
	t, next, after := ps.at(i), ps.at(i+1), ps.at(i+2)
	if !ps.joined(i) {
		return 0, 0, ""
	}
	switch {
	case t.is("kind", "sort") && next.lower == "of" && ps.joined(i+1) &&
		(after.gradable() || after.Tag.IsVerb() || (ps.at(i-1).in(forms.be) || ps.opens(i)) && grammar.CanBe(after.lower, grammar.Adjective)):
		if b := ps.at(i - 1); i > 0 && (b.Tag == grammar.Determiner || b.Tag == grammar.Predeterminer || b.is("what", "some", "any", "every", "a", "the", "this", "that", "one", "each", "same", "new", "other")) && b.lower != "a" {
			return 0, 0, ""
		}
		// "a kind of wooden box" names a kind.
		if ps.at(i-1).lower == "a" || after.Tag.IsAdjective() && ps.joined(i+2) && ps.at(i+3).Tag.IsNoun() {
			return 0, 0, ""
		}
		return 2, 0.78, fmt.Sprintf("%s takes the edge off %s; I would trust the word, or find the one that is meant.", capital(ps.words(i, i+1)), quote(after.Text))
	case t.is("kind", "sort") && next.lower == "of" && ps.joined(i+1) && after.lower == "a" && ps.at(i-1).in(forms.be) && ps.joined(i+2):
		return 2, 0.68, fmt.Sprintf("%s takes the edge off what comes after; I would trust the word, or find the one that is meant.", capital(ps.words(i, i+1)))
	case t.lower == "a" && next.lower == "little" && after.lower == "bit" && ps.joined(i+1) && ps.joined(i+2) && ps.at(i+3).Tag == grammar.Adjective && !ps.at(i-1).is("not", "just", "only"):
		return 3, 0.62, fmt.Sprintf("%s takes the edge off %s; I would trust the word alone.", capital(ps.words(i, i+2)), quote(ps.at(i+3).Text))
	case t.lower == "a" && next.lower == "bit" && ps.joined(i+1) && after.Tag == grammar.Adjective && !after.is("more", "less"):
		if ps.at(i-1).is("not", "quite", "just", "only") {
			return 0, 0, ""
		}
		return 2, 0.62, fmt.Sprintf("%s takes the edge off %s; I would trust the word alone.", capital(ps.words(i, i+1)), quote(after.Text))
	}
	return 0, 0, ""
}
