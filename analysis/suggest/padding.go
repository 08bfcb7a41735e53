package suggest

import (
	"slices"
	"strings"
	"sync"

	"dandle/analysis/manuscript"
	"dandle/analysis/rhyme"
	"dandle/analysis/scansion"
	"dandle/analysis/suggest/forms"
	"dandle/analysis/suggest/pictures"
	"dandle/analysis/suggest/words"
	"dandle/phonetics"
	"dandle/phonetics/arpabet"
	"dandle/phonetics/grammar"
	"dandle/phonetics/lexicon"
)

const (
	// readRewrites is how many rewrites of a line are read in it, at most.
	readRewrites = 14

	// Weights of what may stand in the place of a filler (ours).
	closing     = 1.5 // a phrase that closes the line
	opening     = 3.5 // one that opens it
	sequence    = 2.3 // a word that tells the order of what happens
	laterPhrase = 0.04
	// atHome is how much nearer a place lies to its stanza than others do, in standard
	// deviations, from which it is one of the tale's (ours).
	atHome = 0.9
)

// Padding lists what would do in the place of the words from … to-1 of a line, which
// are there for the beat or the rhyme alone, best first: one longer word for a
// degree and what it leans on; at a line's end a phrase that shows where, when or
// how and keeps the rhyme; at its start one that says when; else the line without
// them, in which another thing is shown instead.
func Padding(p Place, line, from, to int) []Item {
	if line < 0 || line >= len(p.Poem.Lines) || from < 0 || from >= to || to > len(p.Poem.Lines[line].Words) {
		return nil
	}
	if isAny(lower(p.Poem.Lines[line].Words[from].Text), "there", "there's", "'twas", "twas") {
		return p.rewrites(line, p.opened(line, from, to), maxReplacements, readRewrites)
	}
	if lower(p.Poem.Lines[line].Words[to-1].Text) == "such" {
		return p.suchA(line, to-1)
	}
	list := p.Poem.Lines[line].Words
	from, to = spare(list, from, to)
	items := Instead(p, line, from, to)
	if len(items) == 0 && to+1 == len(list) && p.judges(lower(list[to].Text)) {
		return Shown(p, line, from, to+1)
	}
	if to == len(list) {
		return append(items, p.rewrites(line, p.closings(line, from, to), maxReplacements, readRewrites)...)
	}
	if len(items) >= maxReplacements {
		return items
	}
	var more []rewrite
	if from == 0 {
		more = append(more, p.openings(line, to)...)
	}
	more = append(more, p.plainer(line, from, to)...)
	more = append(more, p.become(line, from, to)...)
	more = append(more, p.saidTwice(line, from, to)...)
	more = append(more, p.inOrder(line, from, to)...)
	if gone := p.without(line, from, to); gone != nil && !(from > 0 && list[from-1].Tag.IsNoun() && list[to].Tag.IsAdjective()) {
		more = append(more, p.elsewhere(line, from, to, gone)...)
	}
	items = append(items, p.rewrites(line, more, maxReplacements-len(items), readRewrites)...)
	if len(items) == 0 && to-from > 1 && leans(list[from+1:to]) && lower(list[from].Text) != "ever" {
		return Instead(p, line, from+1, to) // of two degrees, one
	}
	return items
}

// spare is which of two prepositions can go: "of" in "off of", and "up" in "up on". Of
// other words, all.
func spare(list []scansion.Word, from, to int) (int, int) {
	switch {
	case to-from == 2 && lower(list[to-1].Text) == "of":
		return to - 1, to
	case to-from == 2 && lower(list[from].Text) == "up" && isAny(lower(list[from+1].Text), "on", "upon"):
		return from, from + 1
	}
	return from, to
}

// suchA are what can stand for "such a pretty": one thing more to see in its time.
func (p *Place) suchA(line, such int) []Item {
	list := p.Poem.Lines[line].Words
	if such+3 >= len(list) || !isAny(lower(list[such+1].Text), "a", "an") {
		return nil
	}
	s, ok := p.spot(line, such+2, such+3)
	if !ok || s.part != words.Adjective {
		return nil
	}
	proposals := s.picturedInstead()
	if !p.isEmpty(s.text) {
		proposals = byScore(append(s.firmly(), s.firmlyPictured()...))
	}
	s.from = such
	for i, c := range proposals {
		article := "a"
		if changed, ok := s.articleFor(article, c.form); ok {
			article = changed
		}
		proposals[i].form = article + " " + c.form
	}
	return s.offers(proposals)
}

