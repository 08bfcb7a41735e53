package suggest

import (
	"slices"
	"strings"

	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"
	"dandle/analysis/suggest/pictures"
	"dandle/analysis/suggest/words"
	"dandle/phonetics/grammar"
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
	// atHand is the same where nothing rhymes, and so all places can be chosen from.
	atHand = 0.2
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
		return append(items, p.closed(line, from, to)...)
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
	if hedge := isAny(lower(list[from].Text), "kind", "sort") || isAny(lower(list[to-1].Text), "bit"); hedge && to-from > 1 && len(items) == 0 && to < len(list) {
		if s, ok := p.spot(line, to, to+1); ok && s.part == words.Adjective {
			s.from, s.stays = from, true // "kind of" and "a bit" are degrees in two words
			items = s.instead()
		}
	}
	if next := to + 1; len(items) == 0 && next < len(list) && list[to].Break == manuscript.NoBreak && leans(list[from:next]) {
		return Padding(p, line, from, next) // both degrees: "really so wet"
	}
	if len(items) == 0 && to-from > 1 && leans(list[from+1:to]) && lower(list[from].Text) != "ever" {
		items = Instead(p, line, from+1, to) // of two degrees, one
	}
	if len(items) == 0 && to < len(list) && p.isEmpty(lower(list[to].Text)) {
		items = slices.DeleteFunc(Instead(p, line, to, to+1), func(i Item) bool { return i.Span.Start > list[from].Span.Start })
	}
	if len(items) == 0 {
		items = p.rewrites(line, p.namedInstead(line, from, to), maxReplacements, readRewrites)
	}
	if len(items) == 0 && to+1 == len(list) {
		return Shown(p, line, from, to+1) // with what they lean on, which may bear the rhyme
	}
	return items
}

// spare is which of two prepositions can go: "of" in "off of", and "up" in "up on". Of
// other words, all.
func spare(list []scansion.Word, from, to int) (int, int) {
	switch {
	case to-from == 2 && lower(list[to-1].Text) == "of" && !isAny(lower(list[from].Text), "kind", "sort"):
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
	what := such + 2
	for what+1 < len(list) && leans(list[what:what+1]) {
		what++ // "such a very hot man"
	}
	s, ok := p.spot(line, what, what+1)
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

// namedInstead leaves out words that only fill and names what a pronoun before them stands
// for: "the mitten looked grand" for "it really looked grand".
func (p *Place) namedInstead(line, from, to int) []rewrite {
	list := p.Poem.Lines[line].Words
	gone := p.without(line, from, to)
	if gone == nil || from == 0 || to+1 < len(list) && isAny(lower(list[to+1].Text), "for", "to", "that") {
		return nil // "it was quite hard to see" names nothing
	}
	for i := from - 1; i >= 0 && (i == from-1 || list[i].Break == manuscript.NoBreak); i-- {
		if list[i].Tag != grammar.Pronoun || strings.ContainsAny(list[i].Text, "'’") {
			continue
		}
		_, text := p.antecedent(line, i)
		s := spot{place: p, line: line, tag: grammar.Noun}
		if text == "" || !s.takesSyllables("the "+text, 1+p.syllables(line, from, to)) {
			return nil
		}
		put, ok := merged(gone, []change{{list[i].Span, likeIn("the", list[i].Text) + " " + text}})
		if !ok {
			return nil
		}
		return []rewrite{{put, 2, "names it"}}
	}
	return nil
}

// saidTwice is an adverb said again for the degree before it, as tales do: "it turned
// slowly, slowly".
func (p *Place) saidTwice(line, from, to int) []rewrite {
	list := p.Poem.Lines[line].Words
	if so := soTwice(list, from, to); so != nil {
		return so
	}
	if !list[to].Tag.IsAdverb() || !strings.HasSuffix(list[to].Text, "ly") || from == 0 || !leans(list[from:to]) || to+1 < len(list) && list[to].Break == manuscript.NoBreak && !isPreposition(list[to+1].Tag) {
		return nil
	}
	span := manuscript.Span{Start: list[from].Span.Start, End: list[to].Span.End}
	return []rewrite{{[]change{{span, list[to].Text + ", " + list[to].Text}}, sequence, "says it as tales do"}}
}

// soTwice is an adjective said again for the degree before it, where what comes of it
// follows: "it was windy, so windy we barely could stand".
func soTwice(list []scansion.Word, from, to int) []rewrite {
	if !followsBe(list, from) || !isDescribing(list[to]) || to+1 == len(list) || list[to].Break != manuscript.NoBreak {
		return nil
	}
	if next := list[to+1]; next.Tag != grammar.Pronoun && lower(next.Text) != "that" {
		return nil
	}
	at := manuscript.Span{Start: list[from].Span.Start, End: list[to].Span.End}
	text := lower(list[to].Text)
	return []rewrite{{[]change{{at, text + ", so " + text}}, sequence, "says it as tales do"}}
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
	at, space := list[from].Span, ""
	if from > 0 && list[from].Tag == grammar.Pronoun && list[from-1].Break == manuscript.LightBreak {
		at.Start, space = list[from-1].Span.End, " " // the comma goes with its pronoun
	}
	one := []rewrite{
		{[]change{{at, space + likeIn("then", list[from].Text)}}, sequence - 0.2, "tells the order"},
		{[]change{{at, space + likeIn("soon", list[from].Text)}}, sequence - 0.3, "tells the order"},
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
