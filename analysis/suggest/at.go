package suggest

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"dandle/analysis/manuscript"
	"dandle/analysis/rhyme"
	"dandle/analysis/scansion"
	"dandle/analysis/suggest/words"
	"dandle/phonetics/arpabet"
	"dandle/phonetics/grammar"
)

// Limits of what is looked at, so that a large manuscript or a common sound
// does not keep the writer waiting.
const (
	mostMates   = 5    // lines that the cursor's line may answer
	farMate     = 0.03 // of the likeliest one's odds: a line less likely is no mate
	enough      = 40   // perfect rhymes, beyond which near ones are not looked for
	mostItems   = 100  // offered
	mostWeighed = 160  // candidates whose place in the sentence is judged
	nearStanzas = 12   // heard on either side of the cursor's
)

// At lists the words that would end the line at the cursor: rhymes for the
// line's mate that fill what its meter still wants, best first, perfect ones
// before near ones. It is empty where the cursor is not at the end of a line
// of verse, or in its last word, and where nothing says which line to answer.
func At(p Place) List {
	line, typed, ok := p.cursor()
	if !ok {
		return List{}
	}
	l := &p.Poem.Lines[line]
	stands := len(l.Words)
	if typed.Len() > 0 {
		stands--
	}
	mates := p.mates(line)
	if len(mates) == 0 {
		return List{}
	}
	scene, stand := p.scene(line, stands), newStand(p.Poem, line, stands)
	best := map[string]int{}
	var ranked []weighed
	for _, m := range mates {
		s := stand.slot(p.peers(line, m.line))
		tail := tailWords(&p.Poem.Lines[m.line])
		found := rhymesOf(tail, false)
		if len(found) < enough {
			found = rhymesOf(tail, true)
		}
		for _, c := range found {
			w := weighed{candidate: c, mate: m}
			w.score = w.weigh(&s, &scene)
			if at, seen := best[c.text]; seen {
				if ranked[at].score < w.score {
					ranked[at] = w
				}
				continue
			}
			best[c.text] = len(ranked)
			ranked = append(ranked, w)
		}
	}
	byScore := func(a, b weighed) int {
		return cmp.Or(cmp.Compare(b.score, a.score), strings.Compare(a.text, b.text))
	}
	slices.SortFunc(ranked, byScore)
	ranked = ranked[:min(len(ranked), mostWeighed)]
	for i := range ranked {
		ranked[i].score += classWeight*expected(ranked[i].text, scene.before) + nearestWeight*scene.nearest(ranked[i].word)
	}
	slices.SortFunc(ranked, byScore)
	return List{Items: p.items(ranked, typed), Incomplete: len(ranked) > mostItems}
}

// cursor finds the line of verse that ends at the cursor, and the part of its
// last word that is being typed.
func (p *Place) cursor() (line int, typed manuscript.Span, ok bool) {
	m := p.Manuscript
	line = -1
	for i := range m.Lines {
		if m.Lines[i].Span.Start <= p.Offset && p.Offset <= p.lineEnd(i) {
			line = i
			break
		}
	}
	if line < 0 || line >= len(p.Poem.Lines) {
		return 0, manuscript.Span{}, false
	}
	list := m.Lines[line].Words
	typed = manuscript.Span{Start: p.Offset, End: p.Offset}
	if n := len(list); n > 0 {
		last := list[n-1].Span
		switch {
		case p.Offset < last.Start:
			return 0, manuscript.Span{}, false
		case last.Start <= p.Offset && p.Offset <= last.End:
			typed = last
		}
	}
	return line, typed, true
}

// lineEnd is where a line of the file ends, blanks at its end included.
func (p *Place) lineEnd(line int) int {
	end := p.Manuscript.Lines[line].Span.End
	text := p.Manuscript.Text
	for end < len(text) && (text[end] == ' ' || text[end] == '\t') {
		end++
	}
	return end
}

// A mate is a line that the cursor's line may have to answer.
type mate struct {
	line int
	odds float64 // the logarithm of how likely it is
	word string
}

// mates finds the lines that the form wants this one to rhyme with. What the
// line ends with now is left out of account: it is unfinished.
func (p *Place) mates(line int) []mate {
	stanza := p.Manuscript.Lines[line].Stanza
	heard, at := p.Stanzas, stanza
	if len(heard) != len(p.Manuscript.Stanzas) {
		heard, at = p.hear(stanza)
	}
	first := p.Manuscript.Stanzas[stanza].From
	var list []mate
	wants := heard[at].Wants(line - first)
	for _, w := range wants {
		other := first + w.Line
		tail := tailWords(&p.Poem.Lines[other])
		if len(list) == mostMates || len(tail) == 0 || len(tail[len(tail)-1].Ways) == 0 || w.Wanted < wants[0].Wanted*farMate {
			continue
		}
		list = append(list, mate{line: other, odds: math.Log(w.Wanted), word: tail[len(tail)-1].Text})
	}
	return list
}

