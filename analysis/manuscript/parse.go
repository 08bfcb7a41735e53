package manuscript

import (
	"sort"
	"strings"
	"unicode/utf8"
)

// Parse reads a text. Any bytes parse; what cannot be read as meant is listed
// in Problems.
func Parse(text string) *Manuscript {
	p := &parser{text: text, m: &Manuscript{Text: text}, lastNoteLine: -2}
	p.m.LineStarts = lineStarts(text)
	p.words = make([]Word, 0, len(text)/5+1)
	p.m.Lines = make([]Line, 0, len(p.m.LineStarts))
	first := p.frontMatter()
	for i := first; i < len(p.m.LineStarts); i++ {
		p.fileLine(i)
	}
	p.flush()
	p.finish()
	return p.m
}

// ParseExtract reads a text that was taken out of a file of another kind. Lines
// are the offsets in it where the lines of that file begin, in order, the first
// 0: by them its lines are counted.
func ParseExtract(text string, lines []int) *Manuscript {
	m := Parse(text)
	m.LineStarts = lines
	for i := range m.Lines {
		m.Lines[i].Number = m.FileLine(m.Lines[i].Span.Start) + 1
	}
	return m
}

// A parser walks the lines of the file once. Lines that may be verse are held
// back as a block until the block ends, since only a whole block can be told
// from a paragraph of prose.
type parser struct {
	text string
	m    *Manuscript

	block    []rawLine
	segments []Span        // of the block's lines: what is left without notes and comments
	notes    []pendingNote // met since the block began
	pieces   []pendingDirective
	problems []pendingProblem

	words  []Word   // of all lines; lines take their share at the end
	shares [][2]int // words of each line [from, to)

	skip         int    // what lies before this offset has been read already
	parted       bool   // a blank line, rule or title has been met since the last line of verse
	turned       bool   // a page turn has been met since, and no rule or title
	afterTurn    []bool // whether each stanza follows a mere page turn
	afterProse   bool   // the block before was prose
	noComment    bool   // no "-->" lies ahead
	noFence      bool   // no closing code fence lies ahead
	speech       speech
	marks        []mark
	intervals    []Span
	lastNoteLine int // file line of the reviewer's note that may go on; -2 where none may
}

// A rawLine is a line that may be verse.
type rawLine struct {
	number   int  // from 1, in the file
	span     Span // of the file's line, without its break
	from, to int  // its segments
}

type pendingNote struct {
	note Note
	raw  int // lines of the block before it
	own  bool
}

type pendingDirective struct {
	span Span
	raw  int
	own  bool
}

type pendingProblem struct {
	problem Problem
	own     bool
}

// lineStarts finds where the lines of a text begin. Lines end as the Language
// Server Protocol 3.17 has them end: at \n, \r\n or a lone \r.
func lineStarts(text string) []int {
	starts := make([]int, 1, strings.Count(text, "\n")+2)
	for i := 0; i < len(text); i++ {
		switch text[i] {
		case '\n':
			starts = append(starts, i+1)
		case '\r':
			if i+1 < len(text) && text[i+1] == '\n' {
				i++
			}
			starts = append(starts, i+1)
		}
	}
	return starts
}

// byteOrderMark may stand at the start of a file; it is no part of its text.
const byteOrderMark = "\uFEFF"

// fileLine reads one line of the file.
func (p *parser) fileLine(i int) {
	span := p.m.FileLineSpan(i)
	start := span.Start
	if i == 0 && strings.HasPrefix(p.text, byteOrderMark) {
		start += len(byteOrderMark)
	}
	if p.skip > span.End {
		return // inside a comment, note or fence of several lines
	}
	goesOn := p.skip > start
	start = max(start, p.skip)
	body := p.skipSpace(start, span.End)
	if body == span.End {
		if !goesOn {
			p.blank()
		}
		return
	}
	if !goesOn {
		rest := p.text[body:span.End]
		switch {
		case rest[0] == '#' && p.heading(Span{body, span.End}):
			return
		case rest[0] == '>':
			p.reviewerNote(i, Span{body, trimRight(p.text, body, span.End)})
			return
		case isRule(rest):
			p.blank()
			p.turned = false
			return
		case strings.HasPrefix(rest, "```") && p.codeFence(i):
			return
		}
	}
	p.verseLine(i, Span{body, span.End})
}

