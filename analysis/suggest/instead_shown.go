package suggest

import (
	"cmp"
	"compress/gzip"
	_ "embed"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"

	"dandle/analysis/manuscript"
	"dandle/analysis/suggest/forms"
	"dandle/analysis/suggest/words"
	"dandle/phonetics/grammar"
)

//go:generate go run gen.go

// showsPacked lists for each noun the adjectives that stand before it in WordNet's
// definitions and examples, each with how often: "coat long:10 silky:10 ~warm:2".
// Those behind a tilde are not of sight, sound, touch, taste or smell.
//
//go:embed shows.gz
var showsPacked string

// verbsPacked says of each verb what WordNet's frames let it do: "i" stand without
// an object, "t" with one; "m" marks the ways to go, and "c" those among them that
// ask for wings, fins, a mount or a vehicle.
//
//go:embed verbs.gz
var verbsPacked string

// unpacked is the text of a table, which gen.go has packed with gzip.
func unpacked(table string) string {
	r, err := gzip.NewReader(strings.NewReader(table))
	if err != nil {
		panic("suggest: " + err.Error()) // a table of ours that is broken
	}
	text, err := io.ReadAll(r)
	if err != nil {
		panic("suggest: " + err.Error())
	}
	return string(text)
}

// A beside is an adjective that stands before a noun, and how often.
type beside struct {
	adjective words.Word
	count     float64
	shows     bool
}

// shown is what showsPacked holds.
type shown struct {
	nouns  []words.Word
	beside [][]beside                  // of each of the nouns
	total  map[words.Word]float64      // of each adjective that shows, before any noun
	before map[words.Word][]words.Word // the nouns that each adjective stands before
}

var shows = sync.OnceValue(func() shown {
	s := shown{total: map[words.Word]float64{}, before: map[words.Word][]words.Word{}}
	for line := range strings.Lines(unpacked(showsPacked)) {
		f := strings.Fields(line)
		if len(f) < 2 {
			continue
		}
		noun := words.Find(f[0])
		var list []beside
		for _, item := range f[1:] {
			b := besideOf(item)
			if b.shows {
				s.total[b.adjective] += b.count
			}
			list = append(list, b)
			s.before[b.adjective] = append(s.before[b.adjective], noun)
		}
		s.nouns = append(s.nouns, noun)
		s.beside = append(s.beside, list)
	}
	return s
})

// besideOf reads one adjective of a noun's line.
func besideOf(item string) beside {
	text, number, _ := strings.Cut(item, ":")
	text, abstract := strings.CutPrefix(text, "~")
	count, err := strconv.Atoi(number)
	if err != nil {
		count = 1
	}
	return beside{words.Find(text), float64(count), !abstract}
}

// uses are what verbsPacked holds.
var uses = sync.OnceValue(func() map[string]string {
	list := map[string]string{}
	for line := range strings.Lines(unpacked(verbsPacked)) {
		if verb, flags, ok := strings.Cut(strings.TrimSpace(line), " "); ok {
			list[verb] = flags
		}
	}
	return list
})

const (
	// likeNoun is the nearness from which what stands before one noun may stand
	// before another: a hat is much like a cap (ours).
	likeNoun  = 0.45
	likeNouns = 12 // how many of them are asked
	// usual is how often an adjective stands before nouns that counts for
	// nothing yet: what stands before any noun shows little of this one.
	usual = 4
	// plainest is the rarity below which a word is too plain to show much:
	// "little", "old", "new".
	plainest = 9
	// fewNouns is how many nouns an adjective must have been met before to tell what
	// it goes with (ours).
	fewNouns = 3
	// goesNear is the nearness from which an adjective goes with a noun although it
	// was not met before it (ours).
	goesNear = 0.36
	// sensed is the nearness to the senses from which a word shows something: what
	// is not so near, as "northern" or "formal", belongs in a report (ours).
	sensed = 0.48
	clear  = 0.7 // beyond this a word shows no more: else all would be colours
	// sameKind is the nearness of two adjectives that say the same kind of thing,
	// as two colours do: one noun seldom has both (ours).
	sameKind = 0.7
	// hedged is what "-ish" costs: it takes back a part of what it shows (ours).
	hedged = 0.4
	// worthSeeing is the least that must speak for a sight: below it, too little is
	// known of the noun (ours).
	worthSeeing = 1.8
	// against is how far a word leans to the other side from which it would turn
	// the judgement round: a terrible hat is not colorful.
	against = -0.06
	// blaming is the side from which a word blames: "pretty" stands in the middle.
	blaming = -0.08
	// done is what a participle costs: "draped" asks by whom (ours).
	done = 0.15
	// suits is the nearness of a word for a goer and a way to go from which the
	// goer can be thought to have wings or a saddle (ours).
	suits = 0.6
	// seenGoing is the nearness to the gaits from which a way to go is one that is
	// seen and no matter of traffic: "crept", not "retreated" (ours).
	seenGoing = 0.5
	// plainGoing is the rarity below which a verb says no more than "go".
	plainGoing = 11.3
)

