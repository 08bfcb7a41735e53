package grammar

import (
	_ "embed"
	"fmt"
	"strings"
	"testing"
)

//go:embed testdata/verse.txt
var taggedVerse string

// A passage is tokens with their tags.
type passage struct {
	tokens []Token
	tags   []Tag
}

// readPassages reads testdata/verse.txt.
func readPassages(t *testing.T, text string) []passage {
	t.Helper()
	byName := map[string]Tag{}
	for tag := Noun; tag < tagCount; tag++ {
		byName[tag.String()] = tag
	}
	byName["WP$"] = WhPronoun
	var list []passage
	p := passage{}
	for line := range strings.Lines(text) {
		line = strings.TrimSpace(line)
		if strings.HasPrefix(line, "#") {
			continue
		}
		if line == "" {
			if len(p.tokens) > 0 {
				list = append(list, p)
			}
			p = passage{}
			continue
		}
		for field := range strings.FieldsSeq(line) {
			word, tag, _ := strings.Cut(field, "/")
			last := len(p.tokens) - 1
			if strings.Trim(word, ",.;:?!\"—") == "" {
				p.tokens[last].After += word
				continue
			}
			if byName[tag] == Unknown {
				t.Fatalf("%s has no known tag", field)
			}
			p.tokens = append(p.tokens, Token{Text: strings.TrimPrefix(word, "\"")})
			p.tags = append(p.tags, byName[tag])
		}
		p.tokens[len(p.tokens)-1].After += "\n"
	}
	if len(p.tokens) > 0 {
		list = append(list, p)
	}
	return list
}

// TestVerse measures the tagger on verse tagged by hand. The floors are a
// little under what was measured when they were set.
func TestVerse(t *testing.T) {
	for half, floor := range []float64{0.94, 0.96} {
		right, all := 0, 0
		for i, p := range readPassages(t, taggedVerse) {
			if i%2 != half {
				continue
			}
			got := Tags(p.tokens)
			for j, want := range p.tags {
				all++
				if got[j] == want {
					right++
				} else if half == 0 {
					t.Logf("%s: %s is %v, want %v", context(p, j), p.tokens[j].Text, got[j], want)
				}
			}
		}
		accuracy := float64(right) / float64(all)
		t.Logf("half %d: %d of %d tags right, %.1f %%", half, right, all, 100*accuracy)
		if accuracy < floor {
			t.Errorf("half %d: %.3f of the tags are right, want %.3f", half, accuracy, floor)
		}
	}
}

func context(p passage, i int) string {
	from, to := max(0, i-3), min(len(p.tokens), i+4)
	return fmt.Sprint(p.tokens[from:to])
}
