package words

import "strings"

// A Side is a side of the ocean, on which words are written otherwise than on the other:
// "harbor", "harbour".
type Side uint8

// The sides.
const (
	EitherSide Side = iota
	American
	British
	name // of which the lists tell no side
)

func (w Word) side() Side { return Side(table[parts.facts+3*int(w)+1] >> sideShift) }

// Side is the side on which alone the word is written so, as SCOWL's lists tell it.
func (w Word) Side() Side {
	if s := w.side(); s != name {
		return s
	}
	return EitherSide
}

// Writes reports whether the word may be written so on this side.
func (s Side) Writes(w Word) bool {
	side := w.Side()
	return s == EitherSide || side == EitherSide || side == s
}

// spellings are letters that one side writes for those of the other.
var spellings = [][2]string{ // American, British
	{"or", "our"}, {"z", "s"}, {"l", "ll"}, {"er", "re"}, {"ense", "ence"}, {"og", "ogue"}, {"a", "e"}, {"e", "ae"}, {"ow", "ough"}, {"ll", "l"},
}

// Spell is how this side writes a word that the other writes otherwise; the word itself
// where it knows no other spelling.
func (s Side) Spell(text string) string {
	w := Find(text)
	if w == None || s.Writes(w) {
		return text
	}
	for _, pair := range spellings {
		from, to := pair[0], pair[1]
		if s == American {
			from, to = to, from
		}
		for at := 0; at < len(text); at++ {
			rest, ok := strings.CutPrefix(text[at:], from)
			if !ok {
				continue
			}
			if other := Find(text[:at] + to + rest); other != None && other.Side() == s {
				return other.String()
			}
		}
	}
	return text
}
