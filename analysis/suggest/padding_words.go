package suggest

import (
	"strings"

	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"
	"dandle/analysis/suggest/words"
	"dandle/phonetics/grammar"
)

// plainer are rewrites that put one small word with a sense of its own in the place of
// words that only fill: where two adjectives follow, "both yummy and sweet"; behind a noun
// that its pronoun names again, "the day is done"; before "out of", "straight".
func (p *Place) plainer(line, from, to int) []rewrite {
	list := p.Poem.Lines[line].Words
	var out []rewrite
	if followsPair(list, to) && (leans(list[from:to]) || lower(list[to-1].Text) == "all") {
		at := manuscript.Span{Start: list[from].Span.Start, End: list[to-1].Span.End}
		out = append(out, rewrite{[]change{{at, likeIn("both", list[from].Text)}}, 2.2, "holds the two together"})
		out = append(out, p.firstOfThree(line, from, to)...)
	}
	if to-from == 1 && from > 0 && to < len(list) && list[from].Tag == grammar.Pronoun {
		out = append(out, named(list, from)...)
		for i, text := range insteadOfPronoun(list, from) {
			at := manuscript.Span{Start: list[from-1].Span.End, End: list[from].Span.End} // with the comma that may part them
			out = append(out, rewrite{[]change{{at, " " + text}}, 2.1 - 0.1*float64(i), "says something of its own"})
		}
	}
	out = append(out, p.oneOfTwo(line, from, to)...)
	if lower(list[from].Text) == "from" && lower(list[to-1].Text) == "out" && to < len(list) && lower(list[to].Text) == "of" {
		at := manuscript.Span{Start: list[from].Span.Start, End: list[to-1].Span.End}
		for i, how := range []string{"straight out", "right out"} {
			out = append(out, rewrite{[]change{{at, how}}, 3 - 0.1*float64(i), "says how"})
		}
	}
	return out
}

// firstOfThree are sights that open the list of two adjectives from word to on, in the place
// of a degree before them: "the sun was golden, bright and hot".
func (p *Place) firstOfThree(line, from, to int) []rewrite {
	list := p.Poem.Lines[line].Words
	theme, near := p.themeOf(line)
	s := spot{place: p, line: line, from: from, to: to + 1, head: words.Find(lower(list[to].Text)), part: words.Adjective, tag: grammar.Adjective, theme: theme, near: near}
	if s.head == words.None {
		return nil
	}
	noun, told := s.subject()
	lead := " "
	if before := lower(list[from-1].Text); list[from-1].Tag.IsNoun() || from > 1 && list[from-2].Tag == grammar.Determiner && grammar.CanBe(before, grammar.Noun) {
		noun, told, lead = words.Find(before), true, ", " // "a beetle, shiny, large and red"
	}
	if !told || noun == words.None {
		return nil
	}
	at := manuscript.Span{Start: list[from-1].Span.End, End: list[to-1].Span.End}
	var out []rewrite
	for _, sight := range s.pictured(noun, false) {
		if len(out) == triedSights {
			break
		}
		other := words.Find(lower(list[to+2].Text))
		if strings.Contains(sight.form, " ") || words.Nearness(sight.word, s.head) > saidAgain || words.Nearness(sight.word, other) > saidAgain || !s.takesSyllables(sight.form, p.syllables(line, from, to)) {
			continue
		}
		out = append(out, rewrite{[]change{{at, lead + sight.form + ","}}, 1.9 + sight.score/10, sight.why})
	}
	return out
}

// followsPair reports whether two adjectives, joined by "and", stand from word i on and
// nothing after them hangs on them.
func followsPair(list []scansion.Word, i int) bool {
	if i == 0 || i+2 >= len(list) || lower(list[i+1].Text) != "and" || list[i-1].Break != manuscript.NoBreak || list[i].Break != manuscript.NoBreak {
		return false
	}
	closes := i+3 == len(list) || list[i+2].Break != manuscript.NoBreak
	return closes && isDescribing(list[i]) && isDescribing(list[i+2])
}

// isDescribing reports whether a word is an adjective, whatever the end of its line
// has it tagged as.
func isDescribing(w scansion.Word) bool {
	return w.Tag.IsAdjective() || w.Tag.IsNoun() && grammar.CanBe(lower(w.Text), grammar.Adjective)
}

