package phonetics

import (
	"cmp"
	"math"
	"slices"
	"strings"
	"unicode"

	"dandle/phonetics/arpabet"
	"dandle/phonetics/grammar"
	"dandle/phonetics/lexicon"
)

// A reading is a pronunciation before its syllables are found.
type reading struct {
	sounds Sounds
	source Source
	cost   float32
	seams  []seam // where the parts of a compound meet, in order
}

// A seam is the place where two parts of a word meet: before this sound, and
// before this letter of the folded spelling.
type seam struct{ sound, letter int }

const (
	// variantCost is what each later entry of the dictionary costs more than
	// the one before it. The dictionary says that its order means little.
	variantCost = 0.3

	// longestWord is how many bytes of a word are read. Nobody says more in
	// one breath, and hostile text must not cost more than its length.
	longestWord = 120

	// mostReadings is how many ways of saying a word are kept.
	mostReadings = 8
)

// Pronounce lists the ways to say a word as written, most usual first. It is
// empty only where the text holds no letter, digit or readable sign. A
// function word's full form stands before its weak ones, for it is the full
// form that bears a beat or a rhyme.
//
// The word may carry its capitals, accents, apostrophes of either shape,
// hyphens, emphasis marks and a trailing period. Only its first 120 bytes are
// read.
//
// What comes back is shared and must not be changed.
func (r *Reader) Pronounce(text string, c Context) []Pronunciation {
	key := written{text, c.Tag}
	if list, known := r.memory.said.find(key); known {
		return list
	}
	beside := &surroundings{context: c}
	list := r.pronounce(text, beside)
	if !beside.asked && len(text) <= longestWord {
		r.memory.said.keep(key, list)
	}
	return list
}

func (r *Reader) pronounce(text string, beside *surroundings) []Pronunciation {
	if bare := strings.TrimSpace(text); bare != text {
		return widen(r.pronounce(bare, beside), strings.Index(text, bare), len(text))
	}
	word := fold(text)
	list := r.readings(word.text, wordShape{shapeOf(text), beside})
	if len(list) == 0 {
		return r.amongSigns(text, beside)
	}
	list, reason := byContext(word.text, text, list, beside)
	list = r.settle(word.text, text, list, beside)
	spelling := strings.ReplaceAll(word.text, "E", "e")
	out := make([]Pronunciation, len(list))
	for i, way := range list {
		p := Pronunciation{Sounds: way.sounds, Source: way.source, Cost: way.cost, Syllables: syllabify(spelling, way)}
		if word.places != nil {
			for j := range p.Syllables {
				s := &p.Syllables[j]
				s.Start, s.End = word.places[s.Start], word.places[s.End]
			}
		}
		if n := len(p.Syllables); n > 0 {
			p.Syllables[0].Start, p.Syllables[n-1].End = 0, len(text)
		}
		if i == 0 {
			p.Reason = reason
		}
		out[i] = p
	}
	return out
}

// amongSigns says a word whose letters stand among signs that nobody says:
// "th' #". Where an apostrophe hinders too, it goes as well: "th' ' '".
func (r *Reader) amongSigns(text string, beside *surroundings) []Pronunciation {
	for _, keep := range []func(rune) rune{spelled, letterOrDigit} {
		bare := strings.Map(keep, text)
		if bare == text || bare == "" {
			continue
		}
		if list := r.pronounce(bare, beside); len(list) > 0 {
			return widen(list, 0, len(text))
		}
	}
	return nil
}

// spelled keeps what a word is spelled with.
func spelled(r rune) rune {
	if r == '\'' {
		return r
	}
	return letterOrDigit(r)
}

// letterOrDigit drops all other runes.
func letterOrDigit(r rune) rune {
	if unicode.IsLetter(r) || unicode.IsDigit(r) {
		return r
	}
	return -1
}

// widen moves syllables to where a word stands among spaces: the first and the
// last take these in.
func widen(list []Pronunciation, before, length int) []Pronunciation {
	for _, p := range list {
		for i := range p.Syllables {
			p.Syllables[i].Start += before
			p.Syllables[i].End += before
		}
		if n := len(p.Syllables); n > 0 {
			p.Syllables[0].Start, p.Syllables[n-1].End = 0, length
		}
	}
	return list
}

// unmeant is what a homograph's other sounds cost where the sentence decides
// between them: they remain, since taggers err.
const unmeant = 2.5

// byContext puts the sounds that a homograph has in its sentence first, and
// says what decided.
func byContext(word, written string, list []reading, beside *surroundings) ([]reading, string) {
	if beside.tag() == grammar.Unknown || list[0].source != FromLexicon || strings.Contains(word, "-") {
		return list, ""
	}
	ways := make([]Sounds, len(list))
	for i := range list {
		ways[i] = list[i].sounds
	}
	want, reason, ok := homograph(written, strings.Trim(word, ".,;:!?\"()[]…'"), beside, ways)
	if !ok || want == "" {
		return list, ""
	}
	found := false
	for i := range list {
		switch {
		case list[i].sounds == want:
			list[i].cost, found = 0, true
		case !sameReading(list[i].sounds, want):
			list[i].cost += unmeant
		}
	}
	if !found {
		list = append(list, reading{sounds: want, source: FromLexicon})
	}
	return list, reason
}