// senses is what eye, hand, ear and tongue take in: the middle of a few words
// for looks, touch, sound and taste (ours). A word near it can be drawn.
var senses = sync.OnceValue(func() words.Theme {
	return themeOfAll("striped furry woolly wooden rusty crooked bumpy sticky muddy dusty creaky squeaky crunchy spicy soft round shiny fuzzy wet golden")
})

func themeOfAll(text string) words.Theme {
	var list []words.Word
	for w := range strings.FieldsSeq(text) {
		list = append(list, words.Find(w))
	}
	return words.NewTheme(list)
}

// collocates are the adjectives that go with a noun, each with how surely: met
// before it, or before the nouns that are most like it, of which so many are
// asked. 1 is sure.
func collocates(noun words.Word, others int) map[words.Word]float64 {
	found := map[words.Word]float64{}
	if noun == words.None {
		return found
	}
	s := shows()
	type neighbour struct {
		at   int
		near float64
	}
	var list []neighbour
	for i, other := range s.nouns {
		if other == noun {
			list = append(list, neighbour{i, 2})
		} else if near := words.Nearness(noun, other); others > 0 && near > likeNoun {
			list = append(list, neighbour{i, near})
		}
	}
	slices.SortFunc(list, func(a, b neighbour) int { return cmp.Or(cmp.Compare(b.near, a.near), cmp.Compare(a.at, b.at)) })
	for _, n := range list[:min(len(list), others+1)] {
		for _, b := range s.beside[n.at] {
			if b.shows {
				found[b.adjective] += n.near * math.Log2(1+b.count)
			}
		}
	}
	for a := range found {
		found[a] /= math.Sqrt(usual + s.total[a])
	}
	return found
}

// goesBefore is how well an adjective goes with a noun, 0 … 1: as near as the
// noun lies to those that it was met before. "Elderly" goes with people, and so
// with no ladder. It is false where too little is known of the adjective.
func goesBefore(adjective, noun words.Word) (float64, bool) {
	met := shows().before[adjective]
	if len(met) < fewNouns {
		return 0, false
	}
	var near []float64
	for _, n := range met {
		if n == noun {
			return 1, true
		}
		near = append(near, words.Nearness(n, noun))
	}
	slices.SortFunc(near, func(a, b float64) int { return cmp.Compare(b, a) })
	return (near[0] + near[1]) / 2, true
}

// sights are adjectives that show what the head only judges, best first: those
// that go with what it describes and suit the scene.
func (s *spot) sights() []proposal {
	noun, before := s.described()
	others := likeNouns
	if !before {
		others = 0 // what a thing is said to be, it must be known to be
	}
	seen, leans := senses(), s.leaning()
	best := map[words.Word]proposal{}
	sures := collocates(noun, others)
	if before && noun != words.None {
		for w := range shows().total {
			if words.Nearness(noun, w) > goesNear {
				sures[w] += 0
			}
		}
	}
	for w, sure := range sures {
		show := seen.Nearness(w)
		if !s.offerable(w) || w.Rarity() < plainest || show < sensed || isThing(w) || s.saidAlready(w) {
			continue
		}
		lean := leans(w)
		if lean < against {
			continue
		}
		score := 0.8*min(sure, 1.2) + 1.2*words.Nearness(noun, w) + 0.8*lean + 0.6*min(show, clear) + 0.06*(min(w.Rarity(), 14)-10) + s.theme.Nearness(w)*0.5 + s.tone(w)
		if strings.HasSuffix(w.String(), "ish") {
			score -= hedged
		}
		if grammar.CanBe(w.String(), grammar.VerbParticiple) {
			score -= done
		}
		if score > worthSeeing {
			best[w] = proposal{word: w, score: score, why: "goes with " + noun.String()}
		}
	}
	return sorted(best)
}

// praise and blame are the middles of a few words that judge (ours).
var (
	praise = sync.OnceValue(func() words.Theme { return themeOfAll("lovely beautiful delightful charming delicious") })
	blame  = sync.OnceValue(func() words.Theme { return themeOfAll("nasty awful horrible ugly filthy") })
)

