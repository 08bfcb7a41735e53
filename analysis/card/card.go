// Package card sets what was heard in a line as a block of plain text: the
// beats over the syllables they fall on, with the feet parted. It is what the
// hover and the command show; it hears nothing itself and knows no colour.
package card

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"

	"golang.org/x/text/width"
)

// maxSyllables bounds a card. The longest meter that is in use has sixteen
// syllables or so; what is longer than this is not verse and cannot be read in
// a card.
const maxSyllables = 120

// A Block is a line set in two rows of the same display width: Marks over
// Syllables, one column for each syllable, feet parted by "|" in both. A word of
// several syllables is divided by "·"; words that are said as one syllable are
// joined by "‿". Both rows are empty where no reading is known.
type Block struct {
	Marks     string // "x   /   |  x   x    /"
	Syllables string // "The lamp|  on the head·"
	Break     string // "               ^^^^^": where the line loses the meter; empty where it does not
}

// String is the rows, each ended by a line break; empty for an empty block.
func (b Block) String() string {
	switch {
	case b.Syllables == "":
		return ""
	case b.Break == "":
		return b.Marks + "\n" + b.Syllables + "\n"
	}
	return b.Marks + "\n" + b.Syllables + "\n" + b.Break + "\n"
}

// Line sets one line of a manuscript's text. Spans that do not lie in the text
// leave the block empty.
func Line(text string, line manuscript.Line, heard scansion.Line) Block {
	cells := cells(text, line, heard.Reading.Syllables)
	feet := heard.Reading.Feet
	var marks, syllables, lost strings.Builder
	at := 0 // columns of the rows so far
	for i, c := range cells {
		for len(feet) > 0 && feet[0] < i {
			feet = feet[1:]
		}
		switch {
		case i == 0:
		case len(feet) > 0 && feet[0] == i:
			marks.WriteString(" | ")
			syllables.WriteString(" | ")
			at += len(" | ")
		default:
			marks.WriteByte(' ')
			syllables.WriteByte(' ')
			at++
		}
		if b := heard.Break; b != nil && b.From <= i && i < b.To {
			written := lost.Len()
			lost.WriteString(strings.Repeat(" ", at-written))
			lost.WriteString(strings.Repeat("^", displayWidth(c.text)))
		}
		at += c.width
		marks.WriteString(strings.Repeat(" ", c.vowel))
		marks.WriteString(c.mark)
		marks.WriteString(strings.Repeat(" ", c.width-c.vowel-1))
		syllables.WriteString(c.text)
		syllables.WriteString(strings.Repeat(" ", c.width-displayWidth(c.text)))
	}
	return Block{
		Marks:     strings.TrimRight(marks.String(), " "),
		Syllables: strings.TrimRight(syllables.String(), " "),
		Break:     lost.String(),
	}
}

// Spaced sets a pattern for reading: "xx/|xx/" becomes "x x / | x x /".
func Spaced(pattern string) string {
	return strings.Join(strings.Split(pattern, ""), " ")
}

// A cell is one column.
type cell struct {
	text  string
	mark  string
	width int // of the column
	vowel int // display column of the mark in it, over the syllable's first vowel
}

func cells(text string, line manuscript.Line, syllables []scansion.Syllable) []cell {
	out := make([]cell, 0, min(len(syllables), maxSyllables))
	from := line.Span.Start
	for i, s := range syllables {
		if i == maxSyllables {
			return append(out, cell{text: "…", mark: " ", width: 1})
		}
		to := line.Span.End
		inside := false // the next syllable belongs to the same word
		if i+1 < len(syllables) {
			to = parting(text, s.Span.End, syllables[i+1].Span.Start)
			inside = syllables[i+1].Word == s.Word
		}
		if from < 0 || to > len(text) || from > to {
			return nil
		}
		c := cell{text: shown(text[from:to], silent(line.Words, s, from, to)), mark: "x"}
		from = to
		if s.Beat {
			c.mark = "/"
		}
		c.vowel = vowelColumn(c.text)
		if inside && endsInLetter(c.text) {
			c.text += "·" // where the spelling has a hyphen, that divides it
		}
		c.width = max(displayWidth(c.text), c.vowel+1)
		out = append(out, c)
	}
	return out
}

// parting is where the gap between two syllables is cut: what is joined to the
// second without a space, such as an opening quote, belongs to it.
func parting(text string, end, start int) int {
	if end < 0 || start > len(text) || end > start {
		return start
	}
	return end + strings.LastIndexFunc(text[end:start], unicode.IsSpace) + 1
}

// silent is where, in a piece of the text, the words start that have no syllable
// of their own but share this one.
func silent(words []manuscript.Word, s scansion.Syllable, from, to int) map[int]bool {
	var out map[int]bool
	for i := max(s.Word+1, 0); i < len(words) && words[i].Span.Start < to; i++ {
		if words[i].Span.Start >= from {
			if out == nil {
				out = map[int]bool{}
			}
			out[words[i].Span.Start-from] = true
		}
	}
	return out
}

// shown is a piece of the text as one column shows it: without controls, on one
// line, and with "‿" before the words that share the syllable.
func shown(piece string, joined map[int]bool) string {
	var b strings.Builder
	space := false
	for i, r := range piece {
		switch {
		case unicode.IsSpace(r):
			space = b.Len() > 0
			continue
		case r == utf8.RuneError || unicode.IsControl(r):
			r = utf8.RuneError
		}
		if joined[i] {
			b.WriteRune('‿')
		} else if space {
			b.WriteByte(' ')
		}
		space = false
		b.WriteRune(r)
	}
	return b.String()
}

func endsInLetter(s string) bool {
	r, _ := utf8.DecodeLastRuneInString(s)
	return unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.IsMark(r)
}

// vowelColumn is where the mark stands: over the first vowel letter, as a
// scansion is written by hand, else over the first letter.
func vowelColumn(s string) int {
	column, first := 0, -1
	for _, r := range s {
		letter := unicode.IsLetter(r)
		if letter && first < 0 {
			first = column
		}
		// "y" is a vowel letter unless it opens the syllable: "yes", "sky".
		if strings.ContainsRune("aeiouAEIOUàáâäèéêëìíîïòóôöùúûü", r) || (r == 'y' || r == 'Y') && first >= 0 && first < column {
			return column
		}
		column += runeWidth(r)
	}
	return max(first, 0)
}

func displayWidth(s string) int {
	n := 0
	for _, r := range s {
		n += runeWidth(r)
	}
	return n
}

// runeWidth is the columns a character takes in a terminal (UAX 11): none for
// what combines, two for wide ones.
func runeWidth(r rune) int {
	if unicode.In(r, unicode.Mn, unicode.Me, unicode.Cf) {
		return 0
	}
	switch width.LookupRune(r).Kind() {
	case width.EastAsianWide, width.EastAsianFullwidth:
		return 2
	default:
		return 1
	}
}
