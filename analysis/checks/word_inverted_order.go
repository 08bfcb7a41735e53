package checks

import (
	"fmt"
	"strings"

	"dandle/analysis/manuscript"
	lexis "dandle/analysis/suggest/words"
	"dandle/phonetics/grammar"
)

const wordInvertedOrderDoc = `
The order of words is turned only to reach the rhyme.

English says _a green hat_ and _she gave plums to the beaver_. Where the last word of a line has
been moved there for its sound, a child must turn the sentence round before it can follow
the tale. Turns that English makes by itself are left alone: _down the hill rolled the hen_,
_never had she_, _said the owl_, _here comes the ferry_. What may not go first is what the verb
asks for, _of honey he dreamed_; and a pronoun may not come last, _up the hill went she_. After _if_ and _when_ an object has no
business in front: _if the light they can't see_. Nor may it part who acts from the acting: _the baker his
bread in the oven put_.

Raised here, at _green_, at _gave_ and at _she_:

    The heron came in with a hat green.
    A basket of plums to the beaver she gave.
    Up to the landing went she.

Not here:

    Down the hill rolled the hen in a hat that was green.
    She left him alone with a mouth full of plums.

What helps: say the sentence as you would at breakfast, and see which of its words ends the
line then.
`

var wordInvertedOrder = &Check{
	Code:      "word/inverted-order",
	Severity:  Warning,
	Sometimes: Hint,
	Reach:     OneStanza,
	Doc:       wordInvertedOrderDoc,
	Run: func(p *Pass) {
		for ps := range p.passages() {
			for i := range ps.tokens {
				t := ps.at(i)
				if !t.last || t.raised() || t.refrain {
					continue
				}
				for _, rule := range inversionRules {
					if from, confidence, message := rule(ps, i); confidence > 0 {
						p.Report(Finding{Span: ps.span(from, i), Line: t.line, Message: message, Confidence: confidence, Severity: turned(t, confidence)})
						break
					}
				}
			}
		}
	},
}

// sureTurn is the confidence from which a turn is told as a warning (ours): what may
// still be said so on purpose is a hint, and so is what somebody says: it may be how
// they talk.
const sureTurn = 0.7

func turned(t *token, confidence float64) Severity {
	if confidence < sureTurn || t.Quoted {
		return Hint
	}
	return Warning
}

var inversionRules = []inversionRule{
	adjectiveAfterNoun, objectFirst, verbLast, predicateFirst, toPlaceFirst, participleLast, objectBeforeInfinitive, complementFirst,
	objectInClause, objectAfterAnd, thereLast, complementFronted, mannerFronted, pronounLast, prepositionLast, objectAfterModal, objectBeforeSubject, goalFirst,
	objectBeforeVerb, participleWaits, objectAfterClause, songTheySang, objectBeforeDoer, filledWith, placeThenDid,
}

// An inversionRule looks at the last word of a line, and answers where the
// turned phrase begins; a confidence of 0 means that nothing is turned.
type inversionRule func(ps *passage, i int) (from int, confidence float64, message string)

// lineStart is the first token of the line that token i stands in.
func (ps *passage) lineStart(i int) int {
	for i > 0 && !ps.at(i).first {
		i--
	}
	return i
}

// lineEnd is the last token of the line that token i stands in.
func (ps *passage) lineEnd(i int) int {
	for i+1 < len(ps.tokens) && !ps.at(i).last {
		i++
	}
	return i
}

// closes reports whether the clause ends with token i: a mark stands after it,
// or the next line starts a clause of its own.
func (ps *passage) closes(i int) bool {
	if !ps.joined(i) {
		return true
	}
	return ps.at(i+1).is("and", "but", "while", "as", "when", "for", "so", "till", "until")
}

// told is a sentence in its usual order, in quotes: what stands from token a to
// token b, then what stood before it, from c to d.
func (ps *passage) told(a, b, c, d int) string {
	first, rest := ps.at(c), ps.span(c, d).In(ps.text)
	if first.Tag != grammar.Name && first.Tag != grammar.NamePlural && first.lower != "i" {
		rest = ps.at(c).lower + strings.TrimPrefix(rest, first.Text)
	}
	return quote(ps.span(a, b).In(ps.text) + " " + rest)
}

