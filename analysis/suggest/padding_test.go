package suggest_test

import (
	"slices"
	"strings"
	"testing"

	"dandle/analysis"
	"dandle/analysis/suggest"
)

// mendedLines are the lines that items make of a line of a text.
func mendedLines(s *analysis.Snapshot, line int, items []suggest.Item) []string {
	text := s.Manuscript().Text
	span := s.Manuscript().Lines[line].Span
	var list []string
	for _, item := range items {
		list = append(list, text[span.Start:item.Span.Start]+item.Text+text[item.Span.End:span.End])
	}
	return list
}

const quatrain = "%\nThe ferry bumped against the pier,\nThe lantern swung, the rope was old,\nAnd nobody was there to hear.\n"

// Each is what a handbook's deletion test leaves and an editor would try; the words
// are ours, the method is the craft's (common practice).
func TestPaddingIsMended(t *testing.T) {
	for _, c := range []struct {
		name, line string
		from, to   int
		mend       func(suggest.Place, int, int, int) []suggest.Item
		want       string
	}{
		{"a degree", "The evening wind was very cold,", 4, 5, suggest.Padding, "The evening wind was icy cold,"},
		{"just, before a verb", "He just put out the lamp of gold,", 1, 2, suggest.Padding, "Then he put out the lamp of gold,"},
		{"did", "The badger did unlock the hold,", 2, 3, doAt, "The badger then unlocked the hold,"},
		{"who did", "A badger who did dance was bold,", 3, 4, doAt, "A badger who could dance was bold,"},
		{"did, at the end", "The badger from the hall did creep,", 5, 6, doAt, "The badger from the hall crept out,"},
		{"did, at the end of a clause of time", "The badger sang when dusk did fall,", 5, 6, doAt, "The badger sang when dusk had fallen,"},
		{"very, before an adverb", "The wheel went very slowly, cold,", 3, 4, suggest.Padding, "The wheel went slowly, slowly, cold,"},
		{"a tag between commas", "A boat of brass, indeed, and gold,", 4, 5, suggest.Padding, "A painted boat of brass and gold,"},
		{"a degree before two joined", "She had a boat so blue and bold,", 4, 5, suggest.Padding, "She had a boat both blue and bold,"},
		{"a noun named twice", "The crab grew still when night it fell,", 6, 7, suggest.Padding, "The crab grew still when the night fell,"},
		{"a degree behind a noun", "A beetle very green and old,", 2, 3, suggest.Padding, "A beetle, spotted, green and old,"},
		{"a degree after sitting", "The badger sat so very cold,", 3, 5, suggest.Padding, "The badger sat wet, gray and cold,"},
		{"two ways out", "He leapt from out of frost and cold,", 2, 4, suggest.Padding, "He leapt straight out of frost and cold,"},
		{"did, before two verbs", "He did climb up and he did fold,", 1, 2, doAt, "He then climbed up and he did fold,"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := analysis.New(strings.Replace(quatrain, "%", c.line, 1), analysis.Options{})
			got := mendedLines(s, 0, c.mend(s.Place(0), 0, c.from, c.to))
			if !slices.Contains(got, c.want) {
				t.Errorf("%q is not among %q", c.want, got)
			}
		})
	}
}

func doAt(p suggest.Place, line, from, _ int) []suggest.Item {
	return suggest.PaddedVerb(p, line, from)
}

// A turned line is offered in the order of English, object after verb (Quirk and
// others, A Comprehensive Grammar, 10.1; from memory), and says what it then wants.
func TestTurnedLines(t *testing.T) {
	for _, c := range []struct{ name, line, want, wants string }{
		{"object first", "A blanket to the goat they sold,", "They sold a blanket to the goat,", "goat"},
		{"place first", "Into the hall the boat he rolled,", "He rolled the boat into the hall,", "hall"},
		{"a longer way", "And to the shore she then did ride,", "And she then rode into the shore,", "shore"},
		{"a name of two nouns", "The cabin key he quickly sold,", "He quickly sold the cabin key,", "key"},
		{"an adverb before the verb", "Ten barrels they had often sold,", "And they had often sold ten barrels,", "barrels"},
		{"adjective last", "She wore a little jacket gold,", "She wore a little coat of gold,", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := analysis.New(strings.Replace(quatrain, "%", c.line, 1), analysis.Options{})
			items := suggest.Turned(s.Place(0), 0)
			got := mendedLines(s, 0, items)
			i := slices.Index(got, c.want)
			if i < 0 {
				t.Fatalf("%q is not among %q", c.want, got)
			}
			if items[i].Wants != c.wants {
				t.Errorf("it wants a rhyme for %q, not %q", items[i].Wants, c.wants)
			}
		})
	}
}

// Who acts stays before what is done to: no anchor raises sailors.
func TestTurnedLinesKeepTheActor(t *testing.T) {
	for _, line := range []string{"The sailors all the anchors sold,", "The sailors the old anchor sold,"} {
		s := analysis.New(strings.Replace(quatrain, "%", line, 1), analysis.Options{})
		for _, mended := range mendedLines(s, 0, suggest.Turned(s.Place(0), 0)) {
			if strings.Contains(mended, "sold the sailors") {
				t.Errorf("%q sells the sailors", mended)
			}
		}
	}
}

// What one thinks of a thing comes before its size, its age, its shape, its colour and what
// it is made of (Quirk and others, 7.45; from memory): no house is a stone cozy one.
func TestAdjectivesKeepTheirOrder(t *testing.T) {
	s := analysis.New(strings.Replace(quatrain, "%", "A good cozy house is never cold,", 1), analysis.Options{})
	for _, line := range mendedLines(s, 0, suggest.Instead(s.Place(0), 0, 1, 2)) {
		for _, late := range []string{"stone cozy", "white cozy", "brick cozy", "thatched cozy", "painted cozy"} {
			if strings.Contains(line, late) {
				t.Errorf("%q has them out of order", line)
			}
		}
	}
}

// Whatever is asked for, nothing outside the text is touched and the line scans on.
func FuzzMends(f *testing.F) {
	f.Add("Oh, there was a boat with a sail so green,\nThe finest, you know, that I ever had seen.\n")
	f.Add("A hat to the goat did give.\nShe.\n")
	f.Add("She got very cross, and the shop smelled good,\nTogether did the two goats play.\n")
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 400 {
			t.Skip()
		}
		s := analysis.New(text, analysis.Options{})
		p := s.Place(0)
		for line := range p.Poem.Lines {
			items := suggest.Turned(p, line)
			for word := range p.Poem.Lines[line].Words {
				items = append(items, suggest.PaddedVerb(p, line, word)...)
				items = append(items, suggest.Shown(p, line, word, min(word+3, len(p.Poem.Lines[line].Words)))...)
				items = append(items, suggest.Padding(p, line, word, min(word+2, len(p.Poem.Lines[line].Words)))...)
			}
			for _, item := range items {
				if item.Span.Start < 0 || item.Span.End < item.Span.Start || item.Span.End > len(text) {
					t.Fatalf("%q replaces %v of %d bytes", item.Text, item.Span, len(text))
				}
			}
		}
	})
}
