package rhyme

import (
	"strings"

	"dandle/phonetics"
	"dandle/phonetics/arpabet"
)

// A Word is a word near the end of a line, with every way to say it.
type Word struct {
	Text string
	Ways []phonetics.Pronunciation
}

// An End is the end of a line as the ear may hear it. It never changes once
// made.
type End struct {
	word  string // the last word in lower case, letters and inner marks only
	tails []tail
	words []Word // what it was made of
}

// Word is the last word, in lower case; empty where the line has none.
func (e *End) Word() string { return e.word }

// The most that one end holds: a rhyme of four syllables is a feat, and a
// line end with more than a dozen ways to say it is none the clearer.
const (
	tailSyllables = 4
	tailWays      = 12
	tailWords     = 3
)

// NewEnd makes an end of a line's last words, in the order of the line; three
// are enough.
func NewEnd(words []Word) End {
	if len(words) == 0 {
		return End{}
	}
	last := words[len(words)-1]
	e := End{word: plain(last.Text)}
	if len(words) > tailWords {
		words = words[len(words)-tailWords:]
	}
	e.words = words
	before := words[:len(words)-1]
	for _, way := range last.Ways {
		if len(e.tails) == tailWays {
			break
		}
		if len(way.Sounds) == 0 {
			continue
		}
		e.tails = append(e.tails, newTail(way, before))
	}
	return e
}

// plain is a word in lower case, typographic apostrophes made straight and
// marks at its ends cut off.
func plain(text string) string {
	text = strings.ToLower(strings.ReplaceAll(text, "’", "'"))
	return strings.Trim(text, "'-")
}

// A tail is one way to say a line's end: its last few syllables, over the
// bounds of words.
type tail struct {
	sounds arpabet.Sounds      // from some consonants before the first vowel kept
	vowels [tailSyllables]int8 // places of the vowels in sounds, the last first; -1 none
	weight [tailSyllables]weight
	n      int8           // syllables kept
	own    int8           // syllables of the last word
	start  int8           // where the last word's sounds begin
	whole  arpabet.Sounds // the last word's sounds
	cost   float32
}

// A weight is how much a syllable can bear.
type weight uint8

const (
	weak     weight = iota // unstressed, beside a stress of its own word
	liftable               // unstressed, but the meter may lift it: "melo-DY"
	strong                 // stressed
)

func newTail(way phonetics.Pronunciation, before []Word) tail {
	t := tail{whole: way.Sounds, cost: way.Cost}
	own := smooth(way.Sounds)
	t.own = int8(min(own.SyllableCount(), 100))
	// The words before come in as they are most usually said.
	parts := []arpabet.Sounds{own}
	syllables := int(t.own)
	for i := len(before) - 1; i >= 0 && syllables < tailSyllables; i-- {
		if len(before[i].Ways) == 0 {
			break
		}
		s := smooth(before[i].Ways[0].Sounds)
		parts = append(parts, s)
		syllables += s.SyllableCount()
	}
	var b strings.Builder
	for i := len(parts) - 1; i >= 0; i-- {
		if i == 0 {
			t.start = int8(min(b.Len(), 127))
		}
		b.WriteString(string(parts[i]))
	}
	all := arpabet.Sounds(b.String())
	if cut := len(all) - 100; cut > 0 {
		all = all[cut:]
		t.start = int8(max(0, int(t.start)-cut))
	}
	t.sounds = all
	for i := range t.vowels {
		t.vowels[i] = -1
	}
	for i := len(all) - 1; i >= 0 && t.n < tailSyllables; i-- {
		if all.At(i).IsVowel() {
			t.vowels[t.n] = int8(i)
			t.n++
		}
	}
	for k := range t.n {
		t.weight[k] = t.weigh(int(k))
	}
	return t
}

// weigh tells what syllable k from the end can bear. A word of one syllable
// can bear a beat whatever the dictionary says of it.
func (t *tail) weigh(k int) weight {
	v := t.sounds.At(int(t.vowels[k]))
	if v.Stress() != arpabet.Unstressed || k == 0 && t.own == 1 {
		return strong
	}
	before := k+1 < int(t.n) && t.sounds.At(int(t.vowels[k+1])).Stress() == arpabet.Primary
	after := k > 0 && t.sounds.At(int(t.vowels[k-1])).Stress() == arpabet.Primary
	if k+1 < int(t.own) && before || after {
		return weak
	}
	return liftable
}

// smooth spells out the r in every "er", so that "were" and "bear" have it in
// common; gives "near" and "hear" one vowel, which the dictionary writes now
// one way and now the other before an r; and makes one sound of a vowel and the weak "er" after it, so that
// "fire" is the same whether the dictionary gives it one syllable or two, and
// rhymes with "higher".
func smooth(s arpabet.Sounds) arpabet.Sounds {
	b := make([]byte, 0, len(s)+2)
	for i := range len(s) {
		switch x := s.At(i); {
		case x == er && i > 0 && s.At(i-1).IsVowel():
			b = append(b, byte(arpabet.R))
		case x.Phone() == arpabet.ER:
			b = append(b, byte(x), byte(arpabet.R))
		case i+1 < len(s) && s.At(i+1).Phone() == arpabet.R && x.Phone() == arpabet.IY:
			b = append(b, byte(arpabet.Make(arpabet.IH, x.Stress())))
		case i+1 < len(s) && s.At(i+1).Phone() == arpabet.R && x.Phone() == arpabet.UW:
			b = append(b, byte(arpabet.Make(arpabet.UH, x.Stress())))
		default:
			b = append(b, byte(x))
		}
	}
	return arpabet.Sounds(b)
}

const er = arpabet.Sound(arpabet.ER) // unstressed

// stressAt is the number of syllables after the last strong one, or -1.
func (t *tail) stressAt() int {
	for k := range int(t.n) {
		if t.weight[k] == strong {
			return k
		}
	}
	return -1
}

// onset is the run of consonants before vowel k.
func (t *tail) onset(k int) arpabet.Sounds {
	end := int(t.vowels[k])
	i := end
	for i > 0 && !t.sounds.At(i-1).IsVowel() {
		i--
	}
	return t.sounds[i:end]
}

// coda is the run of consonants after vowel k, up to the next vowel.
func (t *tail) coda(k int) arpabet.Sounds {
	end := len(t.sounds)
	if k > 0 {
		end = int(t.vowels[k-1])
	}
	return t.sounds[t.vowels[k]+1 : end]
}
