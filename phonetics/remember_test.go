package phonetics

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"dandle/phonetics/grammar"
)

// TestWhatIsRememberedIsWhatIsFound says words twice, in sentences that decide
// between their sounds, and compares with a reader that has nothing to remember.
func TestWhatIsRememberedIsWhatIsFound(t *testing.T) {
	var contexts []Context
	for _, tag := range []grammar.Tag{grammar.Unknown, grammar.Noun, grammar.Verb, grammar.VerbPast, grammar.Adjective, grammar.Name} {
		for _, beside := range [][2]string{{"", ""}, {"King", "Street"}, {"so", "your"}, {"chapter", "is"}, {"the", "8"}, {"loud", "about"}} {
			contexts = append(contexts, Context{Tag: tag, Before: beside[0], After: beside[1]})
		}
	}
	r := NewReader(EnUS, nil)
	for round := range 2 {
		for _, word := range strings.Fields("wind close row many happy St. Dr. no. VIII I record *live* wand’ring th' ' ' grommish moonmoth Polish every used 12 the") {
			for _, c := range contexts {
				want := NewReader(EnUS, nil).pronounce(word, &surroundings{context: c})
				if diff := cmp.Diff(want, r.Pronounce(word, c)); diff != "" {
					t.Errorf("round %d, %q in %+v (-found +remembered):\n%s", round, word, c, diff)
				}
			}
		}
	}
}

func TestRecentForgets(t *testing.T) {
	const most = 100
	r := recent[string, int]{most: most, cloned: strings.Clone}
	for i := range 10 * most {
		r.keep(fmt.Sprint(i), i)
		if _, known := r.find("0"); !known {
			t.Fatalf("what is asked for at every step was forgotten after %d others", i)
		}
	}
	if n := len(r.young) + len(r.old); n > 2*most {
		t.Errorf("%d values are held; want at most %d", n, 2*most)
	}
	if v, known := r.find(fmt.Sprint(10*most - 1)); !known || v != 10*most-1 {
		t.Error("the newest value was forgotten")
	}
}

func TestReadersShare(t *testing.T) {
	var readers Readers
	us, again, gb := readers.Reader(EnUS, nil), readers.Reader(EnUS, nil), readers.Reader(EnGB, nil)
	taught := readers.Reader(EnUS, map[string]Sounds{"grommish": sound("G R OW1")})
	if us != again || us == gb || us == taught {
		t.Error("want one reader for each dialect, and one of its own for who teaches")
	}
	if got := taught.Pronounce("grommish", Context{})[0].Source; got != FromWriter {
		t.Errorf("a taught word came from %v", got)
	}
	if got := us.Pronounce("grommish", Context{})[0].Source; got == FromWriter {
		t.Errorf("a word that another manuscript teaches came from %v", got)
	}
}
