package checks

import (
	"strings"

	"dandle/phonetics/grammar"
)

// asEquation is a note in the form "who = what": its first noun, and what that
// does or where it is. It is empty where the note is not built so that both
// can be told.
func asEquation(note string) string {
	tokens := noteTokens(note)
	who, next := subject(tokens)
	if who == "" {
		return ""
	}
	what := predicate(tokens[next:])
	if len(what) < 2 {
		return ""
	}
	return who + " = " + strings.Join(what, " ")
}

// A noteToken is a word of a note with its part of speech and what follows it.
type noteToken struct {
	text string
	tag  grammar.Tag
	ends bool // a mark follows
}

// noteTokens are the words of a note.
func noteTokens(note string) []noteToken {
	var list []noteToken
	var words []grammar.Token
	for _, field := range strings.Fields(note) {
		text := strings.Trim(field, ".,;:!?()“”\"‘’")
		if text == "" {
			continue
		}
		list = append(list, noteToken{text: text, ends: strings.ContainsAny(field[len(field)-1:], ".,;:!?)”\"")})
		words = append(words, grammar.Token{Text: text, After: " "})
	}
	for i, tag := range grammar.Tags(words) {
		list[i].tag = tag
	}
	return list
}

// subject is the noun that a note speaks of first, after what speaks of the
// picture itself ("we see"), and the place behind it.
func subject(tokens []noteToken) (who string, next int) {
	for i, t := range tokens {
		word := plain(t.text)
		switch {
		case noteIdle[word], !t.tag.IsNoun():
			continue
		case i+1 < len(tokens) && tokens[i+1].tag.IsNoun() && !t.ends && !tokens[i+1].acts():
			continue // "harbour master": the last noun is the head
		}
		return capital(t.text), i + 1
	}
	return "", 0
}

// mostPredicate is the number of words that the second half may have (ours).
const mostPredicate = 7

// predicate is what a note tells of its subject: from the first word that does,
// is or places to where that phrase ends.
func predicate(tokens []noteToken) []string {
	// What comes after "and" or "who" may be told of something else.
	if end := firstOf(tokens, joinsClause); end >= 0 {
		tokens = tokens[:end]
	}
	from := firstOf(tokens, func(t noteToken) bool { return forms.be[plain(t.text)] || t.acts() })
	if from >= 0 && forms.be[plain(tokens[from].text)] {
		from++
	}
	if from < 0 {
		from = firstOf(tokens, func(t noteToken) bool { return t.tag == grammar.Preposition })
	}
	if from < 0 || from == len(tokens) {
		return nil
	}
	to, prepositions := from, 0
	for _, t := range tokens[from:] {
		if t.tag == grammar.Preposition {
			if prepositions++; prepositions > 1 {
				break
			}
		}
		if to++; t.ends || to-from == mostPredicate {
			break
		}
	}
	for to > from && waits(tokens[to-1]) {
		to--
	}
	var what []string
	for _, t := range tokens[from:to] {
		what = append(what, t.text)
	}
	return what
}

// waits reports whether a word waits for another behind it.
func waits(t noteToken) bool {
	word := plain(t.text)
	return t.tag == grammar.Preposition || t.tag == grammar.Possessive || grammar.CanBe(word, grammar.Determiner)
}

// acts reports whether a word tells what somebody does: a gerund, or a verb that
// has a subject.
func (t noteToken) acts() bool {
	word := plain(t.text)
	if forms.have[word] {
		return false
	}
	return grammar.CanBe(word, grammar.VerbGerund) && strings.HasSuffix(word, "ing") ||
		grammar.CanBe(word, grammar.VerbThird) && !grammar.CanBe(strings.TrimSuffix(word, "s"), grammar.Noun) ||
		t.tag.IsVerb()
}

// joinsClause reports whether another clause begins at a word.
func joinsClause(t noteToken) bool {
	return t.tag == grammar.Conjunction || relatives[plain(t.text)] && t.tag != grammar.Preposition
}

func firstOf(tokens []noteToken, is func(noteToken) bool) int {
	for i, t := range tokens {
		if is(t) {
			return i
		}
	}
	return -1
}
