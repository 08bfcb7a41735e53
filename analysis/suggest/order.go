package suggest

import (
	"cmp"
	"slices"
	"strings"

	"dandle/analysis/manuscript"
	"dandle/analysis/rhyme"
	"dandle/analysis/scansion"
	"dandle/analysis/suggest/forms"
	"dandle/analysis/suggest/words"
	"dandle/phonetics/grammar"
)

const (
	// mostOrders is how many rewrites of a turned line are read in it.
	mostOrders = 24
	// likeEnough is the nearness of two nouns from which one may stand for the other
	// so that a line can rhyme (ours).
	likeEnough = 0.55
	worn       = 0.4 // the same where the kind is known
	keepsRhyme = 1.0 // speaks for an order that still rhymes
)

// Turned lists other orders for a line whose last word was moved there for its
// sound, best first: as the sentence is said, with its rhyme where one can be kept.
// Where it cannot, an item says with which word the line then wants a rhyme.
func Turned(p Place, line int) []Item {
	if line < 0 || line >= len(p.Poem.Lines) || len(p.Poem.Lines[line].Words) < 3 {
		return nil
	}
	t := p.turn(line)
	var list []rewrite
	spoken := t.spoken()
	for i, o := range slices.Concat(spoken, t.varied(spoken), t.led(spoken), t.rhyming(), t.inFront()) {
		score := o.base - 0.1*float64(i)
		if t.rhymes(o.words) {
			score += keepsRhyme
		}
		list = append(list, rewrite{[]change{t.change(&o)}, score, "as it is said"})
	}
	items := p.rewrites(line, list, maxReplacements, mostOrders)
	for i := range items {
		fields := strings.Fields(items[i].Text)
		if items[i].Span.End > t.list[t.last].Span.Start && len(fields) > 0 && !t.rhymes(fields) {
			items[i].Wants = lower(fields[len(fields)-1])
		}
	}
	return items
}

// A turn is the clause of a line whose order was turned: the words from begin to
// the line's end.
type turn struct {
	place *Place
	line  int
	list  []scansion.Word
	begin int
	last  int
}

// An order is what would stand from word from on.
type order struct {
	from  int
	words []string
	base  float64
}

// turn finds the clause: from the last mark in the line, or from its start; the
// conjunction that opens it stays where it is.
func (p *Place) turn(line int) *turn {
	t := &turn{place: p, line: line, list: p.Poem.Lines[line].Words}
	t.last = len(t.list) - 1
	for t.begin = t.last; t.begin > 0 && t.list[t.begin-1].Break == manuscript.NoBreak; {
		t.begin--
	}
	for k := t.last - 1; k > t.begin; k-- {
		// "She rowed and her bargain she kept" tells two things.
		if isAny(lower(t.list[k].Text), "and", "but") && slices.ContainsFunc(t.list[t.begin:k], func(w scansion.Word) bool { return w.Tag.IsVerb() }) {
			t.begin = k
			break
		}
	}
	for isAny(lower(t.list[t.begin].Text), "and", "but", "then", "so", "as", "when", "till", "until", "while", "for", "before") && t.begin < t.last-1 {
		t.begin++ // "and so"
	}
	return t
}

// texts are the words from … to-1 as they are written inside a sentence.
func (t *turn) texts(from, to int) []string {
	var list []string
	for _, w := range t.list[from:max(from, to)] {
		text := w.Text
		if !isName(w.Tag) {
			text = asInside(text)
		}
		list = append(list, text)
	}
	return list
}

// change writes an order in the place of what stands from its first word on.
func (t *turn) change(o *order) change {
	list := slices.Clone(o.words)
	s := spot{place: t.place, line: t.line, tag: grammar.Adjective}
	for i := 0; i+1 < len(list); i++ {
		if article, changed := s.articleFor(list[i], lower(list[i+1])); changed {
			list[i] = article
		}
	}
	list[0] = likeIn(list[0], t.list[o.from].Text)
	return change{manuscript.Span{Start: t.list[o.from].Span.Start, End: t.list[t.last].Span.End}, strings.Join(list, " ")}
}

// rhymes reports whether an order ends on a sound that rhymes as the line does now.
func (t *turn) rhymes(list []string) bool {
	last := t.list[t.last]
	now := endOf(last.Text, last.Ways)
	text := lower(strings.Trim(list[len(list)-1], ".,;:!?”’"))
	if text == lower(last.Text) {
		return true
	}
	s := spot{place: t.place, line: t.line}
	then := endOf(text, s.said(text))
	return rhyme.Compare(&now, &then).Kind == rhyme.Perfect
}

