package scansion_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

// A verse in two lines and two verses in one are as old as the stage and common
// practice in picture books; the meter counts them together.
func TestSplitLines(t *testing.T) {
	for name, test := range map[string]struct {
		last      string // the stanza after the steady ones
		beats     []int  // that its lines are to have
		continues []bool
		fits      []bool
	}{
		"the last verse in two lines": {
			`It looked at the button, it looked at the bean,
It bowed to the biggest that ever was seen,
It twirled on the carpet, it twirled like a top,
And all of a sudden,
it came to a stop.
`,
			[]int{4, 4, 4, 2, 2},
			[]bool{false, false, false, false, true},
			[]bool{true, true, true, true, true},
		},
		"an end kept back": {
			`It looked at the button, it looked at the bean,
It bowed to the biggest that ever was seen,
It twirled on the carpet, it twirled like a top,
And all of a sudden

it came to a stop.
`,
			[]int{4, 4, 4, 2, 2},
			[]bool{false, false, false, false, true},
			[]bool{true, true, true, true, true},
		},
		"two verses in one line": {
			`It looked at the button, it looked at the bean, and it bowed to the biggest that ever was seen,
It twirled on the carpet, it twirled like a top,
And all of a sudden it came to a stop.
`,
			[]int{8, 4, 4},
			[]bool{false, false, false},
			[]bool{true, true, true},
		},
		"beats that do not add up": {
			`It looked at the button, it looked at the bean,
It bowed to the biggest that ever was seen,
It twirled on the carpet, it twirled like a top,
And all of a sudden,
it stopped.
`,
			[]int{4, 4, 4, 4, 4},
			[]bool{false, false, false, false, false},
			[]bool{true, true, true, false, false},
		},
	} {
		t.Run(name, func(t *testing.T) {
			_, poem := scan(steady + "\n" + test.last)
			lines := poem.Lines[8:]
			beats, continues, fits := []int{}, []bool{}, []bool{}
			for _, l := range lines {
				beats, continues, fits = append(beats, l.Beats), append(continues, l.Continues), append(fits, l.Fits)
			}
			if diff := cmp.Diff([]any{test.beats, test.continues, test.fits}, []any{beats, continues, fits}); diff != "" {
				t.Errorf("(-want +got)\n%s", diff)
			}
		})
	}
}