// openings are phrases that say when or where, for a cry or a "well" at a line's
// start.
func (p *Place) openings(line, to int) []rewrite {
	list := p.Poem.Lines[line].Words
	last := lower(list[to-1].Text)
	if list[to-1].Tag.IsVerb() || list[to-1].Break == manuscript.NoBreak && last != "then" && last != "well" && last != "oh" && last != "so" {
		return nil
	}
	theme, near := p.themeOf(line)
	s := spot{place: p, line: line, from: 0, to: to, theme: theme, near: near}
	span := manuscript.Span{Start: list[0].Span.Start, End: list[to].Span.Start}
	phrases := pictures.Openings()
	if p.tellsState(line, to) {
		phrases = pictures.Settings()
	}
	var out []rewrite
	for i, phrase := range phrases {
		if s.repeats(phrase) || !s.takesSyllables(phrase, p.syllables(line, 0, to)) || phrase != "then" && isAny(lower(list[to].Text), "one", "that", "when", "as", "every") {
			continue // "soon one rainy morning"
		}
		out = append(out, rewrite{[]change{{span, likeIn(phrase, list[0].Text) + " "}}, opening - laterPhrase*float64(i), "tells when or where"})
	}
	return out
}

// opened lets a sentence that opens with "there was" begin with its subject, behind a
// phrase that says when or where: "at dusk a mouse sat spinning" for "there was a
// mouse who sat spinning".
func (p *Place) opened(line, from, to int) []rewrite {
	list := p.Poem.Lines[line].Words
	who := to
	for who < len(list) && !isAny(lower(list[who].Text), "who", "that", "which") {
		who++
	}
	if who+1 >= len(list) || list[who-1].Break != manuscript.NoBreak {
		return nil
	}
	theme, near := p.themeOf(line)
	s := spot{place: p, line: line, from: from, to: to, theme: theme, near: near}
	span := manuscript.Span{Start: list[from].Span.Start, End: list[to].Span.Start}
	gone := change{at: manuscript.Span{Start: list[who-1].Span.End, End: list[who].Span.End}}
	room := p.syllables(line, from, to) + 1
	if isAny(lower(list[who+1].Text), "was", "were") {
		gone.at.End, gone.with = list[who+1].Span.End, " had been"
		room--
	}
	var out []rewrite
	for i, phrase := range pictures.Settings() {
		for n := max(1, room-1); n <= room; n++ {
			if !s.repeats(phrase) && s.takesSyllables(phrase, n) {
				out = append(out, rewrite{[]change{{span, likeIn(phrase, list[from].Text) + " "}, gone}, opening - laterPhrase*float64(i), "tells when or where"})
			}
		}
	}
	return out
}

// tellsState reports whether the first verb of a line from word from on is a form of
// "be": it tells how things are, and nothing happens.
func (p *Place) tellsState(line, from int) bool {
	for _, w := range p.Poem.Lines[line].Words[from:] {
		if isAny(lower(w.Text), "was", "were", "is", "are") {
			return true
		}
		if w.Tag.IsVerb() {
			return false
		}
	}
	return false
}

// repeats reports whether a phrase has a word of weight that the stanza has already.
func (s *spot) repeats(phrase string) bool {
	for w := range strings.FieldsFuncSeq(phrase, func(r rune) bool { return r == ' ' || r == ',' }) {
		if found := words.Find(w); found == words.None || found.Rarity() > plainWord {
			for _, near := range s.near {
				if near == w {
					return true
				}
			}
		}
	}
	return false
}

// growing are adjectives that a thing becomes by and by.
var growing = strings.Fields("late dark cold warm cool dim quiet still silent tired weary sleepy hungry thirsty old weak pale thin tall long bold loud hoarse damp windy stormy wild grumpy calm misty foggy gloomy")

// become are verbs of change for "was" and a degree, before what a thing becomes: "it
// had grown late".
func (p *Place) become(line, from, to int) []rewrite {
	list := p.Poem.Lines[line].Words
	if from == 0 || to == len(list) || list[to-1].Break != manuscript.NoBreak || !isAny(lower(list[to].Text), growing...) && !(lower(list[to].Text) == "hot" && lower(list[from-1].Text) == "got") {
		return nil
	}
	if lower(list[from-1].Text) != "was" {
		return p.grows(line, from, to)
	}
	span := manuscript.Span{Start: list[from-1].Span.Start, End: list[to-1].Span.End}
	with := map[int][]string{1: {"had grown"}, 2: {"was growing", "had fallen"}}[p.syllables(line, from, to)]
	var out []rewrite
	for i, verb := range with {
		if verb == "had fallen" && !isAny(lower(list[to].Text), "still", "silent", "quiet") {
			continue
		}
		out = append(out, rewrite{[]change{{span, verb}}, 2 - 0.1*float64(i), "shows how it came to be"})
	}
	return out
}

