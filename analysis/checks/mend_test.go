package checks_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"dandle/analysis"
	"dandle/analysis/checks"
	"dandle/analysis/manuscript"
)

// A fix keeps the meter or is not offered; it mends the article and the capital
// that the word leaves behind.
func TestFixesScan(t *testing.T) {
	const poem = `# The Mill

LINE
The miller swept the flour away,
The mice had danced upon the floor,
And no one heard the end of day.

The wheel went round, the water ran,
The owl was asleep above the door,
The moon came up, a copper pan,
And lit the flour upon the floor.
`
	tests := []struct{ name, line, code, want string }{
		{"a beat too many", "The very quiet wheel was slow and old,", "word/filler", "The quiet wheel was slow and old,"},
		{"the article follows", "The mill was not a very old and quiet mill,", "word/filler", ""},
		{"needed for the beat", "The wheel was very old and slow,", "word/filler", ""},
		{"an opening with its mark", "Well, the wheel was old and made of wood,", "word/filler", "The wheel was old and made of wood,"},
		{"did before its verb", "The wheel did rumble round and round,", "word/padding-do", ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			text := strings.Replace(poem, "LINE", tt.line, 1)
			snapshot := analysis.New(text, analysis.Options{})
			got := ""
			for _, f := range snapshot.Findings() {
				if string(f.Code) == tt.code && len(f.Fixes) > 0 {
					got = apply(text, f.Fixes[0])
					got = strings.Split(got, "\n")[2]
				}
			}
			if diff := cmp.Diff(tt.want, got); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}

// A house may have words of its own that it is tired of.
func TestHouseWords(t *testing.T) {
	const text = "# The Mill\n\nThe wobbly wheel went round and round,\nThe miller slept upon the ground.\n"
	for _, weak := range [][]string{nil, {"Wobbly"}} {
		options := analysis.Options{House: manuscript.House{Weak: weak}}
		got := 0
		for _, f := range analysis.New(text, options).Findings() {
			if f.Code == "word/weak" {
				got++
			}
		}
		if got != len(weak) {
			t.Errorf("with %q, %d words are raised", weak, got)
		}
	}
}

// The house decides which dash is set; without a rule the manuscript's own stays.
func TestHouseDash(t *testing.T) {
	const text = "# The Bell\n\nThe bell—it was cracked—was as loud as a drum,\nThe bell – it was cracked – but it wanted to hum.\n"
	tests := []struct {
		name string
		dash manuscript.Dash
		want []string
	}{
		{"no rule", manuscript.NoDashRule, []string{"–", "–"}},
		{"closed", manuscript.EmDash, []string{"–", "–"}},
		{"open", manuscript.EnDash, []string{"—", "—"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			options := analysis.Options{House: manuscript.House{Dash: tt.dash}}
			var got []string
			for _, f := range analysis.New(text, options).Findings() {
				if f.Code == "mark/dash" {
					got = append(got, f.Span.In(text))
				}
			}
			if diff := cmp.Diff(tt.want, got); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}

// apply makes the edits of a fix, from the last to the first.
func apply(text string, fix checks.Fix) string {
	for i := len(fix.Edits) - 1; i >= 0; i-- {
		e := fix.Edits[i]
		text = text[:e.Span.Start] + e.Text + text[e.Span.End:]
	}
	return text
}
