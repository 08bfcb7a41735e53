package page

import (
	"fmt"
	"strconv"
	"strings"

	"dandle/analysis/card"
	"dandle/analysis/checks"
	"dandle/analysis/critique"
	"dandle/analysis/manuscript"
	"dandle/analysis/rhyme"
)

// A letterMark is the rhyme letter of a line. Besides the letter and a colour
// it has a line style, so that mates can be told without colour.
type letterMark struct {
	Letter string
	Style  int // 0 … 5: which line style and colour
	Mates  string
	To     int // the number of the nearest mate's line
}

// A marginal is a finding beside its line.
type marginal struct {
	Note   int // the number of its note in the letter; 0 where it has none
	Label  string
	Words  string
	Praise bool
}

type critiqueView struct {
	Heading  string
	Sections []sectionView
	Stanzas  []stanzaView
	Strips   []strip
	Spreads  []spreadView
}

type sectionView struct {
	critique.Section
	Notes []noteView
}

type noteView struct {
	critique.Note
	Number  int    // for links from the margin; 0 for praise and reviewer's notes
	Heading string // where a new action begins
	Lead    string
	At      string
	Wanted  string
	Ways    []wayView
}

type wayView struct {
	Text  string
	Block card.Block
}

type stanzaView struct {
	Spread string // the heading, where one stands before this stanza or in it
	Number int
	Scheme string
	Lines  []setLine
}

// A setLine is a line with what stands around it: the notes before a page turn,
// the heading of the turn, the notes below that, and those after the line.
type setLine struct {
	Before  []noteBetween
	Turn    string
	Opening []noteBetween
	Line    verseLine
	After   []noteBetween
}

// A noteBetween is a note that stands between the lines.
type noteBetween struct {
	Text     string
	Reviewer bool // else it is for the illustrator
}

type spreadView struct {
	Name    string
	Words   int
	Percent int // of the fullest
}

// Critique is the page that goes with a letter: the letter, the manuscript set
// with its beats, every stanza as a strip of beats, and the words by spread.
func Critique(letter critique.Letter, p critique.Parts) []byte {
	view := critiqueView{Heading: critique.Heading(letter)}
	numbers := map[int]int{} // finding → note
	count := 0
	for _, s := range letter.Sections {
		section := sectionView{Section: s}
		action := ""
		for _, n := range s.Notes {
			v := noteView{Note: n, Lead: critique.Lead(n), Wanted: critique.Wanted(n)}
			if len(n.Places) > 1 {
				v.At = critique.At(n)
			}
			if !n.Reviewer && n.Severity > checks.Praise {
				count++
				v.Number = count
				for _, i := range n.Findings {
					numbers[i] = count
				}
			}
			if n.Action != action && n.Action != "" && critique.Grouped(s.Kind) {
				action = n.Action
				v.Heading = action
			}
			for i, way := range n.Ways {
				v.Ways = append(v.Ways, wayView{Text: critique.Try(i, way), Block: way.Block})
			}
			section.Notes = append(section.Notes, v)
		}
		view.Sections = append(view.Sections, section)
	}
	view.Stanzas = stanzas(p, numbers)
	view.Strips = strips(p)
	view.Spreads = spreads(p.Manuscript)
	var w writer
	w.critique(&view)
	return []byte(w.String())
}

func stanzas(p critique.Parts, numbers map[int]int) []stanzaView {
	m := p.Manuscript
	byLine := map[int][]int{}
	for i, f := range p.Findings {
		if f.Line >= 0 {
			byLine[f.Line] = append(byLine[f.Line], i)
		}
	}
	turns := map[int]manuscript.Heading{}
	for i := len(m.Spreads) - 1; i >= 0; i-- {
		turns[m.Spreads[i].From] = m.Spreads[i].Heading
	}
	notes := between(m, turns)
	var list []stanzaView
	for s, st := range m.Stanzas {
		view := stanzaView{Number: s + 1}
		if s < len(p.Stanzas) {
			view.Scheme = p.Stanzas[s].Scheme.String()
		}
		for i := st.From; i < st.To; i++ {
			line := verse(p, i, byLine[i], numbers)
			if s < len(p.Stanzas) {
				line.Letter = mark(m, st, p.Stanzas[s].Scheme, i-st.From)
			}
			around := notes[i]
			around.Turn, around.Line = turns[i].Text, line
			view.Lines = append(view.Lines, around)
		}
		list = append(list, view)
	}
	return list
}

