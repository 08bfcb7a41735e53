package checks

import (
	"cmp"
	"fmt"
	"iter"
	"math"
	"slices"
	"strings"
	"sync"

	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"
	lexis "dandle/analysis/suggest/words"
	"dandle/phonetics"
	"dandle/phonetics/grammar"
)

const imageStrayDoc = `
A word does not belong to the picture that its stanza builds.

A stanza that gathers its words from one place, a harbour or a kitchen, paints the place without
naming it. One word from elsewhere lets the reader look up from the page. It may be the joke, and
then it should stand where a joke stands; accept the finding. Heard are nouns, by the company that
words keep in print and by their definitions, and only where the rest of the stanza hangs closely
together. Comparisons, speech and what the story names elsewhere are left alone.

Raised here, at _violin_:

    The roots drank the rain and the petals unfurled,
    The tendrils of bean round the trellis were curled,
    A worm turned the soil of the violin bed,
    And tulips and daisies grew yellow and red.

Not here, where the word comes in by a comparison:

    The roots drank the rain and the petals unfurled,
    The tendrils of bean round the trellis were curled,
    A worm hummed along like a violin string,
    And tulips and daisies came up for the spring.

What helps: a word of the same length from inside the picture.
`

// The bounds are ours, set on the development half of the planted stanzas and
// on verse that is good: of 1,773 stanzas of Housman and Kipling three are
// raised, and of 129 in picture-book manuscripts none. "Belonging" is in standard
// deviations.
const (
	leastPicture = 8    // nouns, fewer of which build no picture
	mostPicture  = 60   // nouns, more of which are no stanza that an ear takes in
	gathered     = 4.0  // the others' mean belonging, from which they hang together
	outside      = 0.75 // belonging, above which a word may well be inside
	lonely       = 0.75 // how far the next word must be from it
	akin         = 3.0  // belonging of a definition, above which a word is inside after all
	commonplace  = 11   // rarity, below which a word belongs to every picture
)

var imageStray = &Check{
	Code:     "image/stray",
	Severity: Hint,
	Doc:      imageStrayDoc,
	Run: func(p *Pass) {
		m, ear := p.Manuscript, newImageEar()
		ear.sees = func(w lexis.Word) bool {
			return recall(p, "sees "+w.String(), func() bool { return visible(w) })
		}
		again := sync.OnceValue(func() []bool { return refrains(m) })
		told := sync.OnceValue(func() map[string]int { return toldStems(m) })
		for _, stanza := range m.Stanzas {
			shown := ear.picture(p.Poem, stanza)
			s, sure := ear.recalled(p, &shown, stanza.From)
			if !sure || compared(p.Poem, stanza, &s.stray) || again()[s.stray.line] || told()[stem(s.stray.text)] > 1 ||
				!still(s.stray.known) || ear.defined(&shown, &s.stray) > akin {
				continue
			}
			p.Report(Finding{
				Span: m.Lines[s.stray.line].Words[s.stray.word].Span,
				Line: s.stray.line,
				Message: fmt.Sprintf("The other words gather round one picture (%s), and %s calls up another%s; a listener may lose the first.",
					strings.Join(s.inside, ", "), quote(s.stray.text), callsUp(s.stray.known)),
				Confidence: min(0.6+0.06*(s.closeness-gathered)+0.03*(s.gap-lonely), 0.85),
				Fixes:      insiders(p, &shown, &s.stray),
			})
		}
	},
}

// A suspicion is a word that may be out of its stanza's picture.
type suspicion struct {
	stray     pictured
	inside    []string // the words that belong most
	closeness float64  // of the others, their mean belonging
	gap       float64  // in belonging, to the next suspect
}

// recalled is the suspicion of a picture, from memory where the same nouns stood
// in the same places of a stanza before.
func (e *imageEar) recalled(p *Pass, shown *picture, from int) (suspicion, bool) {
	type answer struct {
		suspicion
		sure bool
	}
	var key strings.Builder
	for _, w := range shown.nouns {
		fmt.Fprintf(&key, "%s\x00%d\x00%d\x00%d\x00", w.text, w.tag, w.line-from, w.word)
	}
	a := recall(p, key.String(), func() answer {
		s, sure := e.suspicion(shown)
		s.stray.line -= from
		return answer{s, sure}
	})
	a.stray.line += from
	return a.suspicion, a.sure
}