// blank ends a block and parts stanzas.
func (p *parser) blank() {
	p.flush()
	p.parted = true
}

// heading reads an ATX heading (CommonMark 0.31, section 4.2).
func (p *parser) heading(span Span) bool {
	level := 0
	for span.Start+level < span.End && p.text[span.Start+level] == '#' {
		level++
	}
	after := span.Start + level
	if level > 6 || after < span.End && p.text[after] != ' ' && p.text[after] != '\t' {
		return false
	}
	start := p.skipSpace(after, span.End)
	end := trimRight(p.text, start, span.End)
	h := Heading{Span: Span{span.Start, trimRight(p.text, span.Start, span.End)}, Level: level}
	closing := end
	for closing > start && p.text[closing-1] == '#' {
		closing--
	}
	if closing == start || p.text[closing-1] == ' ' || p.text[closing-1] == '\t' {
		end = trimRight(p.text, start, closing)
	}
	h.Text = p.text[start:end]

	p.flush()
	switch level {
	case 1:
		if p.m.Title.Level == 0 {
			p.m.Title = h
		}
		p.parted, p.turned = true, false
	case 2:
		p.m.Spreads = append(p.m.Spreads, Spread{Heading: h, From: len(p.m.Lines), To: len(p.m.Lines)})
		p.turned = true
	default:
		p.parted, p.turned = true, false
	}
	return true
}

// reviewerNote reads a line of a block quote (CommonMark 0.31, section 5.1),
// without lazy continuation: a line without its ">" is the writer's.
func (p *parser) reviewerNote(fileLine int, span Span) {
	if n := len(p.notes); n > 0 && p.lastNoteLine == fileLine-1 && p.notes[n-1].note.Kind == ReviewerNote {
		p.notes[n-1].note.Span.End = span.End
	} else {
		p.notes = append(p.notes, pendingNote{Note{Span: span, Kind: ReviewerNote}, len(p.block), true})
	}
	p.lastNoteLine = fileLine
}

// quoted is the text of a reviewer's note without the ">" of each line.
func (p *parser) quoted(note Span) string {
	var b strings.Builder
	for i := p.m.FileLine(note.Start); i < len(p.m.LineStarts) && p.m.LineStarts[i] < note.End; i++ {
		line := p.m.FileLineSpan(i)
		start := p.skipSpace(max(line.Start, note.Start), line.End) + len(">")
		if start < line.End && p.text[start] == ' ' {
			start++
		}
		if b.Len() > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(p.text[start:trimRight(p.text, start, line.End)])
	}
	return b.String()
}

// isRule tells a thematic break (CommonMark 0.31, section 4.1): three or more
// of one of - _ * and nothing else but spaces.
func isRule(line string) bool {
	n := 0
	for i := range len(line) {
		switch c := line[i]; c {
		case ' ', '\t':
		case '-', '_', '*':
			if c != line[0] {
				return false
			}
			n++
		default:
			return false
		}
	}
	return n >= 3
}

// codeFence skips a fenced code block (CommonMark 0.31, section 4.5). One that
// is never closed is no fence here: the rest of a poem must not vanish.
func (p *parser) codeFence(i int) bool {
	if p.noFence {
		return false
	}
	for j := i + 1; j < len(p.m.LineStarts); j++ {
		span := p.m.FileLineSpan(j)
		if strings.HasPrefix(strings.TrimLeft(span.In(p.text), " "), "```") {
			p.blank()
			p.skip = span.End + 1
			return true
		}
	}
	p.noFence = true
	return false
}

