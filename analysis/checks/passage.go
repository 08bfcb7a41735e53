package checks

import (
	"iter"
	"strings"

	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"
	"dandle/phonetics/grammar"
)

// A passage is a stanza as running text, for checks of how words stand in
// their sentence: a sentence cares nothing for line ends.
type passage struct {
	text   string // of the manuscript
	tokens []token
	stanza int
}

// A token is a word in its passage.
type token struct {
	scansion.Word
	lower       string // in lower case, with a plain apostrophe
	line        int    // index of its verse line
	first, last bool   // of its line
	refrain     bool   // in what comes again, line or frame
}

// passages are the stanzas that the check is to look at, each with the words
// that were heard in it.
func (p *Pass) passages() iter.Seq[*passage] {
	return func(yield func(*passage) bool) {
		for s, stanza := range p.Manuscript.Stanzas {
			if p.within.From <= stanza.From && stanza.To <= p.within.To && !yield(p.passage(s)) {
				return
			}
		}
	}
}

// passage is a stanza's. The last one is kept, since checks of one stanza ask for
// the same in turn.
func (p *Pass) passage(s int) *passage {
	if p.lastPassage == nil || p.lastPassage.stanza != s {
		p.lastPassage = p.newPassage(s)
	}
	return p.lastPassage
}

func (p *Pass) newPassage(s int) *passage {
	ps := &passage{text: p.Manuscript.Text, stanza: s}
	stanza := p.Manuscript.Stanzas[s]
	again, held, said := p.again(), p.held(), p.said()
	size := 0
	for i := stanza.From; i < min(stanza.To, len(p.Poem.Lines)); i++ {
		size += len(p.Poem.Lines[i].Words)
	}
	ps.tokens = make([]token, 0, size)
	for i := stanza.From; i < min(stanza.To, len(p.Poem.Lines)); i++ {
		words := p.Poem.Lines[i].Words
		for k, w := range words {
			ps.tokens = append(ps.tokens, token{
				Word: w, lower: said[i].words[k], line: i,
				first: k == 0, last: k == len(words)-1, refrain: again[i] || held[i].holds(k, len(words)),
			})
		}
	}
	return ps
}

var straight = strings.NewReplacer("’", "'", "‘", "'")

// plain is a word in lower case with a typewriter's apostrophe.
func plain(word string) string {
	if strings.ContainsRune(word, '’') || strings.ContainsRune(word, '‘') {
		word = straight.Replace(word)
	}
	return strings.ToLower(word)
}

// refrains tells which lines come again word for word: a writer who says a
// thing twice means it.
func refrains(lines []*said) []bool {
	count := make(map[string]int, len(lines))
	for _, l := range lines {
		count[l.whole]++
	}
	again := make([]bool, len(lines))
	for i, l := range lines {
		again[i] = count[l.whole] > 1
	}
	return again
}

// A hold is how many words at a line's start and end a refrain holds fast.
type hold struct{ before, after int }

func (h hold) holds(word, of int) bool { return word < h.before || word >= of-h.after }

// heldWords tells for each line which of its words belong to a refrain's frame;
// the slot is the writer's to fill anew.
func heldWords(lines int, frames []frame) []hold {
	held := make([]hold, lines)
	for _, f := range frames {
		for _, i := range f.lines {
			held[i] = hold{len(f.before), len(f.after)}
		}
	}
	return held
}

// at is the token at an index; outside the passage, one that is no word.
func (ps *passage) at(i int) *token {
	if i < 0 || i >= len(ps.tokens) {
		return &token{}
	}
	return &ps.tokens[i]
}

// joined reports whether nothing parts the tokens i and i+1.
func (ps *passage) joined(i int) bool {
	return i >= 0 && i+1 < len(ps.tokens) && ps.tokens[i].Break == manuscript.NoBreak
}

// opens reports whether a sentence or clause opens with token i: the passage
// starts, or a mark stands before it.
func (ps *passage) opens(i int) bool {
	return i <= 0 || ps.tokens[i-1].Break != manuscript.NoBreak
}

