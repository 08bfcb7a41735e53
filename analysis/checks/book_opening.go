package checks

import (
	"fmt"
	"slices"
	"strings"

	"dandle/analysis/manuscript"
	lexis "dandle/analysis/suggest/words"
	"dandle/phonetics/grammar"
)

const bookOpeningDoc = `
The opening does not bring in what the title or the pitch promises.

A listener settles down when she knows who it is about, where we are, and what is wanted
(common practice: the opening stanza is held against the pitch). Heard are the names and living
beings of the pitch, its places and its wish, in any form of their words or by a word that says
more (_bird_ and _heron_), in the first spread or the first two stanzas. It is raised where
nobody of the pitch has come, or neither its place nor its wish; not where the verse opens with
_I_, _she_ or _he_ and may mean to. Somebody in the title should come at some time.

In 282 poems of Housman and Kipling, which have no pitch, and in the titles and pitches of the
demo manuscripts it is never raised.

Raised here:

    pitch: A goat takes over the light for one stormy night.

    The lamp on the headland went out with a cough,
    And nobody noticed the ladder was off.

Not here, under the same pitch:

    The lamp on the headland went out with a cough,
    And nobody noticed but Nancy the goat.
`

var bookOpening = &Check{
	Code:     "book/opening",
	Severity: Hint,
	Doc:      bookOpeningDoc,
	Run: func(p *Pass) {
		m := p.Manuscript
		if len(m.Stanzas) < 3 {
			return // not yet a story
		}
		missingFromTitle(p)
		pitch := valueOf(m, "pitch")
		if m.Front.Pitch == "" || pitch.Len() == 0 {
			return
		}
		lines := openingLines(m)
		met := metIn(p, 0, lines)
		promised := recall(p, "pitch\x00"+m.Front.Pitch, func() promise { return promiseOf(m.Front.Pitch) })
		who, where, want := met.missing(promised.who), met.missing(promised.where), met.missing(promised.want)
		var absent []string
		switch {
		case who && !met.somebody:
			absent = promised.who
		case where && want:
			absent = slices.Concat(promised.where, promised.want)
		default:
			return
		}
		p.Report(Finding{
			Span: pitch, Line: -1, Confidence: 0.65,
			Message: fmt.Sprintf("The pitch promises %s, and by the end of the opening I have not met that; does the first page say who, where, and what is wanted?", quotedSeries(absent)),
			Related: []Related{{Span: manuscript.Span{Start: m.Lines[0].Span.Start, End: m.Lines[lines-1].Span.End}, Message: "the opening"}},
		})
	},
}

// missingFromTitle reports somebody whom the title names and the verse does not.
func missingFromTitle(p *Pass) {
	m := p.Manuscript
	title := m.Title.Text
	if title == "" {
		return
	}
	who := recall(p, "title\x00"+title, func() []string { return promiseOf(strings.ToLower(title)).who })
	if len(who) == 0 {
		return
	}
	if all := metIn(p, 0, len(m.Lines)); !all.missing(who) || all.somebody {
		return
	}
	p.Report(Finding{
		Span: m.Title.Span, Line: -1, Confidence: 0.6,
		Message: fmt.Sprintf("The title promises %s, and the verse does not name one; will the pictures keep the promise?", quotedSeries(who)),
	})
}

// valueOf is where the value of a key of the front matter stands.
func valueOf(m *manuscript.Manuscript, key string) manuscript.Span {
	for _, k := range m.Front.Keys {
		if k.Name == key {
			return k.Value
		}
	}
	return manuscript.Span{}
}

func quotedSeries(list []string) string {
	quoted := make([]string, len(list))
	for i, w := range list {
		quoted[i] = quote(w)
	}
	return enumerated(quoted)
}

// openingLines is the number of lines of a manuscript's opening: the first two
// stanzas, or the first spread with verse where that is longer.
func openingLines(m *manuscript.Manuscript) int {
	n := m.Stanzas[min(1, len(m.Stanzas)-1)].To
	for _, s := range m.Spreads {
		if s.To > s.From {
			return max(n, s.To)
		}
	}
	return n
}

// A promise is what a pitch says the book is about, in plain forms.
type promise struct{ who, where, want []string }

func promiseOf(pitch string) promise {
	var tokens []grammar.Token
	for _, field := range strings.Fields(pitch) {
		text := strings.Trim(field, ".,;:!?()“”\"‘’—–")
		if text != "" {
			tokens = append(tokens, grammar.Token{Text: text, After: field[strings.Index(field, text)+len(text):] + " "})
		}
	}
	placing, wanting := listed("placing"), listed("wanting")
	var pr promise
	place, wish := false, false
	for i, tag := range grammar.Tags(tokens) {
		text := tokens[i].Text
		base := lemma(text)
		switch {
		case wanting[base] && len(pr.want) == 0:
			wish, place = true, false
		case placing[plain(text)]:
			place = true
		case tag == grammar.Name && i > 0, tag.IsNoun() && livingBeing(base):
			pr.who = append(pr.who, base)
			place, wish = false, false
		case place && tag.IsNoun():
			pr.where = append(pr.where, base)
			place = false
		case wish && (tag.IsNoun() || tag.IsVerb() && !forms.be[plain(text)]):
			pr.want = append(pr.want, base)
			wish = tag.IsVerb() // "to find a friend": what is found counts too
		}
	}
	return pr
}

// livingBeing reports whether a plain form names a person or an animal first of
// all.
func livingBeing(base string) bool {
	w := lexis.Find(base)
	if w == lexis.None || !onlyNoun(base) {
		return false
	}
	list := nounSenses(w)
	return len(list) > 0 && kindOf(&list[0]) == living
}

// onlyNoun reports whether a word is no pronoun, number or adjective: "one" and
// "small" are persons to WordNet too.
func onlyNoun(word string) bool {
	for _, tag := range []grammar.Tag{grammar.Pronoun, grammar.Determiner, grammar.Number, grammar.Adjective, grammar.Preposition} {
		if grammar.CanBe(word, tag) {
			return false
		}
	}
	return true
}

// met is whom and what a stretch of the verse has brought in.
type met struct {
	lemmas   map[string]bool
	somebody bool // a person without a name: "I", "she"
}

func metIn(p *Pass, from, to int) met {
	in := met{lemmas: map[string]bool{}}
	for _, line := range p.said()[from:to] {
		for _, w := range line.words {
			switch w {
			case "i", "she", "he", "we":
				in.somebody = true
			}
			in.lemmas[recall(p, "lemma\x00"+w, func() string { return lemma(w) })] = true
		}
	}
	return in
}

// missing reports whether something was promised and nothing of it has come.
func (m *met) missing(promised []string) bool {
	if len(promised) == 0 {
		return false
	}
	for _, word := range promised {
		if m.lemmas[word] {
			return false
		}
		for l := range m.lemmas {
			if saysNoMore(word, l) {
				return false
			}
		}
	}
	return true
}
