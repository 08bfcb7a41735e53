// Package arpabet is the alphabet of sounds: the 39 phonemes of General
// American in the ARPAbet notation of the CMU Pronouncing Dictionary, and a
// few more that other dialects tell apart. It knows sounds, their stress and
// their features; it knows no words.
package arpabet

import (
	"fmt"
	"strings"
)

// A Phone is one phoneme, without its stress.
type Phone uint8

// The phonemes. Vowels come first, so that a comparison tells them from
// consonants.
const (
	NoPhone Phone = iota
	AA            // odd
	AE            // at
	AH            // hut; with no stress the schwa of "about"
	AO            // ought
	AW            // cow
	AY            // hide
	EH            // Ed
	ER            // hurt
	EY            // ate
	IH            // it
	IY            // eat
	OW            // oat
	OY            // toy
	UH            // hood
	UW            // two
	B
	CH // cheese
	D
	DH // thee
	F
	G
	HH // he
	JH // gee
	K
	L
	M
	N
	NG // ping
	P
	R
	S
	SH // she
	T
	TH // theta
	V
	W
	Y // yield
	Z
	ZH // seizure
	// OH is the rounded vowel of British "lot", which the CMU dictionary
	// writes AA. No entry of the dictionary holds it: dialects bring it in.
	OH

	phoneCount
)

const (
	lastVowel = UW
	lastPhone = ZH
)

var phoneNames = [phoneCount]string{
	"", "AA", "AE", "AH", "AO", "AW", "AY", "EH", "ER", "EY", "IH", "IY", "OW", "OY", "UH", "UW",
	"B", "CH", "D", "DH", "F", "G", "HH", "JH", "K", "L", "M", "N", "NG", "P", "R", "S", "SH", "T", "TH",
	"V", "W", "Y", "Z", "ZH", "OH",
}

// String is the phoneme's ARPAbet name, such as "IY".
func (p Phone) String() string {
	if p < phoneCount {
		return phoneNames[p]
	}
	return fmt.Sprintf("Phone(%d)", uint8(p))
}

// IsVowel reports whether the phoneme is the nucleus of a syllable.
func (p Phone) IsVowel() bool { return NoPhone < p && p <= lastVowel || p == OH }

// Stress is the degree of stress a word's syllable has in the dictionary. The
// values are the digits that ARPAbet writes after a vowel.
type Stress uint8

// The degrees of lexical stress.
const (
	Unstressed Stress = iota
	Primary
	Secondary
)

// A Sound is one phoneme with its stress, in one byte: the phoneme in the low
// six bits, the stress in the high two. A consonant's stress is Unstressed.
type Sound uint8

// Make joins a phoneme and its stress.
func Make(p Phone, s Stress) Sound { return Sound(p) | Sound(s)<<6 }

// Phone is the phoneme without its stress.
func (s Sound) Phone() Phone { return Phone(s & 0x3f) }

// Stress is the stress of a vowel.
func (s Sound) Stress() Stress { return Stress(s >> 6) }

// IsVowel reports whether the sound is the nucleus of a syllable.
func (s Sound) IsVowel() bool { return s.Phone().IsVowel() }

// String is the ARPAbet notation: "IY1", "K".
func (s Sound) String() string {
	if s.IsVowel() {
		return s.Phone().String() + string('0'+rune(s.Stress()))
	}
	return s.Phone().String()
}

// Sounds are a sequence of sounds, one byte each. Being a string, a value is
// immutable, comparable, and can be cut out of an embedded table for nothing.
type Sounds string

// At is the sound at place i.
func (s Sounds) At(i int) Sound { return Sound(s[i]) }

// String is the ARPAbet notation, sounds parted by spaces.
func (s Sounds) String() string {
	var b strings.Builder
	for i := range len(s) {
		if i > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(s.At(i).String())
	}
	return b.String()
}

// SyllableCount is the number of vowels.
func (s Sounds) SyllableCount() int {
	n := 0
	for i := range len(s) {
		if s.At(i).IsVowel() {
			n++
		}
	}
	return n
}

// SamePhones reports whether two runs of sounds differ in their stress alone.
func (s Sounds) SamePhones(other Sounds) bool {
	if len(s) != len(other) {
		return false
	}
	for i := range len(s) {
		if s.At(i).Phone() != other.At(i).Phone() {
			return false
		}
	}
	return true
}

// Unstressed is the sounds with every stress taken away.
func (s Sounds) Unstressed() Sounds {
	b := []byte(s)
	for i := range b {
		if v := s.At(i); v.IsVowel() {
			b[i] = byte(Make(v.Phone(), Unstressed))
		}
	}
	return Sounds(b)
}

// Stresses are the stresses of the vowels, first to last.
func (s Sounds) Stresses() []Stress {
	var list []Stress
	for i := range len(s) {
		if v := s.At(i); v.IsVowel() {
			list = append(list, v.Stress())
		}
	}
	return list
}

// Parse reads ARPAbet notation: names in any case, parted by white space, a
// digit 0, 1 or 2 after a vowel (none means 0). The error says which name is
// wrong and why.
func Parse(text string) (Sounds, error) {
	var b []byte
	for name := range strings.FieldsSeq(text) {
		s, err := parseSound(name)
		if err != nil {
			return "", err
		}
		b = append(b, byte(s))
	}
	if len(b) == 0 {
		return "", fmt.Errorf("no sounds in %q", text)
	}
	return Sounds(b), nil
}

func parseSound(name string) (Sound, error) {
	base, stress, marked := name, Unstressed, false
	if last := name[len(name)-1]; '0' <= last && last <= '2' {
		base, stress, marked = name[:len(name)-1], Stress(last-'0'), true
	}
	for p := AA; p < phoneCount; p++ {
		if !strings.EqualFold(base, phoneNames[p]) {
			continue
		}
		if marked && !p.IsVowel() {
			return 0, fmt.Errorf("%q: only a vowel bears a stress", name)
		}
		return Make(p, stress), nil
	}
	return 0, fmt.Errorf("%q is no ARPAbet sound", name)
}
