package graphone

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"dandle/phonetics/arpabet"
	"dandle/phonetics/lexicon"
)

// TestFindKin hides the word itself, as training does, and looks for what is
// left in the dictionary.
func TestFindKin(t *testing.T) {
	type found struct {
		Kind   kinship
		Shared int
		Sounds string
	}
	for _, test := range []struct {
		word string
		want []found
	}{
		{"lanterns", []found{{stem, 7, "L AE1 N T ER0 N"}, {sibling, 6, "L AE1 N T ER0 N"}, {head, 5, "T ER1 N Z"}}},
		{"moonquilt", []found{{stem, 4, "M UW1 N"}, {head, 5, "K W IH1 L T"}}},
		{"xqz", nil},
		{"", nil},
	} {
		known := func(word string) []arpabet.Sounds {
			if word == test.word {
				return nil
			}
			return waysOf(word)
		}
		var got []found
		for _, k := range findKin(nil, test.word, known) {
			got = append(got, found{k.kind, k.shared, k.ways[0].String()})
		}
		if diff := cmp.Diff(test.want, got); diff != "" {
			t.Errorf("%q (-want +got)\n%s", test.word, diff)
		}
	}
}

func waysOf(word string) []arpabet.Sounds {
	var ways []arpabet.Sounds
	for _, s := range lexicon.Lookup(word).All() {
		ways = append(ways, s)
	}
	return ways
}

func TestCommon(t *testing.T) {
	for _, test := range []struct {
		a, b        string
		atEnd       bool
		agree, bare int
	}{
		{"L AE1 N T ER0 N Z", "L AE1 N T ER0 N", false, 6, 6},
		{"M UW1 N B IY2 M", "B IY1 M", true, 1, 3},
		{"B EY1 K IH0 NG", "B EY1 K ER0", false, 3, 3},
		{"K AE1 T", "D AO1 G", false, 0, 0},
	} {
		a, err := arpabet.Parse(test.a)
		if err != nil {
			t.Fatal(err)
		}
		b, err := arpabet.Parse(test.b)
		if err != nil {
			t.Fatal(err)
		}
		if agree, bare := common(a, b, test.atEnd); agree != test.agree || bare != test.bare {
			t.Errorf("%s and %s: %d and %d in common, want %d and %d", test.a, test.b, agree, bare, test.agree, test.bare)
		}
	}
}