// adjectiveAfterNoun hears "a hat green".
func adjectiveAfterNoun(ps *passage, i int) (int, float64, string) {
	if !ps.standsBehind(i) {
		return 0, 0, ""
	}
	t, noun := ps.at(i), ps.at(i-1)
	from := ps.describedFrom(i - 1)
	det := ps.at(from - 1)
	if from == ps.lineStart(i) || !ps.joined(from-1) {
		return 0, 0, ""
	}
	if noun.Tag == grammar.NounPlural {
		switch {
		case (t.Tag == grammar.Adjective || t.in(colours)) && det.Tag == grammar.Preposition && det.lower != "with" && det.lower != "like":
			// "On mountains high": no article, and no verb that could make it so.
			return i, 0.68, movedAdjective(t, noun)
		case from == i-1 && det.in(owning) && !det.in(forms.be) && (t.in(colours) || t.in(poetic)):
			return i, 0.7, movedAdjective(t, noun) // "she had eyes blue"
		}
	}
	if det.Tag != grammar.Determiner && det.Tag != grammar.Possessive {
		return 0, 0, ""
	}
	from--
	if ps.staysBehind(i, from) {
		return 0, 0, ""
	}
	verb := ps.verbBefore(i, from)
	switch {
	case ps.leavesSo(i, from, verb):
		return 0, 0, ""
	case verb == from-1 && ps.at(verb).in(crossing):
		return i, 0.72, movedAdjective(t, noun)
	}
	return i, 0.78, movedAdjective(t, noun)
}

// standsBehind reports whether token i closes its clause or line as an adjective right
// behind a noun that would have it in front.
func (ps *passage) standsBehind(i int) bool {
	t, noun := ps.at(i), ps.at(i-1)
	// A colour at the end is as often tagged as its own name.
	adjective := t.Tag == grammar.Adjective || t.Tag == grammar.Adverb && (t.in(manner) || mostlyAdjective(t.lower)) || t.Tag == grammar.Noun && (t.in(colours) || t.in(poetic) || mostlyAdjective(t.lower))
	ends := ps.closes(i) || ps.at(i+1).first && (ps.at(i+1).finite() || ps.at(i+1).in(subjects)) // "a mole with a lantern bright / was"
	if t.first || !ps.joined(i-1) || !ends || !adjective || noun.Tag != grammar.Noun && noun.Tag != grammar.NounPlural {
		return false
	}
	if !t.in(colours) && (strings.HasSuffix(t.lower, "ing") || strings.HasSuffix(t.lower, "ed") || strings.Contains(t.lower, "-")) {
		return false // as a rule a participle, with its verb's freedom
	}
	return !t.in(postpositive) && !noun.in(indefinite) && (!noun.in(timeNouns) || t.in(poetic) && noun.is("morning", "evening", "night", "day")) && !noun.in(measures) && !mostlyAdjective(noun.lower) &&
		!strings.HasSuffix(noun.lower, "'s") && !grammar.CanBe(noun.lower, grammar.VerbPast)
}

// describedFrom is where the noun at token i begins with the adjectives before it, or
// with another it is joined to: "of forests and mountains tall".
func (ps *passage) describedFrom(i int) int {
	from, start := i, ps.lineStart(i)
	for from > start && ps.joined(from-1) && ps.at(from-1).Tag.IsAdjective() {
		from--
	}
	if from == i && ps.at(i).Tag == grammar.NounPlural && from-2 > start && ps.at(from-1).lower == "and" && ps.joined(from-1) && ps.joined(from-2) && ps.at(from-2).Tag == grammar.NounPlural {
		from -= 2
	}
	return from
}

