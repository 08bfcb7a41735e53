// Package pictures is what an editor of picture books reaches for where a word
// shows nothing: what can be seen of a kind of thing, what says an adjective more
// firmly than "very" does, and the phrases of place, time and manner that close a
// line. It knows words only: neither how they sound nor where they stand.
//
// The lists are ours; which nouns are of a kind is worked out from WordNet
// (Princeton) by the generator of package suggest.
package pictures

import (
	"compress/gzip"
	_ "embed"
	"io"
	"slices"
	"strings"
	"sync"
)

// sightsText lists kinds of things with what can be seen of them; it says itself how.
//
//go:embed sights.txt
var sightsText string

// firmerText lists adjectives with what says them more firmly.
//
//go:embed firmer.txt
var firmerText string

// kindsPacked has a noun and the name of its kind on each line: those that
// sights.txt does not name itself.
//
//go:embed kinds.gz
var kindsPacked string

// A Side is which way a word leans.
type Side int8

// The sides.
const (
	Blames  Side = -1
	Neither Side = 0
	Praises Side = 1
)

// A Sight is an adjective that shows something of a thing.
type Sight struct {
	Text string // a word, or a pair
	Side Side
	Next bool // a colour or a material, which stands next to the noun
}

// A Kind is a kind of things, and what can be seen of them.
type Kind struct {
	Name   string
	Nouns  []string // that it names itself
	Senses []string // of WordNet, as "garment:1", under which its other nouns stand
	Sights []Sight  // those that say most first
}

// feeling are the names of the kinds that feel and act of themselves, or show it.
var feeling = strings.Fields("person elder animal cat fleecy prickly bird fish insect monster fairy face eye")

// Feels reports whether a kind is of those that have feelings.
func (k *Kind) Feels() bool { return slices.Contains(feeling, k.Name) }

// Acts reports whether a kind is of those that do things: a face does none.
func (k *Kind) Acts() bool { return k.Feels() && k.Name != "face" && k.Name != "eye" }

// unseen are the names of the kinds that no eye can see.
var unseen = strings.Fields("sound smell song sigh silence feeling time gift question talk dream")

// Seen reports whether a kind is of those that have a shape and a colour.
func (k *Kind) Seen() bool { return !slices.Contains(unseen, k.Name) }

// Shows reports whether an adjective is one of the sights of a kind.
func (k *Kind) Shows(adjective string) bool {
	return slices.ContainsFunc(k.Sights, func(s Sight) bool { return s.Text == adjective })
}

// Kinds are all kinds, in their order.
func Kinds() []Kind { return kinds().list }

// Of is the kind of a noun in lower case; false where it is of none.
func Of(noun string) (*Kind, bool) {
	k, ok := kinds().of[noun]
	return k, ok
}

// IsNext reports whether an adjective is a colour or a material of some kind of thing.
func IsNext(adjective string) bool { return kinds().next[adjective] }

type kindTable struct {
	list []Kind
	of   map[string]*Kind
	next map[string]bool // the colours and materials
}

var kinds = sync.OnceValue(func() kindTable {
	t := kindTable{list: parseKinds(sightsText), of: map[string]*Kind{}, next: map[string]bool{}}
	named := map[string]*Kind{}
	for i := range t.list {
		k := &t.list[i]
		named[k.Name] = k
		for _, sight := range k.Sights {
			if sight.Next {
				t.next[sight.Text] = true
			}
		}
		for _, noun := range k.Nouns {
			if t.of[noun] == nil {
				t.of[noun] = k
			}
		}
	}
	for line := range strings.Lines(unpacked(kindsPacked)) {
		if noun, name, ok := strings.Cut(strings.TrimSpace(line), " "); ok && t.of[noun] == nil && named[name] != nil {
			t.of[noun] = named[name]
		}
	}
	return t
})

// parseKinds reads the text of kinds.
func parseKinds(text string) []Kind {
	var list []Kind
	for line := range strings.Lines(text) {
		switch line = strings.TrimSpace(line); {
		case line == "" || line[0] == '#':
		case line[0] == '[':
			name, things, _ := strings.Cut(line[1:], "]")
			k := Kind{Name: name}
			for thing := range strings.FieldsSeq(things) {
				if sense, ok := strings.CutPrefix(thing, "@"); ok {
					k.Senses = append(k.Senses, sense)
				} else {
					k.Nouns = append(k.Nouns, thing)
				}
			}
			list = append(list, k)
		case len(list) > 0:
			k := &list[len(list)-1]
			for item := range strings.FieldsSeq(line) {
				k.Sights = append(k.Sights, sightOf(item))
			}
		}
	}
	return list
}

