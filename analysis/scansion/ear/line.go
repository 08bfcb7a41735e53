package ear

import (
	"slices"
	"strings"

	"dandle/analysis/manuscript"
	"dandle/phonetics"
	"dandle/phonetics/arpabet"
)

// maxSyllableFeatures bounds the features of one syllable.
const maxSyllableFeatures = 16

// A syllable is one syllable of one way to say a word, as features.
type syllable struct {
	list  [maxSyllableFeatures]int16 // feature indexes, shared by all families
	count int8
	// Families see these three through weights of their own.
	kind       kind
	strength   strength
	start, end int8 // place from the line's start and end, bounded
	before     manuscript.Break
	closed     bool // one of the closed list
}

func (s *syllable) add(feature int) {
	s.list[s.count] = int16(feature)
	s.count++
}

// heavy reports whether speech stresses the syllable: it is the main one of a
// noun, a verb, an adjective, a numeral, or an adverb of the open class.
func (s *syllable) heavy() bool {
	return s.strength == strong || (s.kind == number || s.kind == adverb) && !s.closed
}

// light reports whether speech passes over the syllable: it is unstressed, or
// a small word of a closed class.
func (s *syllable) light() bool { return s.strength <= weak || s.closed }

// A way is one way to say a word of the line.
type way struct {
	syllables []syllable
	cost      float32
	index     int // in the word's Ways
}

// A Line is a line made ready to be read: its words' ways as features.
type Line struct {
	words     [][]way
	wordIndex []int // for each of words, its index among the line's words
	all       int   // the line's words, the silent ones too
}

// NewLine makes words ready. Words with no sound are passed over. The second
// result is false where the line is too long to be verse.
func NewLine(words []Word) (Line, bool) {
	l := Line{all: len(words)}
	total, size, count := 0, 0, 0
	l.wordIndex = make([]int, 0, len(words))
	for i := range words {
		if usual := usualWay(&words[i]); usual != nil {
			total += len(usual.Syllables)
			l.wordIndex = append(l.wordIndex, i)
			count += min(len(words[i].Ways), maxWays)
			for k := range words[i].Ways {
				size += len(words[i].Ways[k].Syllables)
			}
		}
	}
	if total == 0 || total > MaxSyllables {
		return Line{}, false
	}
	var near [MaxSyllables]shape // each word that is heard has a syllable
	shapes := near[:len(l.wordIndex)]
	for k, i := range l.wordIndex {
		shapes[k] = newShape(&words[i])
	}
	before := manuscript.NoBreak
	// One piece of memory costs less than one for each way.
	room := lineRoom{make([]syllable, size), make([]way, count)}
	l.words = make([][]way, 0, len(l.wordIndex))
	for k, i := range l.wordIndex {
		var previous, next *shape
		if k > 0 {
			previous = &shapes[k-1]
		}
		if k+1 < len(shapes) {
			next = &shapes[k+1]
		}
		l.words = append(l.words, makeWays(&words[i], &shapes[k], previous, next, before, k, len(shapes), &room))
		before = words[i].Break
	}
	return l, true
}

// A lineRoom is the room that is left for a line's ways and their syllables.
type lineRoom struct {
	syllables []syllable
	ways      []way
}

// usualWay is the most usual way to say a word that has a syllable at all; nil
// where there is none. A word such as "th'" may have lost its only vowel.
func usualWay(w *Word) *phonetics.Pronunciation {
	for i := range w.Ways {
		if len(w.Ways[i].Syllables) > 0 {
			return &w.Ways[i]
		}
	}
	return nil
}

// A shape is what a word's neighbours see of it, by its most usual way.
type shape struct {
	lower       string
	first, last kind
	mono        kind // where one way or another has a single syllable
}

func newShape(w *Word) shape {
	s := shape{lower: strings.ReplaceAll(strings.ToLower(w.Text), "’", "'")}
	for i := range w.Ways {
		if len(w.Ways[i].Syllables) == 1 {
			s.mono = monoKind(s.lower, w.Tag)
			break
		}
	}
	first := usualWay(w)
	s.first = s.kindOf(w, first, 0)
	s.last = s.kindOf(w, first, len(first.Syllables)-1)
	return s
}