// saidTwice is an adverb said again for the degree before it, as tales do: "it turned
// slowly, slowly".
func (p *Place) saidTwice(line, from, to int) []rewrite {
	list := p.Poem.Lines[line].Words
	if !list[to].Tag.IsAdverb() || !strings.HasSuffix(list[to].Text, "ly") || from == 0 || !leans(list[from:to]) || to+1 < len(list) && list[to].Break == manuscript.NoBreak && !isPreposition(list[to+1].Tag) {
		return nil
	}
	span := manuscript.Span{Start: list[from].Span.Start, End: list[to].Span.End}
	return []rewrite{{[]change{{span, list[to].Text + ", " + list[to].Text}}, sequence, "says it as tales do"}}
}

// grows are verbs of change for "get" or "got" and a degree, before what one becomes
// by and by: "I’m growing sleepy" for "I get quite sleepy".
func (p *Place) grows(line, from, to int) []rewrite {
	list := p.Poem.Lines[line].Words
	if from < 2 {
		return nil
	}
	span := manuscript.Span{Start: list[from-2].Span.Start, End: list[to-1].Span.End}
	who := list[from-2].Text
	switch lower(list[from-1].Text) {
	case "got":
		if list[from-2].Tag == grammar.Pronoun || list[from-2].Tag.IsNoun() {
			return []rewrite{{[]change{{span, who + " had grown"}}, 2, "shows how it came to be"}}
		}
	case "get":
		be := map[string]string{"i": "’m", "we": "’re", "they": "’re", "you": "’re"}[lower(who)]
		if be == "" {
			return nil
		}
		if !strings.Contains(p.Manuscript.Text, "’") && strings.Contains(p.Manuscript.Text, "'") {
			be = "'" + strings.TrimPrefix(be, "’")
		}
		return []rewrite{{[]change{{span, who + be + " growing"}}, 2, "shows how it came to be"}}
	}
	return nil
}

// inOrder are words for "just" and its like before a verb in the past, that tell
// when it is done: "then she opened the door".
func (p *Place) inOrder(line, from, to int) []rewrite {
	list := p.Poem.Lines[line].Words
	if to-from != 1 || list[from].Break != manuscript.NoBreak || lower(list[from].Text) == "all" || isBe(list[to]) && !(to+1 < len(list) && list[to+1].Tag == grammar.VerbParticiple) || !isPast(list[to].Tag, lower(list[to].Text)) {
		return nil
	}
	at := list[from].Span
	one := []rewrite{
		{[]change{{at, likeIn("then", list[from].Text)}}, sequence - 0.2, "tells the order"},
		{[]change{{at, likeIn("soon", list[from].Text)}}, sequence - 0.3, "tells the order"},
	}
	if from > 0 && lower(list[from-1].Text) == "it" {
		return nil
	}
	if from == 0 || from > 1 && list[from-2].Break != manuscript.FullBreak {
		return one
	}
	// "She just opened" opens with "then she opened".
	subject := list[from-1]
	if subject.Tag != grammar.Pronoun || subject.Break != manuscript.NoBreak {
		return one
	}
	return append(one, rewrite{[]change{
		{manuscript.Span{Start: subject.Span.Start, End: list[to].Span.Start}, likeIn("then", subject.Text) + " " + asInside(subject.Text) + " "},
	}, sequence, "tells the order"})
}

// asInside is a word as it is written inside a sentence.
func asInside(word string) string {
	if word == "I" || strings.HasPrefix(word, "I’") || strings.HasPrefix(word, "I'") {
		return word
	}
	return strings.ToLower(word)
}

func isPast(t grammar.Tag, word string) bool {
	return t == grammar.VerbPast || t == grammar.VerbParticiple && grammar.CanBe(word, grammar.VerbPast)
}

