package checks

import (
	"cmp"
	"fmt"
	"math"
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
they share other moves too.

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

// The bounds are ours, set on verse that is good: of 1,773 stanzas of Housman and
// Kipling three are raised, and of 129 in picture-book manuscripts none. Evidence
// is how unlikely it is that lines share a move by chance, in natural logarithms.
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
		moves := newMoves(p, m)
		best := map[int]missing{} // by stanza
		for _, run := range alikeRuns(m) {
			for place := range linesOfStanza(m, run.from) {
				for _, x := range moves.missing(run, place) {
					if old, found := best[x.stanza]; !found || x.tells() > old.tells() {
						best[x.stanza] = x
					}
				}
			}
		}
		for s := range m.Stanzas {
			if x, found := best[s]; found {
				moves.report(p, &x)
			}
		}
	},
}

func (all *moves) report(p *Pass, x *missing) {
	m := p.Manuscript
	lineOf := func(stanza int) int { return m.Stanzas[stanza].From + x.place }
	var related []Related
	var examples []string
	const shown = 4
	for _, s := range x.holders {
		if len(related) == shown {
			break
		}
		related = append(related, Related{Span: m.Lines[lineOf(s)].Span, Message: "the same place in another verse"})
		if e := all.example(x.move, lineOf(s)); e != "" && len(examples) < 3 && !slices.Contains(examples, e) {
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

// example is what makes a move in a line, where one would quote it.
func (all *moves) example(v move, line int) string {
	switch v.kind {
	case names:
		for _, t := range all.things[line] {
			if t.is(v.value) {
				return t.text
			}
		}
	case opensPhrase:
		if words := all.m.Lines[line].Words; len(words) > 1 {
			return quote(manuscript.Span{Start: words[0].Span.Start, End: words[1].Span.End}.In(all.m.Text))
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

// classified is a noun with its classes in its most frequent meanings.
func (all *moves) classified(w *scansion.Word) namedThing {
	text := plain(w.Text)
	t, known := all.nouns[text]
	if !known {
		t = recall(all.pass, text, func() namedThing { return classified(text) })
		all.nouns[text] = t
	}
	return t
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

// A stanzaRun is a row of stanzas [from, to) with as many lines each.
type stanzaRun struct{ from, to int }

func alikeRuns(m *manuscript.Manuscript) []stanzaRun {
	var runs []stanzaRun
	for from := 0; from < len(m.Stanzas); {
		to := from + 1
		for to < len(m.Stanzas) && to-from < longestRun && linesOfStanza(m, to) == linesOfStanza(m, from) {
			to++
		}
		if to-from > leastHolders && linesOfStanza(m, from) <= longestStanza {
			runs = append(runs, stanzaRun{from, to})
		}
		from = to
	}
	return runs
}

func linesOfStanza(m *manuscript.Manuscript, s int) int { return m.Stanzas[s].To - m.Stanzas[s].From }

// A namedThing is a noun that a line has for itself.
type namedThing struct {
	text    string
	classes []string
	first   bool // the first class is that of its first meaning
	sure    bool // what its first meaning is, is known
}

// moves are those of all lines of a manuscript.
type moves struct {
	frames map[placeOfRun]placeFrame
	pass   *Pass
	poem   *scansion.Poem
	m      *manuscript.Manuscript
	plain  [][]move              // of each line, those that need no dictionary
	again  []bool                // lines that come again word for word
	often  map[move]int          // lines that make it
	things map[int][]namedThing  // of a line, looked up when asked for
	nouns  map[string]namedThing // by their text, looked up once
}

func newMoves(p *Pass, m *manuscript.Manuscript) *moves {
	poem := p.Poem
	all := &moves{pass: p, poem: poem, m: m, again: refrains(m), often: map[move]int{}, things: map[int][]namedThing{}, nouns: map[string]namedThing{}, frames: map[placeOfRun]placeFrame{}}
	for i := range m.Lines {
		var list []move
		if i < len(poem.Lines) {
			list = plainMoves(m, i, poem.Lines[i].Words)
		}
		all.plain = append(all.plain, list)
		for _, v := range list {
			all.often[v]++
		}
	}
	return all
}

// plainMoves are what a line opens with, ends on and counts.
func plainMoves(m *manuscript.Manuscript, line int, words []scansion.Word) []move {
	if len(words) < 2 {
		return nil
	}
	list := []move{{opensWord, plain(words[0].Text)}}
	if phrase := opening(words); phrase != "" {
		list = append(list, move{opensPhrase, phrase})
	}
	last := words[len(words)-1]
	marks := m.Text[last.Span.End:max(last.Span.End, m.Lines[line].Span.End)]
	switch {
	case strings.Contains(marks, "!"):
		list = append(list, move{endsOn, "a call"})
	case strings.Contains(marks, "?"):
		list = append(list, move{endsOn, "a question"})
	}
	counting := false
	for _, w := range words {
		counting = counting || w.Tag == grammar.Number
		if v := (move{holds, plain(w.Text)}); !slices.Contains(list, v) {
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

// small reports whether a line opens with a word that only joins or points: so
// many lines do that nobody follows it from verse to verse.
func (all *moves) small(line int) bool {
	w := &all.poem.Lines[line].Words[0]
	if w.Tag.IsNoun() || w.Tag.IsVerb() || w.Tag.IsAdjective() {
		return false
	}
	lower := plain(w.Text)
	for _, tag := range []grammar.Tag{
		grammar.Conjunction, grammar.Determiner, grammar.Pronoun, grammar.Possessive, grammar.Interjection,
		grammar.WhPronoun, grammar.WhAdverb, grammar.WhDeterminer, grammar.Modal, grammar.There,
	} {
		if w.Tag == tag || grammar.CanBe(lower, tag) {
			return true
		}
	}
	return false
}

// chance is how often a line makes a move, by the lines of the manuscript at
// other places and by what is known of verse.
func (all *moves) chance(v move, made, of int) float64 {
	const weight = 8 // lines that general knowledge is worth
	elsewhere := max(all.often[v]-made, 0)
	return (float64(elsewhere) + weight*v.chance()) / float64(max(len(all.plain)-of, 0)+weight)
}

// makes reports whether the line at a place of a stanza makes a move.
func (all *moves) makes(run stanzaRun, stanza, place int, v move) bool {
	line := all.m.Stanzas[stanza].From + place
	if v.kind != names {
		return slices.Contains(all.plain[line], v)
	}
	return slices.ContainsFunc(all.named(run, line), func(t namedThing) bool { return t.is(v.value) })
}

// named are the things that a line of a run names and no other line at its
// place: what all of them name is the frame that the list is set in.
func (all *moves) named(run stanzaRun, line int) []namedThing {
	list, known := all.things[line]
	if known || line >= len(all.poem.Lines) {
		return list
	}
	frame := all.frameOf(run, all.m.Lines[line].Place)
	for k := range all.poem.Lines[line].Words {
		w := &all.poem.Lines[line].Words[k]
		if w.Tag.IsNoun() && frame.times[stem(w.Text)] == 1 {
			list = append(list, all.classified(w))
		}
		// A pronoun may stand for anything, unless the frame has one too.
		if isPronoun(*w) && 2*frame.pronouns <= run.to-run.from {
			list = append(list, namedThing{text: plain(w.Text)})
		}
	}
	all.things[line] = list
	return list
}

// A placeFrame is what the lines at one place of a run share: in how many of
// them each word stands, by its stem, and how many have a pronoun.
type placeFrame struct {
	times    map[string]int
	pronouns int
}

// placeOfRun is a place in the stanzas of a run.
type placeOfRun struct {
	run   stanzaRun
	place int
}

func (all *moves) frameOf(run stanzaRun, place int) placeFrame {
	key := placeOfRun{run, place}
	if f, known := all.frames[key]; known {
		return f
	}
	f := placeFrame{times: map[string]int{}}
	for s := run.from; s < run.to; s++ {
		seen := map[string]bool{}
		other := all.m.Stanzas[s].From + place
		if other < len(all.poem.Lines) && slices.ContainsFunc(all.poem.Lines[other].Words, isPronoun) {
			f.pronouns++
		}
		for _, w := range all.m.Lines[other].Words {
			if root := stem(w.Text); !seen[root] {
				seen[root] = true
				f.times[root]++
			}
		}
	}
	all.frames[key] = f
	return f
}

func isPronoun(w scansion.Word) bool { return w.Tag == grammar.Pronoun }

// missing are the moves at a place which one stanza of a series lacks.
func (all *moves) missing(run stanzaRun, place int) []missing {
	var found []missing
	tried := map[move]bool{}
	try := func(v move) {
		if tried[v] {
			return
		}
		tried[v] = true
		for s := run.from; s < run.to; s++ {
			// The first stanza sets out and the last comes home: either may
			// stand by itself.
			if s == 0 || s == len(all.m.Stanzas)-1 {
				continue
			}
			if x, is := all.lacks(run, place, s, v); is {
				found = append(found, x)
			}
		}
	}
	for s := run.from; s < run.to; s++ {
		line := all.m.Stanzas[s].From + place
		if all.again[line] {
			continue // a refrain, which has a check of its own
		}
		for _, v := range all.plain[line] {
			if v.kind != holds && (v.kind != opensWord || !all.small(line)) {
				try(v)
			}
		}
	}
	// Looking words up is slow, so it is done only for stanzas that are a
	// series by what they have in common else.
	for s := run.from; s+leastHolders < run.to; s++ {
		if all.series(stanzaRun{s, s + leastHolders + 1}, place, move{kind: names}) < leastSeries*0.8 {
			continue
		}
		for t := s; t <= s+leastHolders; t++ {
			for _, named := range all.named(run, all.m.Stanzas[t].From+place) {
				for _, c := range named.classes {
					try(move{names, c})
				}
			}
		}
	}
	slices.SortStableFunc(found, func(a, b missing) int { return cmp.Compare(b.evidence(), a.evidence()) })
	return found
}

// lacks reports whether a stanza lacks a move that those round it make.
func (all *moves) lacks(run stanzaRun, place, s int, v move) (missing, bool) {
	if all.makes(run, s, place, v) {
		return missing{}, false
	}
	from, to := s, s+1
	for from > run.from && all.makes(run, from-1, place, v) {
		from--
	}
	for to < run.to && all.makes(run, to, place, v) {
		to++
	}
	x := missing{move: v, place: place, stanza: s}
	for h := from; h < to; h++ {
		if h != s {
			x.holders = append(x.holders, h)
		}
	}
	// Three openings alike are as often luck, and so are four phrases.
	if v.kind != names && len(x.holders) == leastHolders || v.kind == opensPhrase && len(x.holders) == leastHolders+1 {
		return missing{}, false
	}
	// A thing of which not all is known may be of the class after all.
	strange := func(t namedThing) bool {
		return !t.sure || recall(all.pass, t.text+"\x00"+v.value, func() bool { return t.mayBe(v.value) })
	}
	if len(x.holders) < leastHolders || v.kind == names && slices.ContainsFunc(all.named(run, all.m.Stanzas[s].From+place), strange) {
		return missing{}, false
	}
	if v.kind == names && !all.called(run, &x) {
		return missing{}, false
	}
	// A list may open otherwise ("First came … Next came"), and what opens its
	// last line may close it ("Last came").
	if from == s || to == s+1 && (v.kind == opensWord || v.kind == opensPhrase) {
		return missing{}, false
	}
	x.gap = float64(len(x.holders)) * -math.Log(all.chance(v, len(x.holders), to-from))
	x.series = all.series(stanzaRun{from, to}, place, v)
	return x, x.gap >= leastGap && x.series >= leastSeries
}

// called reports whether most of the holders name their class by the first
// meaning of a word: a chest is a place too, but seldom.
func (all *moves) called(run stanzaRun, x *missing) bool {
	n := 0
	for _, s := range x.holders {
		things := all.named(run, all.m.Stanzas[s].From+x.place)
		if slices.ContainsFunc(things, func(t namedThing) bool { return t.isFirst(x.move.value) }) {
			n++
		}
	}
	return 4*n >= 3*len(x.holders)
}

// series is the evidence that stanzas belong together, from the moves that all
// of them make, the one in question left out. At one place only the strongest
// counts, since the others follow from it.
func (all *moves) series(run stanzaRun, place int, except move) float64 {
	sum := 0.0
	n := run.to - run.from
	for k := range linesOfStanza(all.m, run.from) {
		strongest := 0.0
		for _, v := range all.plain[all.m.Stanzas[run.from].From+k] {
			if k == place && v.kind == except.kind {
				continue
			}
			shared := true
			for s := run.from + 1; s < run.to && shared; s++ {
				shared = all.makes(run, s, k, v)
			}
			if shared {
				strongest = max(strongest, float64(n)*-math.Log(all.chance(v, n, n)))
			}
		}
		sum += strongest
	}
	return sum
}
