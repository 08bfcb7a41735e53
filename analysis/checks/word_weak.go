package checks

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"dandle/analysis/manuscript"
	"dandle/analysis/suggest/pictures"
	"dandle/phonetics/grammar"
)

const wordWeakDoc = `
An evaluating word shows the reader nothing.

_Great_, _nice_ and _lovely_ tell a child what to think of a thing and leave nothing to see.
The page after that word has no picture in it. One is a small matter and raised as a hint;
three in a stanza weaken it. Speech may use such words, a child's voice lives by them, and
size may be what the tale is about: _bigger than the barn_, _the big one and the small one_.
An idle _big_ is heard; _small_ and _large_ only beside other words that show nothing.

Raised here, at _nice_ and at _great_:

    The otter had a nice warm bed,
    A great blue blanket round his head.

Not here:

    The otter had a bed of reeds,
    A blanket stitched from thistle seeds.
    “Good night,” he told the bigger stones.

A plain verb that leans on an adverb to say how, as _walked slowly_, shows less than one verb that
says both; that is heard too. So is _got very cold_, and _got cold_ beside others of its kind; and
_went_ where a stanza goes twice by it: one _went_ moves the tale on, two hide how.

Words under _weak_ in _dandle.yaml_ are raised as well, whatever they do in their line; one with a
minus before it, as _-pretty_, is let be.

What helps: what is it like? A nice bed may be one of reeds; a big noise may be a clank; who walked
slowly may have trudged. Where words that scan in the place are known, they are offered.
`

var wordWeak = &Check{
	Code:      "word/weak",
	Severity:  Hint,
	Sometimes: Information,
	Reach:     OneStanza,
	Doc:       wordWeakDoc,
	Run: func(p *Pass) {
		vocabulary := NewWeak(p.House)
		for ps := range p.passages() {
			found := vocabulary.heard(ps)
			severity := Hint
			if len(found) >= crowdOfWeak {
				severity = Information
			}
			for _, f := range found {
				var fixes []Fix
				if ps.joined(f.to) && !(ps.joined(f.from-1) && ps.at(f.from-1).Tag.IsAdverb()) && (ps.at(f.to+1).Tag.IsNoun() || ps.at(f.to+1).Tag.IsAdjective()) {
					fixes = p.without(ps, f.from, f.to)
				}
				if len(fixes) == 0 {
					f.message += p.room(ps, f.from, f.to)
				}
				p.Report(Finding{
					Fixes:      fixes,
					Severity:   severity,
					Span:       ps.span(f.from, f.to),
					Line:       ps.at(f.from).line,
					Message:    f.message,
					Confidence: f.confidence,
				})
			}
		}
	},
}

// crowdOfWeak is how many weak words in a stanza weaken it (craft, ours).
const crowdOfWeak = 3

// A Weak knows which words show nothing, in a house.
type Weak struct{ more, less words }

// NewWeak is what a house holds to show nothing: the checks' own words, those
// that its rules add, and not those that they take away with a minus.
func NewWeak(house manuscript.House) Weak {
	w := Weak{words{}, words{}}
	for _, text := range house.Weak {
		if less, away := strings.CutPrefix(text, "-"); away {
			w.less[plain(less)] = true
		} else {
			w.more[plain(text)] = true
		}
	}
	return w
}

// Has reports whether a word in lower case shows nothing, wherever it stands.
func (w Weak) Has(word string) bool {
	return w.more[word] || !w.less[word] && (weakJudging[word] || weakSize[word] || weakFeeling[word])
}

// Judges reports whether a word in lower case only says what to think of a thing.
func Judges(word string) bool { return weakJudging[word] }

// A showless is a stretch of tokens, both ends in it, that shows nothing.
type showless struct {
	from, to   int
	confidence float64
	message    string
	goes       bool // by a plain verb, which counts with its like alone
}