// closings are phrases of place, time and manner for words that end a line for its
// rhyme alone: as long, and rhyming as they do.
func (p *Place) closings(line, from, to int) []rewrite {
	if from == 0 {
		return nil
	}
	list := p.Poem.Lines[line].Words
	theme, near := p.themeOf(line)
	s := spot{place: p, line: line, from: from, to: to, theme: theme, near: near, text: lower(list[to-1].Text), tag: grammar.Noun}
	span := manuscript.Span{Start: list[from-1].Span.End, End: list[to-1].Span.End}
	room := p.syllables(line, from, to)
	end := endOf(list[to-1].Text, list[to-1].Ways)
	var out []rewrite
	k := beforeDegrees(list, from-1)
	describes := list[from-1].Tag.IsAdjective() || list[from-1].Tag == grammar.VerbParticiple && followsBe(list, k)
	if describes {
		if out = s.oneMoreAdjective(list[from-1], span, room); len(out) > 0 {
			return out
		}
	}
	for i, c := range pictures.Closings() {
		if describes && !strings.HasSuffix(c.Lead, " the ") {
			continue // "glad inside out"
		}
		if c.Last == s.text || s.repeats(c.Lead+c.Last) || !sameEnd(c.Last, list[to-1].Ways) || !s.bears(&c) {
			continue
		}
		then := endOf(c.Last, s.said(c.Last))
		if rhyme.Compare(&end, &then).Kind != rhyme.Perfect || !s.takesSyllables(c.Lead+c.Last, room) && !s.takesSyllables(c.Lead+c.Last, room+1) {
			continue
		}
		w := words.Find(c.Last)
		if near := atHomeIn(&theme, w); near >= atHome {
			out = append(out, rewrite{[]change{{span, " " + c.Lead + c.Last}}, closing + near/3 - 0.001*float64(i), "shows more than " + list[from].Text})
		}
	}
	return out
}

// places is what a phrase's usual company is measured against: the words that phrases of
// place, time and manner close with.
var places = sync.OnceValue(func() *words.Crowd {
	var list []words.Word
	for _, c := range pictures.Closings() {
		if w := words.Find(c.Last); w != words.None && !slices.Contains(list, w) {
			list = append(list, w)
		}
	}
	return words.NewCrowd(list)
})

// atHomeIn is how much nearer a word lies to what a stanza is about than either lies to
// the places of tales, in standard deviations: so common a word as "sea" lies near to all.
func atHomeIn(theme *words.Theme, w words.Word) float64 {
	near := theme.Nearness(w)
	mean, spread := places().Around(w)
	ofTheme, spreadOfTheme := places().AroundTheme(theme)
	if spread == 0 || spreadOfTheme == 0 {
		return 0
	}
	return ((near-mean)/spread + (near-ofTheme)/spreadOfTheme) / 2
}

// beforeDegrees is the first of the words of degree before word i, or i.
func beforeDegrees(list []scansion.Word, i int) int {
	for i > 0 && list[i-1].Break == manuscript.NoBreak && (leans(list[i-1:i]) || lower(list[i-1].Text) == "all") {
		i--
	}
	return i
}

// mentioned is the nearness to its stanza of what an aim names, as "for the crew" does
// (ours).
const mentioned = 0.42

// bears reports whether a line bears a phrase: what comes two by two is many, and an aim,
// an hour or the sea is one of the tale's.
func (s *spot) bears(c *pictures.Closing) bool {
	list := s.place.Poem.Lines[s.line].Words[:s.from]
	switch {
	case isBe(list[s.from-1]):
		return false // "I was excited, I was, after all" wants no place
	case c.Lead == "one by " || c.Lead == "two by " || c.Lead == "side by " || c.Lead == "hand in ":
		return slices.ContainsFunc(list, func(w scansion.Word) bool { return w.Tag == grammar.NounPlural || lower(w.Text) == "they" })
	case c.Lead == "for ":
		return s.eats()
	case c.Lead == "for the ", c.Lead == "before the ", (c.Lead == "at " || c.Lead == "by ") && !isAny(c.Last, "night", "dusk", "dawn", "noon", "day", "last", "once", "sea"):
		return s.theme.Nearness(words.Find(c.Last)) > mentioned
	case c.Lead == "by " && c.Last == "sea", isAny(c.Last, "tiptoe", "fro", "down", "round", "speed", "lead", "view"):
		return slices.ContainsFunc(list, func(w scansion.Word) bool {
			verb, part, ok := forms.Base(lower(w.Text), w.Tag)
			return ok && part == words.Verb && isWayToGo(verb)
		})
	}
	return true
}

// eats reports whether the line names food.
func (s *spot) eats() bool {
	for i := range s.from {
		if noun := s.place.nounAt(s.line, i); noun != words.None {
			if kind, known := s.kindOf(noun); known && isAny(kind.Name, "cake", "bread", "soup", "drink", "fruit", "vegetable", "cheese", "food") {
				return true
			}
		}
	}
	return false
}