// staysBehind reports whether the adjective at token i may follow the noun phrase that
// opens at token from with its article.
func (ps *passage) staysBehind(i, from int) bool {
	t, noun, det, before := ps.at(i), ps.at(i-1), ps.at(from), ps.at(from-1)
	article := det.is("a", "an")
	switch {
	case t.Tag == grammar.Noun && (t.in(fairs) && noun.in(fairs) || !article && (grammar.CanBe(noun.lower, grammar.Adjective) || t.in(colours))):
		return true // "the velvet blue" is a place in the sky, a village fair a feast
	case t.in(manner):
		return !article || !before.in(owning) // "he shut the drawer tight" says how; "he had a needle long" does not
	case grammar.CanBe(t.lower, grammar.Adverb) && !mostlyAdjective(t.lower) && !t.in(poetic):
		return before.Tag != grammar.Preposition && before.Tag != grammar.To // surer in a phrase of place: "by the fire bright"
	}
	return false
}

// verbBefore is the last verb before token from in the clause of token i; -1 where there
// is none.
func (ps *passage) verbBefore(i, from int) int {
	begin, _ := ps.clause(i)
	for k := from - 1; k >= begin; k-- {
		if ps.at(k).Tag.IsVerb() {
			return k
		}
	}
	return -1
}

// leavesSo reports whether the adjective at token i says what became of the noun
// phrase that opens at token from, or how somebody has it: "painted the door green",
// "held her head high".
func (ps *passage) leavesSo(i, from, verb int) bool {
	det, before := ps.at(from), ps.at(from-1)
	begin, _ := ps.clause(i)
	switch {
	case ps.any(begin, from, func(t *token) bool { return t.in(resulting) }): // "he left the windows and the doors wide"
		return true
	case before.lower == "with" && det.Tag == grammar.Possessive: // "with his mouth open"
		return true
	case verb >= 0 && verb == from-2 && before.Tag == grammar.Particle: // "held up the lantern high"
		return true
	case verb >= 0 && verb == from-1:
		owns := det.is("a", "an") && before.in(owning)
		crosses := det.lower == "the" && before.in(crossing) && ps.at(i).in(poetic) // "he climbed the mountain steep"
		appears := det.is("a", "an") && before.in(appearing)                        // "there came a lady tall"
		return !owns && !crosses && !appears
	}
	return det.Tag == grammar.Possessive && !before.is("in", "on", "upon", "under", "over", "by", "from", "beside", "near", "for", "of")
}

// mostlyAdjective reports whether a word is met as an adjective above all.
func mostlyAdjective(word string) bool {
	w := lexis.Find(word)
	return w != lexis.None && w.Part() == lexis.Adjective && grammar.CanBe(word, grammar.Adjective)
}

func movedAdjective(t, noun *token) string {
	return fmt.Sprintf("My ear expects %s; %s has moved to the end for its sound.", quote(t.Text+" "+noun.Text), quote(t.Text))
}

// participleLast hears "a boat of paper made".
func participleLast(ps *passage, i int) (int, float64, string) {
	made, noun := ps.at(i), ps.at(i-1)
	if made.first || !ps.joined(i-1) || !ps.closes(i) || made.Tag != grammar.VerbParticiple && made.Tag != grammar.VerbPast || made.in(intransitive) ||
		noun.Tag != grammar.Noun && noun.Tag != grammar.NounPlural {
		return 0, 0, ""
	}
	k := i - 2
	for k > 0 && ps.joined(k) && (ps.at(k).Tag.IsAdjective() || ps.at(k).Tag == grammar.Determiner || ps.at(k).Tag == grammar.Possessive) {
		k--
	}
	if k < 1 || !ps.joined(k) || !ps.at(k).is("of", "in", "with", "by") || !ps.joined(k-1) || !ps.at(k-1).Tag.IsNoun() || ps.at(k).line != made.line {
		return 0, 0, ""
	}
	// Another verb carries the clause, so this one only describes.
	from, _ := ps.clause(i)
	carried := ps.any(from, k-1, func(t *token) bool { return t.finite() && !t.in(saying) })
	if !carried || ps.any(from, k-1, func(t *token) bool {
		return t.is("that", "who", "which", "when", "as", "till", "until", "if") || t.in(forms.have) || t.in(forms.be)
	}) {
		return 0, 0, ""
	}
	return i, 0.7, fmt.Sprintf("%s has moved behind its own phrase for the rhyme; my ear expects %s.", quote(capital(made.lower)), quote(made.Text+" "+ps.span(k, i-1).In(ps.text)))
}