// hear listens to the stanzas round one, and says which of them it is.
func (p *Place) hear(stanza int) ([]rhyme.Stanza, int) {
	from := max(0, stanza-nearStanzas)
	to := min(len(p.Manuscript.Stanzas), stanza+nearStanzas+1)
	ends := make([]*rhyme.Ends, 0, to-from)
	for _, s := range p.Manuscript.Stanzas[from:to] {
		var list []rhyme.End
		for i := s.From; i < s.To; i++ {
			list = append(list, rhyme.NewEnd(tailWords(&p.Poem.Lines[i]), rhyme.Unheard))
		}
		ends = append(ends, rhyme.Listen(list))
	}
	return rhyme.Hear(ends), stanza - from
}

// tailWords are the last words of a line, as rhyme takes them.
func tailWords(l *scansion.Line) []rhyme.Word {
	list := l.Words[max(0, len(l.Words)-3):]
	out := make([]rhyme.Word, len(list))
	for i, w := range list {
		out[i] = rhyme.Word{Text: w.Text, Ways: w.Ways}
	}
	return out
}

// peers are the lines whose length the cursor's line should have: its mate
// first, then those at its place in other stanzas of as many lines.
func (p *Place) peers(line, mate int) []int {
	m := p.Manuscript
	list := []int{mate}
	own := m.Lines[line]
	size := m.Stanzas[own.Stanza].To - m.Stanzas[own.Stanza].From
	for i := max(0, own.Stanza-nearStanzas); i < min(len(m.Stanzas), own.Stanza+nearStanzas+1); i++ {
		s := m.Stanzas[i]
		if i != own.Stanza && s.To-s.From == size {
			list = append(list, s.From+own.Place)
		}
	}
	return list
}

// commonWord is the rarity up to which a word is in every text.
const commonWord = 8

// A scene is what a place in the text says of the word wanted there.
type scene struct {
	theme  words.Theme
	line   words.Theme     // of the words of the line itself
	about  []words.Word    // the words with a sense of their own
	before grammar.Tag     // of the word before
	used   map[string]bool // words that end lines already
}

// scene gathers what the stanza, and the one before it, speak of.
func (p *Place) scene(line, stands int) scene {
	m := p.Manuscript
	stanza := m.Lines[line].Stanza
	s := scene{used: map[string]bool{}}
	var all, own []words.Word
	for i := m.Stanzas[max(0, stanza-1)].From; i < m.Stanzas[stanza].To; i++ {
		list := m.Lines[i].Words
		if i == line {
			list = list[:stands]
		}
		for _, w := range list {
			if known := words.Find(lower(w.Text)); known != words.None {
				all = append(all, known)
				if known.Rarity() > commonWord {
					s.about = append(s.about, known)
				}
				if i == line {
					own = append(own, known)
				}
			}
		}
	}
	s.theme, s.line = words.NewTheme(all), words.NewTheme(own)
	if stands > 0 {
		s.before = p.Poem.Lines[line].Words[stands-1].Tag
	}
	for i := range m.Lines {
		if list := m.Lines[i].Words; i != line && len(list) > 0 {
			s.used[lower(list[len(list)-1].Text)] = true
		}
	}
	return s
}

// nearest is how near the word of the stanza lies that lies nearest.
func (s *scene) nearest(w words.Word) float64 {
	best := 0.0
	for _, other := range s.about {
		best = max(best, words.Nearness(other, w))
	}
	return best
}

// lower is a word as the lists write it.
func lower(text string) string {
	return strings.ToLower(strings.ReplaceAll(text, "’", "'"))
}

// A weighed candidate has a score: the higher the better.
type weighed struct {
	candidate
	mate  mate
	score float64
}

// features are what a candidate's score is made of.
func (w *weighed) features(s *slot, at *scene) [featureCount]float64 {
	var f [featureCount]float64
	f[fMate] = w.mate.odds
	if s.known {
		f[fLength] = s.length[min(w.lead, slotLimit-1)]
		f[fBeats] = s.beats[min(w.lead, slotLimit-1)]
	}
	rarity := w.word.Rarity()
	f[fRarity] = rarity
	f[fRare] = max(0, rarity-12)
	f[fLevel] = float64(w.word.Level()) / 10
	f[fTagged] = w.word.Tagged()
	if w.word.Fitness() == words.Doubtful {
		f[fDoubtful] = 1
	}
	f[fTheme] = at.theme.Nearness(w.word)
	f[fLine] = at.line.Nearness(w.word)
	if other := words.Find(lower(w.mate.word)); other != words.None {
		f[fMateSense] = words.Nearness(other, w.word)
	}
	if at.used[w.text] {
		f[fUsed] = 1
	}
	switch {
	case w.kind == rhyme.Light:
		f[fLight] = 1
	case w.kind == rhyme.Near:
		f[fNear] = 1 + w.distance
	case w.kind == rhyme.Homophone || w.rich:
		f[fRich] = 1
	}
	f[fClash] = s.clashes(w)
	f[fVerse] = w.word.Along(&verse)
	if w.word.Tagged() == 0 && w.word.Level() <= closedLevel {
		f[fClosed] = 1
	}
	f[fLong] = float64(w.lead)
	if w.alike {
		f[fAlike] = 1
	}
	return f
}