// sightOf reads one adjective with its marks.
func sightOf(item string) Sight {
	s := Sight{}
	switch item[0] {
	case '-':
		s.Side, item = Blames, item[1:]
	case '+':
		s.Side, item = Praises, item[1:]
	}
	s.Text, s.Next = strings.CutSuffix(item, "=")
	s.Text = strings.ReplaceAll(s.Text, "_", " ")
	return s
}

// A Firmer is what does for an adjective with "very" before it.
type Firmer struct {
	Alone   []string // by themselves: "icy" for "very cold"
	Beside  []string // joined to it by "and": "damp", for "cold and damp"
	Before  []string // in the place of "very"; with a hyphen one word with it: "stone-"
	Bearing []string // before what hangs on it: "a joy", for "nice to see"
	Felt    bool     // by a living thing, as what stands beside it is then
}

// Known reports whether the lists have a word as an adjective, as they have "tossed".
func Known(adjective string) bool { _, ok := firmers()[adjective]; return ok }

// Firm is what does for an adjective in lower case; empty where nothing is known.
func Firm(adjective string) Firmer { return firmers()[adjective] }

var firmers = sync.OnceValue(func() map[string]Firmer {
	list := map[string]Firmer{}
	for line := range strings.Lines(firmerText) {
		adjective, rest, ok := strings.Cut(strings.TrimSpace(line), ":")
		if !ok || adjective[0] == '#' {
			continue
		}
		adjective, felt := strings.CutPrefix(adjective, "*")
		rest, bearing, _ := strings.Cut(rest, "~")
		rest, before, _ := strings.Cut(rest, "<")
		alone, beside, _ := strings.Cut(rest, "&")
		list[adjective] = Firmer{phrases(alone), strings.Fields(beside), strings.Fields(before), phrases(bearing), felt}
	}
	return list
})

// phrases are the items of a list; an underline stands between the words of one.
func phrases(text string) []string {
	list := strings.Fields(text)
	for i := range list {
		list[i] = strings.ReplaceAll(list[i], "_", " ")
	}
	return list
}

// unpacked is the text of a table, which the generator packed with gzip.
func unpacked(table string) string {
	r, err := gzip.NewReader(strings.NewReader(table))
	if err != nil {
		panic("pictures: " + err.Error()) // a table of ours that is broken
	}
	text, err := io.ReadAll(r)
	if err != nil {
		panic("pictures: " + err.Error())
	}
	return string(text)
}

// A Closing is a phrase that can close a sentence of a tale.
type Closing struct {
	Lead string // what stands before its last word: "by the"
	Last string // its last word: "door"
}

// closingsText lists phrases that close a line; it says itself how.
//
//go:embed closings.txt
var closingsText string

// Closings are all of them, in their order.
var Closings = sync.OnceValue(func() []Closing {
	var list []Closing
	for line := range strings.Lines(closingsText) {
		if strings.TrimSpace(line) == "" || strings.ContainsRune("#^~%", rune(line[0])) {
			continue
		}
		if whole, ok := strings.CutPrefix(line, "="); ok {
			for phrase := range strings.FieldsSeq(whole) {
				at := strings.LastIndexByte(phrase, '_') + 1
				list = append(list, Closing{strings.ReplaceAll(phrase[:at], "_", " "), phrase[at:]})
			}
			continue
		}
		lead, lasts, _ := strings.Cut(line, ":")
		for last := range strings.FieldsSeq(lasts) {
			list = append(list, Closing{lead + " ", last})
		}
	}
	return list
})

// Openings are words that open a sentence which tells what happens.
var Openings = sync.OnceValue(func() []string { return marked("^") })

// Settings are words that open a sentence which tells how things are.
var Settings = sync.OnceValue(func() []string { return marked("~") })

// Lasting are words that say how long or how often something is done.
var Lasting = sync.OnceValue(func() []string { return marked("%") })

// marked are the phrases of the line of closings.txt that begins with a sign.
func marked(sign string) []string {
	_, rest, _ := strings.Cut(closingsText, "\n"+sign)
	line, _, _ := strings.Cut(rest, "\n")
	return phrases(line)
}

// mannerText lists verbs that say how by themselves; it says itself how.
//
//go:embed manner.txt
var mannerText string

// Manners are verbs that say what a plain verb says with an adverb, both in lower
// case and the verb in its base form; none where none is known.
func Manners(verb, adverb string) []string { return manners()[verb+" "+adverb] }

var manners = sync.OnceValue(func() map[string][]string {
	list := map[string][]string{}
	for line := range strings.Lines(mannerText) {
		plain, says, ok := strings.Cut(line, ":")
		if !ok || line[0] == '#' {
			continue
		}
		verbs, adverbs, _ := strings.Cut(plain, "/")
		for verb := range strings.FieldsSeq(verbs) {
			for adverb := range strings.FieldsSeq(adverbs) {
				list[verb+" "+adverb] = strings.Fields(says)
			}
		}
	}
	return list
})
