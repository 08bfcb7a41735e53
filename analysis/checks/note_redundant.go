package checks

import (
	"fmt"
	"slices"
	"strings"

	"dandle/analysis/manuscript"
	"dandle/phonetics/grammar"
)

const noteRedundantDoc = `
An art note repeats what the verse says.

The illustrator reads the verse first. A note that says it again asks for a picture which
would have come by itself, and hides the notes that are needed (ours: redundant where all its
content words stand in the same spread). Words count as said in any of their forms, and where
the verse means them: it says _heron_ and the note _bird_ (WordNet's senses).

In 8,905 lines of Housman and Kipling, which have hardly a note in brackets, it is never raised.

Raised here:

    The goat put the hat of the keeper on straight.
    [The goat puts on the keeper's hat]

Not here:

    The goat was quite sure she was dressed for the part.
    [Goat = keeper's hat]
`

var noteRedundant = &Check{
	Code:     "note/redundant",
	Severity: Information,
	Doc:      noteRedundantDoc,
	Run: func(p *Pass) {
		for _, n := range p.Manuscript.Notes {
			if n.Kind != manuscript.ArtNote {
				continue
			}
			verse := wordsAround(p.Manuscript, n)
			key := n.Text + "\x00" + strings.Join(verse, " ")
			told := recall(p, key, func() telling { return tellingOf(noteWords(n.Text), verse) })
			// One word that recurs is a name as often as a repetition.
			if told.content < 2 || told.said+told.meant < told.content || told.meant > told.said {
				continue
			}
			p.Report(Finding{
				Span:       n.Span,
				Line:       -1,
				Message:    fmt.Sprintf("The verse beside it tells all of this (%s), so the note may rest.", strings.Join(noteWords(n.Text), " ")),
				Confidence: min(0.64+0.06*float64(told.said), 0.92),
				Fixes:      []Fix{{Title: "Leave the note out", Edits: []Edit{{Span: wholeNote(p.Manuscript, n)}}}},
			})
		}
	},
}

// A telling is how much of a note its verse tells: of its content words those
// that the verse says in some form, and those that it means.
type telling struct{ content, said, meant int }

func tellingOf(note, verse []string) telling {
	lemmas := map[string]bool{}
	var content []string
	for _, w := range verse {
		l := lemma(w)
		if !lemmas[l] && contentWord(w) {
			content = append(content, l)
		}
		lemmas[l] = true
	}
	var t telling
	for _, w := range note {
		if !contentWord(w) {
			continue
		}
		t.content++
		switch l := lemma(w); {
		case lemmas[l]:
			t.said++
		case slices.ContainsFunc(content, func(v string) bool { return saysNoMore(l, v) }):
			t.meant++
		}
	}
	return t
}

// wholeNote is a note with the space before it, or where it has a line of its
// own, with that line.
func wholeNote(m *manuscript.Manuscript, n manuscript.Note) manuscript.Span {
	span := n.Span
	first, last := m.FileLineSpan(m.FileLine(span.Start)), m.FileLineSpan(m.FileLine(span.End))
	before, after := m.Text[first.Start:span.Start], m.Text[span.End:last.End]
	span.Start -= len(before) - len(strings.TrimRight(before, " \t"))
	if strings.TrimSpace(before) == "" && strings.TrimSpace(after) == "" && first.Start > 0 {
		return manuscript.Span{Start: m.FileLineSpan(m.FileLine(first.Start) - 1).End, End: last.End}
	}
	return span
}

// wordsAround are the words of the verse that shares a note's opening: its
// spread, or where the text has no spreads, the stanza before it and after it.
func wordsAround(m *manuscript.Manuscript, n manuscript.Note) []string {
	from, to := 0, 0
	if i := m.SpreadAt(n.Span.Start); i >= 0 {
		from, to = m.Spreads[i].From, m.Spreads[i].To
	} else if len(m.Lines) > 0 {
		at := max(n.Line, 0)
		from, to = m.Stanzas[m.Lines[at].Stanza].From, m.Stanzas[m.Lines[at].Stanza].To
		if next := n.Line + 1; next < len(m.Lines) {
			to = m.Stanzas[m.Lines[next].Stanza].To
		}
	}
	var list []string
	for i := from; i < min(to, len(m.Lines)); i++ {
		for _, w := range m.Lines[i].Words {
			list = append(list, w.Text)
		}
	}
	return list
}

// contentWord reports whether a word names something, rather than joining
// others: the closed classes have no such tag.
func contentWord(word string) bool {
	w := plain(word)
	if grammar.CanBe(w, grammar.Determiner) || grammar.CanBe(w, grammar.Preposition) || grammar.CanBe(w, grammar.Pronoun) ||
		grammar.CanBe(w, grammar.Conjunction) || grammar.CanBe(w, grammar.Modal) || grammar.CanBe(w, grammar.Possessive) ||
		grammar.CanBe(w, grammar.To) || grammar.CanBe(w, grammar.Particle) || forms.be[w] || forms.have[w] || forms.do[w] {
		return false
	}
	return !noteIdle[w] && strings.ContainsAny(w, "abcdefghijklmnopqrstuvwxyz0123456789")
}

// noteIdle are the words with which notes speak of the picture itself.
var noteIdle = listed("noteIdle")

// stem is what the forms of a word share: rough, since a note and a verse that
// differ by a lookalike still speak of one thing as a rule. It drops the
// endings of number, tense and possession, and a doubled consonant or a final
// "e" before them.
func stem(word string) string {
	w := plain(word)
	w = strings.TrimSuffix(strings.TrimSuffix(w, "'s"), "'")
	for _, ending := range []string{"ing", "ies", "ied", "es", "ed", "s"} {
		if rest, cut := strings.CutSuffix(w, ending); cut && len(rest) > 2 {
			w = rest
			if ending == "ies" || ending == "ied" {
				return w + "y"
			}
			if n := len(w); n > 3 && w[n-1] == w[n-2] && w[n-1] != 's' && w[n-1] != 'l' {
				w = w[:n-1]
			}
			break
		}
	}
	return strings.TrimSuffix(w, "e")
}
