package suggest

import (
	"dandle/analysis/manuscript"
	"dandle/analysis/suggest/words"
)

// Shown lists what Instead does and, where an adjective bears the rhyme and nothing that shows
// more would keep it, what breaks it: each item then says with which word the line wants a
// rhyme.
func Shown(p Place, line, from, to int) []Item {
	if items := Instead(p, line, from, to); len(items) > 0 {
		return items
	}
	s, ok := p.spot(line, from, to)
	if !ok || s.to < len(p.Poem.Lines[line].Words) || s.part != words.Adjective || s.how != words.None || s.hasComplement() {
		return nil
	}
	return s.breakingRhyme()
}

// breakingRhyme lists what may stand for an adjective at the end of a line if its mate is
// to change as well.
func (s *spot) breakingRhyme() []Item {
	s.anew = true
	list := s.firmly()
	if s.place.isEmpty(s.text) && !s.isBehindNoun() {
		list = append(list, s.picturedInstead()...)
	}
	items := s.offers(byScore(list))
	for i := range items {
		if last := lastWord(items[i].Text); !s.rhymes(last) {
			items[i].Wants = last
		}
	}
	return items
}

// isBehindNoun reports whether the spot stands behind its noun with nothing between them, as
// few adjectives may: "someone so dear".
func (s *spot) isBehindNoun() bool {
	if s.from == 0 {
		return false
	}
	before := s.place.Poem.Lines[s.line].Words[s.from-1]
	return before.Tag.IsNoun() && before.Break == manuscript.NoBreak
}
