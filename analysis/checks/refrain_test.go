package checks

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestAligned(t *testing.T) {
	type told struct{ Here, Others string }
	tests := []struct {
		name, before, after, line string
		want                      []told
		near                      bool
	}{
		{"kept", "hush said the owl there's a", "at the door", "hush said the owl there's a moth at the door", nil, true},
		{"a wide slot", "hush said the owl there's a", "at the door", "hush said the owl there's a great grey moth at the door", nil, true},
		{"before the slot", "hush said the owl there's a", "at the door", "hush said the owl for the bird's at the door", []told{{"for the", "there's a"}}, true},
		{"after the slot", "hush said the owl there's a", "at the door", "hush said the owl there's a moth by the door", []told{{"by", "at"}}, true},
		{"two places", "and nobody here is awake any more", "", "and nobody there is asleep any more", []told{{"there", "here"}, {"asleep", "awake"}}, true},
		{"more words", "hush says the hill", "", "hush says the wind in the hill", []told{{"wind in the", ""}}, true},
		{"a word gone", "hush says the hill to the stone", "", "hush says hill to the stone", []told{{"", "the"}}, true},
		{"another line", "hush says the hill", "", "the rabbits count their toes", nil, false},
		{"a slot at the end", "and off went the cook with a", "", "and off went the cook by a gate", []told{{"by", "with"}}, true},
		{"nothing", "hush says the hill", "", "", nil, false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			f := frame{before: strings.Fields(tt.before), after: strings.Fields(tt.after)}
			words := strings.Fields(tt.line)
			changes, near := f.left(words, tt.after != "" || strings.HasSuffix(tt.before, " a"))
			if near != tt.near {
				t.Fatalf("near is %v, want %v (%v)", near, tt.near, changes)
			}
			if !near {
				return
			}
			var got []told
			for _, c := range changes {
				got = append(got, told{strings.Join(words[c.from:c.to], " "), strings.Join(c.others, " ")})
			}
			if diff := cmp.Diff(tt.want, got); diff != "" {
				t.Errorf("changes (-want +got):\n%s", diff)
			}
		})
	}
}
