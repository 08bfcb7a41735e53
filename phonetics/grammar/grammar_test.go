package grammar

import (
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"
)

// tokensOf parts a text at its spaces; the marks at a word's end follow it.
func tokensOf(text string) []Token {
	var tokens []Token
	for line := range strings.SplitSeq(text, "\n") {
		for field := range strings.FieldsSeq(line) {
			word := strings.TrimRight(field, ",.;:?!—")
			tokens = append(tokens, Token{word, field[len(word):]})
		}
		if n := len(tokens); n > 0 {
			tokens[n-1].After += "\n"
		}
	}
	return tokens
}

func tagged(text string) string {
	var names []string
	for _, t := range Tags(tokensOf(text)) {
		names = append(names, t.String())
	}
	return strings.Join(names, " ")
}

func TestTags(t *testing.T) {
	for _, test := range []struct{ name, text, want string }{
		{"contractions have the tag of their head", "it's don't can't we'll he'd they've", "PRP VBP MD PRP PRP PRP"},
		{"old contractions", "'Tis late and 'twas cold", "PRP JJ CC PRP JJ"},
		{"a possessive is a noun", "the goat's hat", "DT NN NN"},
		{"so is a plural one", "the goats' hats", "DT NNS NNS"},
		{"curly apostrophes", "it’s don’t ’tis", "PRP VBP PRP"},
		{"old pronouns", "thy hat and thou", "PRP$ NN CC PRP"},
		{"old verbs", "he singeth and she doth weep", "PRP VBZ CC PRP VBZ VB"},
		{"elisions", "o'er th' ev'ry ne'er", "IN DT DT RB"},
		{"a clipped -ing", "they are goin' home", "PRP VBP VBG NN"},
		{"a line's capital is no name", "The owl sat still\nBright stars shone", "DT NN VBD RB\nJJ NNS VBD"},
		{"a name inside a line", "we saw Mabel there", "PRP VBD NNP RB"},
		{"numbers", "7 owls and 12 mice", "CD NNS CC CD NNS"},
		{"an unknown word by its ending", "the snorfling grumbled wumpily", "DT NN VBD RB"},
		{"a hyphen", "a snow-soft bed", "DT JJ NN"},
		{"marks alone", "— the goat", ". DT NN"},
		{"nothing", "", ""},
	} {
		t.Run(test.name, func(t *testing.T) {
			if diff := cmp.Diff(strings.ReplaceAll(test.want, "\n", " "), tagged(test.text)); diff != "" {
				t.Errorf("%q (-want +got):\n%s", test.text, diff)
			}
		})
	}
}

func TestCanBe(t *testing.T) {
	for _, test := range []struct {
		word string
		tag  Tag
		want bool
	}{
		{"wind", Noun, true},
		{"wind", Verb, true},
		{"Wind", Verb, true},
		{"badgers", NounPlural, true},
		{"hoots", VerbThird, true},
		{"the", Determiner, true},
		{"the", Noun, false},
		{"quickly", Adverb, true},
		{"quickly", Verb, false},
		{"xyzzyx", Noun, false},
		{"", Noun, false},
	} {
		if got := CanBe(test.word, test.tag); got != test.want {
			t.Errorf("CanBe(%q, %v) = %v", test.word, test.tag, got)
		}
	}
}

// TestTable checks that the table is laid out as table.go reads it.
func TestTable(t *testing.T) {
	if !strings.HasPrefix(table, magic) {
		t.Fatalf("the table begins %q", table[:len(magic)])
	}
	size := featuresAt + uint24(table, sizesAt) + uint24(table, sizesAt+3) + uint24(table, sizesAt+6)
	if size != len(table) {
		t.Errorf("the parts make %d bytes of %d", size, len(table))
	}
	for _, part := range []string{featurePart(), wordPart()} {
		if end := uint24(part, indexSize-3); indexSize+end != len(part) {
			t.Errorf("the index ends at %d of %d", end, len(part)-indexSize)
		}
	}
	for tag := range tagCount {
		if tag.String() == "" {
			t.Errorf("tag %d has no name", tag)
		}
	}
	if len(setPart())%setSize != 0 {
		t.Errorf("the sets take %d bytes", len(setPart()))
	}
}

// TestTagsAllocateLittle allows for the answer, the pieces and the rules' view
// of a sentence.
func TestTagsAllocateLittle(t *testing.T) {
	line := tokensOf("the goat at the lighthouse has swallowed it.")
	if n := testing.AllocsPerRun(100, func() { Tags(line) }); n > 3 {
		t.Errorf("a line takes %v allocations, want 3", n)
	}
}

func TestReadIsSurerWhereTheGrammarIs(t *testing.T) {
	passage := tokensOf("the goat can row")
	readings := Read(passage)
	for i, tag := range Tags(passage) {
		if readings[i].Tag != tag {
			t.Errorf("%s is %v in Tags and %v in Read", passage[i].Text, tag, readings[i].Tag)
		}
		if c := readings[i].Chance; c < 0.5 || c > 1 {
			t.Errorf("%s has chance %v", passage[i].Text, c)
		}
	}
	// A word alone may be noun or verb; an article before it decides.
	alone, led := Read(tokensOf("row"))[0].Chance, Read(tokensOf("the row"))[1].Chance
	if alone >= led {
		t.Errorf("row alone has chance %v, after an article %v", alone, led)
	}
}

func FuzzTags(f *testing.F) {
	for _, text := range []string{
		"The goat's hat, the owls' — 'tis o'er!", "I'd've 's ' '' n't 'n't", "\xff\xfe ’’ ŉ İ’s ǅ", "a-b-c- - -- --x", "nooooo zzz",
		strings.Repeat("'s", 50), "7th 1.2.3 £5 &",
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		tokens := tokensOf(text)
		tags := Tags(tokens)
		if len(tags) != len(tokens) {
			t.Fatalf("%d tags for %d tokens", len(tags), len(tokens))
		}
		for i, tag := range tags {
			if tag == Unknown || tag >= tagCount {
				t.Fatalf("%q has tag %d", tokens[i].Text, tag)
			}
		}
		if utf8.ValidString(text) {
			CanBe(text, Noun)
		}
	})
}

func ExampleTags() {
	line := []Token{{"The", ""}, {"owls", ""}, {"wind", ""}, {"up", ""}, {"the", ""}, {"wind", ".\n"}}
	fmt.Println(Tags(line))
	// Output: [DT NNS VBP RP DT NN]
}
