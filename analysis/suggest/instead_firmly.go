package suggest

import (
	"slices"
	"strings"

	"dandle/analysis/manuscript"
	"dandle/analysis/suggest/pictures"
	"dandle/analysis/suggest/words"
	"dandle/phonetics/grammar"
)

// firmly are what does for an adjective and the degree before it, best first.
func (s *spot) firmly() []proposal {
	f := &firming{spot: s, firm: pictures.Firm(s.text)}
	f.noun, f.before = s.described()
	if f.noun == words.None && !f.before {
		f.noun = s.meant()
	}
	f.kind, f.known = s.kindOf(f.noun)
	f.whom = f.noun
	if f.ofSomebody = f.noun == words.None && s.isOfSomebody(); f.ofSomebody {
		f.whom = words.Find("child")
	}
	f.feels = f.ofSomebody || f.known && f.kind.Feels()
	if s.isMood() {
		return nil // whoever feels blue is not sky-blue
	}
	for i, alone := range f.firm.Alone {
		f.add(alone, alone, 3, i)
	}
	f.lead()
	f.besideIt()
	if f.before && s.standsNext() {
		f.list = append(f.list, s.firmAndPictured(f.firm.Alone, f.noun)...)
	}
	return byScore(f.list)
}

// A firming gathers what says an adjective more firmly.
type firming struct {
	*spot
	firm       pictures.Firmer
	noun       words.Word     // that the adjective describes, or None
	kind       *pictures.Kind // of the noun
	known      bool           // the kind is
	before     bool           // the adjective stands before its noun
	whom       words.Word     // the noun, or a child where it is said of somebody
	ofSomebody bool           // said of "he", "she", "I" or "we"
	feels      bool           // what it is said of has feelings
	list       []proposal
}

// ofLiving is the nearness to a living thing, or to a dog or a child, of what may be said of
// it (ours): a child is stout, and not juicy.
const ofLiving = 0.2

// isOfThings reports whether an adjective is said of days or of food: no goose is windy, and
// no giant juicy.
func isOfThings(adjective string) bool {
	for _, thing := range []string{"day", "fruit", "cake"} {
		if kind, known := pictures.Of(thing); known && kind.Shows(adjective) {
			return true
		}
	}
	return false
}

// add proposes a form that shows a word, which may be none, the i-th of its kind.
func (f *firming) add(form, shown string, base float64, i int) {
	w := words.Find(shown)
	if shown != "" && shown != f.text && (slices.Contains(f.near, shown) || f.place.isEmpty(shown)) || w != words.None && f.saidAlready(w) || shown != "" && shown != f.text && !f.suits(w) {
		return
	}
	score := base - 0.05*float64(i) + sightScene*f.theme.Nearness(w)
	if f.noun != words.None {
		score += sightNoun * words.Nearness(w, f.noun)
	}
	f.list = append(f.list, proposal{word: w, form: form, score: score, why: "says more than " + f.text})
}

// suits reports whether a word that is shown goes with what is described. What is felt may be
// felt by any that feels, and by nothing else: a sad trombone is no hunched one.
func (f *firming) suits(w words.Word) bool {
	goes, _ := goesBefore(w, f.whom)
	switch {
	case f.firm.Felt && f.feels, w == words.None:
		return true
	case f.feels:
		kind, known := pictures.Of(f.whom.String())
		near := max(words.Nearness(w, f.whom), words.Nearness(w, words.Find("dog")), words.Nearness(w, words.Find("child")))
		return known && kind.Shows(w.String()) || near > ofLiving && !isOfThings(w.String())
	case f.firm.Felt && f.known:
		return f.kind.Shows(w.String()) || goes >= fitsNoun && f.kind.Seen()
	}
	return goesWell(w, f.whom)
}

