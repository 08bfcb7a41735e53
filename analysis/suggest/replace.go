package suggest

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"dandle/analysis/manuscript"
	"dandle/analysis/rhyme"
	"dandle/analysis/scansion"
	"dandle/analysis/suggest/forms"
	"dandle/analysis/suggest/pictures"
	"dandle/analysis/suggest/words"
	"dandle/phonetics"
	"dandle/phonetics/grammar"
)

const (
	maxReplacements = 5
	// tried bounds the candidates that are read in the line: each is a line
	// heard anew.
	tried = 24
	// steady is the deviance that a replacement may leave, unless the line
	// strains more by itself (ours; the same that a mend may).
	steady = 0.3
	// alike is the nearness beyond which two offers are one: "marvelous" and
	// "marvellous", one colour after another.
	alike = 0.7
	// commonAdverb is the rarity up to which an adverb is one of the handful
	// that lean on any word (ours).
	commonAdverb = 10.8
)

// Replacements lists words that could stand in for word number word of line
// number line, best first, in the form that stands there. Each has been read in
// its line, which keeps its beats; the last word of a line yields only to its
// rhymes. It is empty for words of grammar.
func Replacements(p Place, line, word int) []Item { return Instead(p, line, word, word+1) }

// Instead lists single words that could stand in for the words from … to-1 of
// a line, of which all but the last are there for degree only, as "quite" is in
// "quite wet": that yields to "sodden". Where the last one is too, the word that
// they lean on is replaced with them; so is a verb with the adverb after it, as
// "walked slowly" is, and "did" with its verb. A word that shows nothing yields to what
// goes with the thing it stands by; any other, to words near it in sense.
func Instead(p Place, line, from, to int) []Item {
	if to == from+1 && p.isHelper(line, from) {
		return PaddedVerb(p, line, from)
	}
	if to > from+1 && from >= 0 && line < len(p.Poem.Lines) && to <= len(p.Poem.Lines[line].Words) && isAny(lower(p.Poem.Lines[line].Words[from].Text), "got", "gets") {
		return p.grown(line, from, to)
	}
	s, ok := p.spot(line, from, to)
	if !ok {
		return nil
	}
	s.stays = s.to > to
	items := s.instead()
	if len(items) == 0 && s.from < from {
		s.from = from // then the degree stays: "a truly daring new plan"
		items = s.instead()
	}
	return items
}

// instead lists what Instead does for a spot.
func (s *spot) instead() []Item {
	p := s.place
	var list []proposal
	switch {
	case s.how != words.None:
		list = s.mannered()
	case s.part == words.Verb && len(pictures.Manners(s.head.String(), "-")) > 0:
		list = s.ways()
	case s.part == words.Adjective && s.hasComplement():
		list = s.bearing()
	case s.part == words.Adjective && (p.judges(s.text) || p.isEmpty(s.text)) && s.precedesSize():
		list = s.afterSize()
	case s.part == words.Adjective && (p.judges(s.text) || p.isEmpty(s.text) && !slices.Contains(sizes, s.text) && s.feelsNothing()):
		list = s.picturedInstead()
		for _, firm := range s.firmly() {
			if s.stays || !strings.HasSuffix(firm.form, s.text) { // it would judge as before
				list = append(list, firm)
			}
		}
		if standing := p.Poem.Lines[s.line].Words; s.text == "great" && s.standsNext() && !followsLink(standing, s.from) {
			list = append(list, s.asSize("big")...)
		}
	case s.part == words.Adjective && s.to-s.from == 1 && slices.Contains(sizes, s.text):
		list = append(s.firmly(), s.picturedInstead()...)
	case s.part == words.Adjective && (s.to-s.from > 1 || p.isEmpty(s.text)):
		list = byScore(append(s.firmly(), s.firmlyPictured()...))
	default:
		list = s.kin()
	}
	return s.offers(list)
}

// bearing are what may stand for an adjective before what hangs on it: "a joy to see" for
// "nice to see".
func (s *spot) bearing() []proposal {
	list := s.place.Poem.Lines[s.line].Words
	from := degreesBefore(list, s.from)
	if !followsBe(list, from) && !followsLink(list, from) {
		return nil
	}
	var out []proposal
	for i, form := range pictures.Firm(s.text).Bearing {
		if from < s.from && strings.HasPrefix(form, "a ") && !isAny(lower(list[s.from-1].Text), "really", "truly", "quite", "just", "such") {
			continue // "so a treasure"
		}
		w := words.Find(lastWord(form))
		if w == words.None || !s.saidAlready(w) {
			out = append(out, proposal{word: w, form: form, score: 3 - 0.1*float64(i), why: "says more than " + s.text})
		}
	}
	return out
}