// oneMoreAdjective joins to an adjective another that rhymes as the filler behind it
// does: "the wind was cold and strong" for "the wind was cold all along".
func (s *spot) oneMoreAdjective(stands scansion.Word, span manuscript.Span, room int) []rewrite {
	list := s.place.Poem.Lines[s.line].Words
	last := list[s.to-1]
	own := words.Find(lower(stands.Text))
	if own == words.None || s.place.isEmpty(own.String()) || stands.Break != manuscript.NoBreak && lower(stands.Text) == s.text {
		return nil
	}
	var out []rewrite
	for _, c := range rhymesOf([]rhyme.Word{{Text: last.Text, Ways: last.Ways}}, s.place.Reader, perfectOnly) {
		near := words.Nearness(own, c.word)
		if near < besideNear || near > sameKind || c.word.Part() != words.Adjective || !closesPhrase(&c) || !s.offerable(c.word) || slices.Contains(s.near, c.text) || s.place.isEmpty(c.text) || !s.takesSyllables("and "+c.text, room) {
			continue
		}
		out = append(out, rewrite{[]change{{span, " and " + c.text}}, closing + near, "shows more than " + list[s.from].Text})
	}
	return out
}

// besideNear is how near two adjectives lie at least that "and" may join (ours).
const besideNear = 0.45

func endOf(text string, ways []phonetics.Pronunciation) rhyme.End {
	return rhyme.NewEnd([]rhyme.Word{{Text: text, Ways: ways}})
}

// sameEnd reports whether a word of the lexicon may end in the vowel and what follows
// it that another ends in: quickly, for most do not.
func sameEnd(word string, ways []phonetics.Pronunciation) bool {
	if len(ways) == 0 {
		return false
	}
	tail := lastVowelOn(ways[0].Sounds)
	for _, sounds := range lexicon.Lookup(word).All() {
		other := lastVowelOn(sounds)
		if len(other) == len(tail) && samePhones(other, tail) {
			return true
		}
	}
	return false
}

func lastVowelOn(s arpabet.Sounds) arpabet.Sounds {
	for i := len(s) - 1; i >= 0; i-- {
		if s.At(i).IsVowel() {
			return s[i:]
		}
	}
	return s
}

// PaddedVerb lists what would do in the place of "did" or "does" at word do of a line
// and the bare verb at word verb, best first: another verb, the verb in its own
// tense with a sight of who does it or a word that tells when; and where the bare
// verb bears the rhyme, another helper that says something.
func PaddedVerb(p Place, line, do int) []Item {
	if line < 0 || line >= len(p.Poem.Lines) || do < 0 || do+1 >= len(p.Poem.Lines[line].Words) {
		return nil
	}
	list := p.Poem.Lines[line].Words
	helper := lower(list[do].Text)
	verb := do + 1
	for verb < len(list)-1 && list[verb].Tag.IsAdverb() && !grammar.CanBe(lower(list[verb].Text), grammar.Verb) {
		verb++
	}
	if list[verb].Tag == grammar.Determiner || list[verb].Tag == grammar.Possessive {
		verb = len(list) - 1 // "together did the friends play"
	}
	if !grammar.CanBe(lower(list[verb].Text), grammar.Verb) {
		return nil
	}
	own, ok := p.ownTense(line, verb, helper)
	if !ok {
		return p.rewrites(line, p.helpers(line, do, helper), maxReplacements, readRewrites)
	}
	gone, _ := merged([]change{{at: manuscript.Span{Start: list[do].Span.Start, End: list[do+1].Span.Start}}}, own)
	out := p.elsewhere(line, do, do+1, gone)
	if verb+1 == len(list) {
		out = append(out, p.atTheEnd(line, do, verb, helper)...)
		items := p.rewrites(line, out, maxReplacements, readRewrites)
		for i := range items {
			if items[i].Span.End == list[verb].Span.End {
				items[i].Wants = lower(items[i].Text[strings.LastIndexByte(items[i].Text, ' ')+1:])
			}
		}
		return append(items, p.rewrites(line, p.helpers(line, do, helper), maxReplacements, readRewrites)...)
	}
	out = append(append(out, p.helpers(line, do, helper)...), rewrite{gone, 4, "in its own tense"})
	for i, when := range whens(helper) {
		with, _ := merged([]change{{list[do].Span, when}}, own)
		out = append(out, rewrite{with, 2.5 - 0.05*float64(i), "tells when"})
	}
	return p.rewrites(line, out, maxReplacements, readRewrites)
}