// objectBeforeInfinitive hears "he went the floor to sweep". What one has or
// needs does come before it: "a floor to sweep".
func objectBeforeInfinitive(ps *passage, i int) (int, float64, string) {
	verb, to := ps.at(i), ps.at(i-1)
	if verb.first || !ps.joined(i-1) || !ps.joined(i-2) || !ps.closes(i) || to.Tag != grammar.To && to.lower != "to" || !bareVerb(verb) {
		return 0, 0, ""
	}
	k := i - 2
	if !ps.at(k).Tag.IsNoun() {
		return 0, 0, ""
	}
	for k > 0 && ps.joined(k-1) && (ps.at(k).Tag.IsNoun() || ps.at(k).Tag.IsAdjective()) {
		k--
	}
	if d := ps.at(k); d.Tag != grammar.Determiner && d.Tag != grammar.Possessive || k == 0 || !ps.joined(k-1) || !ps.at(k-1).in(setting) {
		return 0, 0, ""
	}
	return i, 0.74, fmt.Sprintf("%s comes before the doing, so that the line can end on %s; English would say %s.",
		capital(ps.span(k, i-2).In(ps.text)), quote(verb.Text), quote("to "+verb.Text+" "+ps.span(k, i-2).In(ps.text)))
}

var (
	// postpositive adjectives do stand after their nouns.
	postpositive = listed("postpositive")
	indefinite   = listed("indefinite")
	colours      = listed("colours")
	poetic       = listed("poetic")
	fairs        = listed("fairs")
	setting      = listed("setting")
	measures     = listed("measures")
	manner       = listed("manner")
	// owning are verbs whose object stays as it is.
	owning = listed("owning")
	// resulting are verbs after which an adjective says how their object is left.
	resulting = listed("resulting")
	// appearing are verbs that say that somebody is there.
	appearing = listed("appearing")
	// crossing are verbs of a way, which do nothing to what they cross.
	crossing = listed("crossing")
)

// objectFirst hears "a basket of plums to the beaver she gave".
func objectFirst(ps *passage, i int) (int, float64, string) {
	verb := ps.at(i)
	if verb.first || !ps.joined(i-1) || ps.joined(i) || verb.in(intransitive) || verb.in(forms.be) || verb.in(forms.do) || verb.in(forms.have) && verb.lower != "had" || verb.in(saying) {
		return 0, 0, ""
	}
	who, ok := ps.doerOf(i)
	if !ok {
		return 0, 0, ""
	}
	what, ok := ps.frontedBefore(i, who.at)
	if !ok || !ps.isSentence(i, who, what) || ps.at(who.at).lower == "it" && what.noun == who.at-1 {
		return 0, 0, "" // "the bell it did ring" is named twice
	}
	// "All day she sang", "twelve times it swung" and "three miles she walked" are
	// adverbs; "every plum she picked" goes first to say that none was left.
	head, noun := ps.at(what.head), ps.at(what.noun)
	spent := verb.is("spent", "had") && noun.lower == "time"
	if !spent && (head.in(timeNouns) || ps.at(what.head+1).in(timeNouns) || noun.in(timeNouns)) || noun.in(measures) || head.is("every", "each") && !ps.at(i-1).in(forms.do) {
		return 0, 0, ""
	}
	return i, 0.8, fmt.Sprintf("%s comes first so that the line can end on %s; at breakfast I would hear %s.", capital(ps.words(what.head, who.at-1)), quote(verb.Text),
		ps.told(who.at, i, what.head, who.at-1))
}

// A doer is the subject that stands before a verb.
type doer struct {
	at    int  // its first token
	named bool // it is a noun with its article, and so less sure
}

