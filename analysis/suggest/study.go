package suggest

import (
	"dandle/analysis/suggest/taste"
	"dandle/analysis/suggest/words"
)

// Study is what a place teaches about taste: its candidates, and which of them
// are the word that a poet chose for it, in lower case. It is false where that
// word is not among them.
func Study(p Place, chosen string) (taste.Example, bool) {
	line, stands, _, ok := p.ending()
	if !ok {
		return taste.Example{}, false
	}
	word := words.Find(lower(chosen))
	at := p.scene(line, stands)
	list := p.candidates(line, stands, &at)
	e := taste.Example{Place: at.place}
	for _, w := range list {
		w.compare(&at)
		if w.word == word {
			e.Chosen = append(e.Chosen, len(e.Choices))
		}
		e.Choices = append(e.Choices, w.choice)
	}
	return e, len(e.Chosen) > 0
}