// suspicion is what the nearness of words says of a picture; false where it is
// not sure.
func (e *imageEar) suspicion(shown *picture) (suspicion, bool) {
	if len(shown.nouns) < leastPicture {
		return suspicion{}, false
	}
	ranked := e.ranked(shown)
	// Looking up what can be seen is slow, so it is left until the nearness
	// alone could be enough: what it leaves out comes first.
	if len(ranked) <= looked || ranked[0].belonging > outside || meanBelonging(ranked[looked:]) < gathered {
		return suspicion{}, false
	}
	ranked = e.seen(ranked)
	const told = 3
	if len(ranked) <= told {
		return suspicion{}, false
	}
	others := ranked[1:]
	s := suspicion{stray: ranked[0], gap: others[0].belonging - ranked[0].belonging, closeness: meanBelonging(others)}
	for _, w := range slices.Backward(others[len(others)-told:]) {
		s.inside = append(s.inside, w.text)
	}
	return s, s.closeness >= gathered && s.stray.belonging <= outside && s.gap >= lonely && s.stray.known.Rarity() >= commonplace
}

// A pictured word is one that names, does or describes, with what is known of
// it.
type pictured struct {
	line, word int
	text       string // in lower case
	tag        grammar.Tag
	known      lexis.Word
	belonging  float64 // how well it fits the others, in standard deviations
}

// A picture is what a stanza shows: its nouns, each once, and the other words
// that carry sense.
type picture struct {
	nouns, others []pictured
}

// An imageEar remembers how near words usually lie to any others, so that what
// is rare in print is not taken for strange.
type imageEar struct {
	usual map[lexis.Word]custom
	sees  func(lexis.Word) bool // visible, or what remembers it
}

// A custom is a mean and a standard deviation.
type custom struct{ mean, deviation float64 }

func (s custom) of(x float64) float64 {
	if s.deviation == 0 {
		return 0
	}
	return (x - s.mean) / s.deviation
}

func newImageEar() *imageEar { return &imageEar{usual: map[lexis.Word]custom{}, sees: visible} }

// anyNouns are some three hundred nouns that children know, taken evenly from
// the list of words: what a word's usual company is measured against.
var anyNouns = sync.OnceValue(func() []lexis.Word {
	var all []lexis.Word
	for w := range lexis.Word(lexis.Len()) {
		if w.Level() <= 35 && 9 < w.Rarity() && w.Rarity() < 14 && w.HasSense() && grammar.CanBe(w.String(), grammar.Noun) {
			all = append(all, w)
		}
	}
	const wanted = 300
	step := max(1, len(all)/wanted)
	var some []lexis.Word
	for i := 0; i < len(all); i += step {
		some = append(some, all[i])
	}
	return some
})

// spreadOf measures nearness over the nouns that children know.
func spreadOf(nearness func(lexis.Word) float64) custom {
	var sum, squares, n float64
	for _, w := range anyNouns() {
		x := nearness(w)
		sum += x
		squares += x * x
		n++
	}
	mean := sum / n
	return custom{mean, math.Sqrt(max(squares/n-mean*mean, 0))}
}

func (e *imageEar) usually(w lexis.Word) custom {
	s, known := e.usual[w]
	if !known {
		s = spreadOf(func(other lexis.Word) float64 {
			if other == w {
				return 0
			}
			return lexis.Nearness(w, other)
		})
		e.usual[w] = s
	}
	return s
}

// company is how much nearer two words lie than either lies to any word.
func (e *imageEar) company(a, b lexis.Word) float64 {
	near := lexis.Nearness(a, b)
	return (e.usually(a).of(near) + e.usually(b).of(near)) / 2
}

// picture gathers the words of a stanza that show something.
func (e *imageEar) picture(poem *scansion.Poem, stanza manuscript.Stanza) picture {
	const small = 8 // rarity, below which a word is in every text
	var found picture
	seen := map[lexis.Word]bool{}
	for i := stanza.From; i < min(stanza.To, len(poem.Lines)); i++ {
		for k := range poem.Lines[i].Words {
			w := &poem.Lines[i].Words[k]
			if !w.Tag.IsNoun() && !w.Tag.IsVerb() && !w.Tag.IsAdjective() {
				continue
			}
			text := strings.TrimSuffix(plain(w.Text), "'s")
			known := lexis.Find(text)
			if known == lexis.None || seen[known] || known.Rarity() < small || lexis.Nearness(known, known) == 0 {
				continue
			}
			seen[known] = true
			one := pictured{line: i, word: k, text: text, tag: w.Tag, known: known}
			// A name pictures nobody, and the tagger takes some verbs for nouns.
			isThing := (w.Tag == grammar.Noun || w.Tag == grammar.NounPlural) && !w.Quoted &&
				!grammar.CanBe(text, grammar.VerbPast) && !grammar.CanBe(text, grammar.VerbGerund)
			if isThing {
				found.nouns = append(found.nouns, one)
			} else {
				found.others = append(found.others, one)
			}
		}
	}
	return found
}

