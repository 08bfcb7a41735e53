package analysis

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"
	"dandle/phonetics"
)

// newReader makes the reader that a manuscript asks for: its own dialect and
// pronunciations before those of the house. A pronunciation that cannot be
// read is passed over; problems tells of it.
func newReader(m *manuscript.Manuscript, options Options) *phonetics.Reader {
	dialect := options.House.Dialect
	if m.Front.HasDialect {
		dialect = m.Front.Dialect
	}
	taught := map[string]phonetics.Sounds{}
	for _, list := range []map[string]string{options.House.Pronounce, m.Front.Pronounce} {
		for word, spoken := range list {
			if sounds, err := phonetics.ParseSpoken(spoken); err == nil {
				taught[word] = sounds
			}
		}
	}
	if options.Readers == nil {
		return phonetics.NewReader(dialect, taught)
	}
	return options.Readers.Reader(dialect, taught)
}

// problems lists what the front matter asks for and cannot have, by place.
func problems(m *manuscript.Manuscript) []manuscript.Problem {
	var list []manuscript.Problem
	for _, word := range slices.Sorted(maps.Keys(m.Front.Pronounce)) {
		if _, err := phonetics.ParseSpoken(m.Front.Pronounce[word]); err != nil {
			list = append(list, manuscript.Problem{
				Span:    inFront(m, word),
				Message: fmt.Sprintf("I cannot read how “%s” is said: %v. Write it as you would for a friend, the stressed part in capitals (OH-bn), or in ARPAbet or IPA.", word, err),
			})
		}
	}
	if m.Front.Meter != "" {
		if _, err := scansion.ParseMeter(m.Front.Meter); err != nil {
			list = append(list, manuscript.Problem{Span: inFront(m, m.Front.Meter), Message: err.Error() + "."})
		}
	}
	slices.SortStableFunc(list, func(a, b manuscript.Problem) int { return a.Span.Start - b.Span.Start })
	return list
}

// inFront is where a text stands in the front matter; the whole of it where it
// is written otherwise.
func inFront(m *manuscript.Manuscript, text string) manuscript.Span {
	front := m.Front.Span.In(m.Text)
	if at := strings.Index(strings.ToLower(front), strings.ToLower(text)); at >= 0 && at+len(text) <= len(front) {
		start := m.Front.Span.Start + at
		return manuscript.Span{Start: start, End: start + len(text)}
	}
	return m.Front.Span
}

// sameSounds reports whether words sound alike under two front matters.
func sameSounds(a, b *manuscript.Front) bool {
	return a.Dialect == b.Dialect && a.HasDialect == b.HasDialect && maps.Equal(a.Pronounce, b.Pronounce)
}