// doerOf finds the subject of the verb at token i, before its helpers and adverbs: "he
// quickly did take", "they all built".
func (ps *passage) doerOf(i int) (doer, bool) {
	verb, s := ps.at(i), i-1
	switch helper := ps.at(i - 1); {
	case helper.lower == "to" && bareVerb(verb) && ps.at(i-2).Tag.IsVerb() && ps.joined(i-2): // "he was going to make"
		s = i - 3
		if ps.at(s).in(forms.be) {
			s--
		}
	case helper.in(forms.be) && (verb.Tag == grammar.VerbGerund || strings.HasSuffix(verb.lower, "ing")), helper.in(forms.have) && (verb.Tag == grammar.VerbParticiple || verb.Tag == grammar.VerbPast),
		(helper.Tag == grammar.Modal || helper.in(forms.do)) && bareVerb(verb):
		s = i - 2
	case helper.is("all", "both") && ps.at(i-2).in(subjects) && grammar.CanBe(verb.lower, grammar.VerbPast):
	case verb.Tag != grammar.VerbPast && verb.Tag != grammar.VerbThird && verb.Tag != grammar.VerbPresent:
		return doer{}, false
	}
	if ps.at(s).Tag.IsAdverb() && s > 0 {
		s--
	}
	if ps.at(s).is("all", "both") && ps.at(s-1).in(subjects) && ps.joined(s-1) {
		s--
	}
	switch subject := ps.at(s); {
	case !ps.joined(s):
		return doer{}, false
	case subject.in(subjects):
		return doer{at: s}, true
	case subject.Tag.IsNoun() && s > 1 && (ps.at(s-1).Tag == grammar.Determiner || ps.at(s-1).Tag == grammar.Possessive):
		return doer{at: s - 1, named: true}, true
	}
	return doer{}, false
}

// A frontedThing stands before the subject of its clause.
type frontedThing struct {
	begin int // where its clause begins: in its line or in the one before
	start int // where its line begins
	head  int // its first token
	noun  int
}

// frontedBefore finds the thing that opens the clause of the verb at token i and reaches
// to its subject.
func (ps *passage) frontedBefore(i, subject int) (frontedThing, bool) {
	f, ok := ps.opening(i, subject)
	head := ps.at(f.head)
	if !ok || head.Tag != grammar.Determiner && head.Tag != grammar.Possessive && head.Tag != grammar.NounPlural && head.Tag != grammar.Adjective && head.Tag != grammar.Number &&
		!(head.Tag == grammar.Noun && ps.at(f.head+1).Tag == grammar.Preposition && !head.in(timeNouns) && head.lower != "home") { // "sugar from the shelf they took"
		return f, false
	}
	for j := f.begin; j < f.start; j++ {
		if t := ps.at(j); t.finite() || t.subject() && j == f.begin {
			return f, false
		}
	}
	for j := f.head; j < subject; j++ {
		if !ps.joined(j) || ps.carriesOn(j, f.head) {
			return f, false
		}
	}
	for f.noun = f.head; f.noun < subject && !ps.nominal(f.noun); f.noun++ {
	}
	if f.noun == subject || f.noun > f.head+3 || head.is("all", "both") && !ps.at(f.head+1).Tag.IsNoun() {
		return f, false
	}
	return f, true
}

// opening finds where a clause opens: at the start of the verb's line, behind a
// conjunction in it, or in the line before with a phrase of place.
func (ps *passage) opening(i, subject int) (frontedThing, bool) {
	start := ps.lineStart(i)
	f := frontedThing{begin: start, start: start, head: start}
	if !ps.opens(start) {
		f.begin, _ = ps.clause(i)
		if f.begin < start && ps.lineStart(start-1) > f.begin {
			return f, false
		}
	}
	for j := start; j < subject; j++ {
		opens := j == start || ps.any(start, j, (*token).finite)
		if opens && (ps.at(j).is("and", "but", "then") || ps.at(j).lower == "so" && ps.at(j+1).Tag == grammar.Determiner) && ps.at(j+1).Tag != grammar.Pronoun {
			f.head = j + 1
		}
	}
	// "He had a drum and a flute he played."
	owned := f.head > start && ps.any(start, f.head, func(t *token) bool { return t.in(owning) })
	return f, f.head < subject && !owned
}

// carriesOn reports whether a token makes more of a phrase than a thing: a verb, or what
// opens a clause. "A crown made of pegs" is still one thing.
func (ps *passage) carriesOn(j, head int) bool {
	t := ps.at(j)
	made := j > head && (t.Tag == grammar.VerbParticiple || t.Tag == grammar.VerbPast) && ps.at(j-1).Tag.IsNoun() && ps.at(j+1).is("of", "by", "from", "with", "in", "for")
	return t.Tag.IsVerb() && !made && !ps.nominal(j) || t.Tag == grammar.Modal || t.Tag == grammar.WhPronoun || t.Tag == grammar.WhDeterminer ||
		t.is("that", "as", "when", "where", "while", "if", "because", "than", "until", "till", "before", "after", "since", "such", "what")
}