// ranked ranks the nouns of a picture, the one that belongs least first.
func (e *imageEar) ranked(found *picture) []pictured {
	if len(found.nouns) > mostPicture {
		return nil
	}
	ranked := slices.Clone(found.nouns)
	rest := make([]lexis.Word, 0, len(ranked))
	for i := range ranked {
		rest = rest[:0]
		var near []float64
		for k := range found.nouns {
			if k != i {
				rest = append(rest, found.nouns[k].known)
				near = append(near, e.company(ranked[i].known, found.nouns[k].known))
			}
		}
		theme := lexis.NewTheme(rest)
		ranked[i].belonging = nearest(near) + spreadOf(theme.Nearness).of(theme.Nearness(ranked[i].known))
	}
	slices.SortStableFunc(ranked, func(a, b pictured) int { return cmp.Compare(a.belonging, b.belonging) })
	return ranked
}

// looked is how many of a ranking's first words must name what can be seen.
const looked = 6

// seen leaves out of a ranking what would come first and cannot be seen: what
// an abstract word calls up is no picture.
func (e *imageEar) seen(ranked []pictured) []pictured {
	var kept []pictured
	for i, w := range ranked {
		if i >= looked || e.sees(w.known) {
			kept = append(kept, w)
		}
	}
	return kept
}

func meanBelonging(list []pictured) float64 {
	sum := 0.0
	for _, w := range list {
		sum += w.belonging
	}
	return sum / float64(len(list))
}

// nearest is the mean of the three greatest: a word belongs by what it has to
// do with some of the others, and need not know all of them.
func nearest(list []float64) float64 {
	slices.SortFunc(list, func(a, b float64) int { return cmp.Compare(b, a) })
	list = list[:min(3, len(list))]
	sum := 0.0
	for _, x := range list {
		sum += x
	}
	return sum / float64(max(1, len(list)))
}

// defined is how well a word's definitions fit the picture: a wick has little
// to do with a fire in print, and a candle is in its definition.
func (e *imageEar) defined(found *picture, stray *pictured) float64 {
	var told []lexis.Word
	for _, sense := range nounSenses(stray.known) {
		for _, w := range sense.Words {
			if w != stray.known && w.Rarity() > 8 {
				told = append(told, w)
			}
		}
		for _, text := range strings.FieldsFunc(sense.Meaning, func(r rune) bool { return r < 'a' || r > 'z' }) {
			if w := lexis.Find(text); w != lexis.None && 9.5 < w.Rarity() && w.Rarity() < 16 {
				told = append(told, w)
			}
		}
	}
	if len(told) == 0 {
		return 0
	}
	var near []float64
	for _, other := range slices.Concat(found.nouns, found.others) {
		if other.known == stray.known {
			continue
		}
		best := math.Inf(-1)
		for _, w := range told {
			if base(other.known) == w {
				return math.Inf(1) // the definition names it
			}
			best = max(best, min(e.company(w, other.known), 6))
		}
		near = append(near, best)
	}
	return nearest(near)
}

// base is the singular that WordNet knows of a word; the word where it has none.
func base(w lexis.Word) lexis.Word {
	if w.HasSense() {
		return w
	}
	text := w.String()
	for _, ending := range []struct{ plural, singular string }{{"ies", "y"}, {"ves", "f"}, {"ves", "fe"}, {"s", ""}, {"es", ""}, {"men", "man"}} {
		if root, cut := strings.CutSuffix(text, ending.plural); cut {
			if b := lexis.Find(root + ending.singular); b != lexis.None && b.HasSense() {
				return b
			}
		}
	}
	return w
}

// nounSenses are the meanings of a word as a noun, at most three.
func nounSenses(w lexis.Word) []lexis.Sense {
	var list []lexis.Sense
	for _, s := range base(w).Senses() {
		if s.Part == lexis.Noun && len(list) < 3 {
			list = append(list, s)
		}
	}
	return list
}

