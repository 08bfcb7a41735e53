package rhyme

import (
	"math"

	"dandle/phonetics/arpabet"
)

// How far apart two sounds are, from 0, the same, to 1, nothing in common. The
// features are those by which the chart of the International Phonetic
// Association (revised to 2020) places a sound: place, manner and voice for
// consonants; height, backness and rounding for vowels, at the start and the
// end of a diphthong. The weights are ours: voice counts least, since a pair
// like "prize" and "mice" is the nearest that misses, and place less than
// manner among nasals and among stops, which the ear confuses by place first
// (Miller and Nicely 1955).

// A consonant's place on the chart, from lips to throat.
type place int8

const (
	bilabial place = iota
	labiodental
	dental
	alveolar
	postalveolar
	palatal
	velar
	glottal
)

type manner uint8

const (
	stop manner = iota
	affricate
	fricative
	nasal
	lateral
	rhotic
	glide
)

type consonant struct {
	place  place
	manner manner
	voiced bool
}

var consonants = [...]consonant{
	arpabet.B:  {bilabial, stop, true},
	arpabet.CH: {postalveolar, affricate, false},
	arpabet.D:  {alveolar, stop, true},
	arpabet.DH: {dental, fricative, true},
	arpabet.F:  {labiodental, fricative, false},
	arpabet.G:  {velar, stop, true},
	arpabet.HH: {glottal, fricative, false},
	arpabet.JH: {postalveolar, affricate, true},
	arpabet.K:  {velar, stop, false},
	arpabet.L:  {alveolar, lateral, true},
	arpabet.M:  {bilabial, nasal, true},
	arpabet.N:  {alveolar, nasal, true},
	arpabet.NG: {velar, nasal, true},
	arpabet.P:  {bilabial, stop, false},
	arpabet.R:  {postalveolar, rhotic, true},
	arpabet.S:  {alveolar, fricative, false},
	arpabet.SH: {postalveolar, fricative, false},
	arpabet.T:  {alveolar, stop, false},
	arpabet.TH: {dental, fricative, false},
	arpabet.V:  {labiodental, fricative, true},
	arpabet.W:  {velar, glide, true},
	arpabet.Y:  {palatal, glide, true},
	arpabet.Z:  {alveolar, fricative, true},
	arpabet.ZH: {postalveolar, fricative, true},
}

// A vowel's place on the chart: height 0 close … 6 open, back 0 front … 2
// back, rounding 0 or 1; a diphthong's end where it glides.
type vowel struct {
	height, back, round          float64
	endHeight, endBack, endRound float64
}

func pure(height, back, round float64) vowel {
	return vowel{height, back, round, height, back, round}
}

var vowels = [...]vowel{
	arpabet.AA: pure(6, 2, 0),
	arpabet.AE: pure(5, 0, 0),
	arpabet.AH: pure(4, 1.6, 0),
	arpabet.AO: pure(4, 2, 1),
	arpabet.AW: {6, 1, 0, 1, 2, 1},
	arpabet.AY: {6, 1, 0, 1, 0, 0},
	arpabet.EH: pure(4, 0, 0),
	arpabet.ER: pure(4, 1, 0), // its r is spelled out
	arpabet.EY: {2, 0, 0, 1, 0, 0},
	arpabet.IH: pure(1, 0.3, 0),
	arpabet.IY: pure(0, 0, 0),
	arpabet.OW: {2, 2, 1, 1, 2, 1},
	arpabet.OY: {4, 2, 1, 1, 0, 0},
	arpabet.UH: pure(1, 1.7, 1),
	arpabet.UW: pure(0, 2, 1),
	arpabet.OH: pure(6, 2, 1),
}

// distances holds every pair, worked out once.
var distances = buildDistances()

const phoneLimit = int(arpabet.OH) + 1

func buildDistances() (d [phoneLimit][phoneLimit]float32) {
	for a := arpabet.AA; int(a) < phoneLimit; a++ {
		for b := arpabet.AA; int(b) < phoneLimit; b++ {
			switch {
			case a == b:
			case a.IsVowel() && b.IsVowel():
				d[a][b] = float32(vowelDistance(vowels[a], vowels[b]))
			case !a.IsVowel() && !b.IsVowel():
				d[a][b] = float32(consonantDistance(consonants[a], consonants[b]))
			default:
				d[a][b] = 1
			}
		}
	}
	return d
}

func vowelDistance(a, b vowel) float64 {
	point := func(h1, b1, r1, h2, b2, r2 float64) float64 {
		h, k, r := (h1-h2)/6, (b1-b2)/2, (r1-r2)/2
		return math.Sqrt(h*h + k*k + r*r)
	}
	d := 0.6*point(a.height, a.back, a.round, b.height, b.back, b.round) +
		0.4*point(a.endHeight, a.endBack, a.endRound, b.endHeight, b.endBack, b.endRound)
	return min(1, d)
}

func consonantDistance(a, b consonant) float64 {
	d := 0.0
	if a.voiced != b.voiced {
		d += 0.15
	}
	if a.manner != b.manner {
		switch {
		case a.manner+b.manner == stop+affricate, a.manner+b.manner == affricate+fricative:
			d += 0.25
		case a.manner+b.manner == stop+fricative:
			d += 0.35
		default:
			d += 0.55
		}
	}
	if gap := math.Abs(float64(a.place - b.place)); gap > 0 {
		d += 0.15 + 0.03*gap
	}
	return min(1, d)
}

// PhoneDistance is how far apart two sounds are, from 0, the same, to 1,
// nothing in common. A vowel and a consonant have nothing in common.
func PhoneDistance(a, b arpabet.Phone) float64 {
	if int(a) >= phoneLimit || int(b) >= phoneLimit {
		return 1
	}
	return float64(distances[a][b])
}

// missing is what a consonant costs that one end has and the other lacks.
// A last t, d, s or z goes unheard most easily; r colours the vowel before it.
func missing(p arpabet.Phone) float32 {
	switch p {
	case arpabet.S, arpabet.Z, arpabet.T, arpabet.D:
		return 0.45
	case arpabet.HH, arpabet.Y, arpabet.W:
		return 0.4
	default:
		return 0.6
	}
}

// cluster is the distance of two runs of consonants: the cheapest alignment.
func cluster(a, b arpabet.Sounds) float32 {
	if a == b {
		return 0
	}
	const most = 6 // English has no longer cluster: "sixths" ends in four
	if len(a) > most {
		a = a[len(a)-most:]
	}
	if len(b) > most {
		b = b[len(b)-most:]
	}
	var row [most + 1]float32
	for j := range len(b) {
		row[j+1] = row[j] + missing(b.At(j).Phone())
	}
	for i := range len(a) {
		p := a.At(i).Phone()
		diagonal := row[0]
		row[0] += missing(p)
		for j := range len(b) {
			q := b.At(j).Phone()
			best := min(diagonal+distances[p][q], row[j+1]+missing(p), row[j]+missing(q))
			diagonal, row[j+1] = row[j+1], best
		}
	}
	return row[len(b)]
}
