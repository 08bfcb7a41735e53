package critique

import (
	"fmt"
	"slices"
	"strings"

	"dandle/analysis/checks"
	"dandle/analysis/rhyme"
	"dandle/analysis/scansion"
)

// fewLines is how many lines there are at least in a text that can keep a meter:
// a pair of couplets.
const fewLines = 4

// meter tells the meter as a writer would understand it, and sets one verse out.
func (w *writer) meter() Section {
	s := Section{Kind: Meter, Heading: "The meter"}
	meter := &w.Poem.Meter
	if len(w.Manuscript.Lines) < fewLines {
		s.Paragraphs = []string{pick(len(w.Manuscript.Lines), "One line is", "A few lines are") + " too little to tell a tune by; with a verse or two more I can listen for it."}
		return s
	}
	if !meter.Regular || meter.Foot == scansion.NoMeter {
		s.Paragraphs = []string{w.pulls() + " If that is meant, as in free verse, there is nothing to mend; if a tune was in your head, name it under “meter:” in the front matter, and I can listen for it."}
		return s
	}
	text := w.moves(meter)
	if len(w.Poem.Parts) > 1 {
		for i := range w.Poem.Parts {
			part := &w.Poem.Parts[i]
			if part.Meter.Regular && part.Meter.Name() != meter.Name() {
				text += fmt.Sprintf(" %s %s another tune, %s.", capital(versesNamed(part.Stanzas)), pick(len(part.Stanzas), "has", "have"), part.Meter.Name())
			}
		}
	}
	s.Paragraphs = []string{text}
	stanza := w.model()
	if stanza < 0 {
		return s
	}
	st := w.Manuscript.Stanzas[stanza]
	to := min(st.To, st.From+6)
	if w.tone == Brief {
		to = min(to, st.From+2)
	}
	for i := st.From; i < to; i++ {
		s.Feet = append(s.Feet, w.verse(i))
	}
	verb, where := "Here are", counted(to-st.From, "line")+" of it"
	if st.From == 0 && to == st.To {
		verb, where = "Here is", "your first verse"
	}
	s.Paragraphs = append(s.Paragraphs, fmt.Sprintf("%s %s with the beats (/) over the syllables that carry them:", verb, where))
	return s
}

// shownLeaning is how many lines are named that lean to a meter.
const shownLeaning = 6

// pulls says what tunes the lines lean to where they keep none.
func (w *writer) pulls() string {
	list := w.Poem.Leanings()
	named := func(l scansion.Leaning) string {
		var places []Place
		for _, i := range l.Lines[:min(len(l.Lines), shownLeaning)] {
			places = append(places, Place{Line: w.Manuscript.Lines[i].Number})
		}
		where := lineNumbers(places)
		if more := len(l.Lines) - len(places); more > 0 {
			where = strings.Replace(where, " and ", ", ", 1) + " and " + cardinal(more) + " more"
		}
		return fmt.Sprintf("%s (%s)", l.Meter.Name(), where)
	}
	switch len(list) {
	case 0:
		return "I hear no one meter that the lines keep."
	case 1:
		return fmt.Sprintf("I hear no one meter that all the lines keep. The nearest is %s; the others leave it, each in its own way.", named(list[0]))
	}
	return fmt.Sprintf("Two tunes pull at the lines: %s and %s. The ear settles into one and trips over the other; choose the one that you hear, and call the other lines over.", named(list[0]), named(list[1]))
}

// moves is the sentence about a meter.
func (w *writer) moves(meter *scansion.Meter) string {
	name := meter.Name()
	verb := "I hear "
	if meter.Declared {
		verb = "Your front matter names "
	} else if meter.Confidence < 0.6 {
		verb = "My ear leans to "
	}
	how, known := footWords[meter.Foot]
	beats := beatsIn(meter.Beats)
	if !known {
		return fmt.Sprintf("%s%s: %s, with one or two light syllables between, as the words like it.", verb, name, beats)
	}
	return fmt.Sprintf("%s%s: %s (%s), %s.", verb, name, how.steps, how.sung, beats)
}

