// Package graphone reads a word's letters from one end to the other and says,
// letter by letter, which sounds each of them stands for. It knows the letters,
// the features that it looks at, and the packed weights of a trained model; it
// learns nothing itself, and knows no words but those that its caller's
// dictionary shows it.
//
// A graphone is a letter with the sounds it stands for in a word: none, one or
// two. The joint-sequence models of Bisani and Ney ("Joint-sequence models for
// grapheme-to-phoneme conversion", Speech Communication 50, 2008) are n-gram
// models over graphones. This one is log-linear: it scores a letter's graphones
// by n-grams too, and by the letters ahead and the syllables so far.
package graphone

import "dandle/phonetics/arpabet"

// A Letter is a character of a spelling.
type Letter uint8

// The letters: a to z are 1 to 26.
const (
	Edge       Letter = 0 // before the first letter and after the last
	Apostrophe Letter = 27
	Hyphen     Letter = 28
	Point      Letter = 29

	LetterCount = 30
)

const (
	letterBits = 5
	vowelSet   = 1<<1 | 1<<5 | 1<<9 | 1<<15 | 1<<21 | 1<<25 // a e i o u y
)

func (l Letter) isVowel() bool { return vowelSet>>l&1 == 1 }

// latin folds U+00C0 to U+017F to the letters under their marks; a point
// stands for what has none.
const latin = "aaaaaaaceeeeiiiidnooooo.ouuuuytsaaaaaaaceeeeiiiidnooooo.ouuuuyty" +
	"aaaaaaccccccccddddeeeeeeeeeegggggggghhhhiiiiiiiiiiiijjkkklllllll" +
	"lllnnnnnnnnnoooooooorrrrrrssssssssttttttuuuuuuuuuuuuwwyyyzzzzzzs"

// Letters are the letters of a word: case and accents are dropped, and so is
// every character that stands for no sound, so that any bytes will do.
func Letters(word string) []Letter {
	letters := make([]Letter, 0, len(word))
	for _, r := range word {
		if 0xc0 <= r && r <= 0x17f {
			r = rune(latin[r-0xc0])
		}
		switch {
		case 'a' <= r && r <= 'z':
			letters = append(letters, Letter(r-'a'+1))
		case 'A' <= r && r <= 'Z':
			letters = append(letters, Letter(r-'A'+1))
		case r == '\'' || r == '’':
			letters = append(letters, Apostrophe)
		case r == '-' || r == '‐':
			letters = append(letters, Hyphen)
		case r == '.':
			letters = append(letters, Point)
		}
	}
	return letters
}

// An Inventory lists for each letter the sounds it may stand for. A graphone
// is a letter and a place in its list.
type Inventory [LetterCount][]arpabet.Sounds

// MaxOutputs bounds the length of a letter's list, for it is the number that
// fits an entry of the packed weights.
const MaxOutputs = 32

// Reversed is the inventory of the words read backwards.
func (inv *Inventory) Reversed() *Inventory {
	var r Inventory
	for l, list := range inv {
		for _, s := range list {
			r[l] = append(r[l], arpabet.Sounds(reversed([]byte(s))))
		}
	}
	return &r
}

func reversed[E any](list []E) []E {
	r := make([]E, len(list))
	for i, e := range list {
		r[len(list)-1-i] = e
	}
	return r
}
