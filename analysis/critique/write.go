package critique

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"dandle/analysis/card"
	"dandle/analysis/checks"
	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"
)

const (
	// mattering is how many notes stand in front: more than five and a writer
	// does not know where to begin (common practice: two or three, at most five).
	mattering      = 5
	matteringBrief = 3
	maxWays        = 2
	// hearAgain is the longest text, in lines, that is heard again for every
	// way to mend a line: four picture books. In a longer one the letter
	// would take minutes.
	hearAgain = 200
)

// A writer is a letter being written. It keeps account of which findings have
// been spoken of, so that none is told twice.
type writer struct {
	Parts
	tone Tone
	told []bool // by finding
	// faults are the findings that ask for a change, by verse line.
	faults map[int][]int
	// offered are the lines already held out as a way: two notes on one line
	// are often mended by the same.
	offered map[string]bool
	shown   int // lines set with their feet for praise
}

// Write writes the letter about a manuscript.
func Write(p Parts, tone Tone) Letter {
	w := &writer{Parts: p, tone: tone, told: make([]bool, len(p.Findings)), faults: map[int][]int{}, offered: map[string]bool{}}
	for i, f := range p.Findings {
		if f.Line >= 0 && f.Severity > checks.Praise {
			w.faults[f.Line] = append(w.faults[f.Line], i)
		}
	}
	if len(p.Manuscript.Lines) > hearAgain {
		w.Again = nil
	}
	letter := Letter{Title: w.title()}
	if len(p.Manuscript.Lines) == 0 {
		letter.Sections = []Section{w.empty()}
		if s := w.reviewer(); len(s.Notes) > 0 {
			letter.Sections = append(letter.Sections, s)
		}
		return letter
	}
	parting := w.parting() // kept for the end before the rest is told
	works := w.works()
	first := w.first()
	steps := w.steps(first, parting)
	for _, s := range []Section{w.aim(), works, w.meter(), first, w.lines(), w.reviewer(), w.verses(), w.marks(), w.book(), steps} {
		if len(s.Paragraphs)+len(s.Notes)+len(s.Steps) > 0 {
			letter.Sections = append(letter.Sections, s)
		}
	}
	return letter
}

func (w *writer) title() string {
	if t := w.Manuscript.Front.Title; t != "" {
		return t
	}
	return w.Manuscript.Title.Text
}

func (w *writer) empty() Section {
	return Section{Kind: Aim, Heading: "No verse yet", Paragraphs: []string{
		"I found no lines of verse to read here. Verse stands in lines under a blank line; paragraphs of prose are left alone.",
	}}
}

// place is where a finding points.
func (w *writer) place(f checks.Finding) Place {
	return w.placeAt(f.Span, f.Line)
}

func (w *writer) placeAt(span manuscript.Span, line int) Place {
	m := w.Manuscript
	return Place{Span: span, Line: m.FileLine(span.Start) + 1, Verse: line, Quote: strings.Join(strings.Fields(span.In(m.Text)), " ")}
}

// verse is a line with its feet.
func (w *writer) verse(line int) Verse {
	m := w.Manuscript
	return Verse{Line: m.Lines[line].Number, Block: card.Line(m.Text, m.Lines[line], w.Poem.Lines[line])}
}

// note speaks of one finding, in its own words.
func (w *writer) note(i int) Note {
	f := w.Findings[i]
	w.told[i] = true
	n := Note{
		Code: f.Code, Severity: f.Severity, Action: remedyOf(f.Code).action, Text: f.Message,
		Places: []Place{w.place(f)}, Expected: f.Expected, Heard: f.Heard, Findings: []int{i},
	}
	if f.Line >= 0 && f.Code.Area() == "meter" {
		n.Feet = []Verse{w.verse(f.Line)}
	}
	for _, fix := range w.fixes(f) {
		if len(n.Ways) == maxWays {
			break
		}
		way, scans := w.way(f, fix)
		if !scans || way.Line != "" && w.offered[way.Line] {
			continue
		}
		w.offered[way.Line] = true
		if len(n.Ways) > 0 {
			way.Block = card.Block{} // one card is enough to see how it goes
		}
		n.Ways = append(n.Ways, way)
	}
	return n
}

