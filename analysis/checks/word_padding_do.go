package checks

import (
	"fmt"
	"strings"

	"dandle/analysis/manuscript"
	"dandle/phonetics/grammar"
)

const wordPaddingDoDoc = `
An unemphatic _do_, _does_ or _did_ stands before a verb.

Old verse is full of it, since _did sing_ gives a poet an extra syllable and puts the bare verb
where a rhyme is easy. A listener of today hears the patch. Questions, _did not_, a short
answer and real emphasis need the word and are left alone.

Raised here:

    The otter did dance on the edge of the pier.

Not here:

    He said that he couldn't, but he *did* dance.
    And never did otter dance better than he.

What helps: the verb in its own past, _danced_, and one light word elsewhere.
`

var wordPaddingDo = &Check{
	Code:     "word/padding-do",
	Severity: Warning,
	Reach:    OneStanza,
	Doc:      wordPaddingDoDoc,
	Run: func(p *Pass) {
		for ps := range p.passages() {
			for i := range ps.tokens {
				verb, confidence := paddingDo(ps, i)
				if confidence == 0 {
					verb, confidence = turnedDo(ps, i)
				}
				if confidence == 0 {
					continue
				}
				do := ps.at(i)
				p.Report(Finding{
					Span:       do.Span,
					Line:       do.line,
					Message:    fmt.Sprintf("%s only makes room before %s; the ear of today hears a patch where nothing is being insisted on.", quote(capital(do.lower)), quote(ps.at(verb).Text)) + p.room(ps, i, verb),
					Confidence: confidence,
				})
			}
		}
	},
}

// paddingDo tells whether token i is an auxiliary that nothing asks for, and
// which verb it stands before. A confidence of 0 means that it is licensed.
func paddingDo(ps *passage, i int) (verb int, confidence float64) {
	t := ps.at(i)
	if !t.in(forms.do) || t.raised() || t.refrain || !ps.joined(i) {
		return 0, 0
	}
	// The verb follows at once, or after an adverb or two.
	verb = i + 1
	for verb <= i+2 && ps.joined(verb) && (ps.at(verb).Tag.IsAdverb() || ps.at(verb).is("all", "both")) && !bareVerb(ps.at(verb)) {
		if ps.at(verb).in(forms.negation) || ps.at(verb).is("so", "too", "indeed", "really") {
			return 0, 0
		}
		verb++
	}
	if !bareVerb(ps.at(verb)) {
		return 0, 0
	}
	// It asks for a subject before it: "do come in" and "did you" have none.
	from, to := ps.clause(i)
	subject := i - 1
	if i == from {
		// An aside may stand between: "the crab, who could fiddle, did fiddle".
		if i == 0 {
			return 0, 0
		}
		aside, _ := ps.clause(i - 1)
		if !ps.at(aside).is("who", "which") || aside == 0 {
			return 0, 0
		}
		subject = aside - 1
		from, _ = ps.clause(subject)
	}
	before := ps.at(subject)
	nominal := before.Tag.IsNoun() || before.Tag == grammar.Pronoun || before.Tag == grammar.WhPronoun ||
		before.Tag == grammar.WhDeterminer || before.Tag == grammar.Number || before.is("that", "who", "which", "one", "all", "both", "each", "there")
	modifier := before.Tag.IsAdverb() && subject > from && (ps.at(subject-1).Tag.IsNoun() || ps.at(subject-1).Tag == grammar.Pronoun)
	joinedTo := before.lower == "and"
	if !nominal && !modifier && !joinedTo || joinedTo && t.lower == "do" {
		return 0, 0 // "and do take a plum" invites
	}
	// A question asks with it, and "never", "only then", "so" and "nor" at the
	// clause's start turn subject and verb.
	if before.is("what", "how", "why", "where", "when", "whom", "nor", "so", "than", "neither") || modifier && before.is("never", "only", "so", "still", "really", "certainly", "surely", "indeed") {
		return 0, 0
	}
	if strings.Contains(ps.marks(to-1), "?") {
		return 0, 0
	}
	if ps.any(from, i, func(t *token) bool { return t.is("what", "how", "whatever", "ever") || t.in(forms.negation) }) {
		return 0, 0
	}
	// "If you do see one" insists; so does a cry.
	if ps.at(from).is("if", "whether") || strings.Contains(ps.marks(to-1), "!") {
		return 0, 0
	}
	// Who speaks insists: "I do see you", "I did ask".
	if t.Quoted && before.is("i", "we", "you") {
		return 0, 0
	}
	// "He does love porridge" affirms a liking.
	if t.lower != "did" && ps.at(verb).in(affirmed) {
		return 0, 0
	}
	confidence = 0.86
	sentence, end := ps.sentence(i)
	// Contrast makes it emphatic: "he couldn't sing, but he did dance".
	twice := before.Tag == grammar.Pronoun && ps.joined(subject-1) && ps.at(subject-1).Tag.IsNoun() // "but the crab he did stay"
	insists := !twice && ps.any(sentence, i, func(t *token) bool { return t.is("but", "yet", "though", "although", "still", "however") })
	denied := ps.any(max(sentence-20, 0), i, func(t *token) bool { return t.in(forms.negation) })
	if insists || denied && ps.any(i, end, func(t *token) bool { return t.is("but", "though") }) {
		return 0, 0
	}
	if ps.any(i, end, func(t *token) bool { return t.lower == "mind" }) && ps.any(i, end, func(t *token) bool { return t.lower == "you" }) {
		return 0, 0 // "she did like it, mind you" grants it
	}
	// What was just asked, wished or told is affirmed: "They tried to catch it.
	// They did catch a cold."
	if ps.any(i-nearOpposite, sentence, func(o *token) bool { return o.lower == ps.at(verb).lower }) {
		return 0, 0
	}
	// "He did find it, too" and "He does say good morning. You can't ask for more"
	// grant a thing against another.
	after := min(end+nearDenial, len(ps.tokens))
	if ps.any(i, end, func(t *token) bool { return t.lower == "too" && t.Break != manuscript.NoBreak }) || t.lower != "did" && ps.any(end, after, func(t *token) bool { return t.in(forms.negation) }) {
		return 0, 0
	}
	if t.Quoted {
		confidence -= 0.2
	}
	if ps.at(verb).last {
		confidence += 0.06
	}
	return verb, confidence
}