// lead puts a likeness or a firmer degree before the adjective.
func (f *firming) lead() {
	for i, lead := range f.firm.Before {
		switch {
		case f.isCompared():
		case !strings.HasSuffix(lead, "-"):
			f.add(lead+" "+f.text, strings.TrimRight(lead, ","), 2.8, i)
		case f.before:
			f.add(lead+f.text, "", 2.3, i) // "the mirror-bright pan": a likeness stops the eye there
		default:
			f.add(lead+f.text, "", 2.8, i)
		}
	}
}

// besideIt joins to the adjective one or two that show more.
func (f *firming) besideIt() {
	if f.before && !f.known || isColour(f.text) && f.feels {
		return // a long time is neither thin nor low, and who turns red is not round
	}
	var list []string
	for _, beside := range f.firm.Beside {
		if f.canLook(beside) {
			list = append(list, beside)
		}
	}
	for i, beside := range list {
		switch {
		case f.before:
			f.add(beside+", "+f.text, beside, 2.2, i)
			f.add(beside+" and "+f.text, beside, 1.9, i)
		case f.opensList():
			f.add(beside+", "+f.text, beside, 2.4, i) // "frothy and brown"
		default:
			f.add(beside+" and "+f.text, beside, 2.4, i)
			f.add(f.text+" and "+beside, beside, 2.3, i)
			for k, other := range list {
				if w := words.Find(other); i != k && !slices.Contains(f.near, other) && f.suits(w) && words.Nearness(w, words.Find(beside)) < sameKind {
					f.add(beside+", "+other+" and "+f.text, beside, 1.6-0.02*float64(k), i) // "windy, dark and cold"
				}
			}
		}
	}
}

// canLook reports whether the noun can have the look that an adjective names: no shout is
// white, and none is round.
func (f *firming) canLook(adjective string) bool {
	if !f.known || f.firm.Felt || f.kind.Shows(adjective) {
		return true
	}
	if day, known := pictures.Of("day"); known && day.Shows(adjective) && strings.HasSuffix(adjective, "y") {
		return false // no water is windy
	}
	return f.kind.Seen() && (!isColour(adjective) || slices.ContainsFunc(f.kind.Sights, func(g pictures.Sight) bool { return isColour(g.Text) }))
}

// isCompared reports whether the spot is held against something: "as big as a door".
func (s *spot) isCompared() bool {
	list := s.place.Poem.Lines[s.line].Words
	return s.from > 0 && lower(list[s.from-1].Text) == "as" && s.to < len(list) && lower(list[s.to].Text) == "as"
}

// isMood reports whether the spot is a colour that somebody feels: "blue", but not "red".
func (s *spot) isMood() bool {
	noun, before := s.described()
	kind, known := s.kindOf(noun)
	return isAny(s.text, "blue", "green") && !before && (s.isOfSomebody() || known && kind.Feels())
}

// isOfSomebody reports whether the spot says something of "he", "she", "I" or "we".
func (s *spot) isOfSomebody() bool {
	list := s.place.Poem.Lines[s.line].Words
	for i := s.from - 1; i >= 0; i-- {
		if list[i].Tag == grammar.Pronoun {
			return isAny(lower(list[i].Text), "he", "she", "i", "we", "he's", "she's", "i'm", "we're")
		}
		if list[i].Tag.IsNoun() || list[i].Break != manuscript.NoBreak {
			return false
		}
	}
	return false
}

// asSize are what says a size more firmly, for a word that judges as it measures: "a huge
// skull" for "a great skull".
func (s *spot) asSize(size string) []proposal {
	var list []proposal
	for i, firm := range pictures.Firm(size).Alone {
		if w := words.Find(firm); w == words.None || !s.saidAlready(w) {
			list = append(list, proposal{word: w, form: firm, score: 1.5 - 0.05*float64(i), why: "says more than " + s.text})
		}
	}
	return list
}

// strangers is how well an adjective goes at least with the noun that it stands beside
// another for, and farApart how near it lies to it: no skull is windy, no child juicy (ours).
const (
	strangers = 0.3
	farApart  = 0.105
)