// ownTense puts the bare verb at a word, and one that "and" joins to it, in the tense
// that a helper gives them: "did reach and hook" has two that lean on it.
func (p *Place) ownTense(line, verb int, helper string) ([]change, bool) {
	list := p.Poem.Lines[line].Words
	form, ok := conjugated(lower(list[verb].Text), helper)
	if !ok {
		return nil, false
	}
	own := []change{{list[verb].Span, form}}
	for i := verb + 1; i+1 < len(list); i++ {
		if lower(list[i].Text) == "and" && (list[i+1].Tag == grammar.Verb || list[i+1].Tag == grammar.VerbPresent) {
			second, known := conjugated(lower(list[i+1].Text), helper)
			if !known {
				return nil, false
			}
			own = append(own, change{list[i+1].Span, second})
		}
	}
	return own, true
}

// atTheEnd are verbs in the past for "did" and a bare verb that end a line, as long as
// they are: with a word that says where to, "a mouse crept out", or, in a clause that
// says when, "when the wind had dropped". The line then ends on another sound.
func (p *Place) atTheEnd(line, do, verb int, helper string) []rewrite {
	list := p.Poem.Lines[line].Words
	if helper != "did" || verb != do+1 {
		return nil
	}
	bare := lower(list[verb].Text)
	span := manuscript.Span{Start: list[do].Span.Start, End: list[verb].Span.End}
	var out []rewrite
	acted := do > 1 && list[do-1].Tag == grammar.Pronoun && list[do-2].Tag.IsNoun() // "the yarn she did wind"
	if past, ok := forms.Of(bare, grammar.VerbPast); ok && isWayToGo(words.Find(bare)) && !acted {
		for i, to := range p.particles(line, do, bare) {
			out = append(out, rewrite{[]change{{span, past + " " + to}}, 4 - 0.1*float64(i), "in its own tense"})
		}
	}
	saysThen := slices.ContainsFunc(list[:do], func(w scansion.Word) bool { return isAny(lower(w.Text), "then", "when") })
	if past, ok := forms.Of(bare, grammar.VerbPast); ok && !saysThen {
		out = append(out, rewrite{[]change{{span, "then " + past}}, 3, "in its own tense"})
	}
	for _, w := range list[:do] {
		if list[do-1].Tag.IsAdverb() {
			break // "till it truly did shine" stresses it
		}
		if isAny(lower(w.Text), "when", "once", "after", "before", "till", "until", "since") {
			if done, ok := forms.Of(bare, grammar.VerbParticiple); ok {
				out = append(out, rewrite{[]change{{span, "had " + done}}, 3.8, "in its own tense"})
			}
			break
		}
	}
	return out
}

// particles say where somebody goes, after what the line has told of it.
func (p *Place) particles(line, do int, verb string) []string {
	if isAny(verb, "fall", "drop", "sink", "tumble") {
		return []string{"down"}
	}
	for _, w := range p.Poem.Lines[line].Words[:do] {
		switch lower(w.Text) {
		case "from", "out":
			return []string{"out", "down"}
		case "into", "through":
			return []string{"in"}
		case "up", "down":
			return []string{"on"}
		}
	}
	return []string{"by", "on"}
}

// whens are words of one syllable that tell when, for the tense of a helper.
func whens(helper string) []string {
	if helper == "did" {
		return []string{"then", "soon"}
	}
	return []string{"now", "still"}
}

// helpers are other helpers than "do" where a clause tells what somebody is able to
// do: "a sheep who could knit". Elsewhere they would say another thing than happens.
func (p *Place) helpers(line, do int, helper string) []rewrite {
	list := p.Poem.Lines[line].Words
	able := map[string]string{"did": "could", "does": "can", "do": "can"}[helper]
	if able == "" || do == 0 || !isAny(lower(list[do-1].Text), "who", "that", "which") {
		return nil
	}
	return []rewrite{{[]change{{list[do].Span, likeIn(able, list[do].Text)}}, 3.4, "says something of its own"}}
}

// conjugated is a bare verb in the tense that a helper gives it.
func conjugated(verb, helper string) (string, bool) {
	switch helper {
	case "did":
		return forms.Of(verb, grammar.VerbPast)
	case "does":
		return forms.Of(verb, grammar.VerbThird)
	}
	return verb, true
}
