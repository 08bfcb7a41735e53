package suggest

import (
	"cmp"
	"slices"
	"strings"

	"dandle/analysis/manuscript"
	"dandle/analysis/suggest/forms"
	"dandle/analysis/suggest/pictures"
	"dandle/analysis/suggest/words"
	"dandle/phonetics/grammar"
)

// Weights of what speaks for a sight (ours, by ear on our own lines).
const (
	firstSight  = 2.6  // the one that says most of a kind
	laterSight  = 0.03 // less for each that stands after it
	sightScene  = 0.7  // nearness to the stanza
	sightNoun   = 0.5  // nearness to the noun
	sightSounds = 0.1  // it begins as the noun does
	praising    = 0.1  // how far a head leans to praise that praises
	rightSide   = 0.25 // it takes the side that the head takes
	twoSights   = 0.4  // two words where one might do
	pairedOf    = 12   // sights that a pair is made of
	saidAgain   = 0.6  // the nearness from which one of two adjectives adds nothing: "cool and chilly"
)

// pictured are the sights of the kind that a noun is of, best first: those on the
// side that the head takes. Next are left out where something stands between.
func (s *spot) pictured(noun words.Word, next bool) []proposal {
	kind, known := s.kindOf(noun)
	if !known {
		return nil
	}
	blames := s.blames() && slices.ContainsFunc(kind.Sights, func(g pictures.Sight) bool { return g.Side == pictures.Blames })
	written := sideOf(s.place.Reader)
	var list []proposal
	for i, sight := range kind.Sights {
		score := firstSight - laterSight*float64(i)
		switch {
		case sight.Next && !next, (sight.Side == pictures.Blames) != blames:
			continue
		case sight.Side == pictures.Praises && side(s.head) > praising:
			score += rightSide
		}
		first := sight.Text
		if i := strings.IndexAny(first, " ,-"); i > 0 {
			first = first[:i]
		}
		w := words.Find(first)
		if w != words.None && s.saidAlready(w) || s.repeats(sight.Text) || ofOneRoot(sight.Text, noun.String()) {
			continue
		}
		score += sightScene*s.theme.Nearness(w) + sightNoun*words.Nearness(w, noun)
		if noun.String()[0] == sight.Text[0] {
			score += sightSounds
		}
		if strings.HasSuffix(sight.Text, "ing") && strings.HasSuffix(noun.String(), "ing") {
			score -= twoSights // "rumbling humming"
		}
		list = append(list, proposal{word: w, form: spelled(sight.Text, written), score: score, why: "shows the " + noun.String(), next: sight.Next})
	}
	return byScore(list)
}

// ofOneRoot reports whether two words begin alike far enough that one says the other
// again, as "squeaky" does beside "squeal".
func ofOneRoot(a, b string) bool {
	const root = 4
	return len(a) >= root && len(b) >= root && a[:root] == b[:root]
}

// kindOf is the kind of a noun.
func (s *spot) kindOf(noun words.Word) (*pictures.Kind, bool) {
	if noun == words.None {
		return nil, false
	}
	return pictures.Of(noun.String())
}

// picturedTwice are two sights for one word: the second of them, where it is a
// colour or a material, stands next to the noun, as in "woolly red hat".
func picturedTwice(sights []proposal) []proposal {
	var list []proposal
	first := sights[:min(len(sights), pairedOf)]
	for _, a := range first {
		if a.next || strings.Contains(a.form, " ") {
			continue
		}
		for _, b := range sights {
			if !b.next || b.word == a.word || words.Nearness(a.word, b.word) > sameKind {
				continue
			}
			list = append(list, proposal{word: a.word, form: a.form + " " + b.form, score: (a.score+b.score)/2 - twoSights, why: a.why})
		}
	}
	return byScore(list)
}

// inRow is how many sights a row of two or three is made of.
const inRow = 7

