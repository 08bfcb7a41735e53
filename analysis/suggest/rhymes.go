package suggest

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"dandle/analysis/rhyme"
	"dandle/analysis/suggest/taste"
	"dandle/analysis/suggest/words"
	"dandle/phonetics"
	"dandle/phonetics/arpabet"
	"dandle/phonetics/grammar"
)

// Options narrow a search for rhymes.
type Options struct {
	Slot  string         // beats wanted, one character a syllable: "xx/"; empty for any
	Near  bool           // near rhymes too, after the perfect ones
	Sense string         // a word whose sense the answers should lie near; empty for none
	Sound arpabet.Sounds // the sound to rhyme with, instead of the word's own
	Limit int            // the most items wanted; 0 for 200
}

const usualLimit = 200

func (o *Options) breadth() breadth {
	if o.Near {
		return nearToo
	}
	return lightToo
}

// Rhymes lists the words that rhyme with a word, or with the last of a few,
// best first: perfect rhymes before light and near ones, and within them the
// words that readers know, or those nearest in sense where one is asked for.
func Rhymes(word string, reader *phonetics.Reader, o Options) []Item {
	last := spoken(word, reader, o.Sound)
	var aim words.Theme
	if o.Sense != "" {
		var list []words.Word
		for text := range strings.FieldsSeq(lower(o.Sense)) {
			if w := words.Find(text); w != words.None {
				list = append(list, w)
			}
		}
		aim = words.NewTheme(list)
	}
	var list []*weighed
	for _, c := range rhymesOf(last, reader, o.breadth()) {
		if o.Slot == "" || fills(c.sounds, o.Slot, c.after) {
			list = append(list, &weighed{candidate: c, score: plainScore(&c, &aim)})
		}
	}
	if o.Slot != "" && countEasy(list) < fewRhyme {
		list = append(list, phrasesFor(last, reader, o.Slot, &aim)...)
	}
	slices.SortFunc(list, better)
	limit := o.Limit
	if limit <= 0 {
		limit = usualLimit
	}
	items := make([]Item, 0, min(limit, len(list)))
	for _, w := range list[:min(limit, len(list))] {
		pattern := w.pattern()
		if o.Slot != "" {
			pattern = o.Slot
		}
		items = append(items, Item{
			Text: written(&w.candidate), Kind: w.kind, Pattern: pattern,
			Detail: detail(&w.candidate, word), Score: share(w.score),
		})
	}
	return items
}

// halfChime is what a rhyme costs whose syllable has not its word's main stress:
// "catalogue" for "frog". Ours.
const halfChime = 1

// plainScore is what speaks for a rhyme apart from any place.
func plainScore(c *candidate, aim *words.Theme) float64 {
	score := -0.3*c.word.Rarity() - 0.1*float64(c.word.Level()) + 0.1*c.word.Tagged() + c.word.Along(&verse) + 14*aim.Nearness(c.word)
	switch {
	case c.kind == rhyme.Near:
		score -= 30 + 10*c.distance
	case c.kind != rhyme.Perfect && c.kind != rhyme.Mosaic:
		score -= 15
	case c.rich:
		score--
	}
	if c.sounds.Stresses()[c.lead] != arpabet.Primary {
		score -= halfChime
	}
	return score - reserve(c.word, false)
}

// countEasy is how many perfect rhymes there are that readers know well.
func countEasy(list []*weighed) int {
	n := 0
	for i := range list {
		if w := list[i].word; list[i].kind == rhyme.Perfect && w.Level() <= knownLevel && w.Tagged() > 0 {
			n++
		}
	}
	return n
}

// phrasesFor are fills of several words for a slot that single ones leave open,
// best first: "on the shore" for "xx/".
func phrasesFor(last []rhyme.Word, reader *phonetics.Reader, slot string, aim *words.Theme) []*weighed {
	var list []*weighed
	for _, c := range rhymesOf(last, reader, perfectOnly) {
		if !closesPhrase(&c) {
			continue
		}
		choice := taste.Choice{Vector: c.word.Vector(), Parts: grammar.TagsOf(c.text), Main: c.word.Part()}
		best := weighed{score: math.Inf(-1)}
		for i := range heads {
			h := &heads[i]
			rest, ok := strings.CutPrefix(slot, strings.Repeat("x", h.slack))
			if !ok || h.closes&choice.Parts == 0 || !fills(c.sounds, rest, c.after) {
				continue
			}
			palate := taught.At(&h.place)
			if score := palate.Score(&choice) + plainScore(&c, aim) - phraseCost - h.cost; score > best.score {
				best = weighed{candidate: c, score: score}
				best.head, best.text = h, h.text+" "+c.text
			}
		}
		if best.head != nil {
			list = append(list, &best)
		}
	}
	slices.SortFunc(list, better)
	return list
}

