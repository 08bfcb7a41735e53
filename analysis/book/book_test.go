package book_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"dandle/analysis"
	"dandle/analysis/book"
)

func measure(text string) book.Figures {
	s := analysis.New(text, analysis.Options{})
	return book.Measure(s.Manuscript(), s.Poem())
}

// The readability of two sentences is worked out in the encyclopedia article on
// the Flesch–Kincaid tests (Wikipedia, from memory): 6 words of 6 syllables, and
// 13 words of 24.
func TestReadability(t *testing.T) {
	tests := []struct {
		text              string
		words, syllables  int
		ease, grade, near float64
	}{
		{"The cat sat on the mat.", 6, 6, 116, -1.45, 0.2},
		{"The Australian platypus is seemingly\na hybrid of a mammal and reptilian creature.", 13, 24, 37.5, 11.27, 0.1},
	}
	for _, tt := range tests {
		f := measure(tt.text)
		if f.Words != tt.words || f.Syllables != tt.syllables || f.Sentences != 1 {
			t.Errorf("%q: %d words, %d syllables, %d sentences; want %d, %d, 1", tt.text, f.Words, f.Syllables, f.Sentences, tt.words, tt.syllables)
			continue
		}
		if ease, _ := f.Ease(); math.Abs(ease-tt.ease) > tt.near {
			t.Errorf("%q: ease %.1f, want %.1f", tt.text, ease, tt.ease)
		}
		if grade, _ := f.Grade(); math.Abs(grade-tt.grade) > tt.near {
			t.Errorf("%q: grade %.2f, want %.2f", tt.text, grade, tt.grade)
		}
	}
	if _, known := (&book.Figures{}).Grade(); known {
		t.Error("nothing has a grade")
	}
}

func TestMeasure(t *testing.T) {
	const text = `# The Ladder

## Spread 1

The vole had a ladder, the vole had a pail.
“Who’s there?” asked the badger. “A ladder,” she said.
[Badger = in bed]

And that was the end of

## Spread 2

the badger’s long day; he slept.

## Spread 3

[No words here]
`
	got := measure(text)
	got.Syllables = 0 // the ear's own tests count them
	want := book.Figures{
		Words: 31, Sentences: 5, Lines: 4, Stanzas: 3, Notes: 2,
		Spreads: []book.Filled{{Words: 25, Lines: 3, Stanzas: 2}, {Words: 6, Lines: 1, Stanzas: 1}, {}},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if m := got.Median(); m != 25 {
		t.Errorf("median %d, want 25", m)
	}
}

func ExampleMeasure() {
	s := analysis.New("# The Mat\n\n## Spread 1\n\nThe cat sat on the mat.\n", analysis.Options{})
	f := book.Measure(s.Manuscript(), s.Poem())
	fmt.Println(f.Words, "words,", f.Syllables, "syllables,", len(f.Spreads), "spread")
	// Output: 6 words, 6 syllables, 1 spread
}

func FuzzMeasure(f *testing.F) {
	f.Add("# A\n\n## 1\n\nOne.\n## 2\n\ntwo? \xff\n")
	f.Add(strings.Repeat("## x\n\ny\n", 30))
	f.Fuzz(func(t *testing.T, text string) {
		got := measure(text)
		words := 0
		for _, s := range got.Spreads {
			words += s.Words
		}
		if words > got.Words || got.Sentences > got.Words {
			t.Errorf("%q: %+v", text, got)
		}
	})
}