// leaning is how far a word leans to the side on which the head judges.
func (s *spot) leaning() func(words.Word) float64 {
	good, bad := praise(), blame()
	side := func(w words.Word) float64 { return good.Nearness(w) - bad.Nearness(w) }
	sign := 1.0
	if side(s.head) < blaming {
		sign = -1
	}
	return func(w words.Word) float64 { return sign * side(w) }
}

// sizes are the plain adjectives of size, height, width and thickness (WordNet
// 3.1, attributes): one noun has one of them.
var sizes = strings.Fields("big small large little tall short wide narrow broad thick thin long tiny giant huge enormous")

// saidAlready reports whether an adjective beside the spot says the same kind of
// thing: a red hat is not golden too.
func (s *spot) saidAlready(w words.Word) bool {
	list := s.place.Poem.Lines[s.line].Words
	for i := max(0, s.from-2); i < min(len(list), s.to+3); i++ {
		if i >= s.from && i < s.to || !list[i].Tag.IsAdjective() {
			continue
		}
		other := words.Find(lower(list[i].Text))
		if other == words.None {
			continue
		}
		if words.Nearness(other, w) > sameKind || slices.Contains(sizes, other.String()) && slices.Contains(sizes, w.String()) {
			return true
		}
	}
	return false
}

// isThing reports whether an adjective is a noun as well, as "birch" is, and not
// so common that it is taken for an adjective all the same, as "silver" is.
func isThing(w words.Word) bool { return w.Rarity() > 12.5 && forms.Means(w, words.Noun) }

// goesPlainly reports whether a verb is "go" or "come", which say nothing of how.
func goesPlainly(w words.Word) bool { return w.String() == "go" || w.String() == "come" }

// isWayToGo reports whether a verb is "go" or one of the ways to.
func isWayToGo(w words.Word) bool { return strings.Contains(uses()[w.String()], "m") }

// takes reports whether a verb can stand where the head does, with its object or
// without one.
func (s *spot) takes(w words.Word) bool {
	flag := "i"
	if s.hasObject() {
		flag = "t"
	}
	return strings.Contains(uses()[w.String()], flag)
}

// hasObject reports whether a noun phrase follows the head.
func (s *spot) hasObject() bool {
	list := s.place.Poem.Lines[s.line].Words
	if s.to == len(list) || list[s.to-1].Break != manuscript.NoBreak {
		return false
	}
	switch t := list[s.to].Tag; t {
	case grammar.Determiner, grammar.Possessive, grammar.Pronoun, grammar.Predeterminer, grammar.Number, grammar.Name:
		return true
	default:
		return t.IsNoun() || t.IsAdjective()
	}
}

// gaits is what feet do: the middle of a few verbs that make a mover seen (ours).
// It is of past forms, whose vectors come from tales and not from traffic.
var gaits = sync.OnceValue(func() words.Theme {
	return themeOfAll("crept scurried trotted tiptoed strolled plodded hopped clambered")
})

// ways are other ways to go, best first: those that suit who goes, and where.
// What "it" is cannot be told, and so neither how it goes.
func (s *spot) ways() []proposal {
	who, told := s.subject()
	if !told {
		return nil
	}
	gait := gaits()
	best := map[words.Word]proposal{}
	narrow := s.under()
	for verb, flags := range uses() {
		if !strings.Contains(flags, "m") {
			continue
		}
		w := words.Find(verb)
		if w == words.None || !s.offerable(w) || !s.takes(w) || w.Rarity() < max(plainGoing, s.head.Rarity()-1) {
			continue
		}
		past, ok := forms.Of(verb, grammar.VerbPast)
		way := words.Find(past)
		if !ok || way == words.None || gait.Nearness(way) < seenGoing {
			continue
		}
		if strings.Contains(flags, "c") && (who == words.None || words.Nearness(who, w) < suits) {
			continue
		}
		score := 0.6*gait.Nearness(way) + s.tone(way)
		if who != words.None {
			score += 0.5 * words.Nearness(who, way)
		}
		if s.how != words.None {
			score += words.Nearness(s.how, way)
		}
		if slices.Contains(narrow, w) {
			score += narrower
		}
		best[w] = proposal{word: w, score: score, why: "a way to " + s.head.String()}
	}
	return sorted(best)
}

// under are the words one step below the head's first sense.
func (s *spot) under() []words.Word {
	var list []words.Word
	for _, sense := range s.head.Senses() {
		if sense.Part != s.part {
			continue
		}
		for _, k := range sense.Kin() {
			if !isWider(&sense, &k) {
				list = append(list, k.Words...)
			}
		}
		break
	}
	return list
}
