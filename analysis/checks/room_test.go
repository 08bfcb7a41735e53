package checks_test

import (
	"strings"
	"testing"
)

// TestRoom holds a finding with no word to leave out to the syllables that its line has
// free: "very old" is "/xx" in an anapestic line.
func TestRoom(t *testing.T) {
	const around = `The kettle was warm and the table was laid,
And the otter came in with the bread that he made,
%s
And the window was open to let in the day.
`
	tests := []struct{ line, found, room string }{
		{"And the very old mouse had a sniff at the tray,", "very", "There is room here for /xx."},
		{"And a mouse had some cheese on a beautiful tray,", "beautiful", "There is room here for /xx."},
		{"And the mouse by the sugar did dance on the tray,", "did", "There is room here for x/."},
	}
	for _, test := range tests {
		text := strings.Replace(around, "%s", test.line, 1)
		met := false
		for _, f := range findings(text) {
			if f.Code.Area() != "word" || f.Span.In(text) != test.found {
				continue
			}
			met = true
			if !strings.HasSuffix(f.Message, test.room) {
				t.Errorf("%q: %s; want %q", test.line, f.Message, test.room)
			}
		}
		if !met {
			t.Errorf("%q: nothing is found at %q", test.line, test.found)
		}
	}
}
