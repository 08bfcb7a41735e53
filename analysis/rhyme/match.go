package rhyme

import (
	"strings"

	"dandle/phonetics/arpabet"
)

// A Match is how two line ends answer each other, in the best of all the ways
// that both can be said.
type Match struct {
	Kind Kind
	// Distance is how far the sounds from the rhyming vowel on lie apart: 0
	// they agree, below 0.3 a near rhyme of the nearest sort, above 1 nothing
	// that the ear would join.
	Distance float64
	// Syllables is how many syllables chime: 1 a masculine rhyme, 2 feminine,
	// 3 dactylic.
	Syllables int
	// Near says which sounds of a near rhyme agree.
	Near Likeness
	// Rich is set where a perfect rhyme has the consonants before the vowel
	// in common too, in words that differ: leave, believe.
	Rich bool
	// A and B are the sounds compared, from the rhyming vowel on.
	A, B arpabet.Sounds

	bearing bearing // what the rhyming syllables can bear
}

// A bearing is what the two rhyming syllables can bear.
type bearing uint8

const (
	bothStrong bearing = iota
	oneStrong
	neitherStrong
	oneWeak // and one of them never will: the "-er" of "ladder"
)

// A Likeness says which sounds of a near rhyme agree.
type Likeness uint8

// The sorts of near rhyme.
const (
	NoLikeness Likeness = iota
	OneFeature          // one consonant differs, in voice or place: prize, mice
	Assonance           // the vowels agree, the consonants after them do not: lake, late
	Consonance          // the consonants agree, the vowels do not: given, heaven; there must be some
	OneMore             // one end has a sound more: own, unknowns
	Loose               // none of these, and yet not far
)

var likenessNames = [...]string{"", "one consonant apart", "assonance", "consonance", "a sound more", "loose"}

// String is the trade's name for it.
func (l Likeness) String() string { return likenessNames[l] }

// Weights of the parts of a rhyme. The rhyming vowel carries most of it; the
// syllables after it are weak and heard less. Ours.
const (
	vowelWeight    = 1.4
	trailingWeight = 0.6
	nearest        = 0.0001 // float noise around a distance of 0
	nearLimit      = 0.75   // beyond it the ear joins the two only if the form insists
)

// Compare tells how two line ends answer each other.
func Compare(a, b *End) Match {
	best := Match{Distance: unlike}
	if a.word == "" || b.word == "" {
		return best
	}
	bestRank := float32(1e9)
	for i := range a.tails {
		for j := range b.tails {
			m, rank := compareTails(&a.tails[i], &b.tails[j])
			// A way that is seldom said is taken only if it rhymes better.
			rank += 0.02 * min(5, a.tails[i].cost+b.tails[j].cost)
			if rank < bestRank {
				best, bestRank = m, rank
			}
		}
	}
	switch {
	case a.word == b.word:
		best.Kind, best.Distance = Identical, 0
	case best.Kind == NoRhyme && best.bearing < neitherStrong && sameLetters(a.word, b.word):
		best.Kind = Eye
	}
	return best
}

// deafLimit is the distance of ends that no ear joins. In the Chicago Rhyming
// Poetry Corpus (Reddy and Knight 2011) those beyond it rhyme seldomer than
// chance would have it.
const deafLimit = 1.15

// Unheard reports whether the ear joins two ends in no way at all, neither by
// their sounds nor as old verse joined them: to an ending that the meter lifts.
func (m *Match) Unheard() bool {
	return m.Kind == NoRhyme && m.bearing == bothStrong && m.Distance > deafLimit
}

const unlike = 3