// The names that WordNet gives to its wide classes: of who lives, of what can
// be seen or touched, and of what cannot.
var (
	livingClasses = class("organism being animal person")
	thingClasses  = class("object matter food nutrient plant flora artifact structure instrumentality clothing vessel container device")
	unseenClasses = class("abstraction event act deed action activity state attribute communication cognition time relation measure quality feeling sound utterance motion move movement happening occurrence process")
)

// A kind is what WordNet's wide classes tell of a word.
type kind uint8

const (
	unsure kind = iota
	unseen      // cannot be pictured
	living      // a person or an animal
	thing       // whatever else can be seen or touched
)

// visible reports whether a word may name what can be pictured: whether its
// first meaning as a noun does not lie in a class of what cannot.
func visible(w lexis.Word) bool {
	senses := nounSenses(w)
	return len(senses) > 0 && kindOf(&senses[0]) != unseen
}

// still reports whether a word names a thing first of all, and nobody: who acts
// in a tale is often out of place, and that is the tale.
func still(w lexis.Word) bool {
	senses := nounSenses(w)
	first, _ := base(w).First()
	if len(senses) == 0 || !first.Is(&senses[0]) {
		return false
	}
	for i := range senses {
		switch kindOf(&senses[i]) {
		case living, unseen:
			return false
		}
	}
	return true
}

// kindOf climbs from a meaning to the first of the wide classes.
func kindOf(s *lexis.Sense) kind {
	for at := range wider(s) {
		for _, name := range at.Words {
			switch {
			case livingClasses[name.String()]:
				return living
			case thingClasses[name.String()]:
				return thing
			case unseenClasses[name.String()]:
				return unseen
			}
		}
	}
	return unsure
}

// wider goes from a meaning to ever wider ones. Where WordNet's next step is a
// phrase, which the list of words lacks, the definition leads on: an otter is a
// "freshwater carnivorous mammal", and a mammal is known.
func wider(s *lexis.Sense) iter.Seq[lexis.Sense] {
	return func(yield func(lexis.Sense) bool) {
		const deepest = 12
		at := *s
		// The kin of a meaning begin with the wider ones, if it has any.
		next, further := at.Wider()
		for range deepest {
			var beyond lexis.Sense
			beyondKnown := false
			if further {
				beyond, beyondKnown = next.Wider()
			}
			if !further || beyondKnown && beyond.Is(&at) {
				told, known := genus(at.Meaning)
				if !known || told.Is(&at) {
					return
				}
				next = told
				beyond, beyondKnown = next.Wider()
			}
			if !yield(next) {
				return
			}
			at, next, further = next, beyond, beyondKnown
		}
	}
}

// genus is the first meaning of the noun that a definition builds on: the last
// word before what tells the thing from others of its kind.
func genus(definition string) (lexis.Sense, bool) {
	last := ""
	for _, field := range strings.Fields(definition) {
		word := strings.Trim(field, "(),;:`'")
		if genusEnds[word] {
			if last != "" && !genusEmpty[last] {
				break
			}
			last = ""
			continue
		}
		last = word
		if strings.ContainsAny(field, ",;:") && !grammar.CanBe(word, grammar.Adjective) {
			break
		}
	}
	known := lexis.Find(strings.ToLower(last))
	if known == lexis.None {
		return lexis.Sense{}, false
	}
	if first, has := base(known).First(); !has || first.Part == lexis.Noun {
		return first, has
	}
	senses := nounSenses(known)
	if len(senses) == 0 {
		return lexis.Sense{}, false
	}
	return senses[0], true
}

// The words of definitions after which a thing is told from its kind, and those
// that stand for no kind.
var (
	genusEnds  = class("that which who with having of in for on from to used usually consisting made found where when by as at whose without resembling including related worn played characterized formed")
	genusEmpty = class("any one article piece type kind form several various numerous many group")
)

// toldStems counts the stanzas that name a word; the title and the pitch count
// as one each.
func toldStems(m *manuscript.Manuscript) map[string]int {
	told := map[string]int{}
	count := func(texts []string) {
		seen := map[string]bool{}
		for _, t := range texts {
			if s := stem(t); !seen[s] {
				seen[s] = true
				told[s]++
			}
		}
	}
	for s := range m.Stanzas {
		var texts []string
		for _, line := range m.StanzaLines(s) {
			for _, w := range line.Words {
				texts = append(texts, w.Text)
			}
		}
		count(texts)
	}
	count(noteWords(m.Title.Text))
	count(noteWords(m.Front.Title))
	count(noteWords(m.Front.Pitch))
	return told
}

