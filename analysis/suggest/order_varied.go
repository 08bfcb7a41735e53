package suggest

import (
	"slices"
	"strings"

	"dandle/analysis/scansion"
	"dandle/analysis/suggest/forms"
	"dandle/analysis/suggest/words"
	"dandle/phonetics/grammar"
)

// led are orders that open their line behind one more word, where the meter may have
// lost one: "then he steered the boat to the shore".
func (t *turn) led(orders []order) []order {
	if t.begin > 0 {
		return nil
	}
	var list []order
	for _, o := range orders {
		if o.from != 0 {
			continue
		}
		for _, lead := range []string{"then", "and"} {
			list = append(list, order{0, append([]string{lead}, o.words...), o.base - 0.4})
		}
	}
	return list
}

// longer are ways of more syllables to say where to, for an order that has lost one:
// "into the town" for "to the town".
var longer = []string{"into", "off to", "over to"}

// varied are orders with a syllable more or less in them, where it may be had: a longer
// way to say where to, a bare name of many with its article, no adverb before the verb.
func (t *turn) varied(orders []order) []order {
	var list []order
	for _, o := range orders {
		for i, text := range o.words {
			switch {
			case text == "to" && t.goes() && i+2 < len(o.words) && isAny(o.words[i+1], "the", "his", "her", "their", "a") && !isAny(o.words[i+2], "top", "end", "edge", "bottom", "side"):
				for k, way := range longer {
					list = append(list, order{o.from, replaced(o.words, i, way), o.base - 0.2 - 0.1*float64(k)})
				}
			case isAny(text, "always", "quickly", "often", "then", "slowly", "gladly", "soon", "quietly"):
				list = append(list, order{o.from, replaced(o.words, i), o.base - 0.3})
			}
		}
		list = append(list, t.seen(&o)...)
		if at := t.bareObject(&o); at > 0 {
			for k, article := range []string{"the", "some"} {
				list = append(list, order{o.from, slices.Insert(slices.Clone(o.words), at, article), o.base - 0.3 - 0.1*float64(k)})
			}
		}
	}
	return list
}

// mostSeen is how many sights of the last noun of an order are tried in it.
const mostSeen = 4

// seen are an order with a sight of the noun that it ends with: "she made a bold plan".
func (t *turn) seen(o *order) []order {
	n := len(o.words)
	if n < 3 || !isAny(o.words[n-2], "a", "an", "the", "his", "her", "their", "my", "our") {
		return nil
	}
	theme, near := t.place.themeOf(t.line)
	s := spot{place: t.place, line: t.line, from: t.last, to: t.last, head: words.None, part: words.Adjective, tag: grammar.Adjective, theme: theme, near: near}
	var list []order
	for _, sight := range s.pictured(words.Find(lower(o.words[n-1])), false) {
		if len(list) == mostSeen {
			break
		}
		if !strings.Contains(sight.form, " ") {
			list = append(list, order{o.from, slices.Insert(slices.Clone(o.words), n-1, sight.form), o.base - 0.4})
		}
	}
	return list
}

// goes reports whether a word of the clause is a way to go.
func (t *turn) goes() bool {
	return slices.ContainsFunc(t.list[t.begin:], func(w scansion.Word) bool {
		verb, part, ok := forms.Base(lower(w.Text), w.Tag)
		return ok && part == words.Verb && isWayToGo(verb) || grammar.CanBe(lower(w.Text), grammar.Verb) && isWayToGo(words.Find(lower(w.Text))) && w.Tag != grammar.Noun
	})
}

// replaced is a list of words with others, or none, in the place of one.
func replaced(list []string, at int, with ...string) []string {
	return slices.Replace(slices.Clone(list), at, at+1, with...)
}

// bareObject is where in an order the phrase that opened the clause stands now, if it names
// many and has no article; 0 where it does not.
func (t *turn) bareObject(o *order) int {
	first := t.list[t.begin]
	end := t.phraseEnd(t.begin)
	if !first.Tag.IsAdjective() && first.Tag != grammar.NounPlural || end < t.begin || t.list[end].Tag != grammar.NounPlural {
		return 0
	}
	return slices.Index(o.words, asInside(first.Text))
}

// mostInFront is how many things are tried behind an adjective that has gone back in front, and how
// many sights with each.
const (
	mostInFront = 3
	sightsEach  = 4
)

// inFront puts an adjective that was moved behind its noun in front of it, with a sight between
// for the beat that is lost, or in front of another thing of its kind: "a bright tin lamp" for "a
// lantern bright".
func (t *turn) inFront() []order {
	last, noun := t.list[t.last], t.list[t.last-1]
	if !noun.Tag.IsNoun() || last.Tag.IsVerb() || !isDescribing(last) && !grammar.CanBe(lower(last.Text), grammar.Adjective) {
		return nil
	}
	base := nounOf(noun)
	kind, known := (&spot{}).kindOf(base)
	if !known {
		return nil
	}
	things := []string{noun.Text}
	if !t.tellsOf(noun) {
		things = append(things, likeThings(kind.Nouns, base, noun.Tag)...)
	}
	theme, near := t.place.themeOf(t.line)
	s := spot{place: t.place, line: t.line, from: t.last, to: t.last, head: words.None, part: words.Adjective, tag: grammar.Adjective, theme: theme, near: near}
	adjective := lower(last.Text)
	var list []order
	for i, thing := range things {
		speaks := 1.4 - 0.2*float64(i)
		if i > 0 {
			list = append(list, order{t.last - 1, []string{adjective, thing}, speaks})
		}
		tried := 0
		for _, sight := range s.pictured(base, true) {
			if tried == sightsEach {
				break
			}
			if strings.Contains(sight.form, " ") || sight.form == adjective || words.Nearness(sight.word, words.Find(adjective)) > saidAgain {
				continue
			}
			tried++
			list = append(list, order{t.last - 1, []string{adjective, sight.form, thing}, speaks - 0.1})
		}
	}
	return list
}

// likeThings are the first nouns of a list that are much like another one, in the form that has
// its tag.
func likeThings(nouns []string, base words.Word, tag grammar.Tag) []string {
	var things []string
	for _, other := range nouns {
		if len(things) == mostInFront-1 {
			break
		}
		w := words.Find(other)
		form, ok := forms.Of(other, tag)
		if ok && w != words.None && w != base && words.Nearness(w, base) > likeEnough {
			things = append(things, form)
		}
	}
	return things
}