// fixes are what could mend a finding.
func (w *writer) fixes(f checks.Finding) []checks.Fix {
	if w.Fixes == nil || w.Again == nil { // of a long text every way would be heard anew
		return f.Fixes
	}
	return w.Fixes(&f)
}

// way is a fix as the letter offers it; false where its line, heard again,
// does not fit its place though it is asked to, or did before.
func (w *writer) way(f checks.Finding, fix checks.Fix) (Way, bool) {
	m := w.Manuscript
	way := Way{Title: fix.Title, Edits: fix.Edits}
	line := -1
	for i, e := range fix.Edits {
		at := m.LineAt(e.Span.Start)
		if i > 0 && at != line || m.FileLine(e.Span.Start) != m.FileLine(e.Span.End) || strings.ContainsAny(e.Text, "\r\n") {
			return way, true
		}
		line = at
	}
	if line < 0 {
		return way, true
	}
	text, ok := edited(m.Text, fix.Edits)
	if !ok {
		return way, false
	}
	grown := len(text) - len(m.Text)
	span := m.Lines[line].Span
	if span.Start+grown > span.End+grown || span.End+grown > len(text) || span.Start > span.End+grown {
		return way, true // the line is struck out
	}
	way.Line = strings.Join(strings.Fields(text[span.Start:span.End+grown]), " ")
	if w.Again == nil {
		return way, true
	}
	again, poem := w.Again(text)
	at := again.LineAt(span.Start)
	if at < 0 {
		return way, true
	}
	heard := &poem.Lines[at]
	was := &w.Poem.Lines[line]
	if !heard.Fits && (was.Fits || f.Code.Area() == "meter") || clashes(heard) > clashes(was) ||
		f.Code.Area() != "meter" && len(heard.Variations) > len(was.Variations) {
		return way, false
	}
	if f.Code.Area() == "meter" { // elsewhere the beat was never in doubt
		way.Block = card.Line(again.Text, again.Lines[at], *heard)
	}
	return way, true
}

// clashes is the number of places where two beats meet.
func clashes(l *scansion.Line) int {
	n := 0
	for _, v := range l.Variations {
		if v.Kind == scansion.Clash {
			n++
		}
	}
	return n
}

// edited is a text with edits made in it; false where they overlap or lie
// outside it.
func edited(text string, edits []checks.Edit) (string, bool) {
	sorted := slices.Clone(edits)
	slices.SortStableFunc(sorted, func(a, b checks.Edit) int { return cmp.Compare(a.Span.Start, b.Span.Start) })
	var b strings.Builder
	at := 0
	for _, e := range sorted {
		if e.Span.Start < at || e.Span.End < e.Span.Start || e.Span.End > len(text) {
			return "", false
		}
		b.WriteString(text[at:e.Span.Start])
		b.WriteString(e.Text)
		at = e.Span.End
	}
	b.WriteString(text[at:])
	return b.String(), true
}

// onLines reports whether a code's notes belong among those on single lines.
func onLines(code checks.Code) bool {
	switch code.Area() {
	case "praise", "mark", "note", "book", "refrain", "stanza", "image":
		return false
	}
	return code != overusedSound
}

// open lists the findings not yet told that want says yes to.
func (w *writer) open(want func(checks.Finding) bool) []int {
	var list []int
	for i, f := range w.Findings {
		if !w.told[i] && want(f) {
			list = append(list, i)
		}
	}
	return list
}

