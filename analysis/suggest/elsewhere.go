package suggest

import (
	"strings"
	"unicode/utf8"

	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"
	"dandle/analysis/suggest/words"
	"dandle/phonetics/grammar"
)

const (
	// triedSights is how many sights of one noun are read in the line, and
	// triedElsewhere how many of all its nouns.
	triedSights    = 3
	triedElsewhere = 9
)

// elsewhere leaves out words that only fill, and shows another thing of the line in
// as many syllables: "the wind was very cold" becomes "the whistling wind was cold".
// changes are what leaves them out.
func (p *Place) elsewhere(line, from, to int, changes []change) []rewrite {
	var list []rewrite
	room := p.syllables(line, from, to)
	standing := p.Poem.Lines[line].Words
	said := words.None
	if to < len(standing) && standing[to].Tag.IsAdjective() {
		said = words.Find(lower(standing[to].Text))
	}
	for i := range standing {
		if noun := p.nounAt(line, i); noun != words.None && (i < from || i >= to) {
			list = append(list, p.shown(line, i, noun, room, said, changes)...)
		}
	}
	return list
}

// ofTheSame is the nearness of two adjectives from which they speak of one thing, alike or
// against each other: no warm wind is cold (ours).
const ofTheSame = 0.58

// shown puts a sight of so many syllables before the noun at word i, which goes with what is
// said of a thing already, if anything is; no colour and no
// material, for nothing asked for one, and the pictures may show another.
func (p *Place) shown(line, i int, noun words.Word, room int, said words.Word, changes []change) []rewrite {
	standing := p.Poem.Lines[line].Words
	at := i
	if at > 0 && standing[at-1].Tag.IsAdjective() && standing[at-1].Break == manuscript.NoBreak || !opensPhrase(standing, at) {
		return nil
	}
	if isBare(standing, at) || isAny(lower(standing[at].Text), shares...) && at+1 < len(standing) && lower(standing[at+1].Text) == "of" {
		return nil // "hop on up" is no hop
	}
	theme, near := p.themeOf(line)
	s := spot{place: p, line: line, from: at, to: at, head: words.None, text: "", part: words.Adjective, tag: grammar.Adjective, how: words.None, theme: theme, near: near}
	var list []rewrite
	for _, c := range s.pictured(noun, at == i) {
		if len(list) == triedSights {
			break
		}
		if said != words.None && c.word != words.None && words.Nearness(c.word, said) > ofTheSame {
			continue
		}
		if c.next || p.isEmpty(c.form) || !s.takesSyllables(c.form, room) {
			continue
		}
		put, ok := merged(changes, p.before(line, at, c.form))
		if ok {
			list = append(list, rewrite{put, c.score, c.why})
		}
	}
	return list
}

// opensPhrase reports whether the noun phrase that begins at word i can take one
// more adjective there: an article stands before it, or nothing that belongs to it.
func opensPhrase(list []scansion.Word, i int) bool {
	if i == 0 {
		return true
	}
	switch before := list[i-1]; {
	case before.Break != manuscript.NoBreak:
		return true
	case before.Tag == grammar.Determiner:
		return !isAny(lower(before.Text), "no", "all", "such", "what", "another", "any", "either", "every", "each")
	case before.Tag == grammar.Possessive, before.Tag == grammar.Number:
		return true
	case before.Tag == grammar.Preposition, before.Tag.IsVerb():
		return list[i].Tag == grammar.NounPlural // "from head to toe" is a phrase of its own
	}
	return false
}

// isBare reports whether what is tagged as a noun in the singular opens its phrase by
// itself, and does nothing: "hare went home" has a subject, and "rain just fell".
func isBare(list []scansion.Word, i int) bool {
	if list[i].Tag != grammar.Noun || i > 0 && list[i-1].Break == manuscript.NoBreak {
		return false
	}
	return i+1 == len(list) || !list[i+1].Tag.IsVerb() && !list[i+1].Tag.IsAdverb()
}

// before puts a word before word i of a line, with the capital and the article that
// it asks for.
func (p *Place) before(line, i int, form string) []change {
	list := p.Poem.Lines[line].Words
	at := list[i].Span.Start
	if i == 0 && isUpper(list[0].Text) {
		_, size := utf8.DecodeRuneInString(list[0].Text)
		return []change{{manuscript.Span{Start: at, End: at + size}, likeIn(form, list[0].Text) + " " + strings.ToLower(list[0].Text[:size])}}
	}
	put := change{manuscript.Span{Start: at, End: at}, form + " "}
	if i > 0 {
		s := spot{place: p, line: line, tag: grammar.Adjective}
		if article, changed := s.articleFor(list[i-1].Text, form); changed {
			return []change{{list[i-1].Span, article}, put}
		}
	}
	return []change{put}
}

func isAny(word string, list ...string) bool {
	for _, w := range list {
		if w == word {
			return true
		}
	}
	return false
}