// picturedInRow are rows of two and three sights, for what is said of a thing behind a verb
// at more length: "the book was dusty, old and blue".
func picturedInRow(sights []proposal) []proposal {
	first := make([]proposal, 0, inRow)
	for _, p := range sights {
		if len(first) < inRow && !strings.Contains(p.form, " ") && (!p.next || isColour(p.form)) {
			first = append(first, p)
		}
	}
	apart := func(a, b *proposal) bool { return a != b && words.Nearness(a.word, b.word) < sameKind }
	var list []proposal
	for i := range first {
		for k := range first {
			a, b := &first[i], &first[k]
			if !apart(a, b) {
				continue
			}
			list = append(list, proposal{word: a.word, form: a.form + " and " + b.form, score: (a.score+b.score)/2 - twoSights, why: a.why})
			for m := k + 1; m < len(first); m++ {
				if c := &first[m]; apart(a, c) && apart(b, c) {
					list = append(list, proposal{word: a.word, form: a.form + ", " + b.form + " and " + c.form, score: (a.score+b.score+c.score)/3 - 2*twoSights, why: a.why})
				}
			}
		}
	}
	return byScore(list)
}

// picturedInstead are sights for an adjective that shows nothing, or for a degree
// and the adjective that it leans on.
func (s *spot) picturedInstead() []proposal {
	noun, before := s.described()
	if next, joined := s.joinedTo(); !before && joined && s.place.judges(s.text) {
		if list := s.besideJoined(next); len(list) > 0 {
			return list
		}
	}
	if noun == words.None && !before && s.text != "fun" { // which a doing is, and no thing
		noun = s.meant()
	}
	list := s.pictured(noun, !before || s.standsNext())
	if before && s.standsNext() {
		list = append(list, picturedTwice(list)...)
	}
	if !before {
		list = append(list, picturedInRow(list)...)
	}
	if before && s.standsNext() && pictures.IsNext(lower(s.place.Poem.Lines[s.line].Words[s.to].Text)) {
		// "Stone stairs" may be red, and are not of oak.
		list = slices.DeleteFunc(list, func(p proposal) bool { return p.next && !isColour(p.form) })
	}
	if next, follows := s.nextAdjective(); before && follows {
		list = inOrderBefore(list, next)
	}
	return list
}

// inOrderBefore are the sights that may stand before another adjective, and behind them
// those that may where a comma parts them: "a bubbly, soapy tub".
func inOrderBefore(list []proposal, next string) []proposal {
	var stand, parted []proposal
	for _, p := range list {
		switch {
		case standsBefore(p.form, next):
			stand = append(stand, p)
		case p.next || strings.HasSuffix(p.form, "ed") || slices.Contains(ages, next) || slices.Contains(sizes, next) || strings.Contains(p.form, " "):
		default:
			p.form += ","
			parted = append(parted, p)
		}
	}
	return append(stand, parted...)
}

// nextAdjective is the adjective that stands at once behind the spot.
func (s *spot) nextAdjective() (string, bool) {
	list := s.place.Poem.Lines[s.line].Words
	if s.to == len(list) || list[s.to-1].Break != manuscript.NoBreak {
		return "", false
	}
	text := lower(list[s.to].Text)
	// "Cozy house" may be tagged as two nouns.
	known := words.Find(text)
	mostly := known != words.None && known.Part() == words.Adjective && s.to+1 < len(list) && list[s.to+1].Tag.IsNoun()
	return text, mostly || list[s.to].Tag.IsAdjective()
}

// shapes and ages are adjectives of two of the classes that English puts in order:
// what one thinks of a thing, its size, age, shape, colour, origin and material come
// in this order (common practice; Quirk and others, 1985, 7.45, from memory).
var (
	shapes = strings.Fields("round pointed peaked square flat curved oval")
	ages   = strings.Fields("old young new ancient")
)

