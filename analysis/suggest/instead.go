package suggest

import (
	"cmp"
	"slices"
	"strings"

	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"
	"dandle/analysis/suggest/forms"
	"dandle/analysis/suggest/pictures"
	"dandle/analysis/suggest/words"
	"dandle/phonetics/grammar"
)

const (
	// known is the size of SCOWL's lists up to which a child may meet a word.
	known = 50
	// related is the least nearness of two words that are said to share a
	// sense: below it, the sense that they share is seldom the one meant (ours).
	related = 0.25
	// fitsNoun is how well an adjective goes at least with the noun that it is
	// offered for, and fitsNear how near it lies where that is not known (ours).
	fitsNoun = 0.5
	fitsNear = 0.2
	// maxSenses is how many senses of a word are weighed: beyond, few are meant.
	maxSenses = 2
	// worthSaying is the least that must speak for a word near in sense (ours).
	worthSaying = 0.8
	// strange is the rarity beyond which a word stops a reader (ours).
	strange = 16
)

// A proposal is a plain word, before anybody asks whether it fits the line.
type proposal struct {
	word  words.Word
	form  string // in the form that the place asks for, once it is known
	score float64
	why   string // it is proposed, to stand after its pattern
	next  bool   // it can stand next to its noun only
}

// Weights of what speaks for a proposal (ours, by ear on our own lines).
const (
	synonym   = 0.30 // it has the very sense
	narrower  = 0.25 // it says more
	sibling   = -0.2 // both say more than a third
	laterEach = 0.15 // for each sense that is commoner than the one meant
	inScene   = 0.35 // nearness to the stanza
	inStories = 0.15 // it was met in the stories and essays that were tagged by sense
	childlike = 0.03 // along the way from news to verse
	harder    = 0.01 // for each of SCOWL's sizes beyond 35, by size
	drawn     = 0.5  // an adjective that can be seen, heard, touched or tasted
	uncommon  = 0.06 // for each doubling of its rank beyond the ten thousandth
	goesWith  = 0.5  // an adjective that is met before the noun
)

// kin are words near the head in sense, best first.
func (s *spot) kin() []proposal {
	noun, before := s.described()
	seen := senses()
	best := map[words.Word]proposal{}
	add := func(sense *words.Sense, weight float64, why string) {
		for _, w := range sense.Words {
			score, fit := s.weigh(w, sense)
			if !fit {
				continue
			}
			if s.part == words.Adjective && noun != words.None {
				with := words.Nearness(noun, w)
				goes, known := goesBefore(w, noun)
				if before && (known && goes < fitsNoun || !known && with < fitsNear) {
					continue // "elderly cobwebs"
				}
				score += with + goesWith*goes
			}
			if s.part == words.Adjective {
				score += drawn * min(seen.Nearness(w), clear)
			}
			if s.how != words.None {
				score += words.Nearness(s.how, w)
			}
			score += weight
			if old, met := best[w]; score > worthSaying && (!met || old.score < score) {
				best[w] = proposal{word: w, score: score, why: why + " " + s.text}
			}
		}
	}
	sense, ok := s.sense()
	if !ok {
		return nil
	}
	add(&sense, synonym, "in the same sense as")
	kin := sense.Kin()
	for i := range kin {
		switch {
		case s.part == words.Adjective:
			add(&kin[i], narrower, "much like")
			if len(kin) == 1 {
				// A satellite: the others round the same adjective.
				for _, other := range kin[i].Kin() {
					add(&other, sibling, "much like")
				}
			}
		case isWider(&sense, &kin[i]): // it says less: a snail is not meant as meat
		default:
			add(&kin[i], narrower, "says more than")
		}
	}
	return sorted(best)
}

// sense is the sense in which the head is meant: the first of its part of
// speech, unless the stanza speaks of another. What leans on a word, as "very"
// does, leans on its first sense as a rule.
func (s *spot) sense() (words.Sense, bool) {
	var best words.Sense
	top, found := 0.0, 0
	for _, sense := range s.head.Senses() {
		if sense.Part != s.part {
			continue
		}
		score := s.aboutScene(&sense) - laterEach*float64(found)
		if found == 0 || score > top {
			best, top = sense, score
		}
		if found++; found == maxSenses || s.to-s.from > 1 || s.part == words.Verb {
			break
		}
	}
	return best, found > 0
}

// aboutScene is how near the words of a sense's definition, and its own, lie to
// what the stanza is about.
func (s *spot) aboutScene(sense *words.Sense) float64 {
	sum, n := 0.0, 0
	for text := range strings.FieldsSeq(sense.Meaning) {
		if w := words.Find(strings.Trim(text, ",;()")); w != words.None && w.Rarity() > 8 && w != s.head {
			sum += s.theme.Nearness(w)
			n++
		}
	}
	return sum / float64(max(n, 1))
}

