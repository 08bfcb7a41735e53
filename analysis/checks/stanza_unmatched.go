package checks

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"
	lexis "dandle/analysis/suggest/words"
	"dandle/phonetics/grammar"
)

const stanzaUnmatchedDoc = `
The stanzas of a series share a move in the same place, and one does not.

When three verses have let in a guest and said what she brought, the listener leans forward for
what the fourth will bring. A gap there sounds like a line that was lost. The last of a series
may break it on purpose, since a broken list is a surprise; accept the finding then. Heard is what
a line opens with, how it ends, and which kind of thing it names; stanzas count as a series where
they share other moves too. In 1,773 stanzas of Housman and Kipling it speaks three times.

Raised here, at the heron’s second line, where every other guest has an instrument:

    In came the badger, brushed and neat,
    And under his arm was a silver flute.

    In came the otter on slippery feet,
    And under her arm was a dented drum.

    In came the heron, who took a seat,
    And under his arm was a great surprise.

    In came the mole from across the street,
    And under her arm was a violin.

Not here, where each has one:

    In came the heron, who took a seat,
    And under his arm was a golden harp.
`

// The bounds are ours, set on verse that is good: of 129 stanzas in picture-book
// manuscripts none is raised. Evidence is how unlikely it is that lines share a move by chance, in natural logarithms.
const (
	leastHolders  = 3    // stanzas that share what one lacks
	leastGap      = 7.0  // evidence for the move that one stanza lacks
	leastSeries   = 12.0 // evidence that all of them, with that one, are a series
	longestStanza = 16   // lines; a longer run of verse is no stanza that is laid beside others
	longestRun    = 64   // stanzas that are laid beside each other at once
)

var stanzaUnmatched = &Check{
	Code:     "stanza/unmatched",
	Severity: Hint,
	Doc:      stanzaUnmatchedDoc,
	Run: func(p *Pass) {
		m := p.Manuscript
		if len(p.Poem.Lines) < len(m.Lines) {
			return
		}
		all := newMoves(p)
		best := map[int]missing{} // by stanza
		for _, r := range all.rows {
			together := all.together(r)
			for place := range r.places {
				for _, x := range all.missing(r, place, together) {
					if old, found := best[x.stanza]; !found || x.tells() > old.tells() {
						best[x.stanza] = x
					}
				}
			}
		}
		for s := range m.Stanzas {
			if x, found := best[s]; found {
				all.report(&x)
			}
		}
	},
}

func (all *moves) report(x *missing) {
	p, m := all.pass, all.pass.Manuscript
	lineOf := func(stanza int) int { return m.Stanzas[stanza].From + x.place }
	var related []Related
	var examples []string
	const shown = 4
	for _, s := range x.holders {
		if len(related) == shown {
			break
		}
		related = append(related, Related{Span: m.Lines[lineOf(s)].Span, Message: "the same place in another verse"})
		if e := all.example(x, s); e != "" && len(examples) < 3 && !slices.Contains(examples, e) {
			examples = append(examples, e)
		}
	}
	i := lineOf(x.stanza)
	like := ""
	if len(examples) > 0 {
		like = " (" + strings.Join(examples, ", ") + "),"
	}
	p.Report(Finding{
		Span:       m.Lines[i].Span,
		Line:       i,
		Message:    fmt.Sprintf("In this place %s other verses %s%s and this one does not; a listener who has caught the pattern will miss it here.", cardinal(len(x.holders)), x.move.says(), like),
		Confidence: min(0.6+0.01*(x.evidence()-leastGap-leastSeries), 0.85),
		Related:    related,
	})
}

// A missing is a move that all stanzas of a series make but one.
type missing struct {
	move        move
	row         row
	place       int // of the line in its stanza
	stanza      int // that lacks it
	holders     []int
	gap, series float64
}

func (x *missing) evidence() float64 { return x.gap + x.series }

// tells is the evidence, with more for a thing that is missing than for an
// opening that differs with it.
func (x *missing) tells() float64 {
	if x.move.kind == names {
		return 2 * x.evidence()
	}
	return x.evidence()
}

// A moveKind is a way in which lines can be alike.
type moveKind uint8

const (
	opensWord   moveKind = iota // with the same word
	opensPhrase                 // with a phrase of the same kind
	holds                       // has the same word in it; tells a series, and is no move by itself
	endsOn                      // with the same mark or voice
	counts                      // has a number in it
	names                       // names a thing of the same class
)

// A move is one thing that a line does.
type move struct {
	kind  moveKind
	value string // the word, the phrase, the ending or the class
}

// compare orders moves.
func (v move) compare(other move) int {
	if v.kind != other.kind {
		return cmp.Compare(v.kind, other.kind)
	}
	return strings.Compare(v.value, other.value)
}

// chance is how often a line of verse makes a move, before anything is known
// of the manuscript; ours, rough.
func (v move) chance() float64 {
	switch v.kind {
	case opensWord, holds:
		// The two hundred and fifty commonest words are in every verse.
		if w := lexis.Find(v.value); w != lexis.None && w.Rarity() < 8 {
			return 0.3
		}
		return 0.03
	case counts:
		return 0.08
	case endsOn:
		return 0.1
	default:
		return 0.15
	}
}

