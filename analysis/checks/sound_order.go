package checks

import (
	"fmt"
	"slices"
	"strings"

	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"
	"dandle/phonetics/arpabet"
	"dandle/phonetics/grammar"
)

// inList reports whether words w and w+1 are members of one list: they play one
// part, and a third of the same part follows or stands before.
func inList(line *scansion.Line, w int) bool {
	return len(equals(line, w)) >= 3
}

// equals are the words of a line that stand beside word w as its equals, with
// commas, "and" or "or" between them; w is among them.
func equals(line *scansion.Line, w int) []int {
	list := []int{w}
	for at := w; ; {
		next, joined := equalAfter(line, at)
		if !joined || !onePart(&line.Words[w], &line.Words[next]) {
			break
		}
		list = append(list, next)
		at = next
	}
	for at := w - 1; at >= 0; at-- {
		if next, joined := equalAfter(line, at); joined && next == list[0] && onePart(&line.Words[w], &line.Words[at]) {
			list = slices.Insert(list, 0, at)
		} else if line.Words[at].Break == manuscript.NoBreak && !joins[plain(line.Words[at].Text)] {
			break
		}
	}
	return list
}

// joins are the words that join equals.
var joins = class("and or")

// equalAfter is the word that a comma, "and" or "or" joins to word w.
func equalAfter(line *scansion.Line, w int) (int, bool) {
	if w+1 >= len(line.Words) || line.Words[w].Break > manuscript.LightBreak {
		return 0, false
	}
	if joins[plain(line.Words[w+1].Text)] {
		return w + 2, w+2 < len(line.Words) && line.Words[w+1].Break == manuscript.NoBreak
	}
	return w + 1, line.Words[w].Break == manuscript.LightBreak
}

// onePart reports whether two words can play one part: in a list of short verbs
// some always look like nouns.
func onePart(a, b *scansion.Word) bool {
	if a.Tag == b.Tag {
		return true
	}
	for _, t := range []grammar.Tag{grammar.Verb, grammar.Noun, grammar.Adjective, grammar.VerbPast} {
		if grammar.CanBe(plain(a.Text), t) && grammar.CanBe(plain(b.Text), t) && (a.Tag == t || b.Tag == t) {
			return true
		}
	}
	return false
}

const (
	mostEqual  = 4 // words whose orders are tried, of which there are 24
	mostOrders = 2 // offers
)

// easierOrders offers other orders of the words that stand beside one of a
// junction's two as its equals. They scan alike, since the words that move have
// one pattern; and none has a tangle. The rhyme stays where it is.
func easierOrders(line *scansion.Line, w int) []Fix {
	var fixes []Fix
	for _, at := range [][]int{equals(line, w), equals(line, w+1)} {
		if len(at) < 2 || len(at) > mostEqual || len(fixes) > 0 {
			continue
		}
		for order := range orders(len(at)) {
			if fix, easy := reordered(line, at, order); easy && len(fixes) < mostOrders {
				fixes = append(fixes, fix)
			}
		}
	}
	return fixes
}

// orders are all orders of n things but the one they have, those first that move
// the fewest.
func orders(n int) func(func([]int) bool) {
	var all [][]int
	var extend func(order []int)
	extend = func(order []int) {
		if len(order) == n {
			all = append(all, slices.Clone(order))
			return
		}
		for i := range n {
			if !slices.Contains(order, i) {
				extend(append(order, i))
			}
		}
	}
	extend(make([]int, 0, n))
	moved := func(order []int) int {
		m := 0
		for i, o := range order {
			if i != o {
				m++
			}
		}
		return m
	}
	slices.SortStableFunc(all, func(a, b []int) int { return moved(a) - moved(b) })
	return slices.Values(all[1:])
}

// reordered is the line with its words at some places in another order; false
// where that would not scan alike, or a tangle is left.
func reordered(line *scansion.Line, at, order []int) (Fix, bool) {
	tried := *line
	tried.Words = slices.Clone(line.Words)
	tried.Reading.Ways = slices.Clone(line.Reading.Ways)
	var edits []Edit
	var names []string
	for k, i := range at {
		from := at[order[k]]
		word := &line.Words[from]
		names = append(names, word.Text)
		if from == i {
			continue
		}
		if i == len(line.Words)-1 || from == len(line.Words)-1 || word.Tag == grammar.Name || stressPattern(line, from) != stressPattern(line, i) {
			return Fix{}, false
		}
		brk := tried.Words[i].Break
		tried.Words[i] = *word
		tried.Words[i].Break = brk
		tried.Reading.Ways[i] = line.Reading.Ways[from]
		edits = append(edits, Edit{Span: line.Words[i].Span, Text: matchCase(word.Text, line.Words[i].Text)})
	}
	if tangled(&tried, at[0]-1, at[len(at)-1]) {
		return Fix{}, false
	}
	return Fix{Title: fmt.Sprintf("Say %s: either order scans alike, and this one is easier to say", strings.ToLower(strings.Join(names, ", "))), Edits: edits}, true
}

// tangled reports whether a seam behind one of the words from first to last is
// hard to say.
func tangled(line *scansion.Line, first, last int) bool {
	for i := max(first, 0); i <= min(last, len(line.Words)-2); i++ {
		if junction(line, i).confidence > 0 {
			return true
		}
	}
	return false
}

// matchCase gives a word the capital of the one whose place it takes.
func matchCase(word, like string) string {
	if like != "" && like[:1] == strings.ToUpper(like[:1]) && like[:1] != strings.ToLower(like[:1]) {
		return capital(word)
	}
	return strings.ToLower(word)
}

// stressPattern is a word's stresses as it is read here.
func stressPattern(line *scansion.Line, word int) string {
	sounds, ok := soundsOf(line, word)
	if !ok {
		return ""
	}
	return stresses(sounds)
}

func stresses(sounds arpabet.Sounds) string {
	var b strings.Builder
	for _, s := range sounds.Stresses() {
		fmt.Fprintf(&b, "%d", s)
	}
	return b.String()
}
