package critique

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"dandle/phonetics/grammar"
)

// aim holds the pitch, or else the title, against the opening: where the things
// that it names first stand in the verse. Whether the story keeps the promise is
// for a reader to say; this says only which words came.
func (w *writer) aim() Section {
	s := Section{Kind: Aim, Heading: "What the book sets out to do"}
	m := w.Manuscript
	promise, who := strings.Join(strings.Fields(m.Front.Pitch), " "), "pitch"
	if promise == "" { // the book's figures ask for one
		promise, who = strings.Join(strings.Fields(w.title()), " "), "title"
	}
	named := contentWords(promise)
	if who == "title" {
		for i := range named {
			named[i] = inRunningText(named[i])
		}
		if len(named) == 0 {
			return s
		}
	}
	s.Paragraphs = append(s.Paragraphs, fmt.Sprintf("The %s promises: %s", who, quoted(promise)))
	opening := m.Stanzas[0].To
	last := m.Stanzas[len(m.Stanzas)-1].From
	var early, later, absent, home []string
	for _, word := range named {
		at, end := w.mentions(word)
		switch {
		case at < 0:
			absent = append(absent, quoted(word))
			continue
		case at < opening:
			early = append(early, quoted(word))
		default:
			later = append(later, fmt.Sprintf("%s (line %d)", quoted(word), m.Lines[at].Number))
		}
		if end >= last && len(m.Stanzas) > 1 {
			home = append(home, quoted(word))
		}
	}
	var told []string
	switch {
	case len(early) > 0 && len(later)+len(absent) == 0:
		told = append(told, pick(len(early), "By the end of the first verse its "+listed(early)+" has come.",
			"Everything it names has come by the end of the first verse: "+listed(early)+"."))
	case len(early) > 0:
		told = append(told, "By the end of the first verse I have met "+listed(early)+" from it.")
	case len(later) > 0:
		told = append(told, "The first verse takes up none of its words, and may be all the better for coming at it sideways.")
	}
	if len(later) > 0 {
		told = append(told, pick(len(later), "Later comes ", "Later come ")+listed(later)+".")
	}
	if len(absent) > 0 && w.tone == Full {
		told = append(told, "The story, or its pictures, may say "+listed(absent)+" in other words.")
	}
	if len(home) > 0 && w.tone == Full {
		told = append(told, "The last verse comes home to "+listed(home)+".")
	}
	if len(told) > 0 {
		s.Paragraphs = append(s.Paragraphs, strings.Join(told, " "))
	}
	return s
}

func pick(n int, one, several string) string {
	if n == 1 {
		return one
	}
	return several
}

// mentions is the first and the last verse line that has a form of the word; -1
// where none has.
func (w *writer) mentions(word string) (first, last int) {
	first, last = -1, -1
	key := root(word)
	for i := range w.Manuscript.Lines {
		for _, v := range w.Manuscript.Lines[i].Words {
			if root(v.Text) == key {
				if first < 0 {
					first = i
				}
				last = i
			}
		}
	}
	return first, last
}

// contentWords are the nouns of a sentence, each once, as they are written:
// what it promises to show. At most twelve, so that a pitch of a page stays
// readable.
func contentWords(sentence string) []string {
	words := strings.FieldsFunc(sentence, func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '\'' && r != '’' && r != '-'
	})
	tokens := make([]grammar.Token, len(words))
	for i, word := range words {
		tokens[i] = grammar.Token{Text: word, After: " "}
	}
	var list []string
	seen := map[string]bool{}
	for i, tag := range grammar.Tags(tokens) {
		word := strings.Trim(words[i], "'’-")
		key := root(word)
		if !tag.IsNoun() || !onlyNames(word) || len(word) < 3 || seen[key] || len(list) == 12 {
			continue
		}
		seen[key] = true
		list = append(list, word)
	}
	return list
}

// inRunningText is a word of a title as a sentence has it: without the capital
// that every word of a title has, where it is no name, and without the ending
// that makes it another's.
func inRunningText(word string) string {
	word = strings.TrimSuffix(strings.TrimSuffix(word, "'s"), "’s")
	if lower := strings.ToLower(word); grammar.CanBe(lower, grammar.Noun) || grammar.CanBe(lower, grammar.NounPlural) {
		return lower
	}
	return word
}

// indefinite are the pronouns that a tagger takes for nouns (a closed class;
// Quirk et al., A Comprehensive Grammar of the English Language, 6.45; from
// memory).
var indefinite = []string{
	"none", "nobody", "nothing", "somebody", "someone", "something", "anybody", "anyone", "anything", "everybody", "everyone", "everything",
}

// onlyNames reports whether a word can be nothing small: "none" and "small" can
// be nouns, and promise nothing to see.
func onlyNames(word string) bool {
	if slices.Contains(indefinite, root(word)) {
		return false
	}
	for _, tag := range []grammar.Tag{grammar.Pronoun, grammar.Determiner, grammar.Number, grammar.Adjective, grammar.Adverb} {
		if grammar.CanBe(strings.ToLower(word), tag) {
			return false
		}
	}
	return true
}

// root is what the forms of a word share, roughly: two words that this takes for
// one differ by an ending at most.
func root(word string) string {
	w := strings.ToLower(strings.ReplaceAll(word, "’", "'"))
	w = strings.TrimSuffix(strings.TrimSuffix(w, "'s"), "'")
	switch {
	case len(w) > 4 && strings.HasSuffix(w, "ies"):
		return w[:len(w)-3] + "y"
	case len(w) > 4 && (strings.HasSuffix(w, "ches") || strings.HasSuffix(w, "shes") || strings.HasSuffix(w, "sses") || strings.HasSuffix(w, "xes")):
		return w[:len(w)-2]
	case len(w) > 3 && strings.HasSuffix(w, "s") && !strings.HasSuffix(w, "ss"):
		return w[:len(w)-1]
	}
	return w
}
