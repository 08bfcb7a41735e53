package suggest

import (
	"strings"
	"testing"

	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"
	"dandle/phonetics"
)

// How a rhyme would lie in the forms of rhyme that handbooks name: alternate
// and enclosed (Baum, Principles of English Versification, 1922). A dot is the
// end of the line that is being written.
func TestSeatOf(t *testing.T) {
	ends := map[rune]string{'a': "stone bone throne", 'b': "light night kite", 'c': "chair bear", '.': "orange"}
	tests := []struct {
		name, scheme string
		mate         int
		want         seat
	}{
		{"alternate", "aba.", 1, seat{parallel: true}},
		{"alternate, not its neighbor", "aba.", 2, seat{}},
		{"enclosed", "abb.", 0, seat{mirror: true}},
		{"a couplet", "aab.", 2, seat{}},
		{"enclosed, written last to first", ".bba", 3, seat{mirror: true}},
		{"alternate over six lines", "abcab.", 2, seat{parallel: true}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			said := map[rune]int{}
			var lines []string
			for _, letter := range tt.scheme {
				all := strings.Fields(ends[letter])
				lines = append(lines, "We came to the "+all[said[letter]%len(all)])
				said[letter]++
			}
			m := manuscript.Parse(strings.Join(lines, "\n") + "\n")
			poem := scansion.Scan(m, scansion.NewMemo(phonetics.NewReader(phonetics.EnUS, nil)))
			p := Place{Manuscript: m, Poem: poem}
			heard, at := p.hear(0)
			if got := seatOf(&heard[at], strings.IndexByte(tt.scheme, '.'), tt.mate); got != tt.want {
				t.Errorf("%+v, want %+v (heard as %v)", got, tt.want, heard[at].Scheme.Letters)
			}
		})
	}
}