// isSentence reports whether a thing, who does something to it and the verb at token i
// make a sentence that is turned round. With nothing between thing and doer they may be
// "the songs he made", a thing and no sentence; a phrase between them, a sentence of
// its own, or the second of two, is surer.
func (ps *passage) isSentence(i int, who doer, what frontedThing) bool {
	described := ps.isDescribed(who.at, what)
	moved := ps.any(what.noun, who.at, func(t *token) bool {
		return t.Tag == grammar.Preposition && t.lower != "of" && t.lower != "o'" || t.Tag == grammar.To
	})
	if !who.named {
		second := what.head > what.start && ps.at(what.head).Tag == grammar.Possessive && ps.any(what.start, what.head, func(t *token) bool { return t.Tag.IsVerb() })
		return moved || described || second || ps.standsAlone(i, who.at, what)
	}
	// "The pie from the oven the badger was lifting": a phrase of its own stands
	// between, and the verb goes on to nothing.
	last := ps.at(who.at - 1)
	if described || moved && last.Tag.IsNoun() && who.at-1 > what.noun {
		return true
	}
	// "A cake my gran did drop": the verb is whole and drops nothing else.
	return (ps.opens(what.start) || ps.standsAlone(i, who.at, what)) && ps.at(i-1).in(forms.do) && last.Tag != grammar.Preposition && last.Tag != grammar.To
}

// isDescribed hears a word that describes behind the thing: "a ladder tall she bought", "a
// song very lovely the frog tried to play".
func (ps *passage) isDescribed(subject int, what frontedThing) bool {
	turned := subject - 1
	for turned > what.noun && (ps.at(turned).Tag == grammar.Adjective || ps.at(turned).Tag.IsAdverb() || ps.at(turned).in(poetic)) {
		turned--
	}
	return turned < subject-1 && ps.at(turned).Tag.IsNoun() && ps.at(subject-1).Tag != grammar.Adverb
}

// standsAlone reports whether the clause that ends in the verb at token i is a sentence
// of its own.
func (ps *passage) standsAlone(i, subject int, what frontedThing) bool {
	fresh := what.begin == 0 || ps.at(what.begin-1).Break == manuscript.FullBreak
	switch head, end := ps.at(what.head), ps.at(i).Break; {
	case fresh && (end >= manuscript.HeavyBreak || ps.tellsAllThere(i)), what.begin < what.start && end == manuscript.FullBreak:
		return true
	case end == manuscript.FullBreak && what.head == what.start && what.head > 0 && ps.at(what.head-1).Break == manuscript.LightBreak && subject == i-1 && leadsNowhere(ps.at(what.head-1)):
		return true // "he ran so fast, / the gate and then the pump he passed."
	case !head.is("a", "an"):
		return false
	case ps.at(i - 1).in(forms.do): // nobody says "a song that he did sing"
		return true
	}
	// Behind a comma "a trumpet he blew" may say more of the noun before it; where no
	// noun stands there it is a sentence of its own.
	before := ps.at(what.head - 1)
	return what.head == what.start && what.head > 0 && before.Break == manuscript.LightBreak && (subject == i-1 || subject == i-2 && ps.at(i-1).Tag.IsAdverb()) && !ps.at(i+1).finite() &&
		(before.Tag.IsAdjective() || before.Tag.IsAdverb() || before.Tag == grammar.Pronoun || before.Tag.IsVerb())
}

// leadsNowhere reports whether a token before a comma is nothing that more could be said of.
func leadsNowhere(t *token) bool {
	return t.Tag.IsAdjective() || t.Tag.IsAdverb()
}

var (
	subjects  = listed("subjects")
	timeNouns = listed("timeNouns")
	saying    = listed("saying")
	// intransitive are verbs that take no object, so nothing was moved.
	intransitive = listed("intransitive")
)

