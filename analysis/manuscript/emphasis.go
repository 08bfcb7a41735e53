package manuscript

import (
	"sort"
	"unicode"
	"unicode/utf8"
)

// A mark is a run of * or _ that may open or close emphasis, a delimiter run
// in the words of CommonMark 0.31, section 6.2.
type mark struct {
	span          Span
	char          byte
	left          int // how many of its characters are not used yet
	opens, closes bool
}

// mark files the run of marks in [i, j).
func (p *parser) mark(i, j, end int) {
	before, after := ' ', ' '
	if i > 0 {
		before, _ = utf8.DecodeLastRuneInString(p.text[:i])
	}
	if j < len(p.text) {
		after, _ = utf8.DecodeRuneInString(p.text[j:])
	}
	spaceBefore, spaceAfter := isSpace(before), isSpace(after)
	punctBefore, punctAfter := isPunctuation(before), isPunctuation(after)
	leftFlanking := !spaceAfter && (!punctAfter || spaceBefore || punctBefore)
	rightFlanking := !spaceBefore && (!punctBefore || spaceAfter || punctAfter)
	m := mark{span: Span{i, j}, char: p.text[i], left: j - i, opens: leftFlanking, closes: rightFlanking}
	if m.char == '_' {
		m.opens = leftFlanking && (!rightFlanking || punctBefore)
		m.closes = rightFlanking && (!leftFlanking || punctAfter)
	}
	p.marks = append(p.marks, m)
}

// isPunctuation holds for the P and S categories (CommonMark 0.31, section 2.1).
func isPunctuation(r rune) bool { return unicode.IsPunct(r) || unicode.IsSymbol(r) }

// emphasise sets Emphasis on the words between marks that pair, by the rules 1
// to 17 of CommonMark 0.31, section 6.2. Marks pair within a block, as they do
// within a paragraph.
func (p *parser) emphasise(words []Word) {
	if len(p.marks) < 2 {
		return
	}
	p.intervals = p.intervals[:0]
	var openers []int // indexes of marks that may still open
	for c := range p.marks {
		closer := &p.marks[c]
		for closer.closes && closer.left > 0 {
			o := p.opener(openers, closer)
			if o < 0 {
				break
			}
			opener := &p.marks[openers[o]]
			n := 1
			if opener.left >= 2 && closer.left >= 2 {
				n = 2
			}
			p.intervals = append(p.intervals, Span{opener.span.End, closer.span.Start})
			opener.left -= n
			closer.left -= n
			openers = openers[:o+1]
			if opener.left == 0 {
				openers = openers[:o]
			}
		}
		if closer.opens && closer.left > 0 {
			openers = append(openers, c)
		}
	}
	sort.Slice(p.intervals, func(i, j int) bool { return p.intervals[i].Start < p.intervals[j].Start })
	k, reach := 0, 0
	run := 0 // words under emphasis without a break, up to here
	for i := range words {
		for k < len(p.intervals) && p.intervals[k].Start < words[i].Span.End {
			reach = max(reach, p.intervals[k].End)
			k++
		}
		if words[i].Emphasis = words[i].Span.Start < reach; words[i].Emphasis {
			run++
			continue
		}
		calm(words[i-run : i])
		run = 0
	}
	calm(words[len(words)-run:])
}

// stressedAtMost is how many words in a row emphasis can stress. More are set
// in italics because somebody wrote, sang or thought them (ours).
const stressedAtMost = 4

// calm takes the emphasis off a run of words that is too long to be stressed.
func calm(run []Word) {
	if len(run) <= stressedAtMost {
		return
	}
	for i := range run {
		run[i].Emphasis = false
	}
}

// calmLine takes it off a line of three words or more that are all under it.
func calmLine(line []Word) {
	if len(line) < 3 {
		return
	}
	for i := range line {
		if !line[i].Emphasis {
			return
		}
	}
	for i := range line {
		line[i].Emphasis = false
	}
}

// looksBack bounds how many openers a closer tries, so that a text of nothing
// but marks costs no square. No verse nests as deep.
const looksBack = 32

// opener is the place in openers of the nearest mark that the closer pairs
// with, or -1.
func (p *parser) opener(openers []int, closer *mark) int {
	for o := len(openers) - 1; o >= max(0, len(openers)-looksBack); o-- {
		m := &p.marks[openers[o]]
		if m.char != closer.char {
			continue
		}
		// Rules 9 and 10: a mark that can do both pairs with none whose
		// length adds up to a multiple of three, unless both are such.
		if (m.closes || closer.opens) && (m.span.Len()+closer.span.Len())%3 == 0 &&
			(m.span.Len()%3 != 0 || closer.span.Len()%3 != 0) {
			continue
		}
		return o
	}
	return -1
}
