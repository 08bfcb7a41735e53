package suggest

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"dandle/analysis/manuscript"
	"dandle/analysis/suggest/words"
)

// Limits of what is looked at, so that a common sound does not keep the writer
// waiting.
const (
	enough      = 40  // perfect rhymes, beyond which light and near ones are not looked for
	likelyMate  = 1   // as a logarithm: near rhymes are looked for to a line at most so much less likely than the first
	mostItems   = 100 // offered
	refrain     = 2   // words before the cursor that stand elsewhere before the same word: there it may be said again
	mostWeighed = 160 // candidates whose nearness to each word of the stanza is measured
)

// At lists the words that would end the line at the cursor: rhymes for the
// line's mate that fill what its meter still wants, best first, perfect ones
// before near ones. Of a word half typed only those that begin as it does are
// listed. It is empty where the cursor is not at the end of a line of verse, or
// in its last word, and where nothing says which line to answer.
func At(p Place) List {
	line, stands, typed, ok := p.ending()
	if !ok {
		return List{}
	}
	at := p.scene(line, stands)
	ranked := p.rank(p.candidates(line, stands, &at), &at)
	if phrases := p.phrases(line, stands, ranked, &at); len(phrases) > 0 {
		ranked = append(ranked, phrases...)
		slices.SortFunc(ranked, better)
	}
	ranked = begun(ranked, lower(p.Manuscript.Text[typed.Start:max(typed.Start, p.Offset)]))
	return List{Items: p.items(ranked, typed), Incomplete: len(ranked) > mostItems}
}

// ending finds the line whose end is at the cursor, how many of its words
// stand, and the place of the one being typed.
func (p *Place) ending() (line, stands int, typed manuscript.Span, ok bool) {
	line, typed, ok = p.cursor()
	if !ok {
		return 0, 0, typed, false
	}
	stands = len(p.Poem.Lines[line].Words)
	if typed.Len() > 0 {
		stands--
	}
	return line, stands, typed, true
}

// candidates are the words that rhyme with each line that the cursor's may
// answer.
func (p *Place) candidates(line, stands int, at *scene) []*weighed {
	var list []*weighed
	stand := newStand(p.Poem, line, stands)
	mates := p.mates(line)
	for n, m := range mates {
		at.place.Mates[n] = m.known.Vector()
		s := stand.slot(p.peers(line, m.line))
		tail := p.Poem.Lines[m.line].LastWords()
		found := rhymesOf(tail, p.Reader, perfectOnly)
		if len(found) < enough && m.odds > mates[0].odds-likelyMate {
			found = rhymesOf(tail, p.Reader, nearToo)
		}
		if again, ok := repeated(tail); ok && at.echoes[again.text] >= refrain {
			found = append(found, again)
		}
		all := make([]weighed, len(found))
		for i := range found {
			all[i].take(found[i], m, &s, at)
			all[i].choice.Mate = n
			list = append(list, &all[i])
		}
	}
	return list
}

// rank puts the best first, each word once.
func (p *Place) rank(list []*weighed, at *scene) []*weighed {
	palate := taught.At(&at.place)
	for _, w := range list {
		w.score = palate.Score(&w.choice) - at.cost(w)
	}
	slices.SortFunc(list, better)
	list = eachOnce(list)
	first := list[:min(len(list), mostWeighed)]
	for _, w := range first {
		w.compare(at)
		w.score = palate.Score(&w.choice) - at.cost(w)
	}
	slices.SortFunc(first, better)
	return list
}

func better(a, b *weighed) int {
	return cmp.Or(cmp.Compare(b.score, a.score), strings.Compare(a.text, b.text))
}

// eachOnce keeps of each word the first.
func eachOnce(list []*weighed) []*weighed {
	seen := make(map[words.Word]bool, len(list))
	return slices.DeleteFunc(list, func(w *weighed) bool {
		again := seen[w.word]
		seen[w.word] = true
		return again
	})
}

// begun keeps the words that begin with the letters typed.
func begun(list []*weighed, typed string) []*weighed {
	return slices.DeleteFunc(list, func(w *weighed) bool { return !strings.HasPrefix(w.text, typed) })
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

// items turns what was weighed into what is offered.
func (p *Place) items(ranked []*weighed, typed manuscript.Span) []Item {
	ranked = ranked[:min(len(ranked), mostItems)]
	list := make([]Item, len(ranked))
	for i, w := range ranked {
		list[i] = Item{
			Text: written(&w.candidate), Span: typed, Kind: w.kind, Pattern: w.pattern(),
			Detail: detail(&w.candidate, w.mate.word), Score: share(w.score),
		}
	}
	return list
}

// written is a word with the capital that it always has.
func written(c *candidate) string {
	if c.head != nil {
		return c.text
	}
	if c.text == "i" || strings.HasPrefix(c.text, "i'") || c.word.IsName() {
		return strings.ToUpper(c.text[:1]) + c.text[1:]
	}
	return c.text
}

// Docs tells of an item of the place what it means, and how the whole line would
// scan with it, in Markdown; nothing where neither is known. It is worked out when
// asked for, since a line is read anew. Who asks much later does not keep the poem
// alive: it holds on to the line alone.
func (p Place) Docs() func(Item) string {
	line, _, ok := p.cursor()
	if !ok {
		return func(item Item) string { return cmp.Or(item.Doc, lastMeaning(item)) }
	}
	poem := p.Poem.Alone(line)
	verse := p.Manuscript.Lines[line].Span
	text := strings.Clone(p.Manuscript.Text[verse.Start:p.lineEnd(line)])
	return func(item Item) string {
		if item.Doc != "" || strings.TrimSpace(item.Text) == "" {
			return item.Doc
		}
		meaning := lastMeaning(item)
		start, end := item.Span.Start-verse.Start, item.Span.End-verse.Start
		trial, ok := poem.Try(0, text[:start]+item.Text+text[end:max(end, verse.Len())])
		if !ok {
			return meaning
		}
		if meaning != "" {
			meaning += "\n\n"
		}
		return meaning + fmt.Sprintf("The line would go %s.", trial.Reading.FeetPattern())
	}
}

// lastMeaning is what an item's last word means.
func lastMeaning(item Item) string {
	parts := strings.Fields(item.Text)
	if len(parts) == 0 {
		return ""
	}
	return Meaning(parts[len(parts)-1])
}
