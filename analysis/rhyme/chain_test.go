package rhyme_test

import (
	"testing"

	"dandle/analysis/rhyme"

	"github.com/google/go-cmp/cmp"
)

// Terza rima, and the chain that the rubaiyat may make, as Baum 1922 gives them.
// Common measure and couplets are no chains.
func TestLinkOf(t *testing.T) {
	for name, test := range map[string]struct {
		ends string
		want rhyme.Link
	}{
		"terza rima": {
			"hill snow still | glow lamp throw | damp sea stamp | bee road free | toad night code",
			rhyme.Link{From: 1, To: []int{0, 2}, Share: 1, Length: 3},
		},
		"one link broken": {
			"hill snow still | glow lamp throw | damp sea stamp | bread road said | toad night code",
			rhyme.Link{From: 1, To: []int{0, 2}, Share: 0.75, Length: 3},
		},
		"chained rubaiyat": {
			"hill still snow will | glow throw lamp know | damp stamp sea camp | bee free road key",
			rhyme.Link{From: 2, To: []int{0, 1, 3}, Share: 1, Length: 4},
		},
		"common measure":   {"hill lamp still damp | sea snow bee glow | road night toad light | bread cake said lake", rhyme.Link{}},
		"one rhyme at all": {"hill road still snow | lamp sea damp hill | bread cake said night | house ring mouse boat", rhyme.Link{}},
		"one link":         {"hill snow still | glow lamp throw", rhyme.Link{}},
		"a link of two":    {"hill snow still | glow lamp throw | road night code", rhyme.Link{}},
	} {
		t.Run(name, func(t *testing.T) {
			link, chained := rhyme.LinkOf(hear(t, test.ends))
			if !chained {
				link = rhyme.Link{}
			}
			if diff := cmp.Diff(test.want, link); diff != "" {
				t.Errorf("(-want +got)\n%s", diff)
			}
		})
	}
}
