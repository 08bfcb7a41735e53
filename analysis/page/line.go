package page

import (
	"bytes"
	"sort"
	"strings"
	"unicode"

	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"
)

// A verseLine is one line of verse, cut into its feet.
type verseLine struct {
	Number  int
	Off     bool // it does not fit its place
	Feet    []foot
	Pattern string      // the feet in marks, for who does not see them
	Letter  *letterMark // of its rhyme; nil where it rhymes with none
	Margin  []marginal
	Wanted  string // the pattern that its place calls for, where it has another
}

// A foot is the syllables between two bars.
type foot struct{ Pieces []piece }

// A piece is one syllable of the text with its mark, or text without one.
type piece struct {
	Text     string
	Mark     string // "/" or "x"; empty for text that has no syllable
	Space    bool   // a space follows
	Emphasis bool
	Noted    bool // a note is about it
	Rhymes   bool // it carries the line's rhyme
}

// pieces cuts a line into its feet. Noted are the places that notes are about.
// Joined, the pieces are the line as typed, without its art notes, comments and
// emphasis marks, and with single spaces.
func pieces(m *manuscript.Manuscript, index int, heard *scansion.Line, noted []manuscript.Span) []foot {
	line := &m.Lines[index]
	text := visible(m, line)
	at := func(offset int) int { return min(max(offset-line.Span.Start, 0), len(text)) }
	syllables := heard.Reading.Syllables
	if len(syllables) == 0 {
		return []foot{{Pieces: []piece{shownPiece(text)}}}
	}
	lastBeat := len(syllables)
	for i, s := range syllables {
		if s.Beat {
			lastBeat = i
		}
	}
	var feet []foot
	bars := heard.Reading.Feet
	from := 0
	for i, s := range syllables {
		to := len(text)
		if i+1 < len(syllables) {
			to = parting(text, at(s.Span.End), at(syllables[i+1].Span.Start))
		}
		p := shownPiece(text[from:max(from, to)])
		from = max(from, to)
		p.Mark = "x"
		if s.Beat {
			p.Mark = "/"
		}
		p.Rhymes = i >= lastBeat
		if s.Word >= 0 && s.Word < len(line.Words) {
			p.Emphasis = line.Words[s.Word].Emphasis
		}
		for _, n := range noted {
			p.Noted = p.Noted || n.Start < s.Span.End && s.Span.Start < n.End
		}
		for len(bars) > 0 && bars[0] < i {
			bars = bars[1:]
		}
		if i == 0 || len(bars) > 0 && bars[0] == i {
			feet = append(feet, foot{})
		}
		last := &feet[len(feet)-1]
		last.Pieces = append(last.Pieces, p)
	}
	return feet
}

// parting is where the gap between two syllables is cut: what is joined to the
// second without a space belongs to it.
func parting(text string, end, start int) int {
	if end > start {
		return start
	}
	return end + strings.LastIndexFunc(text[end:start], unicode.IsSpace) + 1
}

// dropped stands in visible text for a byte that is not shown.
const dropped = '\x00'

func shownPiece(text string) piece {
	trimmed := strings.TrimRightFunc(text, func(r rune) bool { return unicode.IsSpace(r) || r == dropped })
	return piece{
		Text:  strings.Join(strings.Fields(strings.ReplaceAll(trimmed, string(dropped), "")), " "),
		Space: strings.ContainsFunc(text[len(trimmed):], unicode.IsSpace),
	}
}

// visible is the text of a line, byte for byte, with what is no verse blanked
// out: notes and comments between its words, and the marks of emphasis.
func visible(m *manuscript.Manuscript, line *manuscript.Line) string {
	b := []byte(line.Span.In(m.Text))
	blank := func(from, to int, with byte) {
		for i := max(from, 0); i < min(to, len(b)); i++ {
			b[i] = with
		}
	}
	gap := 0 // where the text between two words begins
	for i := 0; i <= len(line.Words); i++ {
		end := len(b)
		if i < len(line.Words) {
			end = line.Words[i].Span.Start - line.Span.Start
		}
		if gap > end || end > len(b) {
			break
		}
		for k := gap; k < end; k++ {
			switch rest := b[k:end]; {
			case b[k] == '*' || b[k] == '_':
				b[k] = dropped
			case bytes.HasPrefix(rest, []byte("<!--")):
				if n := bytes.Index(rest, []byte("-->")); n >= 0 {
					blank(k, k+n+len("-->"), ' ')
				}
			}
		}
		if i < len(line.Words) {
			gap = line.Words[i].Span.End - line.Span.Start
		}
	}
	first := sort.Search(len(m.Notes), func(i int) bool { return m.Notes[i].Span.End > line.Span.Start })
	for ; first < len(m.Notes) && m.Notes[first].Span.Start < line.Span.End; first++ {
		n := m.Notes[first].Span
		blank(n.Start-line.Span.Start, n.End-line.Span.Start, ' ')
	}
	return string(b)
}
