package graphone

import "dandle/phonetics/arpabet"

// A Key names a feature by a hash of all it holds. 0 is no feature.
type Key uint64

func mix(a, b, template uint64) Key {
	h := a*0x9e3779b97f4a7c15 ^ b*0xc2b2ae3d27d4eb4f ^ (template+1)*0x165667b19e3779f9
	h ^= h >> 29
	h *= 0xbf58476d1ce4e5b9
	h ^= h >> 32
	return Key(h | 1)
}

// The reach of the windows of letters. Each window holds the letter itself.
const (
	maxLeft   = 5
	maxRight  = 5
	maxWindow = 6
	endings   = 5
)

// A Word is a spelling made ready for its features.
type Word struct {
	letters []Letter
	groups  []uint8         // the number of runs of vowel letters that begin at or before the letter
	ending  [endings]uint64 // the last one, two, … letters
}

// NewWord prepares a spelling.
func NewWord(letters []Letter) *Word {
	w := &Word{letters: letters, groups: make([]uint8, len(letters))}
	n := uint8(0)
	for i, l := range letters {
		if l.isVowel() && (i == 0 || !letters[i-1].isVowel()) && n < 15 {
			n++
		}
		w.groups[i] = n
	}
	for k := range endings {
		for i := max(0, len(letters)-1-k); i < len(letters); i++ {
			w.ending[k] = w.ending[k]<<letterBits | uint64(letters[i])
		}
	}
	return w
}

// Len is the number of letters.
func (w *Word) Len() int { return len(w.letters) }

func (w *Word) at(i int) Letter {
	if i < 0 || i >= len(w.letters) {
		return Edge
	}
	return w.letters[i]
}

// LetterFeatures appends the keys of what letter i sees of the spelling
// alone. Their number and order are the same for every letter.
func (w *Word) LetterFeatures(keys []Key, i int) []Key {
	n := len(w.letters)
	var left, right [8]uint64
	for a := 1; a <= maxLeft; a++ {
		left[a] = left[a-1]<<letterBits | uint64(w.at(i-a)) + 1
	}
	right[0] = uint64(w.letters[i]) + 1
	for b := 1; b <= maxRight; b++ {
		right[b] = right[b-1]<<letterBits | uint64(w.at(i+b)) + 1
	}
	for a := 0; a <= maxLeft; a++ {
		for b := 0; b <= maxRight && a+b < maxWindow; b++ {
			if i-a < -1 || i+b > n {
				keys = append(keys, 0) // the word is shorter than the window
				continue
			}
			keys = append(keys, mix(left[a], right[b], uint64(a*8+b)))
		}
	}

	var shape uint64 // vowel letters around the letter
	for d := -4; d <= 7; d++ {
		shape <<= 2
		switch l := w.at(i + d); {
		case l == Edge:
		case l.isVowel():
			shape |= 1
		default:
			shape |= 2
		}
	}
	l := right[0]
	group, groups := uint64(w.groups[i]), uint64(0)
	if n > 0 {
		groups = uint64(w.groups[n-1])
	}
	toEnd := uint64(min(n-1-i, 15))
	return append(keys,
		mix(shape, l, 100),
		mix(shape>>6, l, 101),
		mix(shape&0xffff, right[1], 102),
		mix(group<<8|groups, right[1], 103),
		mix(group<<8|groups, right[1]<<letterBits|left[1], 104),
		mix(w.ending[2]<<8|toEnd, l, 105),
		mix(w.ending[2]<<8|(groups-group), right[1], 106),
		mix(w.ending[4]<<8|(groups-group), l, 107),
	)
}

// A State is what has been read so far: the graphones, the sounds and the
// syllables that the next letter's features look back on.
type State struct {
	graphones uint64 // the last five, graphoneBits each
	sounds    uint64 // the last eight, a byte each
	vowels    uint64 // the vowels, with their stress, a byte each
	stress    uint64 // the stresses of all syllables, 2 bits each, after a 1
}

const graphoneBits = 11

// Start is the state before the first letter.
func Start() State { return State{stress: 1} }

// After is the state once a letter has been given its output.
func (s State) After(l Letter, output uint8, sounds arpabet.Sounds) State {
	s.graphones = s.graphones<<graphoneBits | uint64(l)<<6 | uint64(output)
	for i := range len(sounds) {
		v := sounds.At(i)
		s.sounds = s.sounds<<8 | uint64(v)
		if v.IsVowel() {
			s.vowels = s.vowels<<8 | uint64(v)
			s.stress = s.stress<<2 | uint64(v.Stress()) + 1
		}
	}
	return s
}

// historyReach says how many letters ahead are seen together with the last
// 1, 2, … graphones.
var historyReach = [...]int{4, 2, 1, 0}

// StateFeatures appends the keys of what letter i sees of the sounds before
// it. Their number and order are the same for every letter.
func (w *Word) StateFeatures(keys []Key, i int, s State) []Key {
	n := len(w.letters)
	var right [9]uint64
	right[0] = uint64(w.letters[i]) + 1
	for b := 1; b < len(right); b++ {
		right[b] = right[b-1]<<letterBits | uint64(w.at(i+b)) + 1
	}
	for k, reach := range historyReach {
		h := s.graphones & (1<<(graphoneBits*(k+1)) - 1)
		for b := 0; b <= reach; b++ {
			if i < k || i+b > n {
				keys = append(keys, 0)
				continue
			}
			keys = append(keys, mix(h, right[b], uint64(120+k*8+b)))
		}
	}
	left := uint64(w.groups[n-1] - w.groups[i])
	noStress := s.sounds & 0x3f3f3f3f3f3f3f3f
	return append(keys,
		mix(noStress&0xffff, right[1], 200),
		mix(noStress&0xffffff, right[1], 201),
		mix(noStress&0xffffff, right[0], 202),
		mix(noStress&0xffffffff, right[1], 203),
		mix(s.sounds&0xffffffffff, right[1], 204),
		mix(s.stress, right[1]<<8|left, 205),
		mix(s.stress, right[0]<<8|left, 206),
		mix(s.stress, right[3]<<8|left, 207),
		mix(s.stress, right[0]<<20|w.ending[2], 208),
		mix(s.stress, right[0]<<20|w.ending[3], 215),
		mix(s.stress, right[5], 209),
		mix(s.stress, right[7], 210),
		mix(s.vowels&0xff, right[2], 211),
		mix(s.vowels&0xffff, right[1], 212),
		mix(s.vowels&0xffffff, right[3], 213),
		mix(s.vowels&0xff|s.stress<<16, right[1]<<8|left, 214),
	)
}
