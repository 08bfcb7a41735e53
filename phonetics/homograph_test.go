package phonetics

import (
	_ "embed"
	"strings"
	"testing"

	"dandle/phonetics/arpabet"
	"dandle/phonetics/grammar"
	"dandle/phonetics/lexicon"
)

//go:embed testdata/homographs.txt
var homographSentences string

// A spoken sentence has one word whose sounds are known.
type spoken struct {
	words  []string
	marked int
	sounds string
}

// readSpoken reads testdata/homographs.txt in its groups.
func readSpoken(t *testing.T) [][]spoken {
	t.Helper()
	var groups [][]spoken
	var group []spoken
	for line := range strings.Lines(homographSentences + "\n") {
		line = strings.TrimSpace(line)
		switch {
		case strings.HasPrefix(line, "#"):
			continue
		case line == "":
			if len(group) > 0 {
				groups = append(groups, group)
			}
			group = nil
			continue
		}
		sounds, text, _ := strings.Cut(line, " | ")
		s := spoken{sounds: sounds, words: strings.Fields(text), marked: -1}
		for i, w := range s.words {
			if strings.HasPrefix(w, "*") {
				s.marked = i
			}
			s.words[i] = strings.ReplaceAll(w, "*", "")
		}
		if s.marked < 0 {
			t.Fatalf("no word is marked in %q", text)
		}
		group = append(group, s)
	}
	return groups
}

// said is what homograph makes of the marked word.
func (s spoken) said() (sounds, reason string, tag grammar.Tag) {
	tokens := make([]grammar.Token, len(s.words))
	for i, w := range s.words {
		text := strings.TrimRight(w, ",.;:?!")
		tokens[i] = grammar.Token{Text: text, After: w[len(text):]}
	}
	c := Context{Tag: grammar.Tags(tokens)[s.marked]}
	if s.marked > 0 {
		c.Before = tokens[s.marked-1].Text
	}
	if s.marked+1 < len(tokens) {
		c.After = tokens[s.marked+1].Text
	}
	written := tokens[s.marked].Text
	word := fold(written).text
	var ways []Sounds
	for _, w := range lexicon.Lookup(word).All() {
		ways = append(ways, w)
	}
	want, reason, ok := homograph(written, word, c, ways)
	if !ok && len(ways) > 0 {
		want = ways[0]
	}
	return want.String(), reason, c.Tag
}

// TestHomographs measures the rules, with the tagger, on sentences that hold
// one meaning of a word each.
func TestHomographs(t *testing.T) {
	for half, floor := range []float64{0.9, 0.9} {
		right, all := 0, 0
		for i, group := range readSpoken(t) {
			if i%2 != half {
				continue
			}
			for _, s := range group {
				all++
				got, reason, tag := s.said()
				if sameWeak(got) == sameWeak(s.sounds) {
					right++
				} else if half == 0 {
					t.Logf("%s: %q is %s, want %s (%v, %s)", strings.Join(s.words, " "), s.words[s.marked], got, s.sounds, tag, reason)
				}
			}
		}
		accuracy := float64(right) / float64(all)
		t.Logf("half %d: %d of %d right, %.1f %%", half, right, all, 100*accuracy)
		if accuracy < floor {
			t.Errorf("half %d: %.3f are right, want %.2f", half, accuracy, floor)
		}
	}
}

// sameWeak writes the two weak vowels as one, which the dictionary writes now
// one way, now the other.
func sameWeak(sounds string) string { return strings.ReplaceAll(sounds, "IH0", "AH0") }

// TestHomographTable checks that every line of the table is read.
func TestHomographTable(t *testing.T) {
	lines := 0
	for line := range strings.Lines(strings.TrimSpace(homographTable)) {
		lines++
		word, rest, ok := strings.Cut(strings.TrimSpace(line), ": ")
		parts, rest, ok2 := strings.Cut(rest, " ")
		if !ok || !ok2 {
			t.Errorf("%q has no sense", line)
			continue
		}
		for _, r := range parts {
			if r != '^' && partTags[r] == 0 {
				t.Errorf("%s: %q is no part of speech", word, r)
			}
		}
		sounds, _, _ := strings.Cut(rest, " > ")
		sounds, _, _ = strings.Cut(sounds, " < ")
		if _, err := arpabet.Parse(sounds); err != nil {
			t.Errorf("%s: %v", word, err)
		}
	}
	n := 0
	for _, senses := range homographs() {
		n += len(senses)
	}
	if n != lines {
		t.Errorf("%d senses are held of %d lines", n, lines)
	}
}
