package checks

import (
	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"
	"dandle/phonetics/arpabet"
	"dandle/phonetics/grammar"
)

// A strongSyllable is a syllable that the voice leans on, with its sounds, for
// the checks that listen to sound rather than to meter.
type strongSyllable struct {
	index int // of the syllable in its reading
	word  int
	beat  bool
	onset string // the consonants before the vowel, one letter code each
	vowel arpabet.Phone
	coda  string
	tail  string // from the vowel to the word's end, without stress
	last  bool   // no stressed syllable follows in its word
}

// strongSyllables are the stressed syllables of a line's content words.
func strongSyllables(line *scansion.Line) []strongSyllable {
	const usual = 6 // such syllables of a line
	list := make([]strongSyllable, 0, usual)
	first := make([]int, len(line.Words)) // syllable of each word
	for i := len(line.Reading.Syllables) - 1; i >= 0; i-- {
		first[line.Reading.Syllables[i].Word] = i
	}
	for w := range line.Words {
		sounds, ok := soundsOf(line, w)
		if !ok {
			continue
		}
		way := &line.Words[w].Ways[line.Reading.Ways[w]]
		for k, s := range way.Syllables {
			i := first[w] + k
			if i >= len(line.Reading.Syllables) || line.Reading.Syllables[i].Word != w {
				break
			}
			if s.Stress == arpabet.Unstressed || !content(&line.Words[w]) {
				continue
			}
			last := true
			for _, after := range way.Syllables[k+1:] {
				last = last && after.Stress == arpabet.Unstressed
			}
			list = append(list, strongSyllable{
				index: i, word: w, beat: line.Reading.Syllables[i].Beat,
				onset: phones(sounds, s.From, s.Nucleus), vowel: sounds.At(s.Nucleus).Phone(),
				coda: phones(sounds, s.Nucleus+1, s.To), tail: phones(sounds, s.Nucleus, len(sounds)), last: last,
			})
		}
	}
	return list
}

// strong are the strong syllables of a line, found when the first check asks.
func (p *Pass) strong(line int) []strongSyllable {
	list, known := p.strongOf[line]
	if !known {
		list = strongSyllables(&p.Poem.Lines[line])
		p.strongOf[line] = list
	}
	return list
}

// A recurrence is a stretch of a line in which one sound comes back: its first and
// last word, and how many strong syllables have it; none where n is 0.
type recurrence struct{ from, to, n int }

// praiseRecurrence praises what find hears in each line, with more
// confidence the longer it is, in the words of say: of how many strong syllables
// and of which words.
func praiseRecurrence(find func(*scansion.Line, []strongSyllable) recurrence, least float64, say func(syllables, words string) string) func(*Pass) {
	return func(p *Pass) {
		for i, line := range p.lines() {
			e := find(line, p.strong(i))
			if e.n == 0 {
				continue
			}
			span := between(line, e.from, e.to)
			p.Report(Finding{
				Span: span, Line: i, Confidence: min(least+0.1*float64(e.n), 0.9),
				Message: say(counted(e.n, "strong syllable"), quote(span.In(p.Manuscript.Text))),
			})
		}
	}
}

// soundsOf is a word as the line's reading says it.
func soundsOf(line *scansion.Line, word int) (arpabet.Sounds, bool) {
	if word >= len(line.Reading.Ways) {
		return arpabet.Sounds(""), false
	}
	k := line.Reading.Ways[word]
	if k < 0 || k >= len(line.Words[word].Ways) {
		return arpabet.Sounds(""), false
	}
	return line.Words[word].Ways[k].Sounds, true
}

// phones are the sounds [from, to) without their stress, one byte each.
func phones(s arpabet.Sounds, from, to int) string {
	b := make([]byte, 0, max(to-from, 0))
	for i := from; i < to; i++ {
		b = append(b, byte(s.At(i).Phone()))
	}
	return string(b)
}

// content reports whether a word names, does or describes, so that the ear
// listens to its sounds.
func content(w *scansion.Word) bool {
	lower := plain(w.Text)
	if forms.be[lower] || forms.have[lower] || forms.do[lower] {
		return false
	}
	return w.Tag.IsNoun() || w.Tag.IsVerb() || w.Tag.IsAdjective() || w.Tag.IsAdverb() && !forms.negation[lower] && !grammar.CanBe(lower, grammar.Preposition)
}

// between is the span from one word of a line to another, both in it.
func between(line *scansion.Line, from, to int) manuscript.Span {
	return manuscript.Span{Start: line.Words[from].Span.Start, End: line.Words[to].Span.End}
}