// first is the notes that matter most: the gravest, what breaks the reading
// before what weakens it, and no kind more than twice while another waits.
func (w *writer) first() Section {
	list := w.open(func(f checks.Finding) bool { return f.Severity > checks.Praise && onLines(f.Code) })
	slices.SortStableFunc(list, func(a, b int) int {
		x, y := w.Findings[a], w.Findings[b]
		return cmp.Or(cmp.Compare(y.Severity, x.Severity), cmp.Compare(remedyOf(y.Code).weight, remedyOf(x.Code).weight), cmp.Compare(y.Confidence, x.Confidence))
	})
	// What may be meant stands in front only where there is nothing else.
	all := len(list)
	if n := slices.IndexFunc(list, func(i int) bool { return w.Findings[i].Severity == checks.Hint }); n > 0 {
		list = list[:n]
	}
	limit := mattering
	if w.tone == Brief {
		limit = matteringBrief
	}
	var chosen []int
	count := map[checks.Code]int{}
	for round := range 2 {
		for _, i := range list {
			code := w.Findings[i].Code
			if len(chosen) == limit || slices.Contains(chosen, i) || round == 0 && count[code] == 2 {
				continue
			}
			count[code]++
			chosen = append(chosen, i)
		}
	}
	s := Section{Kind: First}
	switch n := len(list); {
	case n == 0:
		return Section{}
	case n == 1:
		s.Heading = "The one line I would look at" + pick(all, "", " first")
		if w.Findings[list[0]].Severity == checks.Hint {
			s.Heading = "One small thing, if you like"
		}
	case n <= limit:
		s.Heading = "What I would look at" + pick(1+all-n, "", " first") + ": " + cardinal(n) + " places"
	default:
		s.Heading = "The " + cardinal(len(chosen)) + " notes that matter most"
	}
	for _, i := range w.byAction(chosen) {
		s.Notes = append(s.Notes, w.note(i))
	}
	return s
}

// byAction sorts findings by what is to be done about them, the weightiest
// first, then by place.
func (w *writer) byAction(list []int) []int {
	list = slices.Clone(list)
	order := func(i int) int { return orderOf(remedyOf(w.Findings[i].Code).action) }
	slices.SortStableFunc(list, func(a, b int) int { return cmp.Or(cmp.Compare(order(a), order(b)), cmp.Compare(a, b)) })
	return list
}

// orderOf is the place of an action in the letter.
func orderOf(action string) int {
	for i, r := range remedies {
		if r.action == action {
			return i
		}
	}
	return len(remedies)
}

// lines is what is left to say about single lines, gathered by kind.
func (w *writer) lines() Section {
	notes := w.gathered(func(f checks.Finding) bool { return f.Severity > checks.Praise && onLines(f.Code) })
	return Section{Kind: Lines, Heading: "Line by line", Notes: notes}
}

// gathered makes one note of all open findings of a code.
func (w *writer) gathered(want func(checks.Finding) bool) []Note {
	var notes []Note
	for list := w.byAction(w.open(want)); len(list) > 0; {
		code := w.Findings[list[0]].Code
		var same, rest []int
		for _, i := range list {
			if w.Findings[i].Code == code {
				same = append(same, i)
			} else {
				rest = append(rest, i)
			}
		}
		list = rest
		notes = append(notes, w.together(code, same)...)
	}
	return notes
}

// together speaks of several findings of one code at once; of one alone in its
// own words.
func (w *writer) together(code checks.Code, list []int) []Note {
	r := remedyOf(code)
	if len(list) == 1 || r.several == nil {
		var notes []Note
		for _, i := range list {
			n := w.note(i)
			if w.tone == Brief {
				n.Feet, n.Ways = nil, n.Ways[:min(len(n.Ways), 1)]
			}
			notes = append(notes, n)
		}
		return notes
	}
	n := Note{Code: code, Action: r.action, Text: r.several(len(list))}
	if !strings.HasSuffix(n.Text, "?") {
		n.Text += ":"
	}
	for _, i := range list {
		one := w.note(i)
		place := one.Places[0]
		if f := w.Findings[i]; code.Area() == "rhyme" && len(f.Related) > 0 {
			place.Quote = w.placeAt(f.Related[0].Span, f.Line).Quote + "/" + place.Quote
		} else if f.Line >= 0 && len(place.Quote) < 10 && code.Area() != "meter" {
			place.Quote = w.around(f)
		}
		if len(one.Ways) > 0 && w.tone == Full {
			place.Way = w.instead(place.Quote, one.Ways[0], w.Findings[i])
		}
		n.Severity = max(n.Severity, one.Severity)
		n.Places = append(n.Places, place)
		n.Findings = append(n.Findings, i)
	}
	return []Note{n}
}