// hasComplement reports whether what follows an adjective hangs on it: "happy they
// came", "proud of it".
func (s *spot) hasComplement() bool {
	list := s.place.Poem.Lines[s.line].Words
	if s.to == len(list) || list[s.to-1].Break != manuscript.NoBreak {
		return false
	}
	switch next := list[s.to]; next.Tag {
	case grammar.Pronoun, grammar.To:
		return !isOne(lower(next.Text))
	default:
		return isAny(lower(next.Text), "that", "they'd", "he'd", "she'd", "of", "for", "with")
	}
}

// judges reports whether a word only judges what it stands by.
func (p *Place) judges(word string) bool { return p.Judges != nil && p.Judges(word) }

// isEmpty reports whether a word shows nothing.
func (p *Place) isEmpty(word string) bool { return p.judges(word) || p.Empty != nil && p.Empty(word) }

// A spot is a stretch of a line that one word is to fill.
type spot struct {
	place    *Place
	line     int
	from, to int // words of the line; the last of them, or a verb before its adverb, is the head
	head     words.Word
	text     string // the head as it is written, in lower case
	part     words.PartOfSpeech
	tag      grammar.Tag
	how      words.Word  // the adverb of a verb that is replaced with it, or None
	theme    words.Theme // of the stanza
	near     []string    // in the line and those about it: not to be said again
	stays    bool        // the head may stay: only what leans on it is to go
	anew     bool        // the line may end on another sound, and then wants a rhyme
}

// spot finds what stands at some words of a line; false where no word of
// meaning does.
func (p *Place) spot(line, from, to int) (spot, bool) {
	if line < 0 || line >= len(p.Poem.Lines) || from < 0 || from >= to || to > len(p.Poem.Lines[line].Words) {
		return spot{}, false
	}
	list := p.Poem.Lines[line].Words
	if leans(list[from:to]) && to < len(list) && list[to-1].Break == manuscript.NoBreak && !((list[to].Tag == grammar.Conjunction || list[to].Tag.IsNoun()) && p.judges(lower(list[to-1].Text))) {
		to++
		if !describes(list, from, to) && !list[to-1].Tag.IsVerb() && !followsLink(list, from) && !followsBe(list, from) {
			return spot{}, false
		}
	}
	s := spot{place: p, line: line, from: from, to: to, how: words.None}
	last := list[to-1]
	switch {
	case to-from == 2 && list[from].Tag.IsVerb() && last.Tag.IsAdverb():
		s.how = words.Find(lower(last.Text))
		last = list[from]
	case to-from > 1 && !leans(list[from:to-1]):
		return spot{}, false // what else stands there would be lost
	}
	s.text, s.tag = lower(last.Text), last.Tag
	if isName(last.Tag) {
		return spot{}, false
	}
	if s.tag.IsNoun() && p.judges(s.text) && to < len(list) && last.Break == manuscript.NoBreak && (list[to].Tag.IsAdjective() || list[to].Tag.IsNoun()) {
		s.tag = grammar.Adjective // "his great shiny tail"
	}
	if s.tag.IsNoun() && p.judges(s.text) && grammar.CanBe(s.text, grammar.Adjective) && (followsBe(list, degreesBefore(list, from)) || followsLink(list, degreesBefore(list, from))) {
		s.tag = grammar.Adjective // "the bun smelled good"
	}
	if s.tag == grammar.Adverb {
		closes := to == len(list) || last.Break != manuscript.NoBreak
		linked := to-from > 1 && (followsLink(list, from) || followsBe(list, from)) && forms.Means(words.Find(s.text), words.Adjective)
		if !linked && (!p.judges(s.text) || closes && !followsBe(list, to-1)) {
			return spot{}, false // one adverb for another helps nobody
		}
		s.tag = grammar.Adjective // "pretty geese"
	}
	var ok bool
	s.head, s.part, ok = forms.Base(s.text, s.tag)
	if w := words.Find(s.text); (last.Tag == grammar.VerbParticiple || last.Tag == grammar.VerbGerund) && w != words.None && (forms.Means(w, words.Adjective) || pictures.Known(s.text)) && describes(list, from, to) && !(last.Tag == grammar.VerbGerund && followsBe(list, from)) {
		s.head, s.part, s.tag, ok = w, words.Adjective, grammar.Adjective, true
	}
	if w := words.Find(s.text); !ok && s.tag.IsAdjective() && p.judges(s.text) && w != words.None {
		s.head, s.part, ok = w, words.Adjective, true // "fun" is no adjective in every dictionary
	}
	if !ok || s.part == words.Verb && !s.movable() {
		return spot{}, false
	}
	if s.part == words.Adjective && to-from == 1 && p.isEmpty(s.text) {
		// What only says how much of it goes with it: "very nice".
		for s.from > 0 && list[s.from-1].Tag.IsAdverb() && lower(list[s.from-1].Text) != "as" && list[s.from-1].Break == manuscript.NoBreak && leans(list[s.from-1:s.from]) {
			s.from--
		}
	}
	s.theme, s.near = p.themeOf(line)
	return s, true
}

