package checks

import (
	"fmt"
	"slices"

	"dandle/analysis/scansion"
	inflection "dandle/analysis/suggest/forms"
	lexis "dandle/analysis/suggest/words"
	"dandle/phonetics"
)

// mostWords is how many other words are offered for a tangle.
const mostWords = 2

// easierWords offers words of the same sense for one of a junction's two, which
// scan in its place and leave no tangle. The last word bears the rhyme and
// stays.
func (p *Pass) easierWords(i int, line *scansion.Line, w int) []Fix {
	var fixes []Fix
	for _, k := range []int{w, w + 1} {
		if k == len(line.Words)-1 {
			continue
		}
		for _, text := range nearSense(&line.Words[k]) {
			if len(fixes) == mostWords {
				return fixes
			}
			if !p.easier(line, k, text) {
				continue
			}
			text = matchCase(text, line.Words[k].Text)
			if fix, fits := p.mended(i, fmt.Sprintf("Say %s, which is easier to say here", quote(text)), Edit{Span: line.Words[k].Span, Text: text}); fits {
				fixes = append(fixes, fix)
			}
		}
	}
	return fixes
}

// easier reports whether a text in the place of a word has its stresses, leaves
// no tangle, and the article before it as it is.
func (p *Pass) easier(line *scansion.Line, k int, text string) bool {
	ways := p.Reader.Pronounce(text, phonetics.Context{})
	if len(ways) == 0 || k >= len(line.Reading.Ways) || stresses(ways[0].Sounds) != stressPattern(line, k) {
		return false
	}
	if k > 0 {
		switch before := plain(line.Words[k-1].Text); before {
		case "a", "an":
			if len(ways[0].Sounds) == 0 || ways[0].Sounds.At(0).IsVowel() != (before == "an") {
				return false
			}
		}
	}
	tried := *line
	tried.Words = slices.Clone(line.Words)
	tried.Reading.Ways = slices.Clone(line.Reading.Ways)
	tried.Words[k].Text, tried.Words[k].Ways, tried.Reading.Ways[k] = text, ways[:1], 0
	return !tangled(&tried, k-1, k)
}

// nearSense are words that share a word's first sense, in the form that it has
// here: those that a child knows, and that print uses in like company.
func nearSense(w *scansion.Word) []string {
	known, part, found := inflection.Base(plain(w.Text), w.Tag)
	if !found {
		return nil
	}
	senses := slices.DeleteFunc(known.Senses(), func(s lexis.Sense) bool { return s.Part != part })
	if len(senses) == 0 {
		return nil
	}
	var list []string
	for _, o := range senses[0].Words {
		if o == known || o.Fitness() != lexis.Fit || o.Level() > 50 || lexis.Nearness(known, o) < related {
			continue
		}
		if text, fits := inflection.Of(o.String(), w.Tag); fits && !slices.Contains(list, text) {
			list = append(list, text)
		}
	}
	return list
}
