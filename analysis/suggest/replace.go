package suggest

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"dandle/analysis/scansion"
	"dandle/analysis/suggest/words"
	"dandle/phonetics/grammar"
)

const (
	maxReplacements = 8
	// tried bounds the candidates that are read in the line: each is a line
	// heard anew.
	tried = 40
	// steady is the deviance that a replacement may leave at most (ours; the
	// same that a mend may).
	steady = 0.3
)

// parts are the parts of speech whose plain form a dictionary lists. Other
// forms would need their endings carried over, so they are left alone; so are
// adverbs, since one intensifier for another helps nobody.
var parts = map[grammar.Tag]words.PartOfSpeech{
	grammar.Noun: words.Noun, grammar.Verb: words.Verb, grammar.VerbPresent: words.Verb,
	grammar.Adjective: words.Adjective,
}

// Replacements lists words that could stand in for word number word of line
// number line, nearest in sense first: what shares a meaning of it in WordNet,
// or lies one step from one. Each has been read in its line, and the line
// keeps its place. The last word of a line has none, for it bears the rhyme;
// nor have plurals, past forms and the like.
func Replacements(p Place, line, word int) []Item {
	if line < 0 || line >= len(p.Poem.Lines) || word < 0 || word+1 >= len(p.Poem.Lines[line].Words) {
		return nil
	}
	l := &p.Poem.Lines[line]
	old := l.Words[word]
	part, plain := parts[old.Tag]
	known := words.Find(lower(old.Text))
	if !plain || known == words.None {
		return nil
	}
	text := p.Manuscript.Text
	start, end := l.Words[0].Span.Start, l.Words[len(l.Words)-1].Span.End
	var list []Item
	for _, c := range kin(known, part, old.Tag) {
		if len(list) == maxReplacements {
			break
		}
		span, with := old.Span, likeIn(c.String(), old.Span.In(text))
		if word > 0 {
			if article, changed := articleFor(l.Words[word-1].Text, c.String()); changed {
				with = article + text[l.Words[word-1].Span.End:old.Span.Start] + with
				span.Start = l.Words[word-1].Span.Start
			}
		}
		t, ok := p.Poem.Try(line, text[start:span.Start]+with+text[span.End:end])
		if !ok || !t.Fits || t.Deviance > steady {
			continue
		}
		pattern := patternOf(t.Reading, word)
		list = append(list, Item{
			Text: with, Span: span, Pattern: pattern, Detail: pattern + " · near in sense to " + lower(old.Text),
			Doc:   fmt.Sprintf("%s\n\nThe line would go %s.", Meaning(c.String()), t.Reading.FeetPattern()),
			Score: words.Nearness(known, c),
		})
	}
	return list
}

// kin are words near a word in sense, nearest first.
func kin(known words.Word, part words.PartOfSpeech, tag grammar.Tag) []words.Word {
	var list []words.Word
	add := func(s *words.Sense) {
		for _, w := range s.Words {
			// A commoner word says less, and less is seldom what is wanted.
			if w != known && w.Rarity() >= known.Rarity() && w.Fitness() == words.Fit && grammar.CanBe(w.String(), tag) && !slices.Contains(list, w) {
				list = append(list, w)
			}
		}
	}
	for _, s := range known.Senses() {
		if s.Part != part {
			continue
		}
		add(&s)
		for _, wider := range s.Kin() {
			add(&wider)
		}
	}
	slices.SortStableFunc(list, func(a, b words.Word) int {
		return cmp.Compare(words.Nearness(known, b), words.Nearness(known, a))
	})
	return list[:min(len(list), tried)]
}

// likeIn gives a word the capital that another has in the text.
func likeIn(word, like string) string {
	if r, _ := utf8.DecodeRuneInString(like); !unicode.IsUpper(r) {
		return word
	}
	r, size := utf8.DecodeRuneInString(word)
	return string(unicode.ToUpper(r)) + word[size:]
}

// articleFor is "a" or "an" as the next word asks for by its first letter;
// false where the word before is no article or right already.
func articleFor(article, next string) (string, bool) {
	vowel := strings.ContainsRune("aeiou", rune(next[0]))
	switch {
	case article == "a" && vowel, article == "A" && vowel:
		return article + "n", true
	case (article == "an" || article == "An") && !vowel:
		return article[:1], true
	}
	return "", false
}

// patternOf is the beats of one word of a reading.
func patternOf(r scansion.Reading, word int) string {
	var b strings.Builder
	for _, s := range r.Syllables {
		switch {
		case s.Word != word:
		case s.Beat:
			b.WriteByte('/')
		default:
			b.WriteByte('x')
		}
	}
	return b.String()
}
