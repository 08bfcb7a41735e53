package suggest

import (
	"math"

	"dandle/analysis/rhyme"
	"dandle/analysis/suggest/taste"
	"dandle/analysis/suggest/words"
	"dandle/phonetics/arpabet"
	"dandle/phonetics/grammar"
	"dandle/phonetics/lexicon"
)

// taught is what was learned from poets.
var taught = taste.Learned()

// A weighed candidate has a score: the higher the better.
type weighed struct {
	candidate
	mate   mate
	choice taste.Choice
	score  float64
}

// closedLevel is SCOWL's size up to which a word that was never tagged with a
// sense is one of grammar's own: WordNet holds none of those.
const closedLevel = 20

// What the poets that taste was learned from do not mind and a child's book
// does, in natural logarithms. Ours.
const (
	oldCost      = 3   // "thee", where nothing else speaks so
	doubtfulCost = 1.5 // what is clean in most mouths only
	hardCost     = 0.8 // for each ten of SCOWL's sizes beyond those that children know
	breakCost    = 8   // what no speaker says: "a eye", "a my"
	knownLevel   = 40
)

// reserve is what keeps a word back in a child's book.
func reserve(w words.Word, old bool) float64 {
	cost := hardCost * max(0, float64(w.Level()-knownLevel)/10)
	if w.Fitness() == words.Doubtful {
		cost += doubtfulCost
	}
	if !old && oldWords[w.String()] {
		cost += oldCost
	}
	return cost
}

// cost is what keeps a candidate back at its place.
func (s *scene) cost(c *weighed) float64 {
	cost := reserve(c.word, s.old)
	vowel := c.sounds.At(0).IsVowel()
	if s.article == "a" && vowel || s.article == "an" && !vowel || s.owes != 0 && c.choice.Parts&s.owes == 0 {
		cost += breakCost
	}
	return cost
}

// take fills in all that is known of a candidate at its place but what takes
// long to work out.
func (w *weighed) take(c candidate, m mate, s *slot, at *scene) {
	w.candidate, w.mate = c, m
	w.choice.Vector = c.word.Vector()
	w.choice.Parts, w.choice.Main = grammar.TagsOf(c.text), c.word.Part()
	f := &w.choice.Facts
	set := func(fact taste.Fact, x float64) { f[fact] = float32(x) }
	flag := func(fact taste.Fact, on bool) {
		if on {
			f[fact] = 1
		}
	}
	set(taste.Mate, m.odds)
	flag(taste.After, m.gap > 0)
	switch gap := max(m.gap, -m.gap); gap {
	case 1:
	case 2:
		flag(taste.Gap2, true)
	case 3:
		flag(taste.Gap3, true)
	default:
		flag(taste.GapMore, true)
	}
	flag(taste.Answered, m.heard > 0)
	flag(taste.AnsweredTwice, m.heard > 1)
	flag(taste.Alone, m.seat.alone)
	flag(taste.Parallel, m.seat.parallel)
	flag(taste.Mirror, m.seat.mirror)
	if s.known {
		set(taste.Length, s.length[min(c.lead, slotLimit-1)])
		set(taste.Beats, s.beats[min(c.lead, slotLimit-1)])
	}
	rarity := c.word.Rarity()
	set(taste.Rarity, rarity)
	set(taste.Rare, max(0, rarity-12))
	set(taste.Common, max(0, 8-rarity))
	set(taste.Level, float64(c.word.Level())/10)
	set(taste.Tagged, c.word.Tagged())
	set(taste.Familiar, float64(lexicon.Lookup(c.text).Familiarity())/10)
	set(taste.Theme, at.theme.Nearness(c.word))
	set(taste.Line, at.line.Nearness(c.word))
	if m.known != words.None {
		set(taste.MateSense, words.Nearness(m.known, c.word))
	}
	flag(taste.Used, at.used[c.text])
	flag(taste.InLine, at.inLine[c.text])
	flag(taste.Conjoined, at.conjoined && w.choice.Parts.Has(at.place.TagBefore))
	flag(taste.Echo, at.echoes[c.text] > 0)
	flag(taste.Refrain, at.echoes[c.text] > 1)
	flag(taste.Name, c.word.IsName())
	flag(taste.Sensible, c.word.HasSense())
	flag(taste.Closed, c.word.Tagged() == 0 && c.word.Level() <= closedLevel)
	flag(taste.Alike, c.alike)
	flag(taste.Light, c.kind == rhyme.Light)
	flag(taste.Rich, c.kind == rhyme.Homophone || c.kind == rhyme.Identical || c.kind == rhyme.Perfect && c.rich)
	if c.kind == rhyme.Near {
		set(taste.Near, 1+c.distance)
	}
	if first, ok := firstSound(c.sounds); ok {
		flag(taste.Alliterates, at.onsets[first])
	}
	set(taste.Clash, s.clashes(&c))
	set(taste.Long, float64(c.lead))
}

// compare measures how near the candidate lies to each word of the stanza and of
// the line, which takes long.
func (w *weighed) compare(at *scene) {
	w.choice.Facts[taste.Nearest] = float32(nearest(at.about, w.word))
	w.choice.Facts[taste.NearestInLine] = float32(nearest(at.lately, w.word))
}

// clashes counts the stressed syllables that would stand where the meter
// wants slack, in the candidate before its rhyming syllable.
func (s *slot) clashes(c *candidate) float64 {
	if s.stride == 0 {
		return 0
	}
	stresses := c.sounds.Stresses()
	n := 0.0
	for back := 1; back <= c.lead && back < s.stride; back++ {
		if i := c.lead - back; i < len(stresses) && stresses[i] == arpabet.Primary {
			n++
		}
	}
	return n
}

// share squeezes a score between 0 and 1.
func share(score float64) float64 { return 1 / (1 + math.Exp(-0.5*(score+3))) }
