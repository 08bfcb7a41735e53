package checks

import (
	"fmt"
	"strings"

	"dandle/analysis/manuscript"
	"dandle/phonetics/grammar"
)

const wordFillerDoc = `
A word is there only to fill the meter or to reach the rhyme.

Take the word out: if the sense and the grammar stand and only the beat falls, the word was
working for the tune alone. Listeners hear that at once, and so do editors. The test looks at
what the word does: _so_ before a plain adjective pads, while _so cold that the ink froze_,
_so many_ and _so they went_ all need it; _all_ before a noun counts, _it was all damp_ does
not; speech may ramble, and a refrain may say what it likes. _Started to walk_, where nothing breaks
in, is a slow way to say _walked_; a second _and then_ steps nowhere; in _the moon it was bright_
the moon is named twice.

Raised here, at _so very_, at _oh_ and at _you see_:

    The mill was so very quiet at night,
    The moon had gone, oh, out of sight,
    The miller had a cold, you see.

Not here:

    The mill was so quiet that anyone might
    Have heard, all alone, in the blink of the light,
    The mice in the flour agree.

What helps: one longer word in the place of two. _Very wet_ and _waterlogged_ keep the same
time, and only one of them shows a puddle. Where a word that scans is known it is offered; so is
the line without the word, where the beat can spare it.
`

var wordFiller = &Check{
	Code:     "word/filler",
	Severity: Warning,
	Reach:    OneStanza,
	Doc:      wordFillerDoc,
	Run: func(p *Pass) {
		for ps := range p.passages() {
			for _, f := range fillers(ps) {
				fixes := p.without(ps, f.from, f.to)
				if len(fixes) == 0 {
					f.message += p.room(ps, f.from, withWhatFollows(ps, f.to))
				}
				p.Report(Finding{
					Span:       ps.span(f.from, f.to),
					Line:       ps.at(f.from).line,
					Message:    f.message,
					Confidence: f.weigh(ps),
					Fixes:      fixes,
				})
			}
		}
	},
}

// A filler is a run of tokens, both ends in it, that a rule suspects.
type filler struct {
	from, to   int
	Confidence float64
	message    string
	beside     bool // another filler stands next to it
}

// weigh gives the rule's own confidence what its place adds: padding gathers
// where the meter or the rhyme must be reached (craft, ours).
func (f *filler) weigh(ps *passage) float64 {
	c := f.Confidence
	if ps.at(f.to).last {
		c += 0.08
	}
	if ps.at(f.from).first {
		c += 0.04
	}
	if f.beside {
		c += 0.08
	}
	return min(c, 0.97)
}

// A fillerRule looks at one token and what stands round it. It answers how many
// tokens are filler from there on, none in doubt.
type fillerRule func(ps *passage, i int) (n int, confidence float64, message string)

var fillerRules = []fillerRule{
	rhymeTag, interjection, intensifier, emptyAll, hedge, spareParticle, doublePreposition,
	openingExpletive, connective, tautology, slowStart, twiceToo, twiceNamed,
}

// fillers are what the rules suspect in a passage, in order; the first rule
// that speaks of a word has it.
func fillers(ps *passage) []filler {
	var found []filler
	for i := 0; i < len(ps.tokens); i++ {
		if t := ps.at(i); t.raised() || t.Quoted || t.refrain {
			continue
		}
		for _, rule := range fillerRules {
			n, confidence, message := rule(ps, i)
			if n == 0 || i+n > len(ps.tokens) {
				continue
			}
			f := filler{from: i, to: i + n - 1, Confidence: confidence, message: message}
			if k := len(found) - 1; k >= 0 && found[k].to == i-1 {
				found[k].beside, f.beside = true, true
				if ps.joined(i-1) && ps.at(i-1).Tag != grammar.Pronoun {
					// "So very" is one thing to strike out.
					f.from, f.Confidence = found[k].from, max(f.Confidence, found[k].Confidence)
					f.message = fmt.Sprintf("%s keeps time but shows me nothing; what follows could carry the line alone.", capital(ps.words(f.from, f.to)))
					found = found[:k]
				}
			}
			found = append(found, f)
			i += n - 1
			break
		}
	}
	return found
}