// kindOf is the kind of a syllable of one way to say the word.
func (s *shape) kindOf(w *Word, p *phonetics.Pronunciation, place int) kind {
	if len(p.Syllables) == 1 {
		return s.mono
	}
	return longKind(p.Syllables[place].Stress, place, len(p.Syllables), isFunction(w.Tag))
}

func makeWays(w *Word, self, previous, next *shape, before manuscript.Break, at, of int, room *lineRoom) []way {
	most := min(len(w.Ways), maxWays)
	ways := room.ways[:0:most]
	room.ways = room.ways[most:]
	for i := range w.Ways {
		if len(ways) == maxWays {
			break
		}
		p := &w.Ways[i]
		n := len(p.Syllables)
		ready := way{syllables: room.syllables[:n:n], cost: p.Cost, index: i}
		room.syllables = room.syllables[n:]
		for place := range n {
			s := &ready.syllables[place]
			s.kind = self.kindOf(w, p, place)
			s.strength = s.kind.strength()
			s.start = int8(min(places-1, at+place))
			s.end = int8(min(places-1, of-1-at+n-1-place))
			foreKind, afterKind := kind(kinds), kind(kinds)
			after := manuscript.NoBreak
			switch {
			case place > 0:
				foreKind = self.kindOf(w, p, place-1)
			case previous != nil:
				foreKind = previous.last
			}
			switch {
			case place < n-1:
				afterKind = self.kindOf(w, p, place+1)
			case next != nil:
				afterKind = next.first
			}
			if place == 0 {
				s.before = before
			}
			if place == n-1 {
				after = w.Break
			}
			s.fill(foreKind, afterKind, after)
			if n > 1 && s.kind >= monoKinds && p.Syllables[place].Stress == arpabet.Unstressed {
				where := 1
				switch place {
				case 0:
					where = 0
				case n - 1:
					where = 2
				}
				s.add(atVowel + 3*fullness(p.Sounds.At(p.Syllables[place].Nucleus).Phone()) + where)
			}
			if n > 1 && place == 0 {
				if c, ok := closedLongIndex[self.lower]; ok {
					s.add(atLongWord + int(c))
				}
			}
			if n > 1 && p.Syllables[place].Stress == arpabet.Unstressed {
				class := atWrench
				if isFunction(w.Tag) {
					class += 2
				}
				switch {
				case place+1 < n && p.Syllables[place+1].Stress == arpabet.Primary:
					s.add(class)
				case place > 0 && p.Syllables[place-1].Stress == arpabet.Primary:
					s.add(class + 1)
				}
			}
			main := n == 1 || p.Syllables[place].Stress == arpabet.Primary
			if w.Emphasis && main {
				s.add(atEmphasis)
			}
			if w.Shouted && main {
				s.add(atShouted)
			}
			if n == 1 {
				if c, ok := closedIndex[self.lower]; ok {
					s.add(atWord + int(c))
					s.closed = true
				}
			}
		}
		if !slices.ContainsFunc(ways, func(w way) bool { return slices.Equal(w.syllables, ready.syllables) }) {
			ways = append(ways, ready) // a way that sounds otherwise but sits alike adds nothing
		}
	}
	return ways
}

func (s *syllable) fill(fore, after kind, breakAfter manuscript.Break) {
	near := func(k kind) int {
		if int(k) == kinds {
			return int(edge)
		}
		return int(k.strength())
	}
	s.add(atKind + int(s.kind))
	s.add(atTriple + (near(fore)*strengths+int(s.strength))*nearStrengths + near(after))
	s.add(atBreakAfter + int(breakAfter)*strengths + int(s.strength))
	s.add(atBreakFore + int(s.before)*strengths + int(s.strength))
	if s.kind < monoKinds {
		s.add(atNext + int(s.kind)*(kinds+1) + int(after))
		s.add(atPrevious + int(s.kind)*(kinds+1) + int(fore))
	}
}

// familyFeatures are the features that each family weighs for itself.
func (s *syllable) familyFeatures(f family) [3]int {
	return [3]int{
		atFamily + int(f)*kinds + int(s.kind),
		atStart + (int(f)*places+int(s.start))*strengths + int(s.strength),
		atEnd + (int(f)*places+int(s.end))*strengths + int(s.strength),
	}
}
