package analysistest

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestParse(t *testing.T) {
	tests := []struct {
		name   string
		source string
		want   Fixture
	}{
		{"nothing expected", "A goat.\n", Fixture{Text: "A goat.\n"}},
		{
			"one", "A very <!-- x --> goat. <!-- want word/filler \"very\" -->\r\nTwo.",
			Fixture{Text: "A very <!-- x --> goat.\r\nTwo.", Wants: []Mark{{1, "word/filler", "very"}}},
		},
		{
			"two and a trap", "Oh my goat. <!-- want word/filler \"Oh\" word/weak \"my \\\"g\" --> <!-- trap word/weak -->\n",
			Fixture{
				Text:  "Oh my goat.\n",
				Wants: []Mark{{1, "word/filler", "Oh"}, {1, "word/weak", `my "g`}},
				Traps: []Mark{{1, "word/weak", ""}},
			},
		},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, err := Parse(tt.source)
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(tt.want, got); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}

func TestParseRefuses(t *testing.T) {
	for _, source := range []string{
		"A goat. <!-- want word/filler -->",
		"A goat. <!-- want -->",
		"A goat. <!-- want filler \"x\" -->",
		"A <!-- want word/filler \"A\" --> goat.",
		"A goat. <!-- want word/filler \"\\q\" -->",
	} {
		if f, err := Parse(source); err == nil {
			t.Errorf("%q was read as %+v", source, f)
		}
	}
}
