package suggest

import (
	"testing"

	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"
	"dandle/analysis/suggest/words"
	"dandle/phonetics/grammar"
)

// TestTakes holds verbs to WordNet's sentence frames: who devours, devours
// something. A verb that the words do not know stands nowhere.
func TestTakes(t *testing.T) {
	alone := []scansion.Word{taggedWord("went", grammar.VerbPast)}
	withObject := append(alone, taggedWord("the", grammar.Determiner), taggedWord("plum", grammar.Noun))
	tests := []struct {
		verb string
		line []scansion.Word
		want bool
	}{
		{"trudge", alone, true},
		{"devour", alone, false},
		{"devour", withObject, true},
		{"no such verb", alone, false},
		{"no such verb", withObject, false},
	}
	for _, test := range tests {
		p := Place{Poem: &scansion.Poem{Lines: []scansion.Line{{Words: test.line}}}}
		s := spot{place: &p, to: 1}
		if got := s.takes(words.Find(test.verb)); got != test.want {
			t.Errorf("%s stands for %v: %v, want %v", test.verb, test.line, got, test.want)
		}
	}
}

func taggedWord(text string, tag grammar.Tag) scansion.Word {
	return scansion.Word{Word: manuscript.Word{Text: text}, Tag: tag}
}