// phraseStart is where the noun phrase that ends with word i begins.
func (t *turn) phraseStart(i int) int {
	if t.list[i].Tag == grammar.Pronoun {
		return i
	}
	k := i
	for k > t.begin && t.list[k-1].Break == manuscript.NoBreak && (t.list[k-1].Tag.IsNoun() || t.list[k-1].Tag.IsAdjective()) {
		k--
	}
	if k > t.begin && (t.list[k-1].Tag == grammar.Determiner || t.list[k-1].Tag == grammar.Possessive || t.list[k-1].Tag == grammar.Number) {
		k--
	}
	if k > t.begin && t.list[k-1].Tag == grammar.Predeterminer {
		k--
	}
	return k
}

// phraseEnd is where the noun phrase that begins with word i ends, itself in it; i-1
// where none begins there.
func (t *turn) phraseEnd(i int) int {
	if t.list[i].Tag == grammar.Pronoun {
		return i
	}
	k := i
	for k < t.last && !t.list[k].Tag.IsNoun() && (t.list[k].Tag.IsAdjective() || t.list[k].Tag == grammar.Determiner || t.list[k].Tag == grammar.Predeterminer || t.list[k].Tag == grammar.Possessive) {
		k++
	}
	if !t.list[k].Tag.IsNoun() {
		return i - 1
	}
	for k+1 < t.last && t.list[k+1].Tag.IsNoun() {
		k++
	}
	return k
}

// spoken are the orders in which the clause is said.
func (t *turn) spoken() []order {
	last := t.list[t.last]
	text := lower(last.Text)
	switch {
	case last.Tag == grammar.Pronoun:
		return t.subjectFirst()
	case isAny(text, "upon", "beside", "beneath", "among", "amid", "into"):
		from := t.phraseStart(t.last - 1)
		return []order{{from, append([]string{text}, t.texts(from, t.last)...), 2}}
	case t.list[t.last-1].Tag.IsNoun() && !last.Tag.IsVerb() && (last.Tag.IsAdjective() || grammar.CanBe(text, grammar.Adjective)):
		return []order{{t.last - 1, []string{text, t.list[t.last-1].Text}, 2}}
	case lower(t.list[t.last-1].Text) == "to":
		from := t.phraseStart(t.last - 2)
		return []order{{from, append([]string{"to", text}, t.texts(from, t.last-1)...), 2}}
	case last.Tag.IsVerb() || grammar.CanBe(text, grammar.Verb):
		return t.verbSecond()
	}
	return nil
}

// subjectFirst puts a pronoun at the end before its verb: "up the hill she went", "he
// was so happy".
func (t *turn) subjectFirst() []order {
	verb := t.last - 1
	if verb < t.begin {
		return nil
	}
	pronoun, said := asInside(t.list[t.last].Text), t.texts(verb, t.last)
	if isAny(said[0], "was", "is", "were", "are") {
		return []order{{t.begin, slices.Concat([]string{pronoun}, said, t.texts(t.begin, verb)), 2}}
	}
	return []order{
		{verb, []string{pronoun, said[0]}, 2},
		{t.begin, slices.Concat([]string{pronoun}, said, t.texts(t.begin, verb)), 1.9},
	}
}

// verbSecond puts a verb at the end behind its subject, and what stood before them
// behind both.
func (t *turn) verbSecond() []order {
	verb, said, ok := t.verbGroup()
	if !ok || verb <= t.begin {
		return nil
	}
	if made, ok := t.madeOf(); ok {
		return made
	}
	subject := t.phraseStart(verb - 1)
	switch {
	case t.list[verb-1].Tag != grammar.Pronoun && !t.list[verb-1].Tag.IsNoun():
		return nil
	case subject > t.begin && !isPreposition(t.list[subject-1].Tag) && !t.actorOpens(subject):
		return t.behind(subject, verb, said)
	}
	// The subject opens the clause, and the verb has waited.
	end := t.phraseEnd(t.begin)
	if end < t.begin || end >= verb-1 {
		return nil
	}
	rest := end + 1
	if t.list[rest].Tag == grammar.Modal {
		said = append(t.texts(rest, rest+1), said...)
		rest++
	}
	who := append(t.texts(t.begin, end+1), said...)
	list := []order{{t.begin, slices.Concat(who, t.texts(rest, verb)), 2}}
	// "The rabbit began on a bottle a tune" for "a tune on a bottle".
	if object := t.phraseEnd(rest); object >= rest && object+1 < verb && isPreposition(t.list[object+1].Tag) {
		list = append(list, order{t.begin, slices.Concat(who, t.texts(object+1, verb), t.texts(rest, object+1)), 1.7})
	}
	return list
}