// heard are the stretches of a stanza that show nothing.
func (w Weak) heard(ps *passage) []showless {
	var found []showless
	for i := range ps.tokens {
		t := ps.at(i)
		if t.Quoted || t.raised() || t.refrain || t.in(w.less) || named(ps, i) {
			continue
		}
		f := showless{from: i, to: i}
		switch {
		case t.in(w.more):
			f.confidence, f.message = 0.9, "The house's list has %s among the words that show nothing; what would I see in its place?"
		case t.in(weakJudging) && judges(ps, i):
			f.confidence, f.message = 0.76, "%s tells me what to think and leaves me nothing to see; what is it like?"
		case t.in(weakSize) && sizes(ps, i):
			f.confidence, f.message = sizeAlone(ps, i), "%s gives a size and no shape; what would I see if I stood beside it?"
		case t.in(weakFeeling) && feels(ps, i):
			f.confidence, f.message = 0.64, "%s names the feeling; a paw, a tail or a tear could show it."
		case t.in(plainVerbs) && leansOnManner(ps, i):
			f.to, f.confidence, f.message = i+1, 0.62, "%s takes two words for one sight; there may be a verb that shows how by itself."
		case t.in(plainGoings) && onlyGoes(ps, i):
			f.goes = true
			f.confidence, f.message = wentAlone, "%s says that somebody moved and hides how; is there one verb that I could watch?"
		case t.in(getting):
			if f.to = gotSo(ps, i); f.to == i {
				continue
			}
			f.confidence, f.message = gotAlone, "%s says that it changed and hides how; is there one verb that I could watch?"
			if f.to > i+1 {
				f.confidence = gotVery
			}
		default:
			continue
		}
		if !t.in(w.more) && meant(ps, i) {
			continue
		}
		f.message = fmt.Sprintf(f.message, capital(ps.words(f.from, f.to)))
		found = append(found, f)
	}
	// One plain going is how a tale moves on; only others of its kind make it a habit.
	goings := 0
	for i := range found {
		if found[i].goes {
			goings++
		}
	}
	for i := range found {
		if found[i].goes && goings > 1 || !found[i].goes && len(found)-goings > 1 {
			found[i].confidence = max(found[i].confidence, inCompany)
		}
	}
	return found
}

// sizeAlone is the confidence in a word of size with no other word near it that
// shows nothing. It says what is to be drawn, if little, so that by itself it
// stays below the usual threshold; all but "a big" thing, the first word at hand
// (ours).
func sizeAlone(ps *passage, i int) float64 {
	if before := ps.at(i - 1); ps.at(i).lower == "big" && (before.Tag == grammar.Determiner || before.Tag == grammar.Possessive || before.Tag.IsAdverb()) {
		return 0.58
	}
	return 0.5
}

// inCompany is the least confidence in words that show nothing where a stanza
// has several (ours).
const inCompany = 0.62

// meant reports whether the sentence needs the word: somebody else is said to
// think so, it is asked or denied, or it is measured against another.
func meant(ps *passage, i int) bool {
	begin, _ := ps.sentence(i)
	from, to := ps.clause(i)
	return handedOn(ps, begin, i) || saidAfter(ps, i) || opposed(ps, i) || deniedOfAnother(ps, i) || ps.at(begin).lower == "what" && ps.endsWith(i, "!") || ps.endsWith(i, "?") && ps.at(from).finite() ||
		ps.any(from, i, func(t *token) bool { return t.in(forms.negation) || t.is("more", "less", "least") }) || ps.any(from, i, func(t *token) bool { return t.lower == "most" }) && !ps.any(i-2, i, func(t *token) bool { return t.is("a", "an") }) ||
		ps.any(i+1, to, func(t *token) bool { return t.lower == "than" }) ||
		ps.any(i-3, i, func(t *token) bool { return t.is("so", "such") }) && ps.any(i+1, to+1, func(t *token) bool { return t.lower == "that" })
}