// instead is what could stand in the place of a quotation; "" where a way
// reaches beyond its words, or only leaves one out.
func (w *writer) instead(quote string, way Way, f checks.Finding) string {
	if len(way.Edits) != 1 || way.Edits[0].Text == "" {
		return ""
	}
	e, text := way.Edits[0], w.Manuscript.Text
	if words := e.Span.In(text); e.Span.Start <= f.Span.Start && f.Span.End <= e.Span.End && strings.Contains(quote, words) {
		return strings.Replace(quote, words, e.Text, 1)
	}
	return ""
}

// around is a finding's words with the word after, or where a pause follows the word
// before, so that a writer knows which is meant.
func (w *writer) around(f checks.Finding) string {
	m := w.Manuscript
	words := m.Lines[f.Line].Words
	from, to := -1, -1
	for i := range words {
		if words[i].Span.End > f.Span.Start && words[i].Span.Start < f.Span.End {
			if from < 0 {
				from = i
			}
			to = i
		}
	}
	if from < 0 {
		return w.place(f).Quote
	}
	if to+1 < len(words) && words[to].Break == manuscript.NoBreak {
		to++
	} else {
		from = max(from-1, 0)
	}
	parts := make([]string, 0, 4)
	for _, word := range words[from : to+1] {
		parts = append(parts, word.Text)
	}
	return strings.Join(parts, " ")
}

// reviewer is the reviewer's own notes, each with the line it follows.
func (w *writer) reviewer() Section {
	s := Section{Kind: Reviewer, Heading: "From the reviewer’s own pencil"}
	m := w.Manuscript
	for _, n := range m.Notes {
		if n.Kind != manuscript.ReviewerNote || strings.TrimSpace(n.Text) == "" {
			continue
		}
		place := w.placeAt(n.Span, n.Line)
		place.Quote = ""
		if n.Line >= 0 {
			place.Line = m.Lines[n.Line].Number
			place.Quote = strings.Join(strings.Fields(m.Lines[n.Line].Span.In(m.Text)), " ")
		}
		s.Notes = append(s.Notes, Note{Reviewer: true, Text: strings.Join(strings.Fields(n.Text), " "), Places: []Place{place}})
	}
	return s
}

// marks is the notes on marks and on art notes.
func (w *writer) marks() Section {
	notes := w.gathered(func(f checks.Finding) bool { a := f.Code.Area(); return a == "mark" || a == "note" })
	return Section{Kind: Marks, Heading: "Marks and notes", Notes: notes}
}

// book is the figures that a publisher asks for first.
func (w *writer) book() Section {
	m := w.Manuscript
	parts := []string{counted(m.WordCount(), "word") + " of verse", counted(len(m.Lines), "line"), counted(len(m.Stanzas), "verse")}
	if len(m.Spreads) > 0 {
		parts = append(parts, counted(len(m.Spreads), "spread"))
	}
	art := 0
	for _, n := range m.Notes {
		if n.Kind == manuscript.ArtNote {
			art++
		}
	}
	if art > 0 {
		parts = append(parts, counted(art, "note")+" for the illustrator")
	}
	text := capital(listed(parts))
	if a := m.Front.Ages; a.To > 0 {
		text += fmt.Sprintf(", for ages %d to %d", a.From, a.To)
	}
	paragraphs := []string{text + "."}
	if m.Front.Pitch == "" && w.tone == Full {
		paragraphs = append(paragraphs, "With a pitch of one sentence (“pitch:” in the front matter) the next letter could hold the opening against it.")
	}
	return Section{
		Kind: Book, Heading: "The book in figures", Paragraphs: paragraphs,
		Notes: w.gathered(func(f checks.Finding) bool { return f.Code.Area() == "book" }),
	}
}
