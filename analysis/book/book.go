// Package book measures a manuscript as a publisher does: its words, its
// spreads and how evenly they are filled, how many notes it has, and how hard
// its sentences are to read. It counts and judges nothing; what is much or
// little the checks say.
package book

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"
)

// Figures are what there is to count in a manuscript. Counted is the verse
// alone, without notes and headings (common practice).
type Figures struct {
	Words     int
	Syllables int
	Sentences int
	Lines     int
	Stanzas   int
	Notes     int      // for the illustrator
	Spreads   []Filled // in order; none where no page turn is marked
}

// Filled is what stands between two page turns.
type Filled struct {
	Words, Lines int
	Stanzas      int // a stanza that runs over the turn counts on both sides
}

// Measure counts. The poem tells the syllables; of a line that was not heard
// none are counted.
func Measure(m *manuscript.Manuscript, poem *scansion.Poem) Figures {
	f := Figures{Words: m.WordCount(), Lines: len(m.Lines), Stanzas: len(m.Stanzas), Sentences: sentences(m)}
	for i := range poem.Lines {
		f.Syllables += len(poem.Lines[i].Reading.Syllables)
	}
	for _, n := range m.Notes {
		if n.Kind == manuscript.ArtNote {
			f.Notes++
		}
	}
	for _, s := range m.Spreads {
		f.Spreads = append(f.Spreads, filled(m, s))
	}
	return f
}

func filled(m *manuscript.Manuscript, s manuscript.Spread) Filled {
	var f Filled
	for i := s.From; i < s.To; i++ {
		f.Words += len(m.Lines[i].Words)
		f.Lines++
		if i == s.From || m.Lines[i].Stanza != m.Lines[i-1].Stanza {
			f.Stanzas++
		}
	}
	return f
}

// sentences counts what ends with a stop, a colon or a semicolon, which Flesch
// takes for the end of a thought ("How to Write Plain English", 1979, from
// memory). A stop inside speech ends none where a small letter follows. Words
// after the last mark make one more.
func sentences(m *manuscript.Manuscript) int {
	n, open := 0, false
	for i := range m.Lines {
		words := m.Lines[i].Words
		for k := range words {
			open = true
			if ends(m, i, k) {
				n++
				open = false
			}
		}
	}
	if open {
		n++
	}
	return n
}

// ends reports whether a thought ends with a line's word k.
func ends(m *manuscript.Manuscript, line, k int) bool {
	words := m.Lines[line].Words
	switch words[k].Break {
	case manuscript.FullBreak:
		return !goesOn(m, line, k)
	case manuscript.HeavyBreak:
		end := m.Lines[line].Span.End
		if k+1 < len(words) {
			end = words[k+1].Span.Start
		}
		return strings.ContainsAny(m.Text[words[k].Span.End:end], ";:")
	default:
		return false
	}
}

// goesOn reports whether the word after a line's word k begins with a small
// letter.
func goesOn(m *manuscript.Manuscript, line, k int) bool {
	if k+1 < len(m.Lines[line].Words) {
		return small(m.Lines[line].Words[k+1].Text)
	}
	if line+1 < len(m.Lines) && len(m.Lines[line+1].Words) > 0 {
		return small(m.Lines[line+1].Words[0].Text)
	}
	return false
}

func small(word string) bool {
	r, _ := utf8.DecodeRuneInString(word)
	return unicode.IsLower(r)
}

// Grade is the American school grade whose pupils read such sentences by
// themselves: 0 is kindergarten, 1 the first grade, at six to seven years. It is
// the formula of Kincaid, Fishburne, Rogers and Chissom ("Derivation of New
// Readability Formulas", 1975), of words to a sentence and syllables to a word.
// It is false where no syllable was heard.
func (f *Figures) Grade() (float64, bool) {
	if f.Words == 0 || f.Sentences == 0 || f.Syllables == 0 {
		return 0, false
	}
	return 0.39*f.perSentence() + 11.8*f.perWord() - 15.59, true
}

// Ease is how easily such sentences are read, 100 very easily and 0 hardly at
// all (Flesch, "A New Readability Yardstick", 1948); false where no syllable was
// heard.
func (f *Figures) Ease() (float64, bool) {
	if f.Words == 0 || f.Sentences == 0 || f.Syllables == 0 {
		return 0, false
	}
	return 206.835 - 1.015*f.perSentence() - 84.6*f.perWord(), true
}

func (f *Figures) perSentence() float64 { return float64(f.Words) / float64(f.Sentences) }

func (f *Figures) perWord() float64 { return float64(f.Syllables) / float64(f.Words) }

// Median is the number of words on the spread in the middle, by their fill; 0
// where there is none with words.
func (f *Figures) Median() int {
	var words []int
	for _, s := range f.Spreads {
		if s.Words > 0 {
			words = append(words, s.Words)
		}
	}
	if len(words) == 0 {
		return 0
	}
	slices.Sort(words)
	return words[len(words)/2]
}