// verbGroup is where the verb at the end begins, with its helper and an adverb that stands
// by it, and how it is said in its own tense: "quickly bought" for "quickly did buy".
func (t *turn) verbGroup() (first int, said []string, ok bool) {
	first, said = t.last, []string{lower(t.list[t.last].Text)}
	isHelper := func(w scansion.Word) bool {
		return w.Tag == grammar.Modal || isAny(lower(w.Text), "was", "were", "is", "are", "had", "has", "have")
	}
	if first > 1 && lower(t.list[first-1].Text) == "to" && t.list[first-2].Tag.IsVerb() {
		return first - 2, t.texts(first-2, t.last+1), true // "she strains to hear"
	}
	if first > 1 && t.list[first-1].Tag.IsAdverb() && isHelper(t.list[first-2]) {
		first--
		said = append(t.texts(first, first+1), said...)
	}
	switch helper := t.list[first-1]; {
	case isAny(lower(helper.Text), "did", "does"):
		first--
		form, known := conjugated(said[0], lower(helper.Text))
		if !known {
			return 0, nil, false
		}
		said = []string{form}
	case isHelper(helper):
		first--
		said = append(t.texts(first, first+1), said...)
	}
	if first-1 > t.begin && t.list[first-1].Tag.IsAdverb() && !isPreposition(t.list[first-2].Tag) {
		first--
		said = append(t.texts(first, first+1), said...)
	}
	return first, said, true
}

// actorOpens reports whether the clause opens with somebody and a thing follows at once, to
// which something is done: "the sailor the anchor did raise".
func (t *turn) actorOpens(thing int) bool {
	end := t.phraseEnd(t.begin)
	if end != thing-1 || t.list[end].Tag == grammar.Pronoun {
		return false
	}
	who, known := (&spot{}).kindOf(nounOf(t.list[end]))
	what := t.phraseEnd(thing)
	acted, other := (&spot{}).kindOf(nounOf(t.list[max(what, thing)]))
	return known && who.Acts() && !(other && acted.Acts())
}

// straight is the phrase of the words from … to-1, with an adjective that was moved behind
// its noun before it again: "a tall ladder" for "a ladder tall".
func (t *turn) straight(from, to int) []string {
	list := t.texts(from, to)
	if n := len(list); n > 2 && t.list[to-2].Tag.IsNoun() && isMostlyAdjective(t.list[to-1]) {
		list[n-2], list[n-1] = list[n-1], list[n-2]
	}
	return list
}

// isMostlyAdjective reports whether a word is one that above all describes, whatever the end
// of its phrase has it tagged as: "tall", but not "key".
func isMostlyAdjective(w scansion.Word) bool {
	found := words.Find(lower(w.Text))
	return found != words.None && found.Part() == words.Adjective && isDescribing(w)
}

func isPreposition(tag grammar.Tag) bool { return tag == grammar.Preposition || tag == grammar.To }

// behind are the orders of a clause whose first words belong behind its verb: whole,
// and with the last phrase of place before what was given or brought.
func (t *turn) behind(subject, verb int, said []string) []order {
	list := []order{{t.begin, slices.Concat(t.texts(subject, verb), said, t.straight(t.begin, subject)), 2}}
	if isPreposition(t.list[t.begin].Tag) {
		list = append(list, t.objectFirst(subject, verb, said)...)
	}
	at := subject - 1
	for at > t.begin && !isPreposition(t.list[at].Tag) {
		at--
	}
	if at > t.begin && isAny(lower(t.list[at].Text), "to", "for", "from", "in", "on", "by", "into") {
		list = append(list, order{t.begin, slices.Concat(t.texts(subject, verb), said, t.texts(at, subject), t.texts(t.begin, at)), 1.8})
		if isAny(lower(t.list[at].Text), "to") && isGiving(said[len(said)-1]) {
			list = append(list, order{t.begin, slices.Concat(t.texts(subject, verb), said, t.texts(at+1, subject), t.texts(t.begin, at)), 1.9})
		}
	}
	return list
}