// spoken are the words to rhyme with and how they sound.
func spoken(text string, reader *phonetics.Reader, sound arpabet.Sounds) []rhyme.Word {
	if sound != "" {
		return []rhyme.Word{{Text: text, Ways: []phonetics.Pronunciation{{Sounds: sound}}}}
	}
	list := strings.Fields(text)
	list = list[max(0, len(list)-3):]
	out := make([]rhyme.Word, len(list))
	for i, w := range list {
		var c phonetics.Context
		if i > 0 {
			c.Before = list[i-1]
		}
		out[i] = rhyme.Word{Text: w, Ways: reader.Pronounce(w, c)}
	}
	return out
}

// fills reports whether sounds can be said on a pattern, with the last beat on
// the syllable that rhymes: no beat falls beside a stress of the word, and no
// main stress falls in slack.
func fills(s arpabet.Sounds, pattern string, after int) bool {
	stresses := s.Stresses()
	if len(stresses) != len(pattern) || len(pattern)-1-after < 0 || pattern[len(pattern)-1-after] != '/' {
		return false
	}
	if len(stresses) == 1 {
		return pattern == "/"
	}
	for i, stress := range stresses {
		beat := pattern[i] == '/'
		switch {
		case stress == arpabet.Primary && !beat:
			return false
		case stress == arpabet.Unstressed && beat:
			if i > 0 && stresses[i-1] == arpabet.Primary || i+1 < len(stresses) && stresses[i+1] == arpabet.Primary {
				return false
			}
		}
	}
	return true
}

// pattern is the candidate's beats: its stresses, and a beat on the syllable
// that rhymes.
func (c *candidate) pattern() string {
	var b []byte
	if c.head != nil {
		b = append(b, strings.Repeat("x", c.head.slack)...)
	}
	for i, stress := range c.sounds.Stresses() {
		if stress != arpabet.Unstressed || i == c.lead {
			b = append(b, '/')
		} else {
			b = append(b, 'x')
		}
	}
	return string(b)
}

var kindWords = map[rhyme.Kind]string{
	rhyme.Perfect: "rhymes with", rhyme.Mosaic: "rhymes with", rhyme.Homophone: "sounds the same as",
	rhyme.Identical: "says again",
	rhyme.Light:     "light rhyme with", rhyme.Near: "near rhyme with",
}

// detail is a candidate's pattern and kind in a few words.
func detail(c *candidate, mate string) string {
	return fmt.Sprintf("%s · %s %s", c.pattern(), kindWords[c.kind], mate)
}

// Meaning is what a word means, in one line of Markdown; empty where that is
// not known. An ending is taken off where only the plain word is known.
func Meaning(text string) string {
	for _, form := range stems(lower(text)) {
		if w := words.Find(form); w != words.None {
			if s, ok := w.First(); ok {
				return fmt.Sprintf("**%s** *(%s)* %s", form, s.Part, s.Meaning)
			}
		}
	}
	return ""
}

// stems are the word and what it may be a regular form of: the rules of
// detachment of WordNet's own morphy(7).
func stems(text string) []string {
	list := []string{text}
	for _, rule := range [][2]string{
		{"ies", "y"},
		{"ches", "ch"},
		{"shes", "sh"},
		{"ses", "s"},
		{"xes", "x"},
		{"zes", "z"},
		{"s", ""},
		{"ied", "y"},
		{"ed", "e"},
		{"ed", ""},
		{"ing", "e"},
		{"ing", ""},
		{"er", "e"},
		{"er", ""},
		{"est", "e"},
		{"est", ""},
	} {
		if stem, ok := strings.CutSuffix(text, rule[0]); ok && len(stem) > 1 {
			list = append(list, stem+rule[1])
			if n := len(stem); rule[1] == "" && n > 2 && stem[n-1] == stem[n-2] {
				list = append(list, stem[:n-1]) // "running"
			}
		}
	}
	return list
}