func isName(t grammar.Tag) bool { return t == grammar.Name || t == grammar.NamePlural }

// isHelper reports whether a word is "did" or "does" before a bare verb.
func (p *Place) isHelper(line, i int) bool {
	if line < 0 || line >= len(p.Poem.Lines) || i < 0 || i+1 >= len(p.Poem.Lines[line].Words) {
		return false
	}
	list := p.Poem.Lines[line].Words
	return isAny(lower(list[i].Text), "did", "does") && list[i].Break == manuscript.NoBreak && grammar.CanBe(lower(list[i+1].Text), grammar.Verb)
}

// movable reports whether a verb can be exchanged at all: it is of meaning more
// than of grammar, and no particle makes another verb of it. "Set out" is no
// setting; "crept out" is still creeping.
func (s *spot) movable() bool {
	if isGrammar(s.head) {
		return false
	}
	list := s.place.Poem.Lines[s.line].Words
	if s.to == len(list) || list[s.to-1].Break != manuscript.NoBreak {
		return true
	}
	next := list[s.to]
	if isWayToGo(s.head) {
		after := grammar.Tag(0)
		if s.to+1 < len(list) {
			after = list[s.to+1].Tag
		}
		switch lower(next.Text) {
		case "on", "and", "for": // "went on", "went and hid"
			return false
		case "off", "out": // a lamp went out, and did not wander
			if who, told := s.subject(); told && who != words.None && (s.to+1 == len(list) || next.Break != manuscript.NoBreak) {
				return false
			}
		case "to": // "went to sleep", "came to see"
			if s.to+1 < len(list) {
				if where := words.Find(lower(list[s.to+1].Text)); where != words.None && where.Part() == words.Noun && s.how != words.None {
					return true // "walked slowly to market"
				}
			}
			return after == grammar.Determiner || after == grammar.Possessive
		}
		return !next.Tag.IsAdjective() && next.Tag != grammar.VerbGerund // "went wrong"
	}
	return next.Tag != grammar.Particle && lower(next.Text) != "like" // "looked like" is no look
}

// isGrammar reports whether a verb is of grammar more than of meaning.
func isGrammar(verb words.Word) bool {
	base := verb.String()
	return base == "be" || base == "have" || base == "do"
}

// describes reports whether the words from … to-1 stand before a noun or after a
// form of "be": where an adjective surely is one. "Hard" in "rain came really
// hard" only looks like it.
func describes(list []scansion.Word, from, to int) bool {
	if t := list[to-1].Tag; !t.IsAdjective() && t != grammar.VerbParticiple && t != grammar.VerbGerund {
		return false
	}
	if to < len(list) && list[to-1].Break == manuscript.NoBreak && list[to].Tag.IsNoun() {
		return true
	}
	if closes := to == len(list) || list[to-1].Break != manuscript.NoBreak; closes && list[to-1].Tag.IsAdjective() {
		return true
	}
	if to+1 < len(list) && lower(list[to].Text) == "and" && list[to+1].Tag.IsAdjective() && from > 0 && list[from-1].Break != manuscript.NoBreak {
		return true // "a cocoa, all frothy and brown"
	}
	return followsBe(list, from) && list[to-1].Tag != grammar.VerbGerund // "was walking" walks
}

// degreesBefore is where the words that only say how much of word i begin, or i.
func degreesBefore(list []scansion.Word, i int) int {
	for i > 0 && list[i-1].Break == manuscript.NoBreak && leans(list[i-1:i]) {
		i--
	}
	return i
}

// followsBe reports whether a form of "be" stands before word i.
func followsBe(list []scansion.Word, i int) bool {
	if i == 0 {
		return false
	}
	return isBe(list[i-1])
}

