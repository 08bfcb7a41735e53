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
	want, reason, ok := homograph(written, word, &surroundings{context: c}, ways)
	if !ok && len(ways) > 0 {
		want = ways[0]
	}
	return want.String(), reason, c.Tag
}

// TestHomographs measures the rules, with the tagger, on sentences that hold
// one meaning of a word each. The floors are a little under what was measured
// when they were set.
func TestHomographs(t *testing.T) {
	for half, floor := range []float64{0.93, 0.95} {
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

// TestAlternate checks the general patterns without the tagger. The readings
// are the dictionary's, their parts of speech Webster's (1913).
func TestAlternate(t *testing.T) {
	for _, test := range []struct {
		word string
		tag  grammar.Tag
		want string
	}{
		{"abstract", grammar.Adjective, "AE1 B S T R AE2 K T"},
		{"abstract", grammar.Verb, "AE0 B S T R AE1 K T"},
		{"contests", grammar.NounPlural, "K AA1 N T EH0 S T S"},
		{"contests", grammar.VerbThird, "K AH0 N T EH1 S T S"},
		{"desolate", grammar.Adjective, "D EH1 S AH0 L AH0 T"},
		{"desolate", grammar.Verb, "D EH1 S AH0 L EY2 T"},
		{"excuses", grammar.NounPlural, "IH0 K S K Y UW1 S IH0 Z"},
		{"excuses", grammar.VerbThird, "IH0 K S K Y UW1 Z IH0 Z"},
		{"adult", grammar.Noun, ""}, // no verb
		{"excuse", grammar.Unknown, ""},
		{"goat", grammar.Noun, ""},
	} {
		var ways []Sounds
		for _, s := range lexicon.Lookup(test.word).All() {
			ways = append(ways, s)
		}
		got, reason, ok := homograph(test.word, test.word, &surroundings{context: Context{Tag: test.tag}}, ways)
		if got.String() != test.want || ok != (test.want != "") || ok && reason == "" {
			t.Errorf("%s as %v is %q (%s), want %q", test.word, test.tag, got, reason, test.want)
		}
	}
}

func FuzzHomograph(f *testing.F) {
	f.Add("Wind", "the", "blew", uint8(grammar.Noun), "W AY1 N D")
	f.Add("close", "so", "", uint8(grammar.Verb), "S")
	f.Add("separates", "", "", uint8(grammar.VerbThird), "EY1 T S")
	f.Fuzz(func(t *testing.T, written, before, after string, tag uint8, sounds string) {
		word := fold(written).text
		var ways []Sounds
		for _, s := range lexicon.Lookup(word).All() {
			ways = append(ways, s)
		}
		if s, err := arpabet.Parse(sounds); err == nil {
			ways = append(ways, s)
		}
		want, reason, ok := homograph(written, word, &surroundings{context: Context{Tag: grammar.Tag(tag), Before: before, After: after}}, ways)
		if ok && (want == "" || reason == "") {
			t.Errorf("%q has the sounds %q for the reason %q", written, want, reason)
		}
	})
}

func BenchmarkHomograph(b *testing.B) {
	var ways []Sounds
	for _, s := range lexicon.Lookup("record").All() {
		ways = append(ways, s)
	}
	c := Context{Tag: grammar.Verb, Before: "to", After: "the"}
	b.ReportAllocs()
	for b.Loop() {
		homograph("record", "record", &surroundings{context: c}, ways)
	}
}

func TestSameReading(t *testing.T) {
	for _, test := range []struct {
		a, b string
		want bool
	}{
		{"R AH0 K AO1 R D", "R IH0 K AO1 R D", true},
		{"R AH0 K AO1 R D", "R EH1 K ER0 D", false},
		{"AA1 B JH EH0 K T", "AH0 B JH EH1 K T", false},
		{"M IH1 N AH0 T", "M AY0 N UW1 T", false},
		{"S EH1 P ER0 IH0 T", "S EH1 P R AH0 T", true},
		{"S EH1 P ER0 EY2 T", "S EH1 P R AH0 T", false},
		{"IH0 L AE1 B ER0 EY2 T", "IH0 L AE1 B R AH0 T", false},
		{"AE1 G R AH0 G IH0 T", "AE1 G R AH0 G EY0 T", false},
		{"L ER1 N D", "L ER1 N IH0 D", false},
		{"K L OW1 S", "K L OW1 Z", false},
		{"P R EH1 Z AH0 N T", "P R EH1 Z IH0 N T", true},
	} {
		a, err := arpabet.Parse(test.a)
		if err != nil {
			t.Fatal(err)
		}
		b, err := arpabet.Parse(test.b)
		if err != nil {
			t.Fatal(err)
		}
		if got := sameReading(a, b); got != test.want || sameReading(b, a) != got {
			t.Errorf("%s and %s: %v, want %v", test.a, test.b, got, test.want)
		}
	}
}
