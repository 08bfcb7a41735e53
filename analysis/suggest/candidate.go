package suggest

import (
	"iter"
	"slices"

	"dandle/analysis/rhyme"
	"dandle/analysis/suggest/words"
	"dandle/phonetics"
	"dandle/phonetics/arpabet"
)

// A candidate is a word that rhymes, before anybody asks how well it fits.
type candidate struct {
	word     words.Word
	text     string
	sounds   arpabet.Sounds
	kind     rhyme.Kind
	distance float64 // of a near rhyme: see rhyme.Match
	rich     bool    // the consonants before the rhyming vowel agree too
	alike    bool    // spelled alike from the rhyming vowel on
	lead     int     // syllables before the rhyming one
	after    int     // syllables after it
	head     *head   // what stands before the word, where the candidate is a phrase
}

// A breadth says how near a rhyme must be.
type breadth uint8

const (
	perfectOnly breadth = iota
	lightToo            // on a weak last syllable too
	nearToo             // and near ones: there are many
)

// rhymesOf gathers the words that rhyme with a line's last words, in the accent
// that they are said in.
func rhymesOf(last []rhyme.Word, reader *phonetics.Reader, how breadth) []candidate {
	if len(last) == 0 {
		return nil
	}
	end := rhyme.NewEnd(last)
	g := gathering{word: end.Word(), side: sideOf(reader), place: map[words.Word]int{}}
	for _, t := range tailsOf(last, how) {
		for e := range t.answers(reader, how) {
			g.add(&t, &e)
		}
	}
	return g.list
}

// sideOf is the side of the ocean that a reader's dialect is spoken on.
func sideOf(reader *phonetics.Reader) words.Side {
	if reader.Dialect() == phonetics.EnGB {
		return words.British
	}
	return words.American
}

// A gathering is the candidates found so far.
type gathering struct {
	word  string             // which they rhyme with
	side  words.Side         // on which they are to be written
	place map[words.Word]int // in list
	list  []candidate
}

// add takes in a word whose sounds have the tail at a place, if it rhymes and
// may be offered.
func (g *gathering) add(t *tail, e *phonetics.Ending) {
	text, sounds, at := e.Word, e.Sounds, e.At
	kind := t.kindOf(e)
	if kind == rhyme.NoRhyme || text == g.word {
		return
	}
	w := words.Find(text)
	if w == words.None || w.Fitness() == words.Unfit || !g.side.Writes(w) || !kind.IsFull() && w.Level() > knownLevel {
		return // of light and near rhymes there are thousands: the rare ones help nobody
	}
	c := candidate{
		word: w, text: w.String(), sounds: sounds, kind: kind, distance: t.distance,
		rich: onset(sounds, at) == t.onset, alike: rhyme.LookAlike(g.word, text),
		after: t.sounds.SyllableCount() - 1, lead: sounds[:at].SyllableCount(),
	}
	if sounds == t.whole {
		c.kind = rhyme.Homophone
	}
	place, seen := g.place[w]
	switch {
	case !seen:
		g.place[w] = len(g.list)
		g.list = append(g.list, c)
	case c.kind < g.list[place].kind || c.kind == g.list[place].kind && c.distance < g.list[place].distance:
		g.list[place] = c
	}
}

// repeated is the last word itself, for a line that is said again.
func repeated(last []rhyme.Word) (candidate, bool) {
	if len(last) == 0 || len(last[len(last)-1].Ways) == 0 {
		return candidate{}, false
	}
	said := last[len(last)-1]
	w, sounds := words.Find(lower(said.Text)), said.Ways[0].Sounds
	vowels := rhymingVowels(sounds)
	if w == words.None || w.Fitness() == words.Unfit || len(vowels) == 0 {
		return candidate{}, false
	}
	at := vowels[0]
	return candidate{
		word: w, text: w.String(), sounds: sounds, kind: rhyme.Identical, rich: true, alike: true,
		after: sounds[at:].SyllableCount() - 1, lead: sounds[:at].SyllableCount(),
	}, true
}

// A tail is an end of sound that rhymes begin at: from a vowel on.
type tail struct {
	sounds   arpabet.Sounds
	onset    arpabet.Sounds // the consonants before it
	whole    arpabet.Sounds // the word's sounds
	strong   bool           // the vowel is stressed, not only lifted
	mosaic   bool           // over two words
	distance float64        // from the end that it answers; 0 for the end itself
}

// answers yields the words that may rhyme with the tail. On a weak syllable only
// light rhymes answer, and a near rhyme is too far off to be light as well.
func (t *tail) answers(reader *phonetics.Reader, how breadth) iter.Seq[phonetics.Ending] {
	switch {
	case t.distance == 0 && how != perfectOnly:
		return reader.EndingIn(t.sounds)
	case t.strong:
		return slices.Values(reader.Rhyming(t.sounds))
	}
	return slices.Values[[]phonetics.Ending](nil)
}