// followsLink reports whether a verb of staying or seeming stands before word i, which an
// adjective may follow as it may a form of "be": "she sat very still".
func followsLink(list []scansion.Word, i int) bool {
	return i > 0 && isAny(lower(list[i-1].Text), "sat", "sits", "stood", "stands", "lay", "lies", "stayed", "kept", "felt", "feels", "looked", "looks", "grew", "seemed", "seems", "turned", "smelled", "smells", "smelling", "sounded", "sounds", "tasted", "tastes")
}

func isBe(w scansion.Word) bool {
	if i := strings.IndexAny(w.Text, "'’"); i > 0 && isAny(lower(w.Text[:i]), "it", "he", "she", "that", "they", "we", "you", "i") {
		return isAny(lower(strings.TrimLeft(w.Text[i:], "'’")), "s", "re", "m")
	}
	verb, _, ok := forms.Base(lower(w.Text), w.Tag)
	return ok && verb.String() == "be"
}

// degrees are adverbs of degree that are less common than those that leans knows by
// how common they are.
var degrees = strings.Fields(`oh awfully terribly truly simply actually rather ever all most extremely incredibly totally completely
absolutely utterly entirely dreadfully frightfully positively downright mighty super extra fairly certainly definitely indeed`)

// leans reports whether the words only say how much of what follows them, as
// the commonest adverbs do: "just", "really", "very".
func leans(list []scansion.Word) bool {
	for _, w := range list {
		found := words.Find(lower(w.Text))
		if isAny(lower(w.Text), degrees...) {
			continue
		}
		if !forms.Means(found, words.Adverb) || found.Rarity() > commonAdverb || found.Level() > 10 || w.Tag.IsVerb() || w.Tag.IsAdjective() && lower(w.Text) != "very" || w.Tag.IsNoun() || w.Tag == grammar.Pronoun {
			return false
		}
	}
	return true
}

// themeOf is what the stanza of a line is about, and the words that stand in it,
// in lower case.
func (p *Place) themeOf(line int) (words.Theme, []string) {
	stanza := p.Manuscript.Stanzas[p.Manuscript.Lines[line].Stanza]
	var about []words.Word
	var texts []string
	for i := stanza.From; i < min(stanza.To, len(p.Poem.Lines)); i++ {
		for _, w := range p.Poem.Lines[i].Words {
			text := lower(w.Text)
			texts = append(texts, text)
			if found := words.Find(text); found != words.None {
				about = append(about, found)
			}
		}
	}
	return words.NewTheme(about), texts
}

// eachPlace is what a proposal's place in its list counts against how the line walks
// with it (ours).
const eachPlace = 0.15

// offers reads proposals in the line, and keeps the first that leave it in step.
// Those that take as many syllables as what they replace are read first.
func (s *spot) offers(list []proposal) []Item {
	var items []heard
	var taken []words.Word
	reads := 0
	for _, c := range s.fitting(list) {
		if len(items) == maxReplacements || reads == tried {
			break
		}
		if slices.ContainsFunc(taken, func(w words.Word) bool { return words.Nearness(w, c.word) > alike }) {
			continue
		}
		reads++
		if item, ok := s.read(c); ok {
			item.worth -= eachPlace * float64(len(items))
			taken = append(taken, c.word)
			items = append(items, item)
		}
	}
	return walkingBest(items)
}

// fitting gives the proposals their form, and leaves those that can fit the
// place: at a line's end they rhyme, and they have as many syllables as stand
// there.
func (s *spot) fitting(list []proposal) []proposal {
	l := &s.place.Poem.Lines[s.line]
	now := 0
	for _, y := range l.Reading.Syllables {
		if s.from <= y.Word && y.Word < s.to {
			now++
		}
	}
	side := sideOf(s.place.Reader)
	var fit []proposal
	for _, c := range list {
		known := true
		if c.form == "" {
			c.form, known = forms.Of(c.word.String(), s.tag)
		}
		c.form = spelled(c.form, side)
		if !known || c.form == s.text || slices.Contains(s.near, c.form) || c.word != words.None && slices.Contains(s.near, c.word.String()) || s.place.isEmpty(c.form) {
			continue
		}
		if s.to == len(l.Words) && !s.anew && !s.rhymes(c.form) || !s.fills(c.form, now) {
			continue
		}
		fit = append(fit, c)
	}
	return fit
}

// spelled writes the words of a form as they are written on a side of the ocean.
func spelled(form string, side words.Side) string {
	var b strings.Builder
	for len(form) > 0 {
		end := strings.IndexAny(form, " ,-")
		switch end {
		case -1:
			end = len(form)
		case 0:
			end = 1
		}
		b.WriteString(side.Spell(form[:end]))
		form = form[end:]
	}
	return b.String()
}

