package scansion_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// A first draft as learners write it, which waltzes in some lines and marches in
// others; the lines are told apart by our ear.
const draft = `Bernard had a balloon that was big and red,
It floated very nicely over his head.
He took it to the park on a sunny day,
And all of his friends came out to play.

Suddenly a gust of wind did blow,
And up in the air the balloon did go!
"Oh no!" cried Bernard, "What will I do?
My balloon has flown away into the blue!"

The owl said, "I saw it go over that way,
But a crow was chasing it, I'm sorry to say."
He climbed and he climbed and he reached with his hand,
And then on his finger it came down to land.
`

func TestLeanings(t *testing.T) {
	for name, test := range map[string]struct {
		text string
		want []string
	}{
		"a draft between two tunes": {draft, []string{"iambic pentameter", "anapestic tetrameter"}},
		"a poem with one":           {steady, nil},
		"prose in lines": {`The committee met
in the upstairs room of the library on Tuesday and, after the usual apologies, agreed
that the drain
would need a second estimate before anybody climbed a ladder,
and adjourned.
`, nil},
	} {
		t.Run(name, func(t *testing.T) {
			_, poem := scan(test.text)
			var got []string
			for _, l := range poem.Leanings() {
				got = append(got, l.Meter.Name())
			}
			if diff := cmp.Diff(test.want, got); diff != "" {
				t.Errorf("(-want +got)\n%s", diff)
			}
		})
	}
	_, poem := scan(draft)
	for _, l := range poem.Leanings() {
		waltz := strings.HasPrefix(l.Meter.Name(), "anapestic")
		for _, line := range l.Lines {
			if line == 8 || line == 10 || line == 11 {
				if !waltz {
					t.Errorf("line %d is heard to march", line)
				}
			} else if waltz && line == 1 {
				t.Errorf("line %d is heard to waltz", line)
			}
		}
	}
}

// Where no meter is kept a change may still keep the beats of its line.
func TestTryWithoutMeter(t *testing.T) {
	_, poem := scan(draft)
	for text, want := range map[string]bool{
		"He took it to the hill on a sunny day,":            true,
		"He took it to the playground on a sunny day,":      false,
		"He took it to the hilltop and he let it blow away": false,
	} {
		if trial, ok := poem.Try(2, text); !ok || trial.Fits != want {
			t.Errorf("%s: fits %v (%v), want %v", text, trial.Fits, ok, want)
		}
	}
}
