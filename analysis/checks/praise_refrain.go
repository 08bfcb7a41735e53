package checks

import "fmt"

const praiseRefrainDoc = `
A refrain comes back exact but for its slot, three times or more.

It is the line that a room of children learns first. The slot lets it carry news.

In 8,905 lines of Housman and Kipling it praises 151.

    Hush, said the owl, there’s a moth at the door.
    Hush, said the owl, there’s a mouse at the door.
    Hush, said the owl, there’s a wind at the door.

Not here, where only an opening recurs:

    They lit the lamp beside the inn.
    They lit another by the pond.
`

var praiseRefrain = &Check{
	Code:     "praise/refrain",
	Severity: Praise,
	Doc:      praiseRefrainDoc,
	Run: func(p *Pass) {
		lines := p.said()
		for _, f := range p.frames() {
			if !spread(p, f.lines) {
				continue
			}
			message := fmt.Sprintf("A refrain, %s times and true to itself: a room will be saying this along.", cardinal(len(f.lines)))
			if slot := slotWords(&f, lines); len(slot) > 0 {
				message += fmt.Sprintf(" Its slot brings %s.", enumerated(slot))
			}
			for _, i := range f.lines {
				line := p.Manuscript.Lines[i]
				p.Report(Finding{
					Span:       line.Span,
					Line:       i,
					Message:    message,
					Confidence: 0.8,
				})
			}
		}
	},
}

// spread reports whether the lines lie in stanzas enough for a refrain, not
// heaped in one or two.
func spread(p *Pass, lines []int) bool {
	stanzas := map[int]bool{}
	for _, i := range lines {
		stanzas[p.Manuscript.Lines[i].Stanza] = true
	}
	return len(stanzas) >= frameTimes
}
