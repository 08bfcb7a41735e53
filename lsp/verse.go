package lsp

import (
	"slices"
	"strings"

	"dandle/analysis"
	"dandle/analysis/manuscript"
	"dandle/analysis/rhyme"
	"dandle/analysis/scansion"
)

// This file finds places in what the analysis has heard. It judges nothing.

// mates are the lines that rhyme with a line, itself among them, in order; none
// where it rhymes with none.
func mates(s *analysis.Snapshot, line int) []int {
	m := s.Manuscript()
	letter := letterOf(s, line)
	if letter == "" || letter == rhyme.Unrhymed {
		return nil
	}
	var out []int
	stanza := m.Stanzas[m.Lines[line].Stanza]
	for n := stanza.From; n < stanza.To; n++ {
		if letterOf(s, n) == letter {
			out = append(out, n)
		}
	}
	if len(out) < 2 {
		return nil
	}
	return out
}

// letterOf is a line's letter in its stanza's scheme; empty where none is known.
func letterOf(s *analysis.Snapshot, line int) string {
	letters := schemeOf(s, line).Letters
	if place := s.Manuscript().Lines[line].Place; place < len(letters) {
		return letters[place]
	}
	return ""
}

// schemeOf is the rhyme scheme of a line's stanza.
func schemeOf(s *analysis.Snapshot, line int) rhyme.Scheme {
	if stanza := s.Manuscript().Lines[line].Stanza; stanza < len(s.Stanzas()) {
		return s.Stanzas()[stanza].Scheme
	}
	return rhyme.Scheme{}
}

// meterOf is the meter that a stanza's part of the poem keeps; none where no
// line of it can be heard.
func meterOf(s *analysis.Snapshot, stanza int) scansion.Meter {
	for _, part := range s.Poem().Parts {
		if slices.Contains(part.Stanzas, stanza) {
			return part.Meter
		}
	}
	return scansion.Meter{}
}

// lastWord is the span of a line's last word; the line's own where it has none.
func lastWord(l manuscript.Line) manuscript.Span {
	if len(l.Words) == 0 {
		return l.Span
	}
	return l.Words[len(l.Words)-1].Span
}

// minSlotted is how many words a line needs to be known for a refrain although
// one of them is another each time. Shorter lines are alike by chance (ours).
const minSlotted = 5

// repeats are the comings of a refrain, the line itself among them, in order:
// lines with the same words, or, in the same place of other stanzas, with all
// words but one, which is what a refrain's slot is for. There are none where the
// line comes once.
func repeats(m *manuscript.Manuscript, line int) []int {
	own := &m.Lines[line]
	if wordsKey(*own) == "" {
		return nil
	}
	var out []int
	for n := range m.Lines {
		other := &m.Lines[n]
		differ := differing(own.Words, other.Words)
		slotted := differ == 1 && len(own.Words) >= minSlotted && other.Place == own.Place && other.Stanza != own.Stanza
		if differ == 0 || slotted {
			out = append(out, n)
		}
	}
	if len(out) < 2 {
		return nil
	}
	return out
}

// differing counts the words in which two lines differ, whatever their case; it
// is the number of words where one line has more.
func differing(a, b []manuscript.Word) int {
	if len(a) != len(b) {
		return max(len(a), len(b))
	}
	n := 0
	for i := range a {
		if !strings.EqualFold(a[i].Text, b[i].Text) {
			n++
		}
	}
	return n
}

// firstComings tells for each line that comes again which line has its words
// first.
func firstComings(m *manuscript.Manuscript) map[int]int {
	first := map[string]int{}
	out := map[int]int{}
	for n := range m.Lines {
		key := wordsKey(m.Lines[n])
		if key == "" {
			continue
		}
		if f, again := first[key]; again {
			out[f], out[n] = f, f
		} else {
			first[key] = n
		}
	}
	return out
}

// wordsKey is a line's words without case and marks. A line of one or two words
// that comes again is no refrain but chance.
func wordsKey(l manuscript.Line) string {
	if len(l.Words) < 3 {
		return ""
	}
	words := make([]string, len(l.Words))
	for i, w := range l.Words {
		words[i] = strings.ToLower(w.Text)
	}
	return strings.Join(words, " ")
}

// occurrences are the places of a word in verse, in order, whatever its case.
func occurrences(m *manuscript.Manuscript, text string) []manuscript.Span {
	var out []manuscript.Span
	for i := range m.Lines {
		for _, w := range m.Lines[i].Words {
			if strings.EqualFold(w.Text, text) {
				out = append(out, w.Span)
			}
		}
	}
	return out
}

// opening is the start of a text that a list shows for the whole.
func opening(text string) string {
	const most = 60
	runes := []rune(strings.Join(strings.Fields(text), " "))
	if len(runes) <= most {
		return string(runes)
	}
	return strings.TrimRight(string(runes[:most-1]), " ") + "…"
}

// spanAt is the empty span at an offset.
func spanAt(offset int) manuscript.Span { return manuscript.Span{Start: offset, End: offset} }

// inStep reports whether a line keeps the meter for certain: it fits, and its
// deviance (0 fits … 1 certainly off) is on the near side of the middle.
func inStep(l scansion.Line) bool { return l.Fits && l.Deviance < 0.5 }