// sentence is the stretch [from, to) of the sentence that token i stands in.
func (ps *passage) sentence(i int) (from, to int) {
	from, to = i, i
	for from > 0 && ps.tokens[from-1].Break != manuscript.FullBreak {
		from--
	}
	for to < len(ps.tokens) && ps.tokens[to].Break != manuscript.FullBreak {
		to++
	}
	return from, min(to+1, len(ps.tokens))
}

// clause is the stretch [from, to) between the marks round token i.
func (ps *passage) clause(i int) (from, to int) {
	from, to = i, i
	for from > 0 && ps.tokens[from-1].Break == manuscript.NoBreak {
		from--
	}
	for to < len(ps.tokens) && ps.tokens[to].Break == manuscript.NoBreak {
		to++
	}
	return from, min(to+1, len(ps.tokens))
}

// endsWith reports whether a sign stands in the marks that end the sentence of
// token i, on its line or the next: verse strings sentences together by commas,
// and a sign far down says nothing of this clause.
func (ps *passage) endsWith(i int, sign string) bool {
	_, to := ps.sentence(i)
	return to > 0 && ps.at(to-1).line <= ps.at(i).line+1 && strings.Contains(ps.marks(to-1), sign)
}

// longestMark is how many bytes after a word its marks are looked for in.
const longestMark = 8

// marks is what stands between token i and the next word.
func (ps *passage) marks(i int) string {
	t := ps.at(i)
	end := min(t.Span.End+longestMark, len(ps.text))
	if next := ps.at(i + 1); next.Span.Start > t.Span.End {
		end = min(end, next.Span.Start)
	}
	if t.Span.End >= end {
		return ""
	}
	marks, _, _ := strings.Cut(ps.text[t.Span.End:end], "\n")
	return marks
}

// find is the first token in [from, to) for which the condition holds, or -1.
func (ps *passage) find(from, to int, is func(*token) bool) int {
	for i := max(from, 0); i < min(to, len(ps.tokens)); i++ {
		if is(&ps.tokens[i]) {
			return i
		}
	}
	return -1
}

// any reports whether the condition holds for a token in [from, to).
func (ps *passage) any(from, to int, is func(*token) bool) bool { return ps.find(from, to, is) >= 0 }

// span reaches from token i to token j, both in it.
func (ps *passage) span(i, j int) manuscript.Span {
	return manuscript.Span{Start: ps.at(i).Span.Start, End: ps.at(j).Span.End}
}

// words is the text from token i to token j, both in it, in quotes.
func (ps *passage) words(i, j int) string { return quote(ps.span(i, j).In(ps.text)) }

// is reports whether the token is one of the words.
func (t *token) is(words ...string) bool {
	for _, w := range words {
		if t.lower == w {
			return true
		}
	}
	return false
}

// in reports whether the token is in a class of words.
func (t *token) in(class words) bool { return class[t.lower] }

// gradable reports whether the token can be more or less so: what an
// intensifier leans on.
func (t *token) gradable() bool {
	return t.Tag.IsAdjective() || t.Tag.IsAdverb() || t.Tag == grammar.VerbParticiple ||
		t.Tag == grammar.VerbGerund || grammar.CanBe(t.lower, grammar.Adjective) && !t.Tag.IsVerb() && !t.Tag.IsNoun()
}

// subject reports whether the token can open a noun phrase that a verb follows.
func (t *token) subject() bool {
	switch t.Tag {
	case grammar.Pronoun, grammar.Determiner, grammar.Possessive, grammar.Name, grammar.NamePlural,
		grammar.There, grammar.NounPlural:
		return true
	}
	return false
}

// finite reports whether the token is a verb that carries a clause. A present
// that looks like a base form is told from a noun too seldom to count.
func (t *token) finite() bool {
	return t.Tag == grammar.VerbPast || t.Tag == grammar.VerbThird || t.Tag == grammar.Modal
}

// raised reports whether the writer asks for weight on the word.
func (t *token) raised() bool { return t.Emphasis || t.Shouted }

// forms are the closed classes of verbs and of denial that several checks ask
// for.
var forms = struct{ be, have, do, modal, negation words }{
	be:       listed("be"),
	have:     listed("have"),
	do:       listed("do"),
	modal:    listed("modal"),
	negation: listed("negation"),
}