// kindOf is how a word with the tail at a place answers it.
func (t *tail) kindOf(e *phonetics.Ending) rhyme.Kind {
	strong := e.Stressed()
	if !strong && !liftable(e.Sounds, e.At) {
		return rhyme.NoRhyme
	}
	switch {
	case t.distance > 0:
		if strong && t.strong {
			return rhyme.Near
		}
		return rhyme.NoRhyme
	case strong && t.strong && t.mosaic:
		return rhyme.Mosaic
	case strong && t.strong:
		return rhyme.Perfect
	case t.sounds.SyllableCount() == 1:
		return rhyme.Light
	}
	return rhyme.NoRhyme
}

// tailsOf lists the tails that a rhyme may have: from each stressed vowel of
// each way to say the last word, and from a last weak vowel that the meter may
// lift.
func tailsOf(last []rhyme.Word, how breadth) []tail {
	var list []tail
	add := func(t tail) {
		for i := range list {
			if list[i].sounds == t.sounds && list[i].strong == t.strong {
				return
			}
		}
		list = append(list, t)
	}
	for i, way := range last[len(last)-1].Ways {
		if i == 4 { // rarer ways than these only crowd the list
			break
		}
		s := way.Sounds
		single := s.SyllableCount() == 1
		for _, at := range rhymingVowels(s) {
			for _, sounds := range spellings(s[at:]) {
				add(tail{
					sounds: sounds, onset: onset(s, at), whole: s,
					strong: single || s.At(at).Stress() != arpabet.Unstressed,
				})
			}
		}
		if single && len(last) > 1 && len(last[len(last)-2].Ways) > 0 {
			before := last[len(last)-2].Ways[0].Sounds
			if v := rhymingVowels(before); len(v) > 0 {
				add(tail{sounds: before[v[0]:] + s, onset: onset(before, v[0]), strong: true, mosaic: true}) // "know it" for "poet"
			}
		}
	}
	if how == nearToo {
		for _, t := range list[:len(list):len(list)] {
			if t.strong && !t.mosaic {
				for _, n := range nearTails(t) {
					add(n)
				}
			}
		}
	}
	return list
}

// onset is the run of consonants before the vowel at a place.
func onset(s arpabet.Sounds, at int) arpabet.Sounds {
	from := at
	for from > 0 && !s.At(from-1).IsVowel() {
		from--
	}
	return s[from:at]
}

// rhymingVowels are the places of the vowels that a rhyme may begin at, the
// last first: stressed ones, and a last one that the meter may lift.
func rhymingVowels(s arpabet.Sounds) []int {
	var list []int
	syllables := 0
	for i := len(s) - 1; i >= 0; i-- {
		if !s.At(i).IsVowel() {
			continue
		}
		syllables++
		if s.At(i).Stress() != arpabet.Unstressed {
			list = append(list, i)
		} else if syllables == 1 && liftable(s, i) {
			list = append(list, i)
		}
	}
	return list
}

// liftable reports whether the weak last vowel at i may bear a beat: it is the
// only one, or another weak one stands before it.
func liftable(s arpabet.Sounds, i int) bool {
	for i--; i >= 0; i-- {
		if s.At(i).IsVowel() {
			return s.At(i).Stress() == arpabet.Unstressed
		}
	}
	return true
}

// spellings are the ways that the dictionary writes an end that sounds alike:
// "fire" has a weak "er" or a bare r.
func spellings(t arpabet.Sounds) []arpabet.Sounds {
	list := []arpabet.Sounds{t}
	const er = arpabet.Sound(arpabet.ER)
	for i := 1; i < len(t); i++ {
		if !t.At(i - 1).IsVowel() {
			continue
		}
		switch t.At(i) {
		case er:
			list = append(list, t[:i]+arpabet.Sounds([]byte{byte(arpabet.R)})+t[i+1:])
		case arpabet.Sound(arpabet.R):
			list = append(list, t[:i]+arpabet.Sounds([]byte{byte(er)})+t[i+1:])
		}
	}
	return list
}

// nearTails are the ends one step from an end: a consonant exchanged for one
// like it, or one of the light last sounds added or dropped.
func nearTails(t tail) []tail {
	const (
		step  = 0.36 // one feature off: see rhyme.PhoneDistance
		light = 0.45 // a last t, d, s or z more or less
	)
	var list []tail
	s := t.sounds
	for i := 1; i < len(s); i++ {
		p := s.At(i).Phone()
		if p.IsVowel() {
			continue
		}
		for q := arpabet.B; q <= arpabet.ZH; q++ {
			if d := rhyme.PhoneDistance(p, q); q != p && d <= step {
				n := t
				n.sounds, n.distance = s[:i]+arpabet.Sounds([]byte{byte(q)})+s[i+1:], d
				list = append(list, n)
			}
		}
	}
	for _, p := range []arpabet.Phone{arpabet.S, arpabet.Z, arpabet.T, arpabet.D} {
		n := t
		n.sounds, n.distance = s+arpabet.Sounds([]byte{byte(p)}), light
		list = append(list, n)
		if len(s) > 2 && s.At(len(s)-1).Phone() == p {
			n.sounds = s[:len(s)-1]
			list = append(list, n)
		}
	}
	return list
}
