package checks

import (
	"dandle/analysis/manuscript"
	"dandle/analysis/rhyme"
)

// A rhymePair is two lines that the scheme joins: the second answers the first.
type rhymePair struct {
	first, second int // lines
	match         rhyme.Match
	a, b          *rhyme.End
	owed          float64 // of a pair that the form wants and the ear does not get: how strongly
}

// rhymePairs are the lines that answer each other, each with the nearest one
// of its letter before it. Lines that end in a refrain's frame are left out: a
// writer who says a thing twice means it.
func rhymePairs(p *Pass) []rhymePair {
	ends := lineEnds(p)
	kept := keptEnds(p)
	var list []rhymePair
	for s, stanza := range p.Manuscript.Stanzas {
		if s >= len(p.Schemes) {
			break
		}
		last := map[string]int{}
		for k, letter := range p.Schemes[s].Letters {
			line := stanza.From + k
			if line >= len(ends) || letter == rhyme.Unrhymed {
				continue
			}
			if first, ok := last[letter]; ok && !(kept[line] && kept[first]) {
				list = append(list, rhymePair{
					first: first, second: line, match: rhyme.Compare(&ends[first], &ends[line]), a: &ends[first], b: &ends[line],
				})
			}
			last[letter] = line
		}
	}
	return list
}

// lineEnds are the ends of all lines, as they are heard.
func lineEnds(p *Pass) []rhyme.End {
	ends := make([]rhyme.End, len(p.Poem.Lines))
	for i := range p.Poem.Lines {
		list := p.Poem.Lines[i].Words
		list = list[max(0, len(list)-3):]
		tail := make([]rhyme.Word, len(list))
		for k, w := range list {
			tail[k] = rhyme.Word{Text: w.Text, Ways: w.Ways}
		}
		ends[i] = rhyme.NewEnd(tail, rhyme.Unheard)
	}
	return ends
}

// keptEnds tells which lines end in words that a refrain holds fast.
func keptEnds(p *Pass) []bool {
	again, held := refrains(p.Manuscript), heldWords(p)
	kept := make([]bool, len(p.Manuscript.Lines))
	for i := range kept {
		n := len(p.Manuscript.Lines[i].Words)
		kept[i] = again[i] || n > 0 && held[i].holds(n-1, n)
	}
	return kept
}

// endWord is the last word of a line.
func endWord(m *manuscript.Manuscript, line int) (manuscript.Word, bool) {
	list := m.Lines[line].Words
	if len(list) == 0 {
		return manuscript.Word{}, false
	}
	return list[len(list)-1], true
}

// reportPair reports the second end of a pair, with the first as the other
// place that the finding speaks of.
func (p *Pass) reportPair(first, second int, confidence float64, message string) {
	a, ok := endWord(p.Manuscript, first)
	b, also := endWord(p.Manuscript, second)
	if !ok || !also {
		return
	}
	p.Report(Finding{
		Span: b.Span, Line: second, Confidence: confidence, Message: message,
		Related: []Related{{Span: a.Span, Message: "the end that it answers"}},
	})
}

// endsSaid quotes the last words of two lines.
func endsSaid(p *Pass, first, second int) (string, string) {
	a, _ := endWord(p.Manuscript, first)
	b, _ := endWord(p.Manuscript, second)
	return quote(a.Text), quote(b.Text)
}

// owed is how strongly a form must want a rhyme before its absence is said: of
// free verse fewer than one line in a hundred is wanted so much.
const owed = 0.85

// owedPairs are the lines that the form wants to rhyme and the scheme does not
// join.
func owedPairs(p *Pass) []rhymePair {
	if !anyUnrhymed(p.Schemes) {
		return nil
	}
	ends, kept := lineEnds(p), keptEnds(p)
	var list []rhymePair
	for s, heard := range heardStanzas(p, ends) {
		from := p.Manuscript.Stanzas[s].From
		letters := heard.Scheme.Letters
		for k, letter := range letters {
			if letter != rhyme.Unrhymed || kept[from+k] {
				continue
			}
			wants := heard.Wants(k)
			// The one that comes second breaks what the first has promised.
			if len(wants) == 0 || wants[0].Line > k || wants[0].Wanted < owed || letters[wants[0].Line] != rhyme.Unrhymed {
				continue
			}
			first, second := from+wants[0].Line, from+k
			list = append(list, rhymePair{
				first: first, second: second, a: &ends[first], b: &ends[second],
				match: rhyme.Compare(&ends[first], &ends[second]), owed: wants[0].Wanted,
			})
		}
	}
	return list
}

// heardStanzas hears the form again, to ask it what it wants.
func heardStanzas(p *Pass, ends []rhyme.End) []rhyme.Stanza {
	stanzas := make([][]rhyme.End, len(p.Manuscript.Stanzas))
	for i, s := range p.Manuscript.Stanzas {
		stanzas[i] = ends[min(s.From, len(ends)):min(s.To, len(ends))]
	}
	return rhyme.Hear(stanzas)
}

// wantedPairs keeps the pairs of a kind that the form itself wants: others may
// have met by chance.
func wantedPairs(p *Pass, kind rhyme.Kind) []rhymePair {
	var list, kept []rhymePair
	for _, pair := range rhymePairs(p) {
		if pair.match.Kind == kind {
			list = append(list, pair)
		}
	}
	if len(list) == 0 {
		return nil
	}
	heard := heardStanzas(p, lineEnds(p))
	for _, pair := range list {
		s := p.Manuscript.Lines[pair.second].Stanza
		from := p.Manuscript.Stanzas[s].From
		for _, m := range heard[s].Wants(pair.second - from) {
			if from+m.Line == pair.first && m.Wanted >= owed {
				kept = append(kept, pair)
			}
		}
	}
	return kept
}

func anyUnrhymed(schemes []rhyme.Scheme) bool {
	for _, s := range schemes {
		for _, l := range s.Letters {
			if l == rhyme.Unrhymed {
				return true
			}
		}
	}
	return false
}
