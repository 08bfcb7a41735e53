package scansion

import (
	"slices"

	"dandle/analysis/manuscript"
	"dandle/analysis/scansion/ear"
	"dandle/phonetics"
	"dandle/phonetics/grammar"
)

// Words gives the words of every line their parts of speech and their
// pronunciations.
func Words(m *manuscript.Manuscript, r *phonetics.Reader) [][]Word {
	lines := make([][]Word, len(m.Lines))
	for i, tags := range lineTags(m, grammar.Tags) {
		lines[i] = lineWords(nil, m.Lines[i].Words, tags, r)
	}
	return lines
}

// lineTags are the parts of speech of every line's words.
func lineTags(m *manuscript.Manuscript, tell func([]grammar.Token) []grammar.Tag) [][]grammar.Tag {
	lines := make([][]grammar.Tag, len(m.Lines))
	for _, stanza := range m.Stanzas {
		copy(lines[stanza.From:], stanzaTags(m.Lines[stanza.From:stanza.To], tell))
	}
	return lines
}

// stanzaTags are the parts of speech of the words of a stanza's lines. They are
// told from a stanza at a time, since sentences run over line ends but seldom
// over stanzas.
func stanzaTags(lines []manuscript.Line, tell func([]grammar.Token) []grammar.Tag) [][]grammar.Tag {
	size := 0
	for i := range lines {
		size += len(lines[i].Words)
	}
	tokens := make([]grammar.Token, 0, size)
	for i := range lines {
		words := lines[i].Words
		for k, w := range words {
			after := breakMarks[w.Break]
			if k == len(words)-1 {
				after = endMarks[w.Break]
			}
			tokens = append(tokens, grammar.Token{Text: w.Text, After: after})
		}
	}
	tags := tell(tokens)
	list := make([][]grammar.Tag, len(lines))
	for i := range lines {
		n := len(lines[i].Words)
		list[i], tags = tags[:n:n], tags[n:]
	}
	return list
}

// breakMarks stand for a break's punctuation when a passage is tagged.
var breakMarks = [...]string{manuscript.NoBreak: "", manuscript.LightBreak: ",", manuscript.HeavyBreak: ";", manuscript.FullBreak: "."}

// endMarks are the same at the end of a line, which the tagger reads as such.
var endMarks = [...]string{manuscript.NoBreak: "\n", manuscript.LightBreak: ",\n", manuscript.HeavyBreak: ";\n", manuscript.FullBreak: ".\n"}

// lineWords appends the words of one line, joined with their tags and pronunciations.
func lineWords(list []Word, words []manuscript.Word, tags []grammar.Tag, r *phonetics.Reader) []Word {
	list = slices.Grow(list, len(words))
	for k, w := range words {
		c := phonetics.Context{Tag: tags[k]}
		if k > 0 {
			c.Before = words[k-1].Text
		}
		if k+1 < len(words) {
			c.After = words[k+1].Text
		}
		list = append(list, ear.Word{Word: w, Tag: tags[k], Ways: r.Pronounce(w.Text, c)})
	}
	return list
}