// named gives a bare noun its article in the place of the pronoun behind it: "when the day
// is done" for "when day it is done".
func named(list []scansion.Word, pronoun int) []rewrite {
	noun := list[pronoun-1]
	if noun.Tag != grammar.Noun || pronoun < 2 || list[pronoun-2].Tag == grammar.Determiner || list[pronoun-2].Tag == grammar.Possessive || list[pronoun-2].Tag.IsAdjective() {
		return nil
	}
	at := manuscript.Span{Start: noun.Span.Start, End: list[pronoun].Span.End}
	return []rewrite{{[]change{{at, "the " + asInside(noun.Text)}}, 3, "names it once"}}
}

// insteadOfPronoun are words of one syllable for a pronoun behind its own noun: many are
// counted by "all", and what is so now may be so "still".
func insteadOfPronoun(list []scansion.Word, pronoun int) []string {
	verb := list[pronoun+1]
	switch {
	case lower(list[pronoun].Text) == "they" && list[pronoun-1].Tag == grammar.NounPlural && !(pronoun+2 < len(list) && lower(list[pronoun+2].Text) == "all"):
		return []string{"all"}
	case isAny(lower(verb.Text), "was", "were"):
		return []string{"there", "then"} // "the keeper there was old"
	case verb.Tag == grammar.VerbThird || verb.Tag == grammar.VerbPresent:
		return []string{"now", "still"}
	}
	return nil
}

// oneOfTwo puts a sight of the noun in the place of one of two adjectives that say one
// thing twice: "the wide and icy bay" for "the cold and icy bay".
func (p *Place) oneOfTwo(line, from, to int) []rewrite {
	list := p.Poem.Lines[line].Words
	joined := to-from == 3 && lower(list[from+1].Text) == "and"
	if to-from != 2 && !joined || !isDescribing(list[from]) || !isDescribing(list[to-1]) || to == len(list) {
		return nil
	}
	s, ok := p.spot(line, to-1, to)
	if !ok || s.part != words.Adjective {
		return nil
	}
	noun, before := s.described()
	if !before {
		return nil
	}
	var out []rewrite
	for _, sight := range s.pictured(noun, false) {
		if strings.Contains(sight.form, " ") || words.Nearness(sight.word, s.head) > saidAgain {
			continue
		}
		for _, stays := range []int{to - 1, from} {
			put := list[from+to-1-stays].Span
			if !joined && stays == from {
				continue // "icy wide bay" has them out of order
			}
			out = append(out, rewrite{[]change{{put, sight.form}}, sight.score, sight.why})
		}
	}
	return out
}

// grown are verbs of change for "got" and what somebody got, from word from to word to-1:
// "grew loud and cross" for "got very cross", "turned cold" for "got cold".
func (p *Place) grown(line, from, to int) []Item {
	list := p.Poem.Lines[line].Words
	at := manuscript.Span{Start: list[from].Span.Start, End: list[to-1].Span.End}
	verbs := []string{"grew", "turned"}
	if lower(list[from].Text) == "gets" {
		verbs = []string{"grows", "turns"}
	}
	what := []string{lower(list[to-1].Text)}
	if s, ok := p.spot(line, from+1, to); ok && s.part == words.Adjective {
		for _, c := range byScore(s.firmly()) {
			what = append(what, c.form)
		}
	}
	var out, anew []rewrite
	for i, text := range what {
		for k, verb := range verbs {
			s := spot{place: p, line: line, from: from, to: to, tag: grammar.Adjective}
			if !s.takesSyllables(verb+" "+text, p.syllables(line, from, to)) {
				continue
			}
			r := rewrite{[]change{{at, likeIn(verb, list[from].Text) + " " + text}}, 3 - 0.1*float64(i) - 0.02*float64(k), "shows how it came to be"}
			if to < len(list) || strings.HasSuffix(text, what[0]) {
				out = append(out, r)
			} else {
				anew = append(anew, r)
			}
		}
	}
	if items := p.rewrites(line, out, maxReplacements, readRewrites); len(items) > 0 {
		return items
	}
	return wanting(p.rewrites(line, anew, maxReplacements, readRewrites))
}

// wanting are items that end their line on another sound than it has now: each says with which
// word the line then wants a rhyme.
func wanting(items []Item) []Item {
	for i := range items {
		items[i].Wants = lastWord(items[i].Text)
	}
	return items
}

// lastWord is the last word of a text, in lower case.
func lastWord(text string) string { return lower(text[strings.LastIndexByte(text, ' ')+1:]) }
