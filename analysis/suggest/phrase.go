package suggest

import (
	"slices"
	"strings"

	"dandle/analysis/rhyme"
	"dandle/analysis/suggest/taste"
	"dandle/analysis/suggest/words"
	"dandle/phonetics/grammar"
)

// A head is what opens a phrase that fills a slot where no single word does:
// "on the", before "shore". Its syllables are all slack.
type head struct {
	text   string
	cost   float64        // how much less is said with it than with others, in natural logarithms; ours
	place  taste.Place    // of the word that closes the phrase
	closes grammar.TagSet // parts of speech that may close it
	after  grammar.TagSet // and those that it may follow
	slack  int            // syllables
}

func tags(list ...grammar.Tag) (set grammar.TagSet) {
	for _, t := range list {
		set |= 1 << t
	}
	return set
}

var (
	nounTags = tags(grammar.Noun, grammar.NounPlural)
	verbTags = tags(grammar.Verb, grammar.VerbPast, grammar.VerbGerund, grammar.VerbParticiple, grammar.VerbPresent, grammar.VerbThird)
	nameTags = tags(grammar.Name, grammar.NamePlural)

	heads = buildHeads()
)

// buildHeads lists the phrases of place and aim that English closes lines
// with.
func buildHeads() []head {
	whole := nounTags | nameTags | verbTags | tags(grammar.Adverb, grammar.Particle, grammar.Pronoun)
	list := []head{
		{text: "the", closes: nounTags, after: verbTags | tags(grammar.Preposition, grammar.Conjunction)},
		{text: "to", closes: tags(grammar.Verb), after: nounTags | verbTags | tags(grammar.Adjective)},
	}
	for preposition, cost := range map[string]float64{"on": 0, "in": 0, "by": 0.5, "at": 0.5, "to": 0.7, "from": 1, "with": 1} {
		list = append(list, head{text: preposition + " the", closes: nounTags, after: whole, cost: cost})
	}
	slices.SortFunc(list, func(a, b head) int { return strings.Compare(a.text, b.text) })
	for i := range list {
		h := &list[i]
		parts := strings.Fields(h.text)
		h.slack = len(parts) // each has one syllable
		h.place.Tag = grammar.Determiner
		if h.text == "to" {
			h.place.Tag = grammar.To
		}
		h.place.Before = words.Find(parts[len(parts)-1]).Vector()
		if len(parts) > 1 {
			h.place.BeforeThat = words.Find(parts[0]).Vector()
		}
	}
	return list
}

const (
	// Single words are thought to leave a slot open where fewer than fewFit of
	// them fill it: those whose length and beats are together at least as likely
	// as fitting says, and that readers know.
	fewFit     = 8
	fewRhyme   = 3 // the same where no place is known: those that readers know
	fitting    = -1.5
	easyLevel  = 50
	phraseCost = 2 // what a phrase needs to be better by than a word, in natural logarithms; ours
)

// fits reports whether a word fills the slot all by itself.
func (w *weighed) fits() bool {
	f := &w.choice.Facts
	return w.kind.IsFull() && f[taste.Clash] == 0 && f[taste.Length]+f[taste.Beats] >= fitting && w.word.Level() <= easyLevel
}

// phrases are fills of several words, where single ones leave the slot open.
// Each closing word comes with the head that suits it best.
func (p *Place) phrases(line, stands int, single []*weighed, at *scene) []*weighed {
	n := 0
	for _, w := range single {
		if w.fits() {
			n++
		}
	}
	if n >= fewFit || stands == 0 {
		return nil
	}
	palates := behindHeads(at)
	stand := newStand(p.Poem, line, stands)
	slots := map[int]slot{} // by mate
	best := map[words.Word]*weighed{}
	for _, w := range single {
		if !closesPhrase(&w.candidate) {
			continue
		}
		s, known := slots[w.mate.line]
		if !known {
			s = stand.slot(p.peers(line, w.mate.line))
			slots[w.mate.line] = s
		}
		for k := range heads {
			h := &heads[k]
			if !h.after.Has(at.place.Tag) || h.closes&w.choice.Parts == 0 || w.lead+h.slack >= slotLimit {
				continue
			}
			phrase := w.behind(h, &palates[k], &s, at)
			if old := best[w.word]; phrase.fits() && (old == nil || better(phrase, old) < 0) {
				best[w.word] = phrase
			}
		}
	}
	list := make([]*weighed, 0, len(best))
	for _, w := range best {
		list = append(list, w)
	}
	slices.SortFunc(list, better)
	return list
}

// closesPhrase reports whether a candidate is the plain sort of word that a
// phrase may end in.
func closesPhrase(c *candidate) bool {
	return (c.kind == rhyme.Perfect || c.kind == rhyme.Mosaic) && !c.rich && c.word.Tagged() > 0 && c.word.Level() <= easyLevel &&
		c.word.Fitness() == words.Fit && !grammar.CanBe(c.text, grammar.VerbGerund)
}

// behindHeads takes in the place behind each of the heads.
func behindHeads(at *scene) []taste.Palate {
	list := make([]taste.Palate, len(heads))
	for i := range heads {
		place := heads[i].place
		place.Line, place.Stanza, place.Mates = at.place.Line, at.place.Stanza, at.place.Mates
		list[i] = taught.At(&place)
	}
	return list
}

// behind is a candidate as the close of a phrase.
func (w *weighed) behind(h *head, palate *taste.Palate, s *slot, at *scene) *weighed {
	out := *w
	out.head = h
	out.text = h.text + " " + w.text
	lead := w.lead + h.slack
	out.choice.Facts[taste.Length] = float32(s.length[lead])
	out.choice.Facts[taste.Beats] = float32(s.beats[lead])
	out.score = palate.Score(&out.choice) - reserve(w.word, at.old) - phraseCost - h.cost
	return &out
}