// settle brings readings into their last form: with their optional syllables,
// in the writer's dialect, shouted where the text shouts, cheapest first.
func (r *Reader) settle(word, written string, list []reading, beside *surroundings) []reading {
	list = loosen(word, list, beside)
	if isShouted(written) {
		list = shout(list)
	}
	if r.dialect != EnUS {
		for i := range list {
			list[i] = r.dialect.accent(word, list[i])
		}
	}
	slices.SortStableFunc(list, func(a, b reading) int { return cmp.Compare(a.cost, b.cost) })
	kept := list[:0]
	for _, way := range list {
		if !slices.ContainsFunc(kept, func(k reading) bool { return k.sounds == way.sounds }) && len(kept) < mostReadings {
			kept = append(kept, way)
		}
	}
	least := kept[0].cost
	for i := range kept {
		kept[i].cost = float32(math.Round(float64(kept[i].cost-least)*100) / 100)
	}
	return kept
}

// A wordShape is what a word's letters alone no longer tell once folded.
type wordShape struct {
	capitals capitals
	beside   *surroundings
}

// readings finds a word by the first way of knowing that has an answer, from
// the surest to a guess. The word is folded.
func (r *Reader) readings(word string, shape wordShape) []reading {
	if s, ok := r.taught[word]; ok {
		return []reading{{sounds: s, source: FromWriter}}
	}
	if list := abbreviated(word, shape); list != nil {
		return list
	}
	if list := known(word); list != nil {
		return list
	}
	if list, ok := elisions[word]; ok {
		return withSource(list, FromElision)
	}
	if list := variant(word); list != nil {
		return list
	}
	if strings.Contains(word, "E") {
		if list := r.markedEd(word); list != nil {
			return list
		}
	}
	if bare := strings.Trim(word, ".,;:!?\"()[]…"); bare != word {
		if isSpelledWithPeriods(word) {
			return letters(word)
		}
		return moveSeams(r.readings(bare, shape), strings.Index(word, bare))
	}
	if word == "" {
		return nil
	}
	if runs := stretches(word); len(runs) > 0 && !isDigit(word[0]) && !strings.Contains(word, "-") {
		return r.stretched(word, runs)
	}
	for _, way := range []func(string) []reading{r.numeral, r.contracted, r.inflected, r.elided, r.prefixed} {
		if list := way(word); list != nil {
			return list
		}
	}
	if shape.capitals == allCapitals && isInitialism(word) {
		return letters(word)
	}
	if strings.Contains(word, "-") {
		return r.hyphenated(word)
	}
	if unquoted := strings.Trim(word, "'"); unquoted != word && unquoted != "" {
		return moveSeams(r.readings(unquoted, shape), strings.Index(word, unquoted))
	}
	for _, way := range []func(string) []reading{r.imitation, r.compound, r.inflectedCompound} {
		if list := way(word); list != nil {
			return list
		}
	}
	return r.guessed(word)
}

func moveSeams(list []reading, by int) []reading {
	for _, way := range list {
		for i := range way.seams {
			way.seams[i].letter += by
		}
	}
	return list
}

// known are the ways of the dictionary; a function word's are our own table's.
func known(word string) []reading {
	if list, ok := functionWords[word]; ok {
		return slices.Clone(list)
	}
	entries := lexicon.Lookup(word)
	if entries.Len() == 0 {
		return nil
	}
	list := make([]reading, 0, mostReadings)
	for i, s := range entries.All() {
		list = append(list, reading{sounds: s, source: FromLexicon, cost: variantCost * float32(i)})
	}
	return list
}

// base is what endings, prefixes and compounds are put together from: a word
// that is taught or known.
func (r *Reader) base(word string) []reading {
	if s, ok := r.taught[word]; ok {
		return []reading{{sounds: s, source: FromWriter}}
	}
	if list, ok := functionWords[word]; ok {
		return slices.Clone(list[:1]) // no ending goes on a weak form
	}
	if list := known(word); list != nil {
		return list
	}
	return variant(word)
}

// sound makes sounds of ARPAbet notation that stands in this package's code.
func sound(text string) Sounds {
	s, err := arpabet.Parse(text)
	if err != nil {
		panic("phonetics: " + err.Error()) // a slip in our own tables
	}
	return s
}

func mapSounds(list []reading, source Source, change func(Sounds) Sounds) []reading {
	out := make([]reading, 0, mostReadings)
	for _, way := range list {
		way.sounds, way.source = change(way.sounds), source
		out = append(out, way)
	}
	return out
}