// handedOn reports whether a verb of saying or thinking stands before the token,
// with what is said or thought after it: "she thought it was lovely", "he called
// it great".
func handedOn(ps *passage, begin, i int) bool {
	for k := i - 1; k >= begin; k-- {
		if t := ps.at(k); !t.in(handingOn) || !t.Tag.IsVerb() || t.Tag == grammar.VerbParticiple {
			continue
		}
		if told := ps.at(k + 1); !told.subject() && !told.in(subjects) && !told.in(objects) && !told.is("that", "how", "to", "it", "what", "all", "as", "like") && !told.Tag.IsNoun() && ps.joined(k) {
			continue // who "felt so excited she danced" hands nothing on
		}
		if k+1 < i && ps.at(k).line >= ps.at(i).line-1 && ps.any(k+1, i, func(t *token) bool {
			return t.finite() || t.is("that", "it", "him", "her", "them", "how") || t.in(subjects)
		}) {
			return true
		}
	}
	return false
}

// saidAfter reports whether somebody is named behind the words as the one who said them,
// with no marks of speech round them: "the pancakes were great, said the mouse".
func saidAfter(ps *passage, i int) bool {
	_, end := ps.sentence(i)
	for k := i + 1; k < end; k++ {
		if t := ps.at(k); !t.in(saying) || t.Tag != grammar.VerbPast || !ps.opens(k) || ps.at(k-1).Quoted || ps.at(k+1).Quoted {
			continue
		}
		if who := ps.nounPhrase(k+1, end); ps.at(k+1).in(subjects) || who >= 0 && acts(ps.at(who)) {
			return true
		}
	}
	return false
}

// opposed reports whether the token's opposite stands near it: each is the
// measure of the other.
func opposed(ps *passage, i int) bool {
	t := ps.at(i)
	for _, pair := range opposites {
		if t.in(pair) && ps.any(i-nearOpposite, i+nearOpposite, func(o *token) bool { return o.lower != t.lower && o.in(pair) }) {
			return true
		}
	}
	return false
}

// deniedOfAnother reports whether the next words deny of somebody else what the token says:
// "the spider was happy, the fly was not".
func deniedOfAnother(ps *passage, i int) bool {
	for k := i + 1; k < i+nearDenied; k++ {
		if t := ps.at(k); t.lower == "not" && t.Break != manuscript.NoBreak && ps.at(k-1).in(forms.be) || t.is("wasn't", "weren't", "isn't", "aren't") && t.Break != manuscript.NoBreak {
			return true
		}
	}
	return false
}

// nearDenied is how many words on somebody else may be denied what was said (ours).
const nearDenied = 8

// nearOpposite is how many words away an opposite may stand (ours: about two
// lines).
const nearOpposite = 16

var (
	handingOn = listed("handingOn")
	opposites = linesOf("opposites")
)

var (
	weakJudging = listed("weakJudging")
	weakSize    = listed("weakSize")
	weakFeeling = listed("weakFeeling")
	weakFixed   = pairs("weakFixed")
	greetings   = pairs("greetings")
	measuring   = listed("measuring")
)

// setPhrase reports whether the token and its neighbour are a phrase in which
// the word neither judges nor measures.
func setPhrase(ps *passage, i int) bool {
	if !ps.joined(i) {
		return false
	}
	pair := ps.at(i).lower + " " + ps.at(i+1).lower
	return weakFixed[pair] || greetings[pair] && (ps.opens(i) || ps.at(i-1).Tag != grammar.Determiner)
}

// named reports whether the word is part of a name: the Great Horned Owl, Big
// Ben, good old Tom.
func named(ps *passage, i int) bool {
	t := ps.at(i)
	r, _ := utf8.DecodeRuneInString(t.Text)
	if unicode.IsUpper(r) && !t.first && !ps.opens(i) {
		return true
	}
	for k := i; k < i+2 && ps.joined(k); k++ {
		next := ps.at(k + 1)
		first, _ := utf8.DecodeRuneInString(next.Text)
		switch {
		case next.Tag == grammar.Name, next.Tag == grammar.NamePlural, unicode.IsUpper(first) && !next.first && next.Tag.IsNoun():
			return true
		case !next.Tag.IsAdjective():
			return false
		}
	}
	return false
}

