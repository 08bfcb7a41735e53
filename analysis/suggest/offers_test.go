package suggest_test

import (
	"os"
	"slices"
	"strings"
	"testing"

	"dandle/analysis/suggest"
)

// A case is a marked stretch of a line, for which a word is wanted.
type offerCase struct{ line, from, to int }

// unmarked takes the braces out of a verse, and says which words they held.
func unmarked(text string) (string, [][2]int) {
	var b strings.Builder
	var spans [][2]int
	for _, r := range text {
		switch r {
		case '{':
			spans = append(spans, [2]int{b.Len(), 0})
		case '}':
			spans[len(spans)-1][1] = b.Len()
		default:
			b.WriteRune(r)
		}
	}
	return b.String(), spans
}

func casesOf(p suggest.Place, spans [][2]int) []offerCase {
	var list []offerCase
	for _, s := range spans {
		for i, l := range p.Poem.Lines {
			c := offerCase{i, -1, -1}
			for k, w := range l.Words {
				if s[0] <= w.Span.Start && w.Span.End <= s[1] {
					if c.from < 0 {
						c.from = k
					}
					c.to = k + 1
				}
			}
			if c.from >= 0 {
				list = append(list, c)
			}
		}
	}
	return list
}

var weakInTest = strings.Fields("good nice great bad pretty lovely beautiful wonderful amazing special fun perfect awesome awful terrible horrible horrid dreadful marvelous marvellous fantastic fabulous terrific splendid gorgeous magnificent superb excellent brilliant delightful charming pleasant unpleasant enjoyable remarkable extraordinary spectacular incredible adorable cute lousy super grand handsome ideal outstanding exciting interesting important attractive fine wondrous glorious impressive stunning big small large happy sad glad")

func TestShowOffers(t *testing.T) {
	file := os.Getenv("OFFERS")
	if file == "" {
		t.Skip()
	}
	data, _ := os.ReadFile(file)
	n, offered := 0, 0
	for part := range strings.SplitSeq(string(data), "\n---\n") {
		text, spans := unmarked(part)
		p := place("|" + text)
		p.Judges = func(w string) bool { return slices.Contains(weakInTest[:len(weakInTest)-6], w) }
		p.Empty = func(w string) bool { return slices.Contains(weakInTest, w) }
		for _, c := range casesOf(p, spans) {
			l := p.Poem.Lines[c.line]
			n++
			list := suggest.Instead(p, c.line, c.from, c.to)
			if len(list) > 0 {
				offered++
			}
			t.Logf("%3d %s  %v/%s [%s]  => %s", n, p.Manuscript.Lines[c.line].Span.In(p.Manuscript.Text), l.Words[c.to-1].Tag, l.Reading.FeetPattern(), p.Manuscript.Text[l.Words[c.from].Span.Start:l.Words[c.to-1].Span.End], strings.Join(texts(list, 9), ", "))
		}
	}
	t.Logf("%d of %d", offered, n)
}