// compareTails is the match of two ways to say two ends, and its rank: lower
// is better.
func compareTails(a, b *tail) (Match, float32) {
	best, bestRank := Match{Distance: unlike}, float32(100)
	var trailing float32
	for k := range int(min(a.n, b.n, 3)) {
		if k > 0 {
			// Syllable k-1 is now one of those that follow.
			trailing += trailingWeight * (reduced(a.phone(k-1), b.phone(k-1)) + cluster(a.coda(k-1), b.coda(k-1)))
			if trailing > unlike {
				break
			}
		}
		wa, wb := a.weight[k], b.weight[k]
		mosaic := k >= int(a.own) || k >= int(b.own)
		if mosaic && (wa != strong || wb != strong) {
			continue
		}
		v := distances[a.phone(k)][b.phone(k)]
		c := cluster(a.coda(k), b.coda(k))
		d := vowelWeight*v + c + trailing
		if mosaic && d > nearest {
			continue // across words nothing but agreement is heard as rhyme
		}
		m := Match{Distance: float64(d), Syllables: k + 1, A: a.sounds[a.vowels[k]:], B: b.sounds[b.vowels[k]:]}
		rank := d
		exact := d <= nearest
		// The last strong syllables of both words must answer each other.
		sa, sb := a.stressAt(), b.stressAt()
		switch {
		case wa == strong && wb == strong:
			switch {
			case exact && mosaic:
				m.Kind = Mosaic
				rank -= 0.1 // more of the line agrees than its last syllable
			case exact:
				m.Kind, m.Rich = Perfect, a.onset(k) == b.onset(k)
				rank -= 0.05 * float32(k)
				if a.whole == b.whole {
					m.Kind = Homophone
				}
			default:
				m.Near = likeness(a, b, k, v, c, trailing)
				if d < nearLimit && sa == k && sb == k {
					m.Kind = Near
				}
			}
			if !exact && (sa != k || sb != k) {
				rank += 0.5
			}
		case wa == strong || wb == strong:
			other := min(wa, wb)
			rank += 0.3
			m.bearing = oneStrong
			if exact && other == liftable {
				m.Kind = Light
			} else if exact {
				m.Kind = Wrenched
				rank += 0.2
			}
			m.Distance += 0.2
		default:
			m.bearing = neitherStrong
			rank += 0.4
			if wa == weak || wb == weak {
				m.bearing = oneWeak
				rank += 0.4 // what stands before them decides
			}
			m.Distance += 0.3
			if wa == liftable && wb == liftable && exact {
				m.Kind = Light
			}
		}
		if rank < bestRank {
			best, bestRank = m, rank
		}
	}
	return best, bestRank
}

// reduced is the distance of two vowels after the rhyming one, where those of
// "at", "it" and "us" all fade to one (the weak vowel merger: Wells, Accents
// of English, 1982, from memory).
func reduced(a, b arpabet.Phone) float32 {
	if fades(a) && fades(b) {
		return 0
	}
	return distances[a][b]
}

func fades(p arpabet.Phone) bool {
	return p == arpabet.AH || p == arpabet.IH || p == arpabet.UH || p == arpabet.AE || p == arpabet.EH
}

func (t *tail) phone(k int) arpabet.Phone { return t.sounds.At(int(t.vowels[k])).Phone() }

func likeness(a, b *tail, k int, v, c, trailing float32) Likeness {
	ca, cb := a.coda(k), b.coda(k)
	switch {
	case v <= nearest && trailing <= nearest && len(ca) == len(cb) && c < 0.35:
		return OneFeature
	case v <= nearest && len(ca) != len(cb) && c <= 0.6:
		return OneMore
	case v <= nearest:
		return Assonance
	case c <= nearest && trailing <= nearest && ca != "":
		return Consonance
	default:
		return Loose
	}
}

// LookAlike reports whether two words agree in letters, as "glow" and "snow" do
// and "glow" and "toe" do not.
func LookAlike(a, b string) bool { return sameLetters(a, b) }

// sameLetters reports whether two words look as if they rhymed: the letters
// agree from the last vowel before the last consonants on.
func sameLetters(a, b string) bool {
	n := 0
	for n < len(a) && n < len(b) && a[len(a)-1-n] == b[len(b)-1-n] {
		n++
	}
	if n == 0 {
		return false
	}
	return n >= rimeLetters(a) && n >= rimeLetters(b)
}

// rimeLetters is the number of letters from a word's last vowel letters on; a
// silent e at the end does not count as the vowel.
func rimeLetters(w string) int {
	i := len(w)
	if i > 2 && w[i-1] == 'e' && !isVowelLetter(w[i-2]) {
		i--
	}
	for i > 0 && !isVowelLetter(w[i-1]) {
		i--
	}
	for i > 0 && isVowelLetter(w[i-1]) {
		i--
	}
	return len(w) - i
}

func isVowelLetter(c byte) bool { return strings.IndexByte("aeiouy", c) >= 0 }