// goesWell reports whether nothing is known against an adjective beside a noun.
func goesWell(adjective, noun words.Word) bool {
	if noun == words.None {
		return true
	}
	goes, known := goesBefore(adjective, noun)
	return (!known || goes >= strangers) && words.Nearness(adjective, noun) > farApart
}

// stacks reports whether an adjective stands before a noun behind another with no
// mark between, as those of size, age and colour do: "dusty old", "bright blue".
func stacks(adjective string) bool {
	return slices.Contains(sizes, adjective) || isColour(adjective) || isAny(adjective, "old", "new", "young", "ancient", "wooden")
}

// firmAndPictured puts a sight that stands next to its noun after a firmer word:
// "tiny red beetle" for "very small beetle".
func (s *spot) firmAndPictured(alone []string, noun words.Word) []proposal {
	var list []proposal
	for i, firm := range alone[:min(len(alone), 3)] {
		for _, p := range s.pictured(noun, true) {
			if p.next {
				list = append(list, proposal{word: words.Find(firm), form: firm + " " + p.form, score: 2 - 0.05*float64(i) + 0.1*p.score, why: p.why})
			}
		}
	}
	return list
}

// firmlyPictured keeps the adjective and shows its noun in the place of the degree:
// "dusty old cobwebs".
func (s *spot) firmlyPictured() []proposal {
	noun, before := s.described()
	if before && !stacks(s.text) {
		if noun == words.Find("one") {
			return nil
		}
		return s.picturedBeside(noun)
	}
	size := before && slices.Contains(sizes, s.text) // which stands first: "small painted tin"
	if size && !s.standsNext() {
		return nil
	}
	var list []proposal
	for _, p := range s.pictured(noun, size) {
		if strings.Contains(p.form, " ") || p.word != words.None && words.Nearness(p.word, s.head) > saidAgain {
			continue
		}
		switch {
		case size:
			p.form = s.text + " " + p.form
		case before && standsBefore(p.form, s.text):
			p.form += " " + s.text
			p.score += 0.2
		case before, s.opensList():
			p.form += ", " + s.text
			p.score -= twoSights
		default:
			p.form += " and " + s.text
			p.score -= twoSights
		}
		list = append(list, p)
	}
	return list
}

// picturedBeside keeps an adjective before its noun and puts a sight of the noun beside it:
// "a downy, ticklish feather", "a plump and clumsy walrus".
func (s *spot) picturedBeside(noun words.Word) []proposal {
	var list []proposal
	for _, p := range s.pictured(noun, false) {
		if strings.Contains(p.form, " ") || p.word != words.None && words.Nearness(p.word, s.head) > saidAgain {
			continue
		}
		for i, joint := range []string{", ", " and "} {
			p := p
			p.form += joint + s.text
			p.score -= 3*twoSights + float64(i)/10 // what says it more firmly comes first
			list = append(list, p)
		}
	}
	return list
}

// precedesSize reports whether a size and then the noun follow the spot: "nice big pot".
func (s *spot) precedesSize() bool {
	list := s.place.Poem.Lines[s.line].Words
	next, follows := s.nextAdjective()
	return follows && next != "little" && slices.Contains(sizes, next) && s.to+1 < len(list) && list[s.to].Break == manuscript.NoBreak
}

// afterSize puts a sight of the noun behind the size that stands before it, "big copper pot" for
// "nice big pot", or says the size by one word: "enormous pot" for "great big pot". The
// size goes with the spot.
func (s *spot) afterSize() []proposal {
	size, _ := s.nextAdjective()
	noun, _ := s.described()
	s.to++
	var list []proposal
	for _, p := range s.pictured(noun, s.standsNext()) {
		if !strings.Contains(p.form, " ") && !slices.Contains(sizes, p.form) {
			p.form = size + " " + p.form
			list = append(list, p)
		}
	}
	for i, firm := range pictures.Firm(size).Alone {
		list = append(list, proposal{word: words.Find(firm), form: firm, score: 2.2 - 0.05*float64(i), why: "says both in one"})
	}
	return byScore(list)
}
