package analysis

import (
	"maps"

	"dandle/analysis/manuscript"
	"dandle/phonetics"
)

// newReader makes the reader that a manuscript asks for: its own dialect and
// pronunciations before those of the house.
func newReader(m *manuscript.Manuscript, house manuscript.House) *phonetics.Reader {
	dialect := house.Dialect
	if m.Front.HasDialect {
		dialect = m.Front.Dialect
	}
	return phonetics.NewReader(dialect, nil)
}

// sameSounds reports whether words sound alike under two front matters.
func sameSounds(a, b *manuscript.Front) bool {
	return a.Dialect == b.Dialect && a.HasDialect == b.HasDialect && maps.Equal(a.Pronounce, b.Pronounce)
}
