package checks

import (
	"fmt"
	"strings"

	"dandle/analysis/manuscript"
	"dandle/phonetics/grammar"
)

const noteRedundantDoc = `
An art note repeats what the verse says.

The illustrator reads the verse first. A note that says it again asks for a picture which
would have come by itself, and hides the notes that are needed (ours: redundant where all its
content words stand in the same spread).

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
			told := stemsAround(p.Manuscript, n)
			content, said := 0, 0
			for _, w := range noteWords(n.Text) {
				if !contentWord(w) {
					continue
				}
				content++
				if told[stem(w)] {
					said++
				}
			}
			// One word that recurs is a name as often as a repetition.
			if content < 2 || said < content {
				continue
			}
			p.Report(Finding{
				Span:       n.Span,
				Line:       -1,
				Message:    fmt.Sprintf("The verse beside it tells all of this (%s), so the note may rest.", strings.Join(noteWords(n.Text), " ")),
				Confidence: min(0.64+0.06*float64(content), 0.92),
			})
		}
	},
}

// stemsAround are the stems of the verse that shares a note's opening: its
// spread, or where the text has no spreads, the stanza before it and after it.
func stemsAround(m *manuscript.Manuscript, n manuscript.Note) map[string]bool {
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
	stems := map[string]bool{}
	for i := from; i < min(to, len(m.Lines)); i++ {
		for _, w := range m.Lines[i].Words {
			stems[stem(w.Text)] = true
		}
	}
	return stems
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
