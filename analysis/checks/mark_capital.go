package checks

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"dandle/analysis/manuscript"
)

const markCapitalDoc = `
A line begins in another case than the manuscript's other lines do.

Verse may set a capital at the head of every line, or only where a sentence begins; both are
good, and half of each makes a reader look for sentences that are not there. The manuscript's
own habit decides, where at least six lines show it and nearly all keep it. Lines that begin
with a name or with _I_, indented lines and speech show nothing.

In 8,905 lines of Housman and Kipling it speaks 3 times, at the rest of a line that was turned
over.

Raised here, at _and_:

    The vole had a ladder, the vole had a pail,
    and up she went, whistling, to polish the snail,
    With rags and a bucket and bottles of shine,
    She rubbed till his shell was as bright as a sign.

Not here, where only sentences begin with a capital:

    The vole had a ladder, the vole had a pail,
    and up she went, whistling, to polish the snail.
    She rubbed with a sponge and a bottle of shine
    until he was ready to glow like a sign.
`

var markCapital = &Check{
	Code:     "mark/capital",
	Severity: Hint,
	Doc:      markCapitalDoc,
	Run: func(p *Pass) {
		names := capitalised(p.Manuscript)
		var upper, lower []int // lines that show a habit
		for i := 1; i < len(p.Manuscript.Lines); i++ {
			switch caseAt(p, i, names) {
			case capitalStart:
				upper = append(upper, i)
			case smallStart:
				lower = append(lower, i)
			case noHabit:
			}
		}
		odd, many, few := lower, "a capital", "a small letter"
		if len(lower) > len(upper) {
			odd, many, few = upper, "a small letter", "a capital"
		}
		all := len(upper) + len(lower)
		if all < leastHabit || float64(len(odd)) > oddLines*float64(all) {
			return
		}
		for _, i := range odd {
			first := p.Manuscript.Lines[i].Words[0]
			span := first.Span
			p.Report(Finding{
				Span: span, Line: i, Confidence: 0.75,
				Message: fmt.Sprintf("Inside a sentence your lines begin with %s, and this one with %s; one habit throughout spares the reader a second look.", many, few),
				Fixes:   []Fix{{Title: "Begin it like the others", Edits: []Edit{{Span: span, Text: otherCase(span.In(p.Manuscript.Text))}}}},
			})
		}
	},
}

// How many lines show a habit, and what share of them may leave it (ours).
const (
	leastHabit = 6
	oddLines   = 0.2
)

// A lineCase is what a line's first letter tells of the manuscript's habit.
type lineCase uint8

const (
	noHabit lineCase = iota
	capitalStart
	smallStart
)

// caseAt is how a line begins that goes on with the sentence of the line before,
// but not with its verse: half a verse may begin small among capitals.
func caseAt(p *Pass, i int, names words) lineCase {
	m := p.Manuscript
	if p.Poem.Lines[i].Continues {
		return noHabit
	}
	l, before := &m.Lines[i], &m.Lines[i-1]
	if len(l.Words) == 0 || len(before.Words) == 0 || l.Span.Start != l.Words[0].Span.Start || indented(m, i) {
		return noHabit
	}
	last := before.Words[len(before.Words)-1]
	parted := strings.HasPrefix(m.Text[last.Span.End:], "-") // a word over two lines
	if parted || l.Stanza != before.Stanza || last.Break > manuscript.LightBreak || l.Words[0].Quoted != last.Quoted {
		return noHabit
	}
	first := l.Words[0]
	switch text := plain(first.Text); {
	case lowerStart(first.Text):
		return smallStart
	case text == "i", strings.HasPrefix(text, "i'"), names[text], first.Shouted, !upperStart(first.Text):
		return noHabit
	}
	return capitalStart
}

// indented reports whether a line begins further in than the line before, as the
// turned-over rest of a long one does.
func indented(m *manuscript.Manuscript, i int) bool {
	depth := func(k int) int {
		return m.Lines[k].Span.Start - m.LineStarts[m.Lines[k].Number-1]
	}
	return depth(i) > depth(i-1)
}

// capitalised are the words that stand with a capital inside a line: names.
func capitalised(m *manuscript.Manuscript) words {
	names := words{}
	for i := range m.Lines {
		for k, w := range m.Lines[i].Words {
			if k > 0 && upperStart(w.Text) && m.Lines[i].Words[k-1].Break == manuscript.NoBreak {
				names[plain(w.Text)] = true
			}
		}
	}
	return names
}

func upperStart(word string) bool {
	r, _ := utf8.DecodeRuneInString(strings.TrimLeft(word, "'’‘"))
	return unicode.IsUpper(r)
}

func lowerStart(word string) bool {
	r, _ := utf8.DecodeRuneInString(strings.TrimLeft(word, "'’‘"))
	return unicode.IsLower(r)
}

// otherCase is a word with its first letter in the other case.
func otherCase(word string) string {
	at := strings.IndexFunc(word, unicode.IsLetter)
	if at < 0 {
		return word
	}
	r, size := utf8.DecodeRuneInString(word[at:])
	if unicode.IsUpper(r) {
		return word[:at] + string(unicode.ToLower(r)) + word[at+size:]
	}
	return word[:at] + string(unicode.ToUpper(r)) + word[at+size:]
}