// The features.
const (
	fMate      = iota // log odds of the line it answers
	fLength           // log odds of its length, by syllables
	fBeats            // the same by beats
	fRarity           // binary logarithm of its rank
	fRare             // of that, what is beyond 12
	fLevel            // SCOWL's size, in tens
	fTagged           // binary logarithm of its count in texts tagged by sense
	fDoubtful         // not quite fit for a child
	fTheme            // nearness to the stanza
	fLine             // nearness to the line
	fMateSense        // nearness to the mate
	fUsed             // ends a line already
	fLight
	fNear
	fRich
	fClash  // stresses where the meter wants slack
	fLong   // syllables before the rhyming one
	fAlike  // spelled as the mate is
	fVerse  // nearness to verse rather than news
	fClosed // a word of grammar, such as "me", that no text was tagged with a sense for
	featureCount
)

// closedLevel is SCOWL's size up to which a word that was never tagged with a
// sense is one of grammar's own: WordNet holds none of those.
const closedLevel = 20

// weights are fitted as a conditional logit: of all candidates for a place,
// the one that the poet chose.
var weights = [featureCount]float64{
	fMate: 1.7, fLength: 0.38, fBeats: 0.73, fRarity: -0.07, fRare: 0.33, fLevel: -0.23, fTagged: 0.13, fDoubtful: -0.5,
	fTheme: 2, fLine: 2.5, fMateSense: 0.34, fUsed: -2.1, fLight: -2.7, fNear: -4.6, fRich: -1.6, fClash: -2.6, fLong: -0.68,
	fAlike: 0.83, fClosed: 0.62, fVerse: 1,
}

// verse is the direction among the vectors from the news, whose words they
// were made of, to verse. It was fitted with the weights, on the ends of lines
// by six poets of the Chicago Rhyming Poetry Corpus. It holds for the axes of
// the table as it is: who rebuilds that from other words must fit it anew.
var verse = words.Axis{
	0.74, 0.8, -0.51, -1.06, 0.3, 0.4, 0.68, -0.94, -1.1, -0.38,
	-0.18, 0.02, 0.49, -1.3, 0.64, -0.07, 0.4, 0.14, -0.82, 0.03,
	-0.9, -0.2, 0.01, 0.71, 0.38, 0.02, -0.08, 0.87, 0.24, -0.72,
	0.17, 0.3, -0.04, -0.57, 0.8, -0.15, -0.74, 0.05, 0.31, -0.63,
}

// Weights of what is worked out for the best candidates only.
const (
	classWeight   = 0.5
	nearestWeight = 2.5
)

func (w *weighed) weigh(s *slot, at *scene) float64 {
	sum := 0.0
	for i, x := range w.features(s, at) {
		sum += weights[i] * x
	}
	return sum
}

// clashes counts the stressed syllables that would stand where the meter
// wants slack, in the candidate before its rhyming syllable and in the typed
// syllable before it.
func (s *slot) clashes(w *weighed) float64 {
	if s.stride == 0 {
		return 0
	}
	stresses := w.sounds.Stresses()
	n := 0.0
	for back := 1; back <= w.lead && back < s.stride; back++ {
		if i := w.lead - back; i < len(stresses) && stresses[i] == arpabet.Primary {
			n++
		}
	}
	return n
}

// items turns what was weighed into what is offered.
func (p *Place) items(ranked []weighed, typed manuscript.Span) []Item {
	ranked = ranked[:min(len(ranked), mostItems)]
	list := make([]Item, len(ranked))
	for i, w := range ranked {
		list[i] = Item{
			Text: written(w.text), Span: typed, Kind: w.kind, Pattern: w.pattern(),
			Detail: detail(&w.candidate, w.mate.word), Score: share(w.score),
		}
		if i < mostDocs {
			list[i].Doc = Meaning(w.text)
		}
	}
	return list
}

// written is a word with the capital that it always has.
func written(text string) string {
	if text == "i" || strings.HasPrefix(text, "i'") {
		return "I" + text[1:]
	}
	return text
}

// mostDocs is how many items come with their meaning: a client asks for the
// others when the writer looks at them.
const mostDocs = 20

// share squeezes a score between 0 and 1.
func share(score float64) float64 { return 1 / (1 + math.Exp(-0.5*(score+3))) }