// describes reports whether the token stands as an adjective does: before a
// noun, or after a verb that joins it to one.
func describes(ps *passage, i int) bool {
	t, before, next := ps.at(i), ps.at(i-1), ps.at(i+1)
	if t.Tag.IsAdverb() && t.Tag != grammar.Adverb || t.Tag.IsVerb() || t.Tag == grammar.Comparative || t.Tag == grammar.Superlative {
		return false
	}
	attributive := ps.joined(i) && (next.Tag.IsNoun() || next.Tag.IsAdjective()) || t.Break != 0 && next.Tag.IsAdjective()
	joins := before.in(forms.be) || before.is("felt", "feels", "looked", "looks", "seemed", "seems", "grew", "sounded", "smelled", "tasted", "smells", "tastes", "sounds", "smelling", "looking", "feeling", "tasting", "so", "very", "quite", "really", "too", "all", "rather", "and", "as", "such", "how", "just", "became", "stayed")
	return t.Tag.IsAdjective() || attributive || joins
}

// judges reports whether an evaluating word does evaluate here.
func judges(ps *passage, i int) bool {
	t, before, next := ps.at(i), ps.at(i-1), ps.at(i+1)
	if t.lower == "fun" {
		return funJudges(ps, i)
	}
	if strings.Contains(ps.marks(i), ":") {
		return false // "it was special: it had wheels" goes on to show it
	}
	if thorough(ps, i) || points(ps, i) || ps.joined(i-1) && (before.is("how", "too") || before.lower == "as" && !likenedToNothing(ps, i)) {
		return false
	}
	if !describes(ps, i) || before.in(forms.negation) || before.is("i'm", "we're", "you're", "be") || ps.joined(i) && next.Tag == grammar.Number && !next.is("one", "ones") {
		return false
	}
	if setPhrase(ps, i) || ps.joined(i) && fitFor(ps, i) {
		return false
	}
	if ps.joined(i) && next.is("while", "time", "lot", "way", "deal", "distance") && t.in(measuring) {
		return false // "a terrible while" is a long one
	}
	own := judging[t.lower]
	return own == nil || own(ps, i)
}

// points reports whether the word picks one out: "the sad part of it", "the good and the
// bad".
func points(ps *passage, i int) bool {
	if ps.at(i-1).lower != "the" || !ps.joined(i-1) {
		return false
	}
	next := ps.at(i + 1)
	return !ps.joined(i) || next.is("and", "or", "part", "bit", "truth", "news", "side", "half")
}

// ofTheBody reports whether a noun is a part of the body, which is good or bad at what it
// does.
func ofTheBody(t *token) bool {
	kind, known := pictures.Of(lemma(t.lower))
	return known && slices.Contains([]string{"paw", "eye", "face"}, kind.Name)
}

// fitFor reports whether what follows says for what, or to whom, the thing is as
// it is: "good at knots", "nice to the hens". "Amazing to see" and "special to
// me" say no more than the word alone.
func fitFor(ps *passage, i int) bool {
	next, after := ps.at(i+1), ps.at(i+2)
	if next.Tag == grammar.To || next.lower == "to" {
		return !after.in(objects) && !after.in(beholding)
	}
	return next.is("at", "for", "enough", "with") || ps.at(i).is("good", "bad") && next.lower == "about" || next.lower == "as" && !likenedToNothing(ps, i)
}

// beholding are verbs that whoever looks at a thing does anyway.
var beholding = listed("beholding")

// likenedToNothing reports whether the likeness that "as" opens before the token
// names nothing that one could see: "as nice as can be".
func likenedToNothing(ps *passage, i int) bool {
	end := ps.lineEnd(i)
	as := ps.find(i+1, end, func(t *token) bool { return t.lower == "as" })
	return as >= 0 && ps.at(end).lower == "be" && ps.at(end-1).in(forms.modal)
}