// verseLine cuts notes and comments out of a line and keeps the rest for the
// block.
func (p *parser) verseLine(i int, span Span) {
	raw := rawLine{number: i + 1, span: span, from: len(p.segments)}
	firstNote, firstPiece, firstProblem := len(p.notes), len(p.pieces), len(p.problems)
	segment := span.Start
	cut := func(at Span) {
		if at.Start > segment {
			p.segments = append(p.segments, Span{segment, at.Start})
		}
		segment = at.End
	}
	end := span.End
	for pos := span.Start; pos < end; {
		switch p.text[pos] {
		case '\\':
			pos += 2 // CommonMark 0.31, section 2.4: what follows is meant literally
		case '<':
			at, ok := p.comment(pos, end)
			if !ok {
				pos++
				continue
			}
			cut(at)
			pos = at.End
		case '[':
			at := p.artNote(i, pos, span)
			cut(at)
			pos = at.End
		default:
			pos++
		}
	}
	if segment < end {
		p.segments = append(p.segments, Span{segment, end})
	}
	p.skip = max(p.skip, segment)
	raw.to = len(p.segments)
	own := !p.hasWord(p.segments[raw.from:raw.to])
	for j := firstNote; j < len(p.notes); j++ {
		p.notes[j].own = own
	}
	for j := firstPiece; j < len(p.pieces); j++ {
		p.pieces[j].own = own
	}
	for j := firstProblem; j < len(p.problems); j++ {
		p.problems[j].own = own
	}
	if own {
		p.segments = p.segments[:raw.from]
		if len(p.notes) == firstNote && segment == span.Start {
			p.blank() // an ornament between stanzas
		}
		return
	}
	lastWords := raw.to - 1 // the last segment with a word in it
	for !p.hasWord(p.segments[lastWords : lastWords+1]) {
		lastWords--
	}
	for j := firstNote; j < len(p.notes); j++ {
		n := &p.notes[j].note
		n.Inside = n.Span.End <= p.segments[lastWords].Start
	}
	p.block = append(p.block, raw)
}

// hasWord reports whether anything in the segments would be read as a word.
func (p *parser) hasWord(segments []Span) bool {
	for _, s := range segments {
		for i := s.Start; i < s.End; {
			r, n := utf8.DecodeRuneInString(p.text[i:s.End])
			if startsWord(r) || r == '&' {
				return true
			}
			i += n
		}
	}
	return false
}

// comment finds where the comment or tag at pos ends. A comment (CommonMark
// 0.31, section 6.6) may run over lines; one that is never closed is taken to
// run to the end of its line only, so that no verse is lost while it is typed.
func (p *parser) comment(pos, end int) (Span, bool) {
	rest := p.text[pos:]
	if !strings.HasPrefix(rest, "<!--") {
		return p.tag(pos, end)
	}
	for _, short := range [...]string{"<!-->", "<!--->"} {
		if strings.HasPrefix(rest, short) {
			return Span{pos, pos + len(short)}, true
		}
	}
	close := -1
	if !p.noComment {
		close = strings.Index(rest[4:], "-->")
	}
	if close < 0 {
		p.noComment = true
		p.problems = append(p.problems, pendingProblem{problem: Problem{
			Span{pos, end},
			"This comment is never closed, so the rest of the line is skipped. Close it with -->.",
		}})
		return Span{pos, end}, true
	}
	at := Span{pos, pos + 4 + close + 3}
	if body := strings.TrimSpace(p.text[at.Start+4 : at.End-3]); strings.HasPrefix(body, directivePrefix) {
		p.pieces = append(p.pieces, pendingDirective{span: at, raw: len(p.block)})
	}
	return at, true
}

// tag finds an HTML tag on one line, such as <br> (CommonMark 0.31, section 6.6).
func (p *parser) tag(pos, end int) (Span, bool) {
	i := pos + 1
	if i < end && p.text[i] == '/' {
		i++
	}
	if i == end || !isASCIILetter(p.text[i]) {
		return Span{}, false
	}
	// No attribute that a manuscript carries is longer; a bound keeps many "<" from costing their square.
	const longest = 256
	for ; i < min(end, pos+longest); i++ {
		switch p.text[i] {
		case '>':
			return Span{pos, i + 1}, true
		case '<':
			return Span{}, false
		}
	}
	return Span{}, false
}

// noteLines is how many lines an art note may run over. A longer one is rather
// a bracket that was forgotten (ours).
const noteLines = 8