// turnedDo tells whether token i is an auxiliary with its subject behind it, which nothing
// turned, and which verb it helps: "together did the friends play". Denial, "only" and
// "so" turn them by rule.
func turnedDo(ps *passage, i int) (verb int, confidence float64) {
	t := ps.at(i)
	from, to := ps.clause(i)
	if t.lower != "did" || t.raised() || t.refrain || t.Quoted || i == from || from < ps.lineStart(i) || strings.ContainsAny(ps.marks(to-1), "?!") {
		return 0, 0
	}
	lead := ps.at(from)
	if lead.lower == "then" {
		lead = ps.at(from + 1) // "then home did the farmer go"
	}
	if !lead.Tag.IsAdverb() && lead.lower != "home" && lead.Tag != grammar.Preposition || lead.is("so", "only", "how", "why", "when", "where", "little", "rarely", "seldom", "scarcely", "well") ||
		ps.any(from, i, func(t *token) bool {
			return t.in(forms.negation) || t.is("only", "once", "what", "than", "as") || t.finite()
		}) {
		return 0, 0
	}
	subject := ps.nounPhrase(i+1, to)
	if subject == to-1 && bareVerb(ps.at(subject)) && ps.nominal(subject-1) {
		subject-- // "the badgers play" is no kind of play
	}
	if subject < 0 || !ps.joined(subject) || !bareVerb(ps.at(subject+1)) || !ps.at(subject+1).last {
		return 0, 0
	}
	return subject + 1, 0.7
}

// nearDenial is how many words into the next sentence a denial answers this one
// (ours).
const nearDenial = 4

// affirmed are verbs that "do" affirms more than it pads.
var affirmed = listed("affirmed")

// bareVerb reports whether the token can be a verb in its base form here.
func bareVerb(t *token) bool {
	switch t.Tag {
	case grammar.Verb, grammar.VerbPresent:
		return true
	case grammar.Modal:
		return t.is("need", "dare")
	case grammar.Noun, grammar.Adjective, grammar.VerbPast, grammar.VerbParticiple:
		return grammar.CanBe(t.lower, grammar.Verb) && !t.is("well", "right", "last", "best", "good", "jobs", "it")
	}
	return false
}
