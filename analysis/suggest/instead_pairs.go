package suggest

import "dandle/analysis/suggest/words"

// paired is how many sights are tried in a pair: the first are the surest.
const paired = 10

// pairs are what could stand in the place of a degree and its adjective where no
// single word does, best first: a sight before the adjective, "dusty old" for
// "very old", or joined to it, "wild and cold" for "very cold"; or two sights,
// "dark and starry" for "really special", where the adjective only judges.
func (s *spot) pairs() []proposal {
	noun, before := s.described()
	judged := s.place.judges(s.head.String())
	if noun == words.None || !judged && s.place.isEmpty(s.head.String()) {
		return nil // "tall and small"
	}
	sights := s.sights()
	sights = sights[:min(len(sights), paired)]
	var beside, joined, both []proposal
	for _, c := range sights {
		text := c.word.String()
		if judged {
			for _, other := range sights {
				if other.word != c.word && words.Nearness(other.word, c.word) < sameKind {
					both = append(both, proposal{c.word, text + " and " + other.word.String(), c.score, c.why})
				}
			}
			continue
		}
		if words.Nearness(c.word, s.head) > sameKind {
			continue // "warm and cold"
		}
		if before {
			beside = append(beside, proposal{c.word, text + " " + s.text, c.score, c.why})
		}
		joined = append(joined, proposal{c.word, text + " and " + s.text, c.score, c.why})
	}
	return append(append(beside, joined...), both...)
}