// artNote reads the art note that opens at pos and files it.
func (p *parser) artNote(fileLine, pos int, span Span) Span {
	end := p.closing(pos, span.End)
	if end < 0 && pos == span.Start {
		end = p.closingBelow(fileLine, pos)
	}
	inner := pos + 1
	if end < 0 {
		end = trimRight(p.text, inner, span.End)
		p.problems = append(p.problems, pendingProblem{problem: Problem{
			Span{pos, end},
			"This art note is never closed, so the rest of the line is read as the note. Close it with ].",
		}})
		p.notes = append(p.notes, pendingNote{Note{Span: Span{pos, end}, Text: strings.TrimSpace(p.text[inner:end])}, len(p.block), false})
		return Span{pos, span.End}
	}
	p.notes = append(p.notes, pendingNote{Note{Span: Span{pos, end}, Text: strings.TrimSpace(p.text[inner : end-1])}, len(p.block), false})
	return Span{pos, end}
}

// closing finds where the bracket that opens at pos is closed before end,
// brackets within it counted; -1 where it is not.
func (p *parser) closing(pos, end int) int {
	depth := 0
	for i := pos; i < end; i++ {
		switch p.text[i] {
		case '\\':
			i++
		case '[':
			depth++
		case ']':
			if depth--; depth == 0 {
				return i + 1
			}
		}
	}
	return -1
}

// closingBelow looks for the close of a note that runs over several lines. It
// must close at the end of a line, before a blank one.
func (p *parser) closingBelow(fileLine, pos int) int {
	for j := fileLine + 1; j < min(fileLine+noteLines, len(p.m.LineStarts)); j++ {
		span := p.m.FileLineSpan(j)
		if p.skipSpace(span.Start, span.End) == span.End {
			return -1
		}
		end := trimRight(p.text, span.Start, span.End)
		if end > span.Start && p.text[end-1] == ']' && p.closing(pos, end) == end {
			return end
		}
	}
	return -1
}

// flush ends the block: verse becomes lines of a stanza, prose is set aside,
// and what was met on the way finds the line that it belongs to.
func (p *parser) flush() {
	base := len(p.m.Lines)
	verse := len(p.block) > 0
	prose := verse && p.isProse()
	if prose {
		p.m.Prose = append(p.m.Prose, Span{p.block[0].span.Start, p.block[len(p.block)-1].span.End})
		verse = false
	}
	if verse {
		p.verse()
	}
	if len(p.block) > 0 {
		p.afterProse = prose
	}
	at := func(raw int) int {
		if prose {
			return base
		}
		return base + raw
	}
	for _, n := range p.notes {
		if prose && !n.own {
			continue
		}
		if n.note.Kind == ReviewerNote {
			n.note.Text = p.quoted(n.note.Span)
		}
		n.note.Line = at(n.raw)
		if n.own || prose {
			n.note.Line--
		}
		p.m.Notes = append(p.m.Notes, n.note)
	}
	for _, d := range p.pieces {
		if !prose || d.own {
			p.directive(d.span, at(d.raw))
		}
	}
	for _, pr := range p.problems {
		if !prose || pr.own {
			p.m.Problems = append(p.m.Problems, pr.problem)
		}
	}
	p.block, p.segments = p.block[:0], p.segments[:0]
	p.notes, p.pieces, p.problems = p.notes[:0], p.pieces[:0], p.problems[:0]
	p.lastNoteLine = -2
}

// verse makes lines of the block.
func (p *parser) verse() {
	m := p.m
	if len(m.Stanzas) == 0 || p.parted {
		p.speech.stanzaEnds(p)
		m.Stanzas = append(m.Stanzas, Stanza{len(m.Lines), len(m.Lines)})
		p.afterTurn = append(p.afterTurn, p.turned)
	}
	p.parted, p.turned = false, false
	stanza := len(m.Stanzas) - 1
	p.marks = p.marks[:0]
	firstWord := len(p.words)
	blockEnd := p.block[len(p.block)-1].span.End
	for _, raw := range p.block {
		segments := p.segments[raw.from:raw.to]
		span := p.lineSpan(segments)
		from := len(p.words)
		p.readWords(segments, blockEnd)
		shout(p.words[from:])
		m.Lines = append(m.Lines, Line{
			Span: span, Number: raw.number, Stanza: stanza, Place: len(m.Lines) - m.Stanzas[stanza].From,
		})
		p.shares = append(p.shares, [2]int{from, len(p.words)})
	}
	m.Stanzas[stanza].To = len(m.Lines)
	p.emphasise(p.words[firstWord:])
	for _, share := range p.shares[len(p.shares)-len(p.block):] {
		calmLine(p.words[share[0]:share[1]])
	}
}