// standsBefore reports whether one adjective may stand before another with no comma
// between them: "small cozy house", but no "thatched cozy house".
func standsBefore(form, next string) bool {
	first, _, _ := strings.Cut(form, " ")
	switch {
	case slices.Contains(ages, next):
		return !slices.Contains(shapes, first) && !isColour(first)
	case isColour(next):
		return !isColour(first)
	case next == "little", slices.Contains(shapes, next):
		return true
	case slices.Contains(sizes, next):
		return false // "big soft piece": only what one thinks of a thing comes before
	}
	return slices.Contains(sizes, first) && first != "fat" || pictures.IsNext(next)
}

// joinedTo is the adjective that "and" joins to the spot, on either side: "warm" of "nice and
// warm" and of "warm and quite nice".
func (s *spot) joinedTo() (string, bool) {
	list := s.place.Poem.Lines[s.line].Words
	if s.opensList() {
		return lower(list[s.to+1].Text), true
	}
	if s.to+2 < len(list) && list[s.to-1].Break == manuscript.NoBreak && lower(list[s.to].Text) == "and" && (leans(list[s.to+1:s.to+2]) || lower(list[s.to+1].Text) == "as") && isDescribing(list[s.to+2]) {
		return lower(list[s.to+2].Text), true
	}
	if s.from > 1 && lower(list[s.from-1].Text) == "and" && list[s.from-2].Tag.IsAdjective() {
		return lower(list[s.from-2].Text), true
	}
	return "", false
}

// besideJoined are adjectives that stand beside the one that "and" joins to the spot:
// "snug and warm" for "nice and warm".
func (s *spot) besideJoined(joined string) []proposal {
	var out []proposal
	for i, beside := range pictures.Firm(joined).Beside {
		w := words.Find(beside)
		if w != words.None && (s.saidAlready(w) || s.blames() != (side(w) < blaming)) {
			continue
		}
		out = append(out, proposal{word: w, form: beside, score: 2.5 - 0.05*float64(i) + sightScene*s.theme.Nearness(w), why: "goes with " + joined})
	}
	return byScore(out)
}

// standsNext reports whether the noun follows the spot at once.
func (s *spot) standsNext() bool {
	list := s.place.Poem.Lines[s.line].Words
	return s.to < len(list) && list[s.to-1].Break == manuscript.NoBreak && (list[s.to].Tag.IsNoun() || isOne(list[s.to].Text))
}

// opensList reports whether "and" and one more adjective follow the spot.
func (s *spot) opensList() bool {
	list := s.place.Poem.Lines[s.line].Words
	return s.to+1 < len(list) && list[s.to-1].Break == manuscript.NoBreak && lower(list[s.to].Text) == "and" && list[s.to+1].Tag.IsAdjective()
}

// feelsNothing reports whether the spot describes a thing that has no feelings.
func (s *spot) feelsNothing() bool {
	noun, _ := s.described()
	kind, known := s.kindOf(noun)
	return known && !kind.Feels()
}

// isOne reports whether a word stands for a noun that was named before.
func isOne(word string) bool { return word == "one" || word == "ones" }

// mannered are verbs for a plain one and the adverb that says how, by themselves and
// with what a way to go may have after it.
func (s *spot) mannered() []proposal {
	var list []proposal
	for i, verb := range pictures.Manners(s.head.String(), s.how.String()) {
		w := words.Find(verb)
		form, known := forms.Of(verb, s.tag)
		if !known {
			continue
		}
		score := 3 - 0.1*float64(i) + sightScene*s.theme.Nearness(w)
		add := func(text string, cost float64) {
			list = append(list, proposal{word: w, form: text, score: score - cost, why: "says " + s.text + " " + s.how.String() + " in one"})
		}
		add(form, 0)
		if !isWayToGo(s.head) {
			continue
		}
		add(form+" along", 0.2)
		add(form+" on", 0.3)
		if doing, known := forms.Of(verb, grammar.VerbGerund); known && s.tag == grammar.VerbPast {
			add("went "+doing, 0.2)
			add("came "+doing, 0.4)
		}
	}
	return byScore(list)
}

func byScore(list []proposal) []proposal {
	slices.SortStableFunc(list, func(a, b proposal) int { return cmp.Compare(b.score, a.score) })
	return list
}
