package checks

import (
	"fmt"
	"strings"

	"dandle/analysis/manuscript"
	"dandle/phonetics/grammar"
)

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

// rhymeTags are what verse hangs on a line to reach its rhyme, in words, by the
// first of them. The closed list of the craft's handbooks (Gomez, "10 Rhyme
// Crimes") and common practice.
var rhymeTags = byFirst(phrases("rhymeTags"))

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

// midTags are the first words of those tags that fill a gap between two commas as well.
var midTags = map[string]bool{"you": true, "don't": true, "as": true, "indeed": true, "it's": true, "without": true, "beyond": true, "by": true}

// rhymeTag suspects a phrase hung on a line's end.
func rhymeTag(ps *passage, i int) (int, float64, string) {
	for _, tag := range rhymeTags[ps.at(i).lower] {
		n := len(tag)
		if !ps.reads(i, tag) || ps.at(i).line != ps.at(i+n-1).line || ps.at(i).first {
			continue
		}
		if !ps.at(i + n - 1).last {
			_, after := ps.sentence(i)
			chimes := ps.any(ps.lineStart(i), ps.lineEnd(i)+1, func(o *token) bool { return o.lower == tag[n-1] && o != ps.at(i+n-1) })
			if !chimes && ps.opens(i) && ps.at(i-1).Break == manuscript.LightBreak && ps.at(i+n-1).Break == manuscript.LightBreak && !ps.endsWith(i, "!") && midTags[tag[0]] && !ps.any(i, after, func(t *token) bool { return t.is("but", "yet", "though", "still") }) {
				return n, 0.66, fmt.Sprintf("%s fills the gap between two commas; the sentence goes on without it.", capital(ps.words(i, i+n-1)))
			}
			continue
		}
		if conceding[strings.Join(tag, " ")] && ps.at(i+n).is("but", "yet", "though", "still") && ps.denies(i-1) {
			continue // "he isn't big, it's true, but he is quick" grants it
		}
		if from, _ := ps.clause(max(i-1, 0)); conceding[strings.Join(tag, " ")] && ps.any(from, i, func(t *token) bool { return t.in(handingOn) && t.Tag.IsVerb() }) {
			continue // who "says it is a mouse, no doubt" says that too
		}
		if tag[0] == "and" && tag[1] == "all" && ps.at(i-1).Tag.IsNoun() && (ps.opens(i-1) || ps.at(i-1).Tag == grammar.NounPlural) {
			continue // "ribbons and all" counts the ribbons in
		}
		set := ps.opens(i) // a mark parts it from the sentence
		joined := tag[0] == "with" || tag[0] == "indeed" || tag[0] == "as" || tag[0] == "and" || tag[0] == "for" || tag[0] == "without" || tag[0] == "beyond"
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
