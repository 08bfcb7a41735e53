package checks

import (
	"fmt"

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
	openingExpletive, connective, tautology, slowStart, twiceToo, twiceNamed, twiceTogether, twiceLast, twiceHow, onward, placedTwice,
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
			if n == 0 || i+n > len(ps.tokens) || saidAfter(ps, i) {
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

// placedTwice suspects "there" before the phrase that says where: "lay there on the floor".
func placedTwice(ps *passage, i int) (int, float64, string) {
	t, next := ps.at(i), ps.at(i+1)
	if t.lower != "there" || !ps.at(i-1).in(resting) || !ps.joined(i-1) || !ps.joined(i) || !next.is("on", "in", "by", "at", "under", "beside", "upon", "near", "beneath", "behind") {
		return 0, 0, ""
	}
	return 1, 0.62, fmt.Sprintf("%s only points where the next words lead; %s could stand without it.", quote("There"), quote(ps.at(i-1).Text))
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
	it := t.lower == "it" && be.lower == "was" && ps.at(i+2).is("a", "an") // "it was a whale who sang"
	if t.lower != "there" && t.lower != "there's" && !it || !be.is("was", "is", "were", "are") {
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
	switch {
	case t.lower == "well" && ps.opens(i) && ps.at(i-1).is("and", "but", "was", "is") && t.Break == manuscript.LightBreak:
		return 1, 0.62, "“Well” clears its throat; the sentence could go on without it."
	case !t.first || !ps.opens(i):
		return 0, 0, ""
	case t.lower == "now" && ps.joined(i) && (ps.at(i+1).Tag == grammar.Determiner || ps.at(i+1).Tag == grammar.Possessive) && movesOn(ps, i):
		return 1, 0.57, "No time has passed, so “now” is a beat and no step; the sentence could start after it."
	case t.lower == "for" && ps.at(i+1).lower == "you" && ps.at(i+2).is("see", "know") && ps.at(i+2).Break == manuscript.LightBreak:
		return 3, 0.66, fmt.Sprintf("%s turns to me before it says anything; the sentence could start with what happened.", capital(ps.words(i, i+2)))
	case t.lower == "well" && ps.at(i+1).lower == "now" && ps.at(i+1).Break == manuscript.LightBreak && !ps.endsWith(i, "?"):
		return 2, 0.66, "“Well now” clears its throat; the sentence could start with what happens."
	case t.Break != manuscript.LightBreak:
		return 0, 0, ""
	}
	return throatClearing(ps, i)
}

// movesOn reports whether the first verb of the clause of token i tells what somebody did: then
// "now" only begins.
func movesOn(ps *passage, i int) bool {
	_, to := ps.clause(i)
	verb := ps.find(i+1, to, func(t *token) bool { return t.finite() || t.in(forms.be) || t.in(forms.have) })
	return verb >= 0 && ps.at(verb).Tag == grammar.VerbPast && !ps.at(verb).in(forms.be) && !ps.at(verb).in(forms.have) && !ps.at(verb).in(forms.do) && !ps.endsWith(i, "?")
}

// throatClearing suspects "well" and "now" before the comma of a line's start.
func throatClearing(ps *passage, i int) (int, float64, string) {
	t := ps.at(i)
	_, end := ps.sentence(i)
	switch t.lower {
	case "indeed":
		return 1, 0.6, "“Indeed” nods at what nobody doubted; the sentence could start after it."
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
	if t.lower == "proceeded" && to.lower == "to" && bareVerb(verb) && ps.joined(i) && ps.joined(i+1) {
		return 2, 0.66, fmt.Sprintf("%s only winds up; %s could happen at once.", capital(ps.words(i, i+1)), quote(verb.Text))
	}
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
