package suggest_test

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"dandle/analysis"
	"dandle/analysis/suggest"
)

// usable is the share of first offers that an editor could use as they are: the
// record on testdata/offers.txt, which may not fall.
const usable = 0.9

var mark = regexp.MustCompile(`\{([^|}]*)(?:\|([^}]*))?\}`)

// TestOffers holds the first offer for each marked place to what was judged by
// eye. An offer that nobody has judged counts as not usable.
func TestOffers(t *testing.T) {
	data, err := os.ReadFile("testdata/offers.txt")
	if err != nil {
		t.Fatal(err)
	}
	offered, good, marks := 0, 0, 0
	for _, marked := range strings.Split(string(data), "\n---\n")[1:] {
		s := analysis.New(mark.ReplaceAllString(marked, "$1"), analysis.Options{})
		shift := 0
		for _, m := range mark.FindAllStringSubmatchIndex(marked, -1) {
			start := m[0] - shift
			end := start + m[3] - m[2]
			shift += m[1] - m[0] - (end - start)
			judged := ""
			if m[4] >= 0 {
				judged = marked[m[4]:m[5]]
			}
			marks++
			list := insteadOf(s, start, end)
			if len(list) == 0 {
				continue
			}
			offered++
			if list[0].Text == judged {
				good++
			} else {
				t.Logf("%s for %s, judged %q", texts(list, 5), s.Manuscript().Text[start:end], judged)
			}
		}
	}
	t.Logf("%d of %d first offers are usable, in %d places", good, offered, marks)
	if float64(good) < usable*float64(offered) || offered < 60 {
		t.Errorf("%d of %d first offers are usable; want %.2f, of 60 at least", good, offered, usable)
	}
}

// insteadOf is what is offered for the words of a stretch of a text.
func insteadOf(s *analysis.Snapshot, start, end int) []suggest.Item {
	for i, l := range s.Poem().Lines {
		from, to := -1, -1
		for k, w := range l.Words {
			if start <= w.Span.Start && w.Span.End <= end {
				if from < 0 {
					from = k
				}
				to = k + 1
			}
		}
		if from >= 0 {
			return suggest.Instead(s.Place(start), i, from, to)
		}
	}
	return nil
}