// intensifier suspects degree words before a plain adjective or adverb. Their
// licences are those of the handbooks' deletion test: where the sentence leans
// on the word, it stays.
func intensifier(ps *passage, i int) (int, float64, string) {
	t, next := ps.at(i), ps.at(i+1)
	if !t.is("very", "so", "quite", "just", "really", "rather", "such", "ever", "truly", "simply", "actually", "pretty", "oh", "terribly", "awfully") {
		return 0, 0, ""
	}
	before := ps.at(i - 1)
	twice := before.lower == t.lower
	if ps.opens(i) {
		before = &token{}
	}
	// Denial needs the word; a cry opens with "how" or "what".
	from, _ := ps.clause(i)
	needed := ps.any(from, i, func(t *token) bool { return t.in(forms.negation) || t.is("how", "what") }) || ps.chants(i)
	if needed || twice || next.lower == t.lower || !ps.joined(i) {
		return 0, 0, ""
	}
	said := fmt.Sprintf("%s keeps time but shows me nothing; %s could carry the line alone, or one longer word could do the work of both.",
		quote(capital(t.lower)), quote(next.Text))
	switch t.lower {
	case "very":
		if before.lower == "the" && ps.joined(i+1) && ps.at(i+2).is("end", "edge", "top", "bottom", "back", "middle", "tip", "start") {
			return 0, 0, "" // "the very far end" is the end itself
		}
		if !next.gradable() || next.is("first", "last", "next", "same", "best", "worst", "own", "much", "few", "many", "well", "nearly", "likely", "middle", "top", "end", "edge") ||
			next.Tag == grammar.Superlative {
			return 0, 0, ""
		}
		return 1, 0.82, said
	case "so":
		return soBefore(ps, i, said)
	case "ever", "oh":
		if next.lower != "so" {
			return 0, 0, ""
		}
		n, c, _ := soBefore(ps, i+1, "")
		if t.lower == "ever" && ps.joined(i+1) && ps.at(i+2).gradable() && !ps.at(i+2).in(soMeasures) {
			n, c = 1, 0.78 // "ever so" leads to no "that"
		}
		if n > 0 {
			return 2, max(c, 0.78), fmt.Sprintf("%s keeps time but shows me nothing; %s could carry the line alone.", capital(ps.words(i, i+1)), quote(ps.at(i+2).Text))
		}
		return 0, 0, ""
	case "pretty":
		// "A pretty little house" is pretty; "it was pretty cold" is not.
		if !before.in(forms.be) && !before.is("felt", "looked", "seemed", "got", "grew") || next.Tag != grammar.Adjective || next.is("sure", "much", "little") || ps.joined(i+1) && ps.at(i+2).Tag.IsNoun() {
			return 0, 0, ""
		}
		return 1, 0.62, said
	case "quite", "terribly", "awfully":
		if !next.gradable() && !leanedOn(next) || next.is("in", "at", "out", "enough", "so", "sure", "certain", "different", "often", "alone", "full", "empty", "dead", "right", "real", "true", "gone", "finished") || next.Tag == grammar.VerbParticiple {
			return 0, 0, ""
		}
		if t.lower != "quite" && next.in(soMeasures) && ps.at(i+2).is("way", "time", "while") {
			return 0, 0, "" // "an awfully long way home" measures
		}
		return 1, 0.76, said
	case "rather":
		if !next.gradable() && !leanedOn(next) || next.is("than", "like") || before.in(forms.modal) || before.is("or", "had", "i'd") {
			return 0, 0, ""
		}
		return 1, 0.74, said
	case "really", "truly", "simply", "actually":
		if next.in(forms.be) || next.in(forms.do) || ps.any(i-9, i, func(t *token) bool { return t.in(handingOn) }) {
			return 0, 0, "" // "she really is", "they knew it really happened"
		}
		if next.gradable() && !next.is("not", "never") {
			return 1, 0.74, said
		}
		teller := before.in(subjects) || before.lower == "just"
		if (next.Tag.IsVerb() && next.Tag != grammar.Verb || teller && grammar.CanBe(next.lower, grammar.Verb)) && t.is("really", "actually") && !before.is("but", "what", "who", "if") && !ps.endsWith(i, "?") &&
			!ps.any(i-9, i, func(o *token) bool { return o.lower == next.lower }) {
			return 1, 0.64, said
		}
		return 0, 0, ""
	case "just":
		return justBefore(ps, i)
	case "such":
		a, adjective := next, ps.at(i+2)
		if !a.is("a", "an") || !adjective.gradable() && adjective.lower != "fun" || before.is("no", "any", "with") {
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
	return 0, 0, ""
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

// leanedOn reports whether what is tagged as a noun behind a degree is an adjective:
// nobody is "rather cross" as a cross is.
func leanedOn(t *token) bool {
	return t.Tag == grammar.Noun && grammar.CanBe(t.lower, grammar.Adjective)
}

// soBefore suspects "so" before an adjective that nothing follows from.
func soBefore(ps *passage, i int, said string) (int, float64, string) {
	next, before := ps.at(i+1), ps.at(i-1)
	measured := next.in(soMeasures) && !(next.lower == "long" && before.Tag == grammar.Noun && !before.in(timeNouns) && ps.joined(i-1) && !ps.joined(i+1)) // "a carrot so long"
	if !next.gradable() || !ps.joined(i) || measured {
		return 0, 0, ""
	}
	if !ps.opens(i) && (before.in(soNeeded) || before.in(objects)) {
		return 0, 0, "" // "even so bright"; "to see it so high" points at how high
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
		likeIt := ps.any(last+1, end, func(t *token) bool { return t.is("so", "and", "but") })
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
		before = &token{}
	}
	if before.in(forms.have) || before.in(forms.modal) || before.is("but", "only", "not", "to", "that", "it's", "who'd", "i'd") {
		return 0, 0, ""
	}
	said := fmt.Sprintf("%s adds a beat and no picture; %s could stand without it.", quote("Just"), quote(next.Text))
	switch {
	case next.is("right", "enough", "then", "now", "about", "as", "like", "so", "because", "what", "where", "when", "how", "who", "why", "if", "in", "for", "to", "one", "once", "fine", "past"):
		return 0, 0, ""
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

// emptyAll suspects "all" where there is nothing to count.
func emptyAll(ps *passage, i int) (int, float64, string) {
	t, before, next := ps.at(i), ps.at(i-1), ps.at(i+1)
	if t.lower != "all" || !ps.joined(i) || next.in(allFixed) {
		return 0, 0, ""
	}
	describes := next.Tag == grammar.Adjective || next.Tag == grammar.Noun && !ps.joined(i+1) && grammar.CanBe(next.lower, grammar.Adjective) || next.Tag == grammar.VerbParticiple || next.Tag == grammar.VerbPast && !before.Tag.IsNoun() && before.Tag != grammar.Pronoun
	if !describes || next.Tag != grammar.VerbParticiple && ps.joined(i+1) && ps.at(i+2).Tag.IsNoun() {
		return 0, 0, ""
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
		(after.gradable() || after.Tag.IsVerb() || ps.at(i-1).in(forms.be) && grammar.CanBe(after.lower, grammar.Adjective)):
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

// spareParticle suspects a particle whose sense the verb holds already.
func spareParticle(ps *passage, i int) (int, float64, string) {
	t, verb := ps.at(i), ps.at(i-1)
	if !ps.joined(i-1) || ps.at(i).first && verb.lower == "" {
		return 0, 0, ""
	}
	held := t.lower == "up" && verb.in(rising) || t.lower == "down" && verb.in(sinking) ||
		t.lower == "in" && verb.in(entering) || t.lower == "back" && verb.in(returning) || t.lower == "out" && verb.in(leaving)
	if !held || ps.opens(i-1) && bareVerb(verb) {
		return 0, 0, "" // "lift up your lanterns" calls
	}
	// A path needs its particle: "rose up the stairs", "entered in the book".
	if ps.joined(i) {
		n := ps.at(i + 1)
		if n.is("to", "on", "onto", "into", "from", "over", "through", "against") {
			return 0, 0, ""
		}
		if t.is("up", "down") && (n.Tag == grammar.Determiner || n.Tag == grammar.Possessive || n.Tag.IsNoun()) && !verb.is("lift", "lifted", "lifts", "raise", "raised", "raises") {
			return 0, 0, ""
		}
	}
	return 1, 0.66, fmt.Sprintf("%s already goes %s, so the second word only keeps time.", quote(capital(verb.lower)), t.lower)
}

var (
	rising    = listed("rising")
	sinking   = listed("sinking")
	entering  = listed("entering")
	returning = listed("returning")
	leaving   = listed("leaving")
)

// doublePreposition suspects two prepositions where one says it.
func doublePreposition(ps *passage, i int) (int, float64, string) {
	t, next := ps.at(i), ps.at(i+1)
	if !ps.joined(i) || !ps.joined(i+1) {
		return 0, 0, ""
	}
	object := ps.at(i + 2)
	nominal := object.lower == "of" || object.Tag == grammar.Determiner || object.Tag == grammar.Possessive || object.Tag == grammar.Pronoun || object.Tag.IsNoun() || object.Tag.IsAdjective()
	if !nominal {
		return 0, 0, ""
	}
	switch {
	case next.lower == "of" && t.lower == "off":
		return 2, 0.84, fmt.Sprintf("%s says it already; %s only adds a beat.", quote("Off"), quote("of"))
	case next.lower == "of" && t.is("inside", "outside") && t.Tag == grammar.Preposition && ps.at(i-1).Tag != grammar.Determiner:
		return 2, 0.66, fmt.Sprintf("%s says it already; %s only adds a beat.", quote(capital(t.lower)), quote("of"))
	case t.lower == "from" && next.lower == "out" && ps.at(i-1).lower != "in" && object.lower == "of" && ps.joined(i+2) && (ps.at(i+3).Tag == grammar.Determiner || ps.at(i+3).Tag == grammar.Possessive):
		return 2, 0.66, fmt.Sprintf("%s and %s are one way; %s is enough.", quote(capital(t.lower)), quote("out of"), quote("out of"))
	case t.lower == "up" && next.is("on", "upon") && ps.at(i-1).in(resting):
		return 2, 0.7, fmt.Sprintf("Nobody moves here, so %s is a beat and no path; %s is enough.", quote("up"), quote("on"))
	}
	return 0, 0, ""
}

// resting are verbs of staying, which go nowhere.
var resting = listed("resting")

// openingExpletive suspects "there was a frog who sat" for "a frog sat".
func openingExpletive(ps *passage, i int) (int, float64, string) {
	t, be := ps.at(i), ps.at(i+1)
	n := 2
	if t.is("there's", "'twas", "twas") {
		be, n = &token{lower: "was"}, 1
	}
	if t.lower != "there" && t.lower != "there's" || !be.is("was", "is", "were", "are") {
		return 0, 0, ""
	}
	if !ps.opens(i) && !t.first {
		return 0, 0, ""
	}
	if ps.stanza == 0 && ps.at(i).line == ps.at(0).line {
		return 0, 0, "" // a tale may open so, and limericks do
	}
	for k := range ps.tokens {
		if k != i && ps.at(k).is("there", "there's") && ps.at(k+1).in(forms.be) && ps.opens(k) {
			return 0, 0, "" // one of a row: "there were crabs, there was laundry"
		}
	}
	_, end := ps.sentence(i)
	if ps.at(i+n).is("the", "that", "this") {
		return 0, 0, "" // it points at someone known
	}
	noun := ps.find(i+n, end, func(t *token) bool { return t.Tag.IsNoun() })
	if noun < 0 || ps.at(noun).is("one", "ones") || ps.at(noun).in(forms.negation) || ps.at(noun).in(indefinite) || ps.any(i, noun, func(t *token) bool {
		return t.in(forms.negation) || t.is("once", "only", "one") || t.Tag == grammar.Number
	}) {
		return 0, 0, ""
	}
	for noun+1 < end && ps.at(noun+1).Tag.IsNoun() {
		noun++
	}
	if !ps.at(noun+1).is("who", "that", "which") {
		return 0, 0, ""
	}
	return n, 0.68, fmt.Sprintf("%s holds the door for %s; the line could begin with that.", capital(ps.words(i, i+n-1)), quote(ps.at(noun).Text))
}

// connective suspects "well" and "now" at a line's start in the teller's
// voice, where no time moves.
func connective(ps *passage, i int) (int, float64, string) {
	t := ps.at(i)
	if n, c, message := andThen(ps, i); n > 0 {
		return n, c, message
	}
	if t.lower == "indeed" && ps.joined(i) && ps.at(i+1).in(subjects) && ps.at(i-1).is("and", "but") && ps.opens(i-1) && !ps.any(i, ps.lineEnd(i), func(t *token) bool { return t.in(forms.do) }) {
		return 1, 0.6, "“Indeed” nods at what nobody doubted; the sentence could go on without it."
	}
	if !t.first || !ps.opens(i) || t.Break != manuscript.LightBreak {
		return 0, 0, ""
	}
	_, end := ps.sentence(i)
	switch t.lower {
	case "well":
		if ps.endsWith(i, "?") || ps.at(i+1).is("well", "almost", "nearly", "perhaps", "maybe") || ps.at(i+1).in(forms.negation) {
			return 0, 0, ""
		}
		return 1, 0.66, "“Well” clears its throat; the sentence could start with what happens."
	case "now":
		past := ps.any(i, end, func(t *token) bool { return t.Tag == grammar.VerbPast })
		if !past || ps.endsWith(i, "?") || ps.any(i+1, end, func(t *token) bool { return t.is("before", "once", "then", "until", "till", "used") }) {
			return 0, 0, ""
		}
		return 1, 0.6, "No time has passed, so “now” is a beat and no step; the sentence could start after it."
	}
	return 0, 0, ""
}

// andThen suspects "and then" at a sentence's start where it was said a moment
// ago: the second steps to nothing that the order of telling does not show. Two
// in a row by the same measure are a pattern, and meant.
func andThen(ps *passage, i int) (int, float64, string) {
	then := func(k int) bool {
		return ps.at(k).lower == "and" && ps.at(k+1).lower == "then" && ps.at(k).first && ps.joined(k) && ps.joined(k+1)
	}
	if !then(i) || !ps.opens(i) {
		return 0, 0, ""
	}
	times, last := 0, -1
	for k := range i {
		if then(k) {
			times, last = times+1, ps.at(k).line
		}
	}
	_, end := ps.sentence(i)
	if times != 1 || ps.at(i).line == last+1 || ps.any(i, end, func(t *token) bool { return t.is("suddenly", "last", "once") }) || ps.endsWith(i, "!") {
		return 0, 0, ""
	}
	for k := i + 2; k < len(ps.tokens); k++ {
		if then(k) {
			return 0, 0, "" // three make a chant
		}
	}
	return 2, 0.58, "“And then” has been said a moment ago; the telling moves on without it."
}

// slowStart suspects "started to walk" for "walked": where nothing breaks in, it
// simply happens. What grows or breaks out does begin.
func slowStart(ps *passage, i int) (int, float64, string) {
	t, to, verb := ps.at(i), ps.at(i+1), ps.at(i+2)
	if !t.is("began", "started") || to.lower != "to" || !ps.joined(i) || !ps.joined(i+1) || !verb.in(plainDoings) || !bareVerb(verb) {
		return 0, 0, ""
	}
	begin, end := ps.sentence(i)
	if ps.any(begin, i, func(t *token) bool {
		return t.in(forms.negation) || t.is("when", "as", "until", "till", "before", "after", "just", "had", "soon", "then", "slowly", "once")
	}) || ps.any(i+2, end, func(t *token) bool {
		return t.is("but", "until", "till", "when", "before", "and", "again", "instead", "while", "stopped", "slowly", "at", "though", "as")
	}) {
		return 0, 0, ""
	}
	// What comes in the next sentence may stop it.
	if _, after := ps.sentence(end); end < len(ps.tokens) && ps.any(end, after, func(t *token) bool { return t.is("but", "then", "stopped", "until", "suddenly", "halfway") }) {
		return 0, 0, ""
	}
	return 2, 0.6, fmt.Sprintf("Nothing breaks in here, so %s only winds up; %s could happen at once.", ps.words(i, i+1), quote(verb.Text))
}

// plainDoings are done as soon as they are begun.
var plainDoings = listed("plainDoings")

// twiceToo suspects "too" at the end of what was added already: "he also brought
// his brother too".
func twiceToo(ps *passage, i int) (int, float64, string) {
	t := ps.at(i)
	if t.lower != "too" || !t.last || i == 0 {
		return 0, 0, ""
	}
	from, _ := ps.sentence(i)
	at := ps.find(from, i, func(t *token) bool { return t.is("also", "both", "likewise") })
	if at < 0 || ps.at(at).line < t.line-1 || ps.at(i-1).is("me", "you") {
		return 0, 0, ""
	}
	return 1, 0.68, fmt.Sprintf("%s has added it already, so “too” brings the rhyme and nothing else.", quote(capital(ps.at(at).lower)))
}

// interjection suspects a cry where nothing has happened to cry at.
func interjection(ps *passage, i int) (int, float64, string) {
	t, next := ps.at(i), ps.at(i+1)
	if !t.is("oh", "o", "ah", "hey", "why", "yes") {
		return 0, 0, ""
	}
	// Who speaks to someone, or of himself, may cry out: the licence of speech
	// and of address. The teller of a tale has less to cry at.
	if ps.any(i, ps.lineEnd(i)+1, func(t *token) bool { return t.in(personal) }) ||
		next.Tag == grammar.Verb || next.Tag == grammar.VerbPresent || next.Tag == grammar.To {
		return 0, 0, ""
	}
	n := 1
	for ps.at(i+n).lower == t.lower || ps.at(i+n).is("my", "dear", "me") && t.lower == "oh" && !ps.joined(i+n) {
		n++
	}
	end := ps.at(i + n - 1)
	switch {
	case t.is("why", "hey", "yes") && (n > 1 || t.Break != manuscript.LightBreak),
		t.is("yes", "why", "hey") && !t.first,
		ps.endsWith(i, "!"), ps.endsWith(i, "?"),
		next.is("how", "what", "so", "no", "yes", "where", "when", "who", "why", "please", "look"),
		ps.at(i+n).is("how", "what", "no", "please", "look", "you"),
		t.lower == "o":
		return 0, 0, ""
	}
	if t.lower == "oh" && end.Break == manuscript.NoBreak && n == 1 && next.Tag.IsNoun() {
		return 0, 0, "" // an address: "oh moon"
	}
	c := 0.7
	if t.is("yes", "hey") {
		c = 0.6
	}
	return n, c, fmt.Sprintf("%s holds a place in the tune, but nothing has happened to make me say it.", capital(ps.words(i, i+n-1)))
}

// personal are the words of one who speaks for himself or to another.
var personal = listed("personal")

// rhymeTags are what verse hangs on a line to reach its rhyme, in words. The
// closed list of the craft's handbooks (Gomez, "10 Rhyme Crimes") and common
// practice.
var rhymeTags = phrases("rhymeTags")

// denies reports whether the clause that token i ends denies something.
func (ps *passage) denies(i int) bool {
	from, to := ps.clause(i)
	return ps.any(from, to, func(t *token) bool { return t.in(forms.negation) })
}

// conceding are those of them that grant a thing against another.
var conceding = pairs("conceding")

// reads reports whether the tokens from i on are the words of a phrase.
func (ps *passage) reads(i int, phrase []string) bool {
	for k, word := range phrase {
		if ps.at(i+k).lower != word {
			return false
		}
	}
	return true
}

// rhymeTag suspects a phrase hung on a line's end.
func rhymeTag(ps *passage, i int) (int, float64, string) {
	for _, tag := range rhymeTags {
		n := len(tag)
		if !ps.reads(i, tag) || ps.at(i).line != ps.at(i+n-1).line || ps.at(i).first {
			continue
		}
		if !ps.at(i + n - 1).last {
			chimes := ps.any(ps.lineStart(i), ps.lineEnd(i)+1, func(o *token) bool { return o.lower == tag[n-1] && o != ps.at(i+n-1) })
			if !chimes && ps.opens(i) && ps.at(i-1).Break == manuscript.LightBreak && ps.at(i+n-1).Break == manuscript.LightBreak && !ps.endsWith(i, "!") && (tag[0] == "you" || tag[0] == "don't" || tag[0] == "as" || tag[0] == "indeed") {
				return n, 0.66, fmt.Sprintf("%s fills the gap between two commas; the sentence goes on without it.", capital(ps.words(i, i+n-1)))
			}
			continue
		}
		if conceding[strings.Join(tag, " ")] && ps.at(i+n).is("but", "yet", "though", "still") && ps.denies(i-1) {
			continue // "he isn't big, it's true, but he is quick" grants it
		}
		if tag[0] == "and" && tag[1] == "all" && ps.at(i-1).Tag.IsNoun() && (ps.opens(i-1) || ps.at(i-1).Tag == grammar.NounPlural) {
			continue // "ribbons and all" counts the ribbons in
		}
		set := ps.opens(i) // a mark parts it from the sentence
		joined := tag[0] == "with" || tag[0] == "indeed" || tag[0] == "as" || tag[0] == "and" || tag[0] == "for" || tag[0] == "without"
		if !set && !joined {
			continue
		}
		// What goes on after the line's end needs its words: "you see / a sail".
		if ps.at(i+n-1).Break == manuscript.NoBreak && i+n < len(ps.tokens) && !ps.at(i+n).is("and", "but", "as", "so", "when", "while") {
			continue
		}
		return n, 0.74, fmt.Sprintf("%s brings the rhyme and nothing else; the picture could end the line.", capital(ps.words(i, i+n-1)))
	}
	return 0, 0, ""
}

// tautology suspects two adjectives that show one thing twice.
func tautology(ps *passage, i int) (int, float64, string) {
	t, next := ps.at(i), ps.at(i+1)
	if !t.in(anySense) || t.lower == next.lower || t.Break > manuscript.LightBreak {
		return 0, 0, ""
	}
	for _, same := range sameSense {
		if t.in(same) && next.lower == "and" && ps.joined(i) && ps.joined(i+1) && ps.at(i+2).in(same) && ps.at(i+2).lower != t.lower {
			return 3, 0.66, fmt.Sprintf("%s and %s show me one thing twice; one of them could tell me something new.", quote(capital(t.lower)), quote(ps.at(i+2).Text))
		}
		if t.in(same) && next.in(same) && (next.Tag.IsAdjective() || ps.joined(i+1) && ps.at(i+2).Tag.IsNoun()) {
			return 2, 0.66, fmt.Sprintf("%s and %s show me one thing twice; one of them could tell me something new.", quote(capital(t.lower)), quote(next.Text))
		}
	}
	return 0, 0, ""
}

// sameSense are adjectives that WordNet 3.0 puts in one cluster, of those that
// early readers know.
var sameSense = linesOf("sameSense")

// anySense are the words of all those clusters.
var anySense = union(sameSense)