// isWider reports whether a sense's kin is above it: what is above comes first
// among the kin, and of those below each names it as its own first.
func isWider(sense, kin *words.Sense) bool {
	above, ok := kin.Wider()
	return !ok || !above.Is(sense)
}

// weigh is what speaks for a word in the head's place beside the sense that it
// shares; false where it should not be offered at all.
func (s *spot) weigh(w words.Word, sense *words.Sense) (float64, bool) {
	// A commoner word says less, and less is seldom what is wanted; a compound
	// of the word itself, as "weeknight" for "night", says it again.
	if !s.offerable(w) || w.Rarity() < s.head.Rarity()-1 || strings.Contains(w.String(), s.head.String()) {
		return 0, false
	}
	near := words.Nearness(s.head, w)
	// What a degree leans on is taken in its first sense, so a word that can be
	// seen may lie further off.
	seen := senses()
	if near < related && (s.to-s.from == 1 || seen.Nearness(w) < sensed || near < related/2) {
		return 0, false
	}
	// A word that has the sense on the side only would be taken otherwise.
	if first, known := w.First(); !known || !first.Is(sense) {
		return 0, false
	}
	if s.part == words.Verb && (!s.takes(w) || isGrammar(w)) {
		return 0, false
	}
	return near + s.tone(w), true
}

// offerable reports whether a word may be offered in this place at all.
func (s *spot) offerable(w words.Word) bool {
	return w != s.head && w.Fitness() == words.Fit && w.Level() <= known && w.Rarity() < strange
}

// tone is what speaks for a word in the scene of the stanza and in a child's ear.
func (s *spot) tone(w words.Word) float64 {
	met := 0.0
	if w.Tagged() > 0 {
		met = inStories
	}
	return met + inScene*s.theme.Nearness(w) + childlike*w.Along(&verse) - harder*float64(max(0, w.Level()-35)) - uncommon*max(0, w.Rarity()-13.3)
}

func sorted(best map[words.Word]proposal) []proposal {
	list := make([]proposal, 0, len(best))
	for _, c := range best {
		list = append(list, c)
	}
	slices.SortFunc(list, func(a, b proposal) int {
		return cmp.Or(cmp.Compare(b.score, a.score), cmp.Compare(a.word, b.word))
	})
	return list
}

// shares are nouns of which what comes in them is what is seen.
var shares = []string{"pair", "piece", "bit", "bunch", "set", "kind", "sort", "pile", "heap", "row", "slice"}

// described is the noun that an adjective says something of, and whether it
// stands before it; else it is the subject of the verb that joins it to one.
func (s *spot) described() (noun words.Word, before bool) {
	if s.part != words.Adjective {
		return words.None, false
	}
	list := s.place.Poem.Lines[s.line].Words
	for i := s.to; i < len(list) && list[i-1].Break != manuscript.FullBreak; i++ {
		if isOne(lower(list[i].Text)) {
			return words.Find("one"), true
		}
		if list[i].Tag.IsNoun() || list[i].Tag == grammar.Interjection && i > s.from { // "a nice hello"
			// "Apple pie" is a pie.
			for i+1 < len(list) && list[i].Break == manuscript.NoBreak && list[i+1].Tag.IsNoun() {
				i++
			}
			if i+2 < len(list) && isAny(lower(list[i].Text), shares...) && lower(list[i+1].Text) == "of" && list[i+2].Tag.IsNoun() {
				i += 2 // "a pair of shoes" is shoes
			}
			return nounOf(list[i]), true
		}
		joins := lower(list[i].Text) == "and" && i+1 < len(list) && (list[i+1].Tag.IsAdjective() || list[i+1].Tag == grammar.VerbGerund)
		if !list[i].Tag.IsAdjective() && !joins && !(list[i].Tag == grammar.VerbGerund || list[i].Tag == grammar.VerbParticiple) {
			break
		}
	}
	if sense := s.sensed(); sense != words.None {
		return sense, false
	}
	noun, _ = s.subject()
	return noun, false
}

// meant is the thing that "it" or "they" before the spot means; None where it cannot be told.
func (s *spot) meant() words.Word {
	list := s.place.Poem.Lines[s.line].Words
	for i := s.from - 1; i >= 0; i-- {
		if list[i].Tag.IsNoun() || i < s.from-1 && list[i].Break != manuscript.NoBreak {
			return words.None
		}
		if list[i].Tag == grammar.Pronoun {
			noun, _ := s.place.antecedent(s.line, i)
			return noun
		}
	}
	return words.None
}