// beatsIn says how many beats the lines have.
func beatsIn(beats []int) string {
	switch {
	case len(beats) == 0:
		return "over and over"
	case len(slices.Compact(slices.Clone(beats))) == 1:
		return counted(beats[0], "beat") + " to a line"
	case len(beats) == 2:
		return fmt.Sprintf("lines of %s and %s beats in turn", cardinal(beats[0]), cardinal(beats[1]))
	}
	list := make([]string, len(beats))
	for i, n := range beats {
		list[i] = cardinal(n)
	}
	return "lines of " + listed(list) + " beats"
}

// versesNamed names stanzas by their numbers.
func versesNamed(stanzas []int) string {
	list := make([]string, 0, len(stanzas))
	for _, i := range stanzas {
		list = append(list, fmt.Sprint(i+1))
	}
	if len(list) > 6 {
		return counted(len(list), "verse")
	}
	return pick(len(list), "verse ", "verses ") + listed(list)
}

// model is the first stanza in the main meter whose lines all fit; -1 where
// none does.
func (w *writer) model() int {
	other := map[int]bool{}
	for p := range w.Poem.Parts {
		if part := &w.Poem.Parts[p]; part.Meter.Name() != w.Poem.Meter.Name() {
			for _, i := range part.Stanzas {
				other[i] = true
			}
		}
	}
	for i, st := range w.Manuscript.Stanzas {
		fits := st.To-st.From > 1 && !other[i]
		for k := st.From; k < st.To; k++ {
			l := &w.Poem.Lines[k]
			fits = fits && l.Fits && len(l.Reading.Syllables) > 0
		}
		if fits {
			return i
		}
	}
	return -1
}

// verses is what runs through the stanzas: the scheme, the refrains, the sounds
// and the pictures.
func (w *writer) verses() Section {
	s := Section{Kind: Verses, Heading: "Across the verses"}
	if w.tone == Full {
		for _, text := range []string{w.schemes(), w.sounds()} {
			if text != "" {
				s.Paragraphs = append(s.Paragraphs, text)
			}
		}
	}
	s.Notes = w.gathered(func(f checks.Finding) bool {
		if f.Severity == checks.Praise {
			return false
		}
		switch f.Code.Area() {
		case "mark", "note", "book":
			return false
		}
		return !onLines(f.Code)
	})
	return s
}

// freeLines explains the letter of an unrhymed line, where one stands in a
// scheme that is named.
func freeLines(schemes []string) string {
	for _, s := range schemes {
		if strings.Contains(s, rhyme.Unrhymed) {
			return ", where X is a line that owes no rhyme"
		}
	}
	return ""
}

// couplet is the scheme of two lines that rhyme.
const couplet = "AA"

// schemes says how the stanzas rhyme, for each length of stanza that there is
// more than one of.
func (w *writer) schemes() string {
	var order []string
	stanzas := map[string]int{} // by scheme
	rhymed := 0
	for i := range w.Stanzas {
		name := w.Stanzas[i].Scheme.String()
		if strings.Trim(name, rhyme.Unrhymed) == "" {
			continue
		}
		rhymed++
		if stanzas[name] == 0 {
			order = append(order, name)
		}
		stanzas[name]++
	}
	if rhymed == 0 {
		return ""
	}
	slices.SortStableFunc(order, func(a, b string) int { return stanzas[b] - stanzas[a] })
	all := len(w.Stanzas)
	switch n := stanzas[order[0]]; {
	case n == all && all == 1:
		return "The verse rhymes " + order[0] + "."
	case n == all && all == 2:
		return fmt.Sprintf("Both verses rhyme %s%s.", order[0], freeLines(order))
	case n == all:
		return fmt.Sprintf("All %s verses rhyme %s%s.", cardinal(all), order[0], freeLines(order))
	case n == 1:
		return "" // every stanza goes its own way, and there is nothing to compare
	}
	var parts, named []string
	left := all
	for _, name := range order {
		if n := stanzas[name]; n > 1 && len(name) <= 14 {
			parts = append(parts, fmt.Sprintf("%s rhyme %s", counted(n, "verse"), name))
			left -= n
			named = append(named, name)
		}
	}
	if len(parts) == 0 {
		return ""
	}
	text := capital(listed(parts)) + freeLines(named)
	switch {
	case left == 1 && w.Stanzas[all-1].Scheme.String() == couplet:
		text += "; the last is a couplet"
	case left == 1:
		text += "; one goes another way"
	case left > 1:
		text += fmt.Sprintf("; the other %s go their own ways", cardinal(left))
	}
	return text + "."
}