// lineSpan is the stretch from a line's first visible byte to its last.
func (p *parser) lineSpan(segments []Span) Span {
	var span Span
	for i, s := range segments {
		start := p.skipSpace(s.Start, s.End)
		if start == s.End {
			continue
		}
		if span.Len() == 0 {
			span.Start = start
		}
		span.End = trimRight(p.text, start, s.End)
		// A backslash at a line's end is a hard line break (CommonMark 0.31,
		// section 6.7), no part of the verse.
		if i == len(segments)-1 && span.End-1 > span.Start && p.text[span.End-1] == '\\' {
			span.End = trimRight(p.text, start, span.End-1)
		}
	}
	return span
}

// finish gives the lines their words and settles what only the end can settle.
func (p *parser) finish() {
	m := p.m
	for i, s := range p.shares {
		m.Lines[i].Words = p.words[s[0]:s[1]:s[1]]
	}
	p.joinStanzas()
	for i := range m.Spreads {
		m.Spreads[i].To = len(m.Lines)
		if i+1 < len(m.Spreads) {
			m.Spreads[i].To = m.Spreads[i+1].From
		}
	}
	kept := m.Allowances[:0]
	for _, a := range m.Allowances {
		if a.Line < len(m.Lines) {
			kept = append(kept, a)
			continue
		}
		m.Problems = append(m.Problems, Problem{
			a.Span,
			"No line of verse follows this directive. Set it on the line it is for, or above it; for the whole manuscript, list the codes under allow: in the front matter.",
		})
	}
	m.Allowances = kept
	sort.SliceStable(m.Problems, func(i, j int) bool { return m.Problems[i].Span.Start < m.Problems[j].Span.Start })
}

// joinStanzas joins stanzas that a page turn cut in two. Around a heading blank
// lines are the habit of Markdown, so they tell nothing; what tells is that the
// parts together have the length that the other stanzas have.
func (p *parser) joinStanzas() {
	m := p.m
	counts := map[int]int{}
	usual := 0
	for _, s := range m.Stanzas {
		n := s.To - s.From
		if counts[n]++; counts[n] > counts[usual] || counts[n] == counts[usual] && n > usual {
			usual = n
		}
	}
	// Couplets and tercets are not cut: two of them would rather be two.
	if usual < 4 || counts[usual] < 2 {
		return
	}
	joined := m.Stanzas[:0]
	for i := 0; i < len(m.Stanzas); {
		s := m.Stanzas[i]
		j := i + 1
		for end := s.To; j < len(m.Stanzas) && p.afterTurn[j] && end-s.From < usual; j++ {
			if end = m.Stanzas[j].To; end-s.From == usual {
				s.To = end
				i = j
				break
			}
		}
		joined = append(joined, s)
		i++
	}
	m.Stanzas = joined
	for i, s := range m.Stanzas {
		for l := s.From; l < s.To; l++ {
			m.Lines[l].Stanza, m.Lines[l].Place = i, l-s.From
		}
	}
}

const directivePrefix = "dandle:"

// directive reads the comment "<!-- dandle: allow CODE CODE -->".
func (p *parser) directive(span Span, line int) {
	body := strings.TrimSpace(p.text[span.Start+len("<!--") : span.End-len("-->")])
	words := splitCodes(strings.TrimPrefix(body, directivePrefix))
	switch {
	case len(words) == 0 || words[0] != "allow":
		p.m.Problems = append(p.m.Problems, Problem{
			span,
			"This directive is not known. The one there is reads <!-- dandle: allow CODE -->.",
		})
	case len(words) == 1:
		p.m.Problems = append(p.m.Problems, Problem{
			span,
			"This directive names no code. Write the code of the note to accept, such as <!-- dandle: allow word/filler -->.",
		})
	default:
		p.m.Allowances = append(p.m.Allowances, Allowance{Span: span, Codes: words[1:], Line: line})
	}
}

// splitCodes splits a list of codes at spaces and commas.
func splitCodes(s string) []string {
	return strings.FieldsFunc(s, func(r rune) bool { return r == ',' || r == ' ' || r == '\t' || r == '\n' || r == '\r' })
}