// thorough reports whether the word says how much of a doing there is: "a good
// shake", "with a great heave".
func thorough(ps *passage, i int) bool {
	t, doing := ps.at(i), ps.at(i+1)
	if !t.is("good", "great", "big") || !ps.joined(i) || ps.at(i-1).lower != "a" || doing.Tag != grammar.Noun || !grammar.CanBe(doing.lower, grammar.Verb) {
		return false
	}
	return ps.any(i-5, i-1, func(t *token) bool { return t.in(givingDoings) })
}

// givingDoings are verbs, and "with", that a doing in the form of a noun follows.
var (
	givingDoings = listed("givingDoings")
	exact        = listed("exact")
	abstract     = listed("abstract")
)

// sizes reports whether a word of size only decorates: nothing near it is
// measured against it, and it is no part of a comparison.
func sizes(ps *passage, i int) bool {
	t, before, next := ps.at(i), ps.at(i-1), ps.at(i+1)
	alone := t.lower == "big" && before.in(forms.be) && (!ps.joined(i) || next.lower == "and" && ps.at(i+2).Tag == grammar.Adjective) // "his eyes were big and bright"
	if !describes(ps, i) || setPhrase(ps, i) || thorough(ps, i) || ps.joined(i) && next.is("enough", "as", "for", "to", "and") && !alone {
		return false
	}
	if ps.joined(i) && next.Tag == grammar.Adjective && ps.joined(i+1) && ps.at(i+2).Tag.IsNoun() && !next.in(weakJudging) {
		return false // "big yellow eyes" are seen
	}
	if t.lower != "big" && !(ps.joined(i) && next.Tag.IsNoun()) {
		return false // "a bag that was small" tells a fact of it
	}
	if before.is("be", "as", "too", "how", "that", "so", "and", "or", "not", "no", "great", "more", "less", "the") {
		return false
	}
	// Another size in the stanza is what it is measured against.
	from, to := 0, len(ps.tokens)
	against := ps.any(from, to, func(o *token) bool {
		return o != t && (o.in(weakSize) || o.is("little", "tiny", "huge", "than", "bigger", "smaller", "biggest", "smallest", "grew", "grow", "shrank", "larger", "size", "wee", "short", "fit"))
	})
	return !against && !ps.any(i-3, i+4, func(o *token) bool { return o.is("but", "one", "ones", "tall") })
}

// feels reports whether a feeling is named and left at that.
func feels(ps *passage, i int) bool {
	t, before, next := ps.at(i), ps.at(i-1), ps.at(i+1)
	if !describes(ps, i) || points(ps, i) || before.is("not", "be", "how", "too", "no", "less") || before.lower == "as" && !likenedToNothing(ps, i) || setPhrase(ps, i) || ps.joined(i) && (next.lower == "as" && !likenedToNothing(ps, i) || next.is("to", "that", "for", "with", "when", "about", "of")) {
		return false
	}
	if from, _ := ps.clause(i); ps.any(from, i, func(t *token) bool { return t.is("sounded", "sounds") }) {
		return false // a sad tune feels nothing, and is heard
	}
	if _, to := ps.clause(i); ps.at(to).lower == "but" && ps.at(to).line <= t.line+1 {
		return false // "he felt happy, but he looked grim" needs it
	}
	if t.lower == "glad" && ps.joined(i) {
		return false // "glad he came" goes on to say why
	}
	// A feeling that is named and then shown is at home.
	for k := i + 1; k < len(ps.tokens) && ps.at(k).line <= t.line+shownWithin; k++ {
		// "“What a coat!” they cried" only says who spoke.
		if o := ps.at(k); o.in(showing) && !(o.in(saying) && (ps.at(k-1).Quoted || ps.at(k-2).Quoted)) {
			return false
		}
	}
	return true
}

// shownWithin is how many lines after a feeling's name what shows it may stand
// (ours).
const shownWithin = 2

// showing are the parts of a body and the doings in which a feeling is seen.
var showing = listed("showing")
