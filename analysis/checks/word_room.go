package checks

import "fmt"

// room says what the tokens from i to j leave free in their line, for the writer who
// looks for other words: how many syllables, in what beats, and whether they rhyme.
// It opens with a space; where the line keeps no meter there is nothing to say.
func (p *Pass) room(ps *passage, i, j int) string {
	line := &p.Poem.Lines[ps.at(i).line]
	if line.Expected == "" || ps.at(i).line != ps.at(j).line {
		return ""
	}
	start := ps.lineStart(i)
	free := line.Reading.PatternOf(i-start, j-start+1)
	switch free {
	case "":
		return ""
	case "x":
		free = "one light syllable"
	case "/":
		free = "one strong syllable"
	}
	if ps.at(j).last {
		free += " that keeps the rhyme"
	}
	return fmt.Sprintf(" There is room here for %s.", free)
}

// withWhatFollows is the end of what one longer word could say: a degree and what it
// leans on.
func withWhatFollows(ps *passage, j int) int {
	if next := ps.at(j + 1); ps.joined(j) && next.line == ps.at(j).line && (next.gradable() || leanedOn(next)) {
		return j + 1
	}
	return j
}
