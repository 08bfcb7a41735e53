package train

import (
	"fmt"
	"hash/fnv"

	"dandle/phonetics/arpabet"
)

// HeldOut is the rule that parts the dictionary: a word is kept from training
// when FNV-1a (32 bits) of its bytes leaves 0 after division by 10.
func HeldOut(word string) bool { return Part(word) == 0 }

// Known tells the words that training may see.
func Known(word string) bool { return !HeldOut(word) }

// Tuning tells the words of a further tenth, on which settings are tried.
func Tuning(word string) bool { return Part(word) == 1 }

// Part is the tenth of the dictionary that a word falls into.
func Part(word string) int {
	h := fnv.New32a()
	h.Write([]byte(word))
	return int(h.Sum32() % 10)
}

// A Score counts how guesses fare against the dictionary.
type Score struct {
	Words, Right, RightSounds int // RightSounds: stress left out of account
	Phones, Errors            int
	RightCount                int // of syllables
	Polysyllables             int // words of two syllables and more
	RightMain                 int // those of them whose main stress is in place
	RightMainAndCount         int // and whose number of syllables is right too
}

// Add counts a word: whichever of the answers comes nearest is the measure.
func (s *Score) Add(guess arpabet.Sounds, answers []arpabet.Sounds) {
	s.Words++
	bestErrors, phones := -1, 0
	var whole, sounds, count, main, strict, poly bool
	g := bare(guess)
	for _, a := range answers {
		b := bare(a)
		if e := distance(g, b); bestErrors < 0 || e < bestErrors {
			bestErrors, phones = e, len(b)
		}
		whole = whole || guess == a
		sounds = sounds || string(g) == string(b)
		count = count || guess.SyllableCount() == a.SyllableCount()
		fromStart, fromEnd := mainStress(guess) == mainStress(a), mainFromEnd(guess) == mainFromEnd(a)
		main = main || fromStart || fromEnd
		strict = strict || fromStart && fromEnd
		poly = poly || a.SyllableCount() > 1
	}
	s.Errors += max(bestErrors, 0)
	s.Phones += phones
	s.Right += one(whole)
	s.RightSounds += one(sounds)
	s.RightCount += one(count)
	s.Polysyllables += one(poly)
	s.RightMain += one(poly && main)
	s.RightMainAndCount += one(poly && strict)
}

func one(b bool) int {
	if b {
		return 1
	}
	return 0
}

func bare(s arpabet.Sounds) []arpabet.Phone {
	p := make([]arpabet.Phone, len(s))
	for i := range len(s) {
		p[i] = s.At(i).Phone()
	}
	return p
}

// mainStress is the syllable with the primary stress, or -1.
func mainStress(s arpabet.Sounds) int {
	for i, v := range s.Stresses() {
		if v == arpabet.Primary {
			return i
		}
	}
	return -1
}

// mainFromEnd is that syllable counted from the last, which is 1.
func mainFromEnd(s arpabet.Sounds) int {
	if m := mainStress(s); m >= 0 {
		return s.SyllableCount() - m
	}
	return -1
}

// distance is Levenshtein's.
func distance(a, b []arpabet.Phone) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range a {
		diagonal := row[0]
		row[0] = i + 1
		for j := range b {
			cost := diagonal
			if a[i] != b[j] {
				cost++
			}
			diagonal = row[j+1]
			row[j+1] = min(cost, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}

// percent is 100·a/b.
func percent(a, b int) float64 { return 100 * float64(a) / float64(max(b, 1)) }

// PhoneError is the share of phones wrong, in per cent.
func (s Score) PhoneError() float64 { return percent(s.Errors, s.Phones) }

// WordError is the share of words with a phone wrong, stress left out of
// account, in per cent.
func (s Score) WordError() float64 { return 100 - percent(s.RightSounds, s.Words) }

// StressedWordError is the share of words with a phone or a stress wrong.
func (s Score) StressedWordError() float64 { return 100 - percent(s.Right, s.Words) }

// SyllableCount is the share of words with the right number of syllables.
func (s Score) SyllableCount() float64 { return percent(s.RightCount, s.Words) }

// MainStress is the share of the words of two syllables and more whose primary
// stress falls on the right one. Where a guess has too many or too few
// syllables, the right one is that with the same number, from the start or
// from the end.
func (s Score) MainStress() float64 { return percent(s.RightMain, s.Polysyllables) }

// MainStressAndCount is the share whose number of syllables is right besides.
func (s Score) MainStressAndCount() float64 { return percent(s.RightMainAndCount, s.Polysyllables) }

// String is the figures in a line.
func (s Score) String() string {
	return fmt.Sprintf("%d words: phone error %.2f %%, word error %.2f %% (with stress %.2f %%), syllable count %.2f %%, main stress %.2f %% (with the count %.2f %%)",
		s.Words, s.PhoneError(), s.WordError(), s.StressedWordError(), s.SyllableCount(), s.MainStress(), s.MainStressAndCount())
}