// objectFirst puts a phrase of place that opens the clause behind the object that
// follows it: "to the shore the boat he steered" says that he steered the boat to the
// shore.
func (t *turn) objectFirst(subject, verb int, said []string) []order {
	end := t.phraseEnd(t.begin + 1)
	if end <= t.begin || end+1 >= subject || t.phraseEnd(end+1) != subject-1 {
		return nil
	}
	place := t.texts(t.begin, end+1)
	core := slices.Concat(t.texts(subject, verb), said, t.texts(end+1, subject))
	list := []order{{t.begin, slices.Concat(core, place), 2.2}}
	if len(place) == 3 && place[1] == "the" && isAny(place[2], "shore", "town", "bed", "sea", "school", "land", "church") {
		list = append(list, order{t.begin, slices.Concat(core, []string{place[0], place[2]}), 2.1})
	}
	return list
}

// isGiving reports whether a verb takes the one who is given to without "to": "gave
// the beaver plums". The verbs are Levin's "give" and "bring" verbs that a child
// knows (English Verb Classes and Alternations, 1993, 13.1 and 11.3; from memory).
func isGiving(past string) bool {
	return isAny(past, "gave", "brought", "sent", "sold", "lent", "showed", "told", "passed", "handed", "fed", "took", "paid", "offered")
}

// madeOf puts a participle before its own phrase: "a boat made of paper".
func (t *turn) madeOf() ([]order, bool) {
	for k := t.last - 1; k > t.begin+1; k-- {
		switch {
		case isAny(lower(t.list[k].Text), "of", "in", "with", "by") && t.list[k-1].Tag.IsNoun() && t.list[k+1].Tag.IsNoun() && k+1 == t.last-1:
			return []order{{k, append(t.texts(t.last, t.last+1), t.texts(k, t.last)...), 2}}, true
		case !t.list[k].Tag.IsNoun() && !t.list[k].Tag.IsAdjective():
			return nil, false
		}
	}
	return nil, false
}

// rhyming are orders that keep the rhyme, where an adjective was moved behind its
// noun: "a hat of green", or another noun of its kind that rhymes.
func (t *turn) rhyming() []order {
	last, noun := t.list[t.last], t.list[t.last-1]
	text := lower(last.Text)
	if !noun.Tag.IsNoun() || last.Tag.IsVerb() {
		return nil
	}
	var list []order
	base := nounOf(noun)
	if isColour(text) {
		list = append(list, t.ofColour(noun.Text, text, base)...)
	}
	if base == words.None || noun.Tag != grammar.Noun || t.tellsOf(noun) {
		return list
	}
	tail := []rhyme.Word{{Text: last.Text, Ways: last.Ways}}
	for _, c := range rhymesOf(tail, t.place.Reader, perfectOnly) {
		if near := words.Nearness(base, c.word); near > likeEnough && closesPhrase(&c) && forms.Means(c.word, words.Noun) {
			list = append(list, order{t.last - 1, []string{c.text}, 1 + near})
		}
	}
	slices.SortStableFunc(list, func(a, b order) int { return cmp.Compare(b.base, a.base) })
	return list[:min(len(list), 4)]
}

// tellsOf reports whether the tale names a thing in other lines too, or in its title: then
// no other thing can stand for it.
func (t *turn) tellsOf(noun scansion.Word) bool {
	text := lower(t.place.Manuscript.Text)
	return strings.Count(text, lower(noun.Text)) > 1
}

// mostOfColour is how many nouns are tried with "of" and a colour.
const mostOfColour = 4

// ofColour keeps a colour at the end: "a jacket of blue", or with a noun of the same
// kind that leaves room for "of", "a coat of blue".
func (t *turn) ofColour(noun, colour string, base words.Word) []order {
	list := []order{{t.last - 1, []string{noun, "of", colour}, 1.6}}
	kind, known := (&spot{}).kindOf(base)
	if !known {
		return list
	}
	for _, other := range kind.Nouns {
		w := words.Find(other)
		if w == words.None || w == base || t.list[t.last-1].Tag != grammar.Noun || len(list) > mostOfColour {
			continue
		}
		if near := words.Nearness(w, base); near > worn {
			list = append(list, order{t.last - 1, []string{other, "of", colour}, 1 + near/2})
		}
	}
	return list
}

// isColour reports whether a word is a plain colour.
func isColour(word string) bool {
	return isAny(word, "red", "green", "blue", "white", "black", "brown", "grey", "gray", "gold", "pink", "yellow", "silver")
}
