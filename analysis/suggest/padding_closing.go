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

// closed lists what may close a line in the place of words that end it for its rhyme alone:
// what rhymes as they do, else what wants another rhyme.
func (p *Place) closed(line, from, to int) []Item {
	if items := p.rewrites(line, p.closings(line, from, to, false), maxReplacements, readRewrites); len(items) > 0 {
		return items
	}
	if items := p.rewrites(line, p.closings(line, from, to, true), maxReplacements, readRewrites); len(items) > 0 {
		return wanting(items)
	}
	return wanting(p.rewrites(line, p.lasting(line, from, to), maxReplacements, readRewrites))
}

// lasting are words that say how long, how often or when something is done, for a tag behind a
// doing of which no place of the tale is near.
func (p *Place) lasting(line, from, to int) []rewrite {
	list := p.Poem.Lines[line].Words
	does := slices.ContainsFunc(list[:from], func(w scansion.Word) bool {
		verb, part, ok := forms.Base(lower(w.Text), w.Tag)
		return ok && part == words.Verb && !isGrammar(verb)
	})
	if !does || from == 0 || p.followsSpeech(line, from) || list[from-1].Tag.IsAdjective() {
		return nil
	}
	theme, near := p.themeOf(line)
	s := spot{place: p, line: line, from: from, to: to, theme: theme, near: near, tag: grammar.Adverb}
	span := manuscript.Span{Start: list[from-1].Span.End, End: list[to-1].Span.End}
	room := p.syllables(line, from, to)
	var out []rewrite
	for i, phrase := range pictures.Lasting() {
		if !s.repeats(phrase) && (s.takesSyllables(phrase, room) || s.takesSyllables(phrase, room+1)) {
			out = append(out, rewrite{[]change{{span, " " + phrase}}, closing - laterPhrase*float64(i), "says how long or how often"})
		}
	}
	return out
}

// followsSpeech reports whether what was said has closed right before word i.
func (p *Place) followsSpeech(line, i int) bool {
	list := p.Poem.Lines[line].Words
	return strings.ContainsAny(p.Manuscript.Text[list[i-1].Span.End:list[i].Span.Start], `"”’'`)
}

// closings are phrases of place, time and manner for words that end a line for its
// rhyme alone: as long, and rhyming as they do, unless the line is to end on another sound.
func (p *Place) closings(line, from, to int, anew bool) []rewrite {
	if from == 0 || p.followsSpeech(line, from) {
		return nil
	}
	list := p.Poem.Lines[line].Words
	theme, near := p.themeOf(line)
	s := spot{place: p, line: line, from: from, to: to, theme: theme, near: near, text: lower(list[to-1].Text), tag: grammar.Noun}
	span := manuscript.Span{Start: list[from-1].Span.End, End: list[to-1].Span.End}
	room := p.syllables(line, from, to)
	end := endOf(list[to-1].Text, list[to-1].Ways)
	if lower(list[from].Text) == "as" && from > 1 && lower(list[from-2].Text) == "as" {
		return s.likenesses(list[from-1], span, room, anew)
	}
	var out []rewrite
	k := beforeDegrees(list, from-1)
	describes := list[from-1].Tag.IsAdjective() || list[from-1].Tag == grammar.VerbParticiple && followsBe(list, k)
	if describes {
		if out = s.oneMoreAdjective(list[from-1], span, room, anew); len(out) > 0 {
			return out
		}
	}
	for i, c := range pictures.Closings() {
		if describes && (!strings.HasSuffix(c.Lead, " the ") || isAny(c.Lead, "before the ", "for the ", "with the ")) {
			continue // "glad inside out"
		}
		if c.Last == s.text || s.repeats(c.Lead+c.Last) || !anew && !sameEnd(c.Last, list[to-1].Ways) || !s.bears(&c) {
			continue
		}
		then := endOf(c.Last, s.said(c.Last))
		if !anew && rhyme.Compare(&end, &then).Kind != rhyme.Perfect || !s.takesSyllables(c.Lead+c.Last, room) && !s.takesSyllables(c.Lead+c.Last, room+1) {
			continue
		}
		w := words.Find(c.Last)
		home := atHome
		if anew {
			home = atHand
		}
		if near := atHomeIn(&theme, w); near >= home {
			out = append(out, rewrite{[]change{{span, " " + c.Lead + c.Last}}, closing + near/3 - 0.001*float64(i), "shows more than " + list[from].Text})
		}
	}
	return out
}

// likenesses hold what is said of somebody against an animal: "as happy as a bee" for "as
// happy as can be".
func (s *spot) likenesses(said scansion.Word, span manuscript.Span, room int, anew bool) []rewrite {
	last := s.place.Poem.Lines[s.line].Words[s.to-1]
	end := endOf(last.Text, last.Ways)
	own := words.Find(lower(said.Text))
	var out []rewrite
	for _, kind := range pictures.Kinds() {
		if !kind.Acts() || kind.Name == "person" || kind.Name == "elder" {
			continue
		}
		for _, noun := range kind.Nouns {
			text := "as a " + noun
			if article, changed := s.articleFor("a", noun); changed {
				text = "as " + article + " " + noun
			}
			w := words.Find(noun)
			if w == words.None || s.repeats(noun) || !s.takesSyllables(text, room) {
				continue
			}
			then := endOf(noun, s.said(noun))
			// A bee sounds as what goes does.
			if kind := rhyme.Compare(&end, &then).Kind; !anew && kind != rhyme.Perfect && kind != rhyme.Homophone {
				continue
			}
			out = append(out, rewrite{[]change{{span, " " + text}}, closing + words.Nearness(own, w) + sightScene*s.theme.Nearness(w), "shows how " + lower(said.Text)})
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
	case strings.HasPrefix(c.Lead, "like ") && !slices.ContainsFunc(list, func(w scansion.Word) bool { return w.Tag.IsVerb() }):
		return false // nobody does anything as it does
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
func (s *spot) oneMoreAdjective(stands scansion.Word, span manuscript.Span, room int, anew bool) []rewrite {
	list := s.place.Poem.Lines[s.line].Words
	last := list[s.to-1]
	own := words.Find(lower(stands.Text))
	if own != words.None && anew {
		return s.besideIt(own, span, room)
	}
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

// besideIt joins to an adjective what stands beside it, on whatever sound it ends: "she was
// glad and proud" for "she was glad, no doubt".
func (s *spot) besideIt(own words.Word, span manuscript.Span, room int) []rewrite {
	var out []rewrite
	for i, beside := range pictures.Firm(own.String()).Beside {
		if !slices.Contains(s.near, beside) && s.takesSyllables("and "+beside, room) {
			out = append(out, rewrite{[]change{{span, " and " + beside}}, closing - laterPhrase*float64(i), "shows more of it"})
		}
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
		if lastVowelOn(sounds).SamePhones(tail) {
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
