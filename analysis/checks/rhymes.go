package checks

import (
	"slices"

	"dandle/analysis/manuscript"
	"dandle/analysis/rhyme"
)

// A rhymePair is two lines that the scheme joins: the second answers the first.
type rhymePair struct {
	first, second int // lines
	match         rhyme.Match
	a, b          *rhyme.End
	owed          float64 // how strongly the form wants it, where that was asked
}

// rhymePairs are the lines that answer each other, each with the nearest one
// of its letter before it. Lines that end in a refrain's frame are left out: a
// writer who says a thing twice means it.
func rhymePairs(p *Pass) []rhymePair {
	kept := keptEnds(p)
	list := make([]rhymePair, 0, len(kept))
	var key []byte
	for s := range p.Rhymes {
		stanza := p.Manuscript.Stanzas[s]
		key = p.appendSounds(key[:0], stanza)
		for k, letter := range p.Rhymes[s].Scheme.Letters {
			key = append(append(key, letter...), 0, truth(kept[stanza.From+k]))
		}
		for _, pair := range p.Memory.pairs.Get(key, func() []rhymePair { return pairsIn(&p.Rhymes[s], kept[stanza.From:stanza.To]) }) {
			pair.first += stanza.From
			pair.second += stanza.From
			list = append(list, pair)
		}
	}
	return list
}

// pairsIn are the pairs of a stanza; lines count from its first.
func pairsIn(stanza *rhyme.Stanza, kept []bool) []rhymePair {
	var list []rhymePair
	last := map[string]int{}
	for k, letter := range stanza.Scheme.Letters {
		if letter == rhyme.Unrhymed {
			continue
		}
		if first, ok := last[letter]; ok && !(kept[k] && kept[first]) {
			list = append(list, pairOf(stanza, first, k))
		}
		last[letter] = k
	}
	return list
}

func pairOf(stanza *rhyme.Stanza, first, second int) rhymePair {
	a, b := stanza.End(first), stanza.End(second)
	return rhymePair{first: first, second: second, match: rhyme.Compare(a, b), a: a, b: b}
}

// keptEnds tells which lines end in words that a refrain holds fast.
func keptEnds(p *Pass) []bool {
	again, held := p.again(), p.held()
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

// owed is how strongly a form must want a rhyme before its absence is said. At
// this, one line in a thousand of Housman and Kipling is told that its rhyme is
// missing; and of poems cut to two, three and four stanzas, in the last of which
// a rhyme was broken, 59, 78 and 84 in 100 are told so.
const owed = 0.7

// owedPairs are the lines that the form wants to rhyme and the scheme does not
// join.
func owedPairs(p *Pass) []rhymePair {
	kept := keptEnds(p)
	var list []rhymePair
	for s := range p.Rhymes {
		heard := &p.Rhymes[s]
		from := p.Manuscript.Stanzas[s].From
		letters := heard.Scheme.Letters
		for k, letter := range letters {
			// The one that comes second breaks what the first has promised.
			if letter != rhyme.Unrhymed || kept[from+k] || halfVerse(p, from+k) || !slices.Contains(letters[:k], rhyme.Unrhymed) {
				continue
			}
			wants := heard.Wants(k)
			if len(wants) == 0 || wants[0].Line > k || wants[0].Wanted < owed || letters[wants[0].Line] != rhyme.Unrhymed {
				continue
			}
			pair := pairOf(heard, wants[0].Line, k)
			pair.first, pair.second, pair.owed = from+pair.first, from+pair.second, wants[0].Wanted
			list = append(list, pair)
		}
	}
	return list
}

// chainPairs are the lines that the chain of a poem's stanzas wants to rhyme and
// that do not: the first answers of the next stanza to the line that waited.
func chainPairs(p *Pass) []rhymePair {
	link, chained := rhyme.LinkOf(p.Rhymes)
	if !chained || link.Share < owed {
		return nil
	}
	kept := keptEnds(p)
	var list []rhymePair
	for s := range len(p.Rhymes) - 1 {
		here, next := &p.Rhymes[s], &p.Rhymes[s+1]
		if here.Len() != link.Length || next.Len() != link.Length {
			continue
		}
		first, second := p.Manuscript.Stanzas[s].From+link.From, p.Manuscript.Stanzas[s+1].From+link.To[0]
		pair := rhymePair{first: first, second: second, a: here.End(link.From), b: next.End(link.To[0]), owed: link.Share}
		pair.match = rhyme.Compare(pair.a, pair.b)
		if here.Scheme.Letters[link.From] == rhyme.Unrhymed && !kept[first] && !kept[second] {
			list = append(list, pair)
		}
	}
	return list
}

// halfVerse reports whether a line's verse goes on in the next line, where its
// rhyme will be.
func halfVerse(p *Pass, line int) bool {
	return line+1 < len(p.Poem.Lines) && p.Poem.Lines[line+1].Continues
}

// wantedPairs keeps the pairs in question that the form itself wants: others may
// have met by chance.
func wantedPairs(p *Pass, inQuestion func(*rhymePair) bool) []rhymePair {
	var kept []rhymePair
	for _, pair := range p.pairs() {
		if !inQuestion(&pair) {
			continue
		}
		s := p.Manuscript.Lines[pair.second].Stanza
		from := p.Manuscript.Stanzas[s].From
		for _, m := range p.Rhymes[s].Wants(pair.second - from) {
			if from+m.Line == pair.first && m.Wanted >= owed {
				pair.owed = m.Wanted
				kept = append(kept, pair)
			}
		}
	}
	return kept
}

// apart reports whether both ends of a pair have a whole rhyme elsewhere in their
// stanza: two couplets that sound alike, not one that fails.
func apart(p *Pass, pair *rhymePair) bool {
	s := p.Manuscript.Lines[pair.second].Stanza
	from := p.Manuscript.Stanzas[s].From
	heard := &p.Rhymes[s]
	answered := func(line int) bool {
		return slices.ContainsFunc(heard.Mates(line-from), func(other int) bool {
			return rhyme.Compare(heard.End(line-from), heard.End(other)).Kind == rhyme.Perfect
		})
	}
	return answered(pair.first) && answered(pair.second)
}

// isAnswered reports whether the second line of a pair has a rhyme already, in
// a line before it that the form wants it to answer sooner than the first: so
// has a refrain, where a line that the form leaves free ends in its word.
func isAnswered(p *Pass, pair *rhymePair) bool {
	s := p.Manuscript.Lines[pair.second].Stanza
	from := p.Manuscript.Stanzas[s].From
	heard := &p.Rhymes[s]
	for _, m := range heard.Wants(pair.second - from) {
		if from+m.Line == pair.first {
			return false
		}
		if from+m.Line < pair.second && rhyme.Compare(heard.End(m.Line), pair.b).Kind == rhyme.Perfect {
			return true
		}
	}
	return false
}