// fills reports whether a form has as many syllables as its place; where the line has lost its
// step, one or two more, or one fewer, may bring it back.
func (s *spot) fills(form string, now int) bool {
	if s.takesSyllables(form, now) {
		return true
	}
	return !s.place.Poem.Lines[s.line].Fits && (s.takesSyllables(form, now+1) || s.takesSyllables(form, now+2) || now > 1 && s.takesSyllables(form, now-1))
}

// keepsStep reports whether a line would walk as its place asks: as well as it does now, and on
// as many beats, unless it has lost its step.
func keepsStep(l *scansion.Line, t *scansion.Trial) bool {
	if !t.Fits || t.Deviance > max(steady, l.Deviance) {
		return false
	}
	return !l.Fits || t.Reading.Beats() == l.Reading.Beats()
}

// takesSyllables reports whether a word, or a few, can be said in so many
// syllables.
func (s *spot) takesSyllables(form string, count int) bool {
	first, rest, more := strings.Cut(form, " ")
	return slices.ContainsFunc(s.said(first), func(w phonetics.Pronunciation) bool {
		n := len(w.Syllables)
		return n == count && !more || more && n < count && s.takesSyllables(rest, count-n)
	})
}

// read reads a proposal in the line; false where it would not keep its step.
func (s *spot) read(c proposal) (heard, bool) {
	l := &s.place.Poem.Lines[s.line]
	text := s.place.Manuscript.Text
	start, end := l.Words[0].Span.Start, l.Words[len(l.Words)-1].Span.End
	span := manuscript.Span{Start: l.Words[s.from].Span.Start, End: l.Words[s.to-1].Span.End}
	with := likeIn(c.form, span.In(text))
	if s.from > 0 {
		before := l.Words[s.from-1]
		if article, changed := s.articleFor(before.Text, c.form); changed {
			with = article + text[before.Span.End:span.Start] + with
			span.Start = before.Span.Start
		}
	}
	t, ok := s.place.Poem.Try(s.line, text[start:span.Start]+with+text[span.End:end])
	if !ok || !keepsStep(l, &t) {
		return heard{}, false
	}
	pattern := t.Reading.PatternOf(s.from, s.from+1+strings.Count(c.form, " "))
	return heard{Item{
		Text: with, Span: span, Pattern: pattern, Feet: t.Reading.FeetPattern(),
		Detail: fmt.Sprintf("%s · %s", pattern, c.why),
		Doc:    fmt.Sprintf("%s\n\nThe line would go %s.", meaningOf(c.word), t.Reading.FeetPattern()),
		Score:  min(1, max(0, c.score/4)),
	}, walking(0, t.Deviance)}, true
}

// meaningOf is what a word means, in Markdown; empty for no word.
func meaningOf(w words.Word) string {
	if w == words.None {
		return ""
	}
	return Meaning(w.String())
}

// rhymes reports whether a word at the line's end would keep the rhyme that is
// there.
func (s *spot) rhymes(form string) bool {
	form = form[strings.LastIndexAny(form, " -")+1:]
	if form == s.text {
		return true
	}
	last := s.place.Poem.Lines[s.line].Words[s.to-1]
	now := endOf(last.Text, last.Ways)
	then := endOf(form, s.said(form))
	m := rhyme.Compare(&now, &then)
	return m.Kind == rhyme.Perfect
}

func (s *spot) said(form string) []phonetics.Pronunciation {
	return s.place.Reader.Pronounce(form, phonetics.Context{Tag: s.tag})
}

// likeIn gives a word the capital that another has in the text.
func likeIn(word, like string) string {
	if r, _ := utf8.DecodeRuneInString(like); !unicode.IsUpper(r) {
		return word
	}
	r, size := utf8.DecodeRuneInString(word)
	return string(unicode.ToUpper(r)) + word[size:]
}

// articleFor is "a" or "an" as the sound of the next word asks for: "an hour",
// "a unicorn". It is false where the word before is no article or right already.
func (s *spot) articleFor(article, next string) (string, bool) {
	bare := article == "a" || article == "A"
	if !bare && article != "an" && article != "An" {
		return "", false
	}
	ways := s.said(next)
	if len(ways) == 0 || len(ways[0].Sounds) == 0 {
		return "", false
	}
	vowel := ways[0].Sounds.At(0).IsVowel()
	switch {
	case bare && vowel:
		return article + "n", true
	case !bare && !vowel:
		return article[:1], true
	}
	return "", false
}
