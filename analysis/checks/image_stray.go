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
together. Comparisons, speech and what the story names elsewhere are left alone. In 1,773 stanzas of
Housman and Kipling it speaks twice.

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
// on verse that is good: of 129 stanzas in picture-book manuscripts none is
// raised. "Belonging" is in standard deviations.
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
		m := p.Manuscript
		for _, stanza := range m.Stanzas {
			g := p.glimpse(stanza)
			line := stanza.From + g.stray.line
			if !g.sure || p.again()[line] || p.tellsOf(stem(g.stray.text)) > 1 {
				continue
			}
			p.Report(Finding{
				Span: m.Lines[line].Words[g.stray.word].Span,
				Line: line,
				Message: fmt.Sprintf("The other words gather round one picture (%s), and %s calls up another%s; a listener may lose the first.",
					strings.Join(g.inside, ", "), quote(g.stray.text), g.callsUp()),
				Confidence: min(0.6+0.06*(g.closeness-gathered)+0.03*(g.gap-lonely), 0.85),
				Fixes:      insiders(p, g, line),
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

// A glimpse is what a stanza lets the ear see, whatever stands round it. Lines
// count from the stanza's first.
type glimpse struct {
	suspicion
	sure    bool // that the word is out of the picture, and is meant to be in it
	callsUp func() string
	offers  func() []lexis.Word // from inside the picture, the nearest first
}

// glimpse is that of a stanza, from memory where the same words stood in it
// before.
func (p *Pass) glimpse(stanza manuscript.Stanza) *glimpse {
	key := p.appendSounds(nil, stanza)
	for i := stanza.From; i < min(stanza.To, len(p.Poem.Lines)); i++ {
		for _, w := range p.Poem.Lines[i].Words {
			key = append(key, truth(w.Quoted))
		}
	}
	return p.Memory.glimpses.Get(key, func() *glimpse { return newGlimpse(p, stanza) })
}

func newGlimpse(p *Pass, stanza manuscript.Stanza) *glimpse {
	lines := p.Poem.Lines[min(stanza.From, len(p.Poem.Lines)):min(stanza.To, len(p.Poem.Lines))]
	ear := newImageEar(p)
	found := picture(lines)
	s, sure := ear.suspicion(&found)
	if !sure || compared(lines, &s.stray) || !still(s.stray.known) || ear.defined(&found, &s.stray) > akin {
		return &glimpse{}
	}
	return &glimpse{
		suspicion: s, sure: true,
		callsUp: sync.OnceValue(func() string { return callsUp(s.stray.known) }),
		offers:  sync.OnceValue(func() []lexis.Word { return offers(&found, &s.stray) }),
	}
}

// suspicion is what the nearness of words says of a picture; false where it is
// not sure.
func (e *imageEar) suspicion(found *shown) (suspicion, bool) {
	if len(found.nouns) < leastPicture {
		return suspicion{}, false
	}
	ranked := e.ranked(found)
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

// shown is the picture of a stanza: its nouns, each once, and the other words
// that carry sense.
type shown struct {
	nouns, others []pictured
}

// An imageEar remembers how near words usually lie to any others, so that what
// is rare in print is not taken for strange.
type imageEar struct {
	usual map[lexis.Word]custom
	pass  *Pass
}

// A custom is a mean and a standard deviation.
type custom struct{ mean, deviation float64 }

func (s custom) of(x float64) float64 {
	if s.deviation == 0 {
		return 0
	}
	return (x - s.mean) / s.deviation
}

func newImageEar(p *Pass) *imageEar { return &imageEar{usual: map[lexis.Word]custom{}, pass: p} }

// sees is visible, from memory.
func (e *imageEar) sees(w lexis.Word) bool {
	return recall(e.pass, "sees "+w.String(), func() bool { return visible(w) })
}

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

// anyone is what a word's usual company is measured against.
var anyone = sync.OnceValue(func() *lexis.Crowd { return lexis.NewCrowd(anyNouns()) })

// usually is how near a word lies to any noun but itself.
func (e *imageEar) usually(w lexis.Word) custom {
	s, known := e.usual[w]
	if !known {
		s = recall(e.pass, "usual "+w.String(), func() custom {
			mean, deviation := anyone().Around(w)
			return custom{mean, deviation}
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

// companies are the company of each two of some words, row by row.
func (e *imageEar) companies(list []pictured) []float64 {
	n := len(list)
	all, usual := make([]float64, n*n), make([]custom, n)
	for i := range list {
		usual[i] = e.usually(list[i].known)
		for k := range i {
			near := lexis.Nearness(list[i].known, list[k].known)
			all[i*n+k] = (usual[i].of(near) + usual[k].of(near)) / 2
			all[k*n+i] = all[i*n+k]
		}
	}
	return all
}

// picture gathers the words of a stanza's lines that show something.
func picture(lines []scansion.Line) shown {
	const small = 8 // rarity, below which a word is in every text
	var found shown
	seen := map[lexis.Word]bool{}
	for i := range lines {
		for k := range lines[i].Words {
			w := &lines[i].Words[k]
			if !w.Tag.IsNoun() && !w.Tag.IsVerb() && !w.Tag.IsAdjective() {
				continue
			}
			text := strings.TrimSuffix(plain(w.Text), "'s")
			known := lexis.Find(text)
			if known == lexis.None || seen[known] || known.Rarity() < small || lexis.Nearness(known, known) == 0 {
				continue
			}
			seen[known] = true
			one := pictured{line: i, word: k, text: strings.Clone(text), tag: w.Tag, known: known}
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
func (e *imageEar) ranked(found *shown) []pictured {
	if len(found.nouns) > mostPicture {
		return nil
	}
	ranked := slices.Clone(found.nouns)
	company := e.companies(found.nouns)
	rest, near := make([]lexis.Word, 0, len(ranked)), make([]float64, 0, len(ranked))
	for i := range ranked {
		rest, near = rest[:0], near[:0]
		for k := range found.nouns {
			if k != i {
				rest = append(rest, found.nouns[k].known)
				near = append(near, company[i*len(ranked)+k])
			}
		}
		theme := lexis.NewTheme(rest)
		mean, deviation := anyone().AroundTheme(&theme)
		ranked[i].belonging = nearest(near) + custom{mean, deviation}.of(theme.Nearness(ranked[i].known))
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
func (e *imageEar) defined(found *shown, stray *pictured) float64 {
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

// tellsOf counts the stanzas that have a word of a stem; the title and the pitch
// count as one each.
func (p *Pass) tellsOf(root string) int {
	told := 0
	for _, stanza := range p.Manuscript.Stanzas {
		if slices.ContainsFunc(p.said()[stanza.From:stanza.To], func(s *said) bool { return slices.Contains(s.stems(), root) }) {
			told++
		}
	}
	for _, text := range []string{p.Manuscript.Title.Text, p.Manuscript.Front.Title, p.Manuscript.Front.Pitch} {
		if slices.ContainsFunc(noteWords(text), func(w string) bool { return stem(w) == root }) {
			told++
		}
	}
	return told
}

// compared reports whether a word comes in by a comparison, which is meant to
// bring in something from elsewhere: "like" or "as" or "than" stands shortly
// before it, on its line or at the end of the line before.
func compared(lines []scansion.Line, w *pictured) bool {
	const reach = 5
	line, k := w.line, w.word
	for range reach {
		if k--; k < 0 {
			if line--; line < 0 {
				return false
			}
			if k = len(lines[line].Words) - 1; k < 0 {
				return false
			}
		}
		before := &lines[line].Words[k]
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

// familiar reports whether a word may be named to the writer beside others.
func familiar(w lexis.Word) bool {
	return w.Fitness() == lexis.Fit && w.Level() <= 50 && 9 < w.Rarity() && w.Rarity() < 15
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
		if !familiar(w) {
			continue // which is told sooner than a score
		}
		if x := score(w); x > least && grammar.CanBe(w.String(), tag) {
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

// offers are words from inside a picture that could stand for one outside it.
func offers(found *shown, stray *pictured) []lexis.Word {
	taken := map[string]bool{}
	var rest []lexis.Word
	for _, w := range slices.Concat(found.nouns, found.others) {
		taken[stem(w.text)] = true
		if w.known != stray.known && w.tag.IsNoun() {
			rest = append(rest, w.known)
		}
	}
	theme := lexis.NewTheme(rest)
	const tried = 24
	return nearestNouns(tried, mild, stray.tag, taken, theme.Nearness)
}

// insiders are words from inside the picture that scan in a stray's place. A
// word at the line's end carries the rhyme and is let be.
func insiders(p *Pass, g *glimpse, at int) []Fix {
	line := p.Poem.Lines[at].Words
	word := g.stray.word
	if word == len(line)-1 || strings.HasSuffix(plain(line[word].Text), "'s") {
		return nil
	}
	const wanted = 3
	var fixes []Fix
	article := ""
	if word > 0 {
		article = plain(line[word-1].Text)
	}
	for _, w := range g.offers() {
		if len(fixes) == wanted {
			break
		}
		if (article == "a" || article == "an") && !takes(p, w, article) {
			continue
		}
		text := matchCase(w.String(), line[word].Text)
		if fix, fits := p.mended(at, fmt.Sprintf("Say %s", quote(text)), Edit{Span: line[word].Span, Text: text}); fits {
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
