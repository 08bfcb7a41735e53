package suggest

import (
	"cmp"
	"compress/gzip"
	_ "embed"
	"io"
	"slices"
	"strings"
	"sync"

	"dandle/analysis/manuscript"
	"dandle/analysis/suggest/pictures"
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

// stoodBefore are the nouns that each adjective of showsPacked stands before.
var stoodBefore = sync.OnceValue(func() map[words.Word][]words.Word {
	before := map[words.Word][]words.Word{}
	for line := range strings.Lines(unpacked(showsPacked)) {
		f := strings.Fields(line)
		if len(f) < 2 {
			continue
		}
		noun := words.Find(f[0])
		for _, item := range f[1:] {
			text, _, _ := strings.Cut(strings.TrimPrefix(item, "~"), ":")
			adjective := words.Find(text)
			before[adjective] = append(before[adjective], noun)
		}
	}
	return before
})

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
	// fewNouns is how many nouns an adjective must have been met before to tell what
	// it goes with (ours).
	fewNouns = 3
	// sensed is the nearness to the senses from which a word shows something: what
	// is not so near, as "northern" or "formal", belongs in a report (ours).
	sensed = 0.48
	clear  = 0.7 // beyond this a word shows no more: else all would be colours
	// sameKind is the nearness of two adjectives that say the same kind of thing,
	// as two colours do: one noun seldom has both (ours).
	sameKind = 0.7
	// blaming is the side from which a word blames: "pretty" stands in the middle.
	blaming = -0.08
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

// goesBefore is how well an adjective goes with a noun, 0 … 1: as near as the
// noun lies to those that it was met before. "Elderly" goes with people, and so
// with no ladder. It is false where too little is known of the adjective.
func goesBefore(adjective, noun words.Word) (float64, bool) {
	met := stoodBefore()[adjective]
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

// praise and blame are the middles of a few words that judge (ours).
var (
	praise = sync.OnceValue(func() words.Theme { return themeOfAll("lovely beautiful delightful charming delicious") })
	blame  = sync.OnceValue(func() words.Theme { return themeOfAll("nasty awful horrible ugly filthy") })
)

// side is how far a word leans to praise, and below 0 to blame.
func side(w words.Word) float64 {
	good, bad := praise(), blame()
	return good.Nearness(w) - bad.Nearness(w)
}

// blames reports whether the head speaks ill of what it stands by.
func (s *spot) blames() bool { return side(s.head) < blaming }

// sizes are the plain adjectives of size, height, depth, width and thickness (WordNet
// 3.1, attributes): one noun has one of them.
var sizes = strings.Fields("big small large little tall short wide narrow broad thick thin long tiny giant huge enormous low high deep fat")

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
		if slices.Contains(sizes, other.String()) {
			// So common a word lies near to all: it rules out another size only.
			if slices.Contains(sizes, w.String()) {
				return true
			}
			continue
		}
		if words.Nearness(other, w) > sameKind {
			return true
		}
	}
	return false
}

// goesPlainly reports whether a verb is "go" or "come", which say nothing of how.
func goesPlainly(w words.Word) bool {
	return w != words.None && (w.String() == "go" || w.String() == "come")
}

// isWayToGo reports whether a verb is "go" or one of the ways to.
func isWayToGo(w words.Word) bool {
	return w != words.None && strings.Contains(uses()[w.String()], "m")
}

// takes reports whether a verb can stand where the head does, with its object or
// without one. No word is no verb.
func (s *spot) takes(w words.Word) bool {
	if w == words.None {
		return false
	}
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

// ways are other ways to go, or to look, that suit the scene, best first. A thing with
// no feet has none, and what "it" is cannot be told.
func (s *spot) ways() []proposal {
	who, told := s.subject()
	if kind, known := s.kindOf(who); goesPlainly(s.head) && (!told || known && !kind.Feels()) {
		return nil
	}
	var list []proposal
	plain := s.head.String()
	for i, verb := range append(slices.Clone(pictures.Manners(plain, s.way())), pictures.Manners(plain, "-")...) {
		if w := words.Find(verb); s.takes(w) {
			list = append(list, proposal{word: w, score: 2 - 0.05*float64(i) + sightScene*s.theme.Nearness(w), why: "a way to " + s.head.String()})
		}
	}
	return byScore(list)
}

// way is the word after the spot, which may tell by what way somebody goes: "up".
func (s *spot) way() string {
	list := s.place.Poem.Lines[s.line].Words
	if s.to == len(list) || list[s.to-1].Break != manuscript.NoBreak {
		return ""
	}
	return lower(list[s.to].Text)
}
