package typescript

// A gap is what stands before a paragraph.
type gap uint8

const (
	none    gap = iota
	apart       // a new stanza: an empty line is put before it
	dropped     // the paragraph is empty and only there for the look
)

// looser is how much more space than usual parts stanzas: a third of a line, in
// twentieths of a point. Ours.
const looser = 80

// gaps finds where stanzas are parted by the way the page is set, and not by an
// empty paragraph.
func gaps(paragraphs []Paragraph, marks []marking) []gap {
	list := make([]gap, len(paragraphs))
	stanzas := stanzaParagraphs(paragraphs)
	usual := usualSpace(paragraphs, marks)
	for i := 1; i < len(paragraphs); i++ {
		p, before := &paragraphs[i], &paragraphs[i-1]
		if p.Empty() || before.Empty() {
			continue
		}
		switch {
		case p.PageBreak, stanzas && (len(p.Lines) > 1 || len(before.Lines) > 1):
			list[i] = apart
		case marks[i] == asText && marks[i-1] == asText && space(before, p) >= usual+looser:
			list[i] = apart
		}
	}
	if doubled(paragraphs[bodyOf(paragraphs, marks):]) {
		dropSingles(paragraphs, list)
	}
	return list
}

// stanzaParagraphs reports whether a paragraph is a stanza here, its lines
// parted by soft breaks, rather than a line.
func stanzaParagraphs(paragraphs []Paragraph) bool {
	soft, all := 0, 0
	for i := range paragraphs {
		if paragraphs[i].Empty() {
			continue
		}
		n := len(paragraphs[i].Lines)
		all += n
		if n > 1 {
			soft += n
		}
	}
	return soft*2 >= all
}

// space is what stands between two paragraphs, in twentieths of a point.
func space(above, below *Paragraph) int { return max(above.After, below.Before, 0) }

// usualSpace is the commonest space between two lines of text, the smaller of
// two that are as common.
func usualSpace(paragraphs []Paragraph, marks []marking) int {
	count := map[int]int{}
	best := 0
	for i := 1; i < len(paragraphs); i++ {
		if marks[i] != asText || marks[i-1] != asText || paragraphs[i].Empty() || paragraphs[i-1].Empty() {
			continue
		}
		s := space(&paragraphs[i-1], &paragraphs[i])
		count[s]++
		if len(count) == 1 || count[s] > count[best] || count[s] == count[best] && s < best {
			best = s
		}
	}
	return best
}

// bodyOf is where the text begins, behind the title and what goes with it.
func bodyOf(paragraphs []Paragraph, marks []marking) int {
	body := 0
	for i := range paragraphs {
		if marks[i] == asTitle || body == i && (marks[i] == asComment || paragraphs[i].Empty()) {
			body = i + 1
		}
	}
	return body
}

// doubled reports whether an empty paragraph stands after nearly every line, as
// some typists make double spacing; two then part stanzas.
func doubled(paragraphs []Paragraph) bool {
	joined, single, more := 0, 0, 0
	for _, n := range emptyRuns(paragraphs) {
		switch {
		case n.length == 0:
			joined++
		case n.length == 1:
			single++
		default:
			more++
		}
	}
	return more > 0 && joined*8 < single
}

// An emptyRun is a number of empty paragraphs between two that are not.
type emptyRun struct{ from, length int }

func emptyRuns(paragraphs []Paragraph) []emptyRun {
	var list []emptyRun
	last := -1
	for i := range paragraphs {
		if paragraphs[i].Empty() {
			continue
		}
		if last >= 0 {
			list = append(list, emptyRun{last + 1, i - last - 1})
		}
		last = i
	}
	return list
}

func dropSingles(paragraphs []Paragraph, list []gap) {
	for _, n := range emptyRuns(paragraphs) {
		if n.length == 1 {
			list[n.from] = dropped
		}
	}
}