// tellsAllThere reports whether the sentence has told all when the verb at i has come:
// behind its comma stands another subject, or nothing with a verb of its own.
func (ps *passage) tellsAllThere(i int) bool {
	if ps.at(i).Break != manuscript.LightBreak {
		return false
	}
	if ps.at(i+1).is("and", "but", "so") && (ps.at(i+2).in(subjects) || ps.at(i+2).in(forms.have)) {
		return true
	}
	_, end := ps.sentence(i)
	return !ps.any(i+1, end, func(t *token) bool {
		return t.Tag.IsVerb() && t.Tag != grammar.VerbGerund && t.Tag != grammar.VerbParticiple || t.Tag == grammar.Modal
	})
}

// verbLast hears "as they to the river did run" and "he the basket took".
func verbLast(ps *passage, i int) (int, float64, string) {
	verb := ps.at(i)
	if verb.first || !ps.joined(i-1) || !(verb.Tag.IsVerb() && verb.Tag != grammar.VerbGerund || bareVerb(verb) && (ps.at(i-1).in(forms.do) || ps.at(i-1).Tag == grammar.Modal)) {
		return 0, 0, ""
	}
	start := ps.lineStart(i)
	end := i
	if ps.at(i-1).in(forms.do) || ps.at(i-1).Tag == grammar.Modal && bareVerb(verb) {
		end = i - 1
	}
	subject := -1
	for k := end - 1; k >= start; k-- {
		if ps.at(k).Tag == grammar.Pronoun && ps.at(k).in(subjects) && ps.at(k).lower != "you" && ps.at(k).lower != "it" {
			subject = k
			break
		}
		if ps.at(k).Tag.IsVerb() || ps.at(k).Tag == grammar.Modal {
			return 0, 0, ""
		}
	}
	if subject < 0 || subject >= end-2 || !ps.joined(subject) {
		return 0, 0, ""
	}
	next := ps.at(subject + 1)
	if next.Tag != grammar.Preposition && next.Tag != grammar.To && next.Tag != grammar.Determiner && next.Tag != grammar.Possessive || next.is("all", "both", "each", "that") {
		return 0, 0, ""
	}
	// Between subject and verb stand only a noun phrase and its prepositions.
	nouns := 0
	for k := subject + 1; k < end; k++ {
		t := ps.at(k)
		if t.Tag.IsNoun() || t.Tag == grammar.Pronoun {
			nouns++
		}
		if t.Tag.IsVerb() || t.Tag == grammar.Modal || t.Tag == grammar.Conjunction || !ps.joined(k) {
			return 0, 0, ""
		}
	}
	if nouns == 0 || !ps.closes(i) {
		return 0, 0, ""
	}
	return i, 0.82, fmt.Sprintf("%s waits until the line is over; English would say %s first.", quote(capital(verb.lower)), quote(ps.at(subject).Text+" … "+verb.Text))
}

// complementFirst hears "so happy was he".
func complementFirst(ps *passage, i int) (int, float64, string) {
	subject, be := ps.at(i), ps.at(i-1)
	if subject.first || subject.Tag != grammar.Pronoun || !subject.in(subjects) || !be.is("was", "is", "were") || ps.joined(i) || !ps.joined(i-1) {
		return 0, 0, ""
	}
	adjective := ps.at(i - 2)
	if !ps.joined(i-2) || adjective.Tag != grammar.Adjective && adjective.Tag != grammar.VerbParticiple || ps.endsWith(i, "?") {
		return 0, 0, ""
	}
	from := i - 2
	for from > ps.lineStart(i) && ps.joined(from-1) && (ps.at(from-1).gradable() || ps.at(from-1).is("so", "and")) {
		from--
	}
	if ps.at(from).lower == "so" {
		// "So proud was he that he sang" is good English.
		_, end := ps.sentence(i)
		if ps.any(i+1, end, func(t *token) bool { return t.lower == "that" }) || ps.at(i).Break == manuscript.LightBreak {
			return 0, 0, ""
		}
	}
	return i, 0.7, fmt.Sprintf("The line turns round so that %s can rhyme; my ear expects %s.", quote(subject.Text), quote(subject.Text+" "+be.Text+" "+adjective.Text))
}
