package suggest

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"dandle/analysis/rhyme"
	"dandle/analysis/suggest/words"
	"dandle/phonetics"
	"dandle/phonetics/arpabet"
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
	return perfectOnly
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
	var list []weighed
	for _, c := range rhymesOf(last, reader, o.breadth()) {
		if o.Slot != "" && !fills(c.sounds, o.Slot, c.after) {
			continue
		}
		w := weighed{candidate: c}
		w.score = -0.3*c.word.Rarity() - 0.1*float64(c.word.Level()) + 0.1*c.word.Tagged() + 8*aim.Nearness(c.word)
		switch {
		case c.kind == rhyme.Near:
			w.score -= 30 + 10*c.distance
		case c.kind != rhyme.Perfect && c.kind != rhyme.Mosaic:
			w.score -= 15
		case c.rich:
			w.score -= 1
		}
		if c.word.Fitness() == words.Doubtful {
			w.score -= 2
		}
		list = append(list, w)
	}
	slices.SortFunc(list, func(a, b weighed) int {
		return cmp.Or(cmp.Compare(b.score, a.score), strings.Compare(a.text, b.text))
	})
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
	stresses := c.sounds.Stresses()
	b := make([]byte, len(stresses))
	for i, stress := range stresses {
		b[i] = 'x'
		if stress != arpabet.Unstressed || i == c.lead {
			b[i] = '/'
		}
	}
	return string(b)
}

var kindWords = map[rhyme.Kind]string{
	rhyme.Perfect: "rhymes with", rhyme.Mosaic: "rhymes with", rhyme.Homophone: "sounds the same as",
	rhyme.Light: "light rhyme with", rhyme.Near: "near rhyme with",
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