// says is the move after "other verses".
func (v move) says() string {
	switch v.kind {
	case opensWord:
		return "open with " + quote(v.value)
	case opensPhrase:
		return "open with " + v.value
	case endsOn:
		return "end on " + v.value
	case counts:
		return "count"
	default:
		return "name " + classes[v.value]
	}
}

// example is what makes a missing move in a stanza that has it, where one would
// quote it.
func (all *moves) example(x *missing, stanza int) string {
	m := all.pass.Manuscript
	switch x.move.kind {
	case names:
		for _, t := range all.things(x.row, x.place).of[stanza-x.row.from] {
			if t.is(x.move.value) {
				return t.text
			}
		}
	case opensPhrase:
		if words := m.Lines[m.Stanzas[stanza].From+x.place].Words; len(words) > 1 {
			return quote(manuscript.Span{Start: words[0].Span.Start, End: words[1].Span.End}.In(m.Text))
		}
	}
	return ""
}

// classes are those of WordNet's classes that a verse may call a roll of, and
// how one says that a line names one.
var classes = map[string]string{
	"animal":     "an animal",
	"food":       "something to eat",
	"beverage":   "something to drink",
	"flora":      "a plant",
	"clothing":   "something to wear",
	"instrument": "an instrument",
	"vehicle":    "something to ride in",
	"location":   "a place",
	"color":      "a color",
	"worker":     "a trade",
	"furniture":  "a piece of furniture",
	"toy":        "a toy",
	"vessel":     "a vessel",
}

// classified is a noun with its classes in its most frequent meanings, from
// memory.
func (all *moves) classified(text string) namedThing {
	return recall(all.pass, text, func() namedThing { return classified(text) })
}

func classified(text string) namedThing {
	t := namedThing{text: text}
	known := lexis.Find(strings.TrimSuffix(text, "'s"))
	if known == lexis.None {
		return t
	}
	const frequent = 2
	senses := nounSenses(known)
	for i := range senses[:min(frequent, len(senses))] {
		c, sure := classOf(&senses[i])
		if i == 0 {
			t.sure, t.first = sure, c != ""
		}
		if c != "" && !slices.Contains(t.classes, c) {
			t.classes = append(t.classes, c)
		}
	}
	return t
}

// is reports whether the thing may be of a class.
func (t *namedThing) is(class string) bool { return slices.Contains(t.classes, class) }

// mayBe reports whether it is of a class in any of its meanings, the rare ones
// too: a mole is an animal at last.
func (t *namedThing) mayBe(class string) bool {
	known := lexis.Find(strings.TrimSuffix(t.text, "'s"))
	if known == lexis.None {
		return true
	}
	for _, s := range base(known).Senses() {
		if s.Part != lexis.Noun {
			continue
		}
		if c, _ := classOf(&s); c == class {
			return true
		}
	}
	return false
}

// isFirst reports whether it is so in its most frequent meaning.
func (t *namedThing) isFirst(class string) bool { return t.first && t.classes[0] == class }

// classOf is the narrowest of the classes above a meaning, "" for none; false
// where the way up ends before it meets a wide class.
func classOf(s *lexis.Sense) (string, bool) {
	for at := range wider(s) {
		for _, name := range at.Words {
			class := name.String()
			if class == "building" {
				class = "location" // one goes to either
			}
			if _, is := classes[class]; is {
				return class, true
			}
			if unseenClasses[class] || livingClasses[class] || class == "artifact" {
				return "", true
			}
		}
	}
	return "", false
}

// plainMoves are what a line opens with, ends on and counts.
func plainMoves(words []scansion.Word, said *said, ending ending) []move {
	if len(words) < 2 {
		return nil
	}
	list := append(make([]move, 0, len(words)+4), move{opensWord, said.words[0]})
	if phrase := opening(words); phrase != "" {
		list = append(list, move{opensPhrase, phrase})
	}
	switch ending {
	case calls:
		list = append(list, move{endsOn, "a call"})
	case asks:
		list = append(list, move{endsOn, "a question"})
	}
	counting := false
	for k := range words {
		counting = counting || words[k].Tag == grammar.Number
		if v := (move{holds, said.words[k]}); !slices.Contains(list, v) {
			list = append(list, v)
		}
	}
	if counting {
		list = append(list, move{kind: counts})
	}
	return list
}

// opening is the kind of phrase that a line opens with, in words that follow
// "open with"; "" where it is of none that one would follow through a list.
func opening(words []scansion.Word) string {
	first, second := &words[0], &words[1]
	switch {
	case (first.Tag == grammar.Adverb || first.Tag == grammar.Particle || first.Tag == grammar.Preposition) && second.Tag.IsVerb():
		return "a verb before its subject"
	case (first.Tag == grammar.Preposition || first.Tag == grammar.To) && (second.Tag == grammar.Determiner || second.Tag == grammar.Possessive):
		return "a phrase of where, when or how"
	case first.Tag == grammar.VerbGerund:
		return "somebody doing something"
	case plain(first.Text) == "a" || plain(first.Text) == "an":
		return "somebody or something new"
	case first.Tag == grammar.Number:
		return "a number"
	case first.Tag == grammar.Interjection:
		return "a cry"
	}
	return ""
}