// compared reports whether a word comes in by a comparison, which is meant to
// bring in something from elsewhere: "like" or "as" or "than" stands shortly
// before it, on its line or at the end of the line before.
func compared(poem *scansion.Poem, stanza manuscript.Stanza, w *pictured) bool {
	const reach = 5
	line, k := w.line, w.word
	for range reach {
		if k--; k < 0 {
			if line--; line < stanza.From {
				return false
			}
			if k = len(poem.Lines[line].Words) - 1; k < 0 {
				return false
			}
		}
		before := &poem.Lines[line].Words[k]
		if before.Break >= manuscript.HeavyBreak {
			return false
		}
		switch plain(before.Text) {
		case "like", "as", "than":
			return true
		}
	}
	return false
}

// Cosines above which two words have something to do with each other, and
// above which one calls up the other; ours.
const (
	mild    = 0.35
	related = 0.5
)

// offered reports whether a noun may be named to the writer beside others.
func offered(w lexis.Word, tag grammar.Tag) bool {
	return w.Fitness() == lexis.Fit && w.Level() <= 50 && 9 < w.Rarity() && w.Rarity() < 15 && grammar.CanBe(w.String(), tag)
}

// nearestNouns are the nouns that score best and above the least, of stems not among those taken;
// one for each stem.
func nearestNouns(n int, least float64, tag grammar.Tag, taken map[string]bool, score func(lexis.Word) float64) []lexis.Word {
	type scored struct {
		w lexis.Word
		x float64
	}
	var list []scored
	for w := range lexis.Word(lexis.Len()) {
		if x := score(w); x > least && offered(w, tag) {
			list = append(list, scored{w, x})
		}
	}
	slices.SortStableFunc(list, func(a, b scored) int { return cmp.Compare(b.x, a.x) })
	var out []lexis.Word
	for _, s := range list {
		if root := stem(s.w.String()); !taken[root] && len(out) < n {
			taken[root] = true
			out = append(out, s.w)
		}
	}
	return out
}

// callsUp says what a word calls up, in the form " (a, b)"; "" where nothing is
// near it.
func callsUp(w lexis.Word) string {
	near := nearestNouns(2, related, grammar.Noun, map[string]bool{stem(w.String()): true}, func(o lexis.Word) float64 { return lexis.Nearness(w, o) })
	if len(near) < 2 {
		return ""
	}
	return fmt.Sprintf(" (%s, %s)", near[0], near[1])
}

// insiders are words from inside the picture that scan in a stray's place. A
// word at the line's end carries the rhyme and is let be.
func insiders(p *Pass, found *picture, stray *pictured) []Fix {
	line := p.Poem.Lines[stray.line].Words
	if stray.word == len(line)-1 || strings.HasSuffix(plain(line[stray.word].Text), "'s") {
		return nil
	}
	taken := map[string]bool{}
	var rest []lexis.Word
	for _, w := range slices.Concat(found.nouns, found.others) {
		taken[stem(w.text)] = true
		if w.known != stray.known && w.tag.IsNoun() {
			rest = append(rest, w.known)
		}
	}
	theme := lexis.NewTheme(rest)
	const tried, wanted = 24, 3
	var fixes []Fix
	article := ""
	if stray.word > 0 {
		article = plain(line[stray.word-1].Text)
	}
	for _, w := range nearestNouns(tried, mild, stray.tag, taken, theme.Nearness) {
		if len(fixes) == wanted {
			break
		}
		if (article == "a" || article == "an") && !takes(p, w, article) {
			continue
		}
		text := matchCase(w.String(), line[stray.word].Text)
		if fix, fits := p.mended(stray.line, fmt.Sprintf("Say %s", quote(text)), Edit{Span: line[stray.word].Span, Text: text}); fits {
			fixes = append(fixes, fix)
		}
	}
	return fixes
}

// takes reports whether a word is said with the form of "a" that stands before
// it.
func takes(p *Pass, w lexis.Word, article string) bool {
	ways := p.Reader.Pronounce(w.String(), phonetics.Context{})
	if len(ways) == 0 || len(ways[0].Sounds) == 0 {
		return false
	}
	return ways[0].Sounds.At(0).IsVowel() == (article == "an")
}