// antecedent is the noun that the pronoun at word i of a line stands for, and as it is
// written: the subject of what goes before in its line, or of the line before in its
// stanza. It is None where it cannot be told, and for "I" and "you".
func (p *Place) antecedent(line, i int) (words.Word, string) {
	who, _, _ := strings.Cut(strings.ReplaceAll(lower(p.Poem.Lines[line].Words[i].Text), "’", "'"), "'")
	if !isAny(who, "it", "they", "he", "she") {
		return words.None, ""
	}
	first := line
	if stanza := p.Manuscript.Stanzas[p.Manuscript.Lines[line].Stanza]; i < 2 && line > stanza.From {
		first = line - 1 // further on in its line it would stand for something in it
	}
	for at := line; at >= first; at-- {
		list := p.Poem.Lines[at].Words
		if at < line {
			i = len(list)
		}
		for k := range list[:i] {
			// The one that its sentence is about stands first in it.
			noun := p.nounAt(at, k)
			if noun == words.None || (list[k].Tag == grammar.NounPlural) != (who == "they") || hangs(list, k) {
				continue
			}
			kind, known := pictures.Of(noun.String())
			lives := known && kind.Acts()
			if who == "they" || lives && who != "it" || who == "it" && !(known && kind.Name == "person") {
				return noun, lower(list[k].Text)
			}
		}
	}
	return words.None, ""
}

// phraseFrom is where the phrase of the noun at word i begins: with its article and what stands
// between.
func phraseFrom(list []scansion.Word, i int) int {
	for i > 0 && list[i-1].Break == manuscript.NoBreak && (list[i-1].Tag.IsNoun() || list[i-1].Tag.IsAdjective() || list[i-1].Tag == grammar.Determiner || list[i-1].Tag == grammar.Possessive) {
		i--
	}
	return i
}

// hangs reports whether the noun at word i hangs on a preposition: the oven in "into the hot
// oven".
func hangs(list []scansion.Word, i int) bool {
	for i > 0 && list[i-1].Break == manuscript.NoBreak && (list[i-1].Tag.IsAdjective() || list[i-1].Tag.IsNoun() || list[i-1].Tag == grammar.Number) {
		i--
	}
	if i > 0 && (list[i-1].Tag == grammar.Determiner || list[i-1].Tag == grammar.Possessive) {
		i--
	}
	return i > 0 && list[i-1].Break == manuscript.NoBreak && isPreposition(list[i-1].Tag)
}

// sensed is what an adjective behind a verb of the senses says something of: the smell, of
// what "smelled good".
func (s *spot) sensed() words.Word {
	list := s.place.Poem.Lines[s.line].Words
	if s.from == 0 {
		return words.None
	}
	switch verb, _, _ := forms.Base(lower(list[s.from-1].Text), list[s.from-1].Tag); {
	case verb == words.None:
		return words.None
	case verb.String() == "smell":
		return words.Find("smell")
	case verb.String() == "sound":
		return words.Find("sound")
	case verb.String() == "taste":
		return words.Find("food")
	}
	return words.None
}

// subject is the noun before the verb that a spot is, or that stands before it: of "the
// gate to the garden was high", the gate. It is None where that is a pronoun, and
// untold where that is "it" or nothing goes before.
func (s *spot) subject() (noun words.Word, told bool) {
	list := s.place.Poem.Lines[s.line].Words
	for i := s.from - 1; i >= 0; i-- {
		switch w := list[i]; {
		case w.Tag.IsNoun() && w.Break != manuscript.NoBreak && s.ofWhomActs(i):
			return words.None, true // "he flew back home, so very sad"
		case w.Tag.IsNoun():
			k := phraseFrom(list, i)
			if i < s.from-1 && k > 1 && list[k-1].Break == manuscript.NoBreak && isPreposition(list[k-1].Tag) && list[k-2].Tag.IsNoun() {
				i = k - 1 // what goes on is said of another
				continue
			}
			return nounOf(w), true
		case w.Tag == grammar.Pronoun:
			return words.None, lower(w.Text) != "it"
		case w.Break != manuscript.NoBreak && i < s.from-1:
			return words.None, false
		}
	}
	return words.None, s.from > 0
}

// ofWhomActs reports whether a pronoun acts in the clause that ends with word i.
func (s *spot) ofWhomActs(i int) bool {
	list := s.place.Poem.Lines[s.line].Words
	for ; i >= 0; i-- {
		if isAny(lower(list[i].Text), "he", "she", "they", "i", "we") {
			return true
		}
		if i > 0 && list[i-1].Break != manuscript.NoBreak {
			return false
		}
	}
	return false
}

// nounOf is the noun that a word is, in the singular; "pants" have none.
func nounOf(w scansion.Word) words.Word {
	if k, named := pictures.Of(lower(w.Text)); named && slices.Contains(k.Nouns, lower(w.Text)) {
		return words.Find(lower(w.Text))
	}
	base, _, ok := forms.Base(lower(w.Text), w.Tag)
	if !ok {
		return words.Find(lower(w.Text))
	}
	return base
}