// between places the notes around the lines, by line: a note stands below the
// heading of a page turn that it follows, else after its line.
func between(m *manuscript.Manuscript, turns map[int]manuscript.Heading) map[int]setLine {
	list := map[int]setLine{}
	for _, n := range m.Notes {
		note := noteBetween{Text: n.Text, Reviewer: n.Kind == manuscript.ReviewerNote}
		turn, turned := turns[n.Line+1]
		switch next := list[n.Line+1]; {
		case turned && turn.Span.Start < n.Span.Start:
			next.Opening = append(next.Opening, note)
			list[n.Line+1] = next
		case n.Line < 0:
			next.Before = append(next.Before, note)
			list[0] = next
		default:
			this := list[n.Line]
			this.After = append(this.After, note)
			list[n.Line] = this
		}
	}
	return list
}

// verse sets one line; found are the findings on it.
func verse(p critique.Parts, i int, found []int, numbers map[int]int) verseLine {
	m, heard := p.Manuscript, &p.Poem.Lines[i]
	v := verseLine{Number: m.Lines[i].Number, Off: !heard.Fits}
	var noted []manuscript.Span
	for _, k := range found {
		f := p.Findings[k]
		praise := f.Severity == checks.Praise
		if !praise {
			if f.Span.Len()*4 < m.Lines[i].Span.Len()*3 { // a note about the line as a whole marks no words of it
				noted = append(noted, f.Span)
			}
			if f.Expected != "" && f.Expected != f.Heard {
				v.Wanted = spaced(f.Expected)
			}
		}
		entry := marginal{Note: numbers[k], Label: critique.Label(f.Code), Praise: praise}
		if f.Span.Len()*4 < m.Lines[i].Span.Len()*3 {
			entry.Words = short(f.Span.In(m.Text))
		}
		v.Margin = append(v.Margin, entry)
	}
	v.Feet, v.Pattern = pieces(m, i, heard, noted), heard.Reading.FeetPattern()
	return v
}

// spaced sets a pattern for reading, so that a line break falls between feet.
func spaced(pattern string) string {
	feet := strings.Split(pattern, "|")
	for i, f := range feet {
		feet[i] = strings.ReplaceAll(card.Spaced(f), " ", "\u00a0")
	}
	return strings.Join(feet, " | ")
}

// short is a quotation for a margin, on one line.
func short(words string) string {
	r := []rune(clean(words))
	if len(r) > 36 {
		r = append(r[:34], '…')
	}
	return string(r)
}

const markStyles = 6

// mark is the rhyme letter of a line, with its mates.
func mark(m *manuscript.Manuscript, st manuscript.Stanza, scheme rhyme.Scheme, place int) *letterMark {
	if place >= len(scheme.Letters) || scheme.Letters[place] == rhyme.Unrhymed {
		return nil
	}
	v := &letterMark{Letter: scheme.Letters[place], Style: int(scheme.Letters[place][0]-'A') % markStyles}
	nearest := 0
	for k, letter := range scheme.Letters {
		if k == place || letter != v.Letter {
			continue
		}
		if v.Mates != "" {
			v.Mates += ", "
		}
		number := m.Lines[st.From+k].Number
		v.Mates += strconv.Itoa(number)
		if distance := max(k-place, place-k); nearest == 0 || distance < nearest {
			nearest, v.To = distance, number
		}
	}
	if v.To == 0 {
		return nil
	}
	return v
}

func spreads(m *manuscript.Manuscript) []spreadView {
	list := make([]spreadView, len(m.Spreads))
	most := 1
	for i, s := range m.Spreads {
		list[i].Name = s.Heading.Text
		if list[i].Name == "" {
			list[i].Name = fmt.Sprintf("Spread %d", i+1)
		}
		for k := s.From; k < s.To; k++ {
			list[i].Words += len(m.Lines[k].Words)
		}
		most = max(most, list[i].Words)
	}
	for i := range list {
		list[i].Percent = 100 * list[i].Words / most
	}
	return list
}
