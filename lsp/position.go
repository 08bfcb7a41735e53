package lsp

// This file alone knows how positions are counted on the wire. Three notations
// meet here:
//
//   - a byte offset into the text: all of dandle below this package;
//   - a protocol.Position: line and character from 0, the character counted in
//     the units of the encoding that was negotiated, UTF-16 where none was
//     (LSP 3.17, "Position" and "PositionEncodingKind");
//   - a line index and a byte column within it, inside this file only.
//
// A line ends at "\n", "\r\n" or a lone "\r" (LSP 3.17, "Text Documents").

import (
	"fmt"
	"slices"
	"sort"
	"unicode/utf16"
	"unicode/utf8"

	"dandle/analysis/manuscript"
	"dandle/lsp/protocol317"

	"go.lsp.dev/protocol"
)

// A mapper translates between the positions of one text and its byte offsets.
// It never changes.
type mapper struct {
	text     string
	encoding protocol317.PositionEncodingKind
	starts   []int // byte offset at which each line starts; the first is 0
}

func newMapper(text string, encoding protocol317.PositionEncodingKind) *mapper {
	return &mapper{text: text, encoding: encoding, starts: lineStarts([]int{0}, text, 0, len(text))}
}

// lineStarts appends the starts of the lines that follow the line ends found in
// text[from:to].
func lineStarts(starts []int, text string, from, to int) []int {
	for i := from; i < to; i++ {
		if text[i] == '\n' || text[i] == '\r' && (i+1 == len(text) || text[i+1] != '\n') {
			starts = append(starts, i+1)
		}
	}
	return starts
}

// splice is the mapper of the text in which [start, end) has become insert. It
// looks for line ends only in what has changed and the byte before it.
func (m *mapper) splice(start, end int, insert string) *mapper {
	text := m.text[:start] + insert + m.text[end:]
	delta := len(insert) - (end - start)
	// A "\r" before the place may have gained or lost its "\n", so the byte
	// before it is looked at again.
	from := max(start-1, 0)
	keep := sort.SearchInts(m.starts, from+1)
	// The byte at end is unchanged, but what a "\r" before it means is not.
	rest := sort.SearchInts(m.starts, end+1)
	starts := make([]int, keep, len(m.starts)+8)
	copy(starts, m.starts[:keep])
	starts = lineStarts(starts, text, from, start+len(insert))
	for _, s := range m.starts[rest:] {
		starts = append(starts, s+delta)
	}
	return &mapper{text: text, encoding: m.encoding, starts: starts}
}

// lines is the number of lines; a text that ends with a line end has an empty
// last line.
func (m *mapper) lines() int { return len(m.starts) }

// line is the span of a line without its end.
func (m *mapper) line(n int) manuscript.Span {
	end := len(m.text)
	if n+1 < len(m.starts) {
		end = m.starts[n+1]
	}
	start := m.starts[n]
	if end > start && m.text[end-1] == '\n' {
		end--
	}
	if end > start && m.text[end-1] == '\r' {
		end--
	}
	return manuscript.Span{Start: start, End: end}
}

// lineAt is the index of the line that holds the byte offset.
func (m *mapper) lineAt(offset int) int { return sort.SearchInts(m.starts, offset+1) - 1 }

// offset turns a position into a byte offset. What lies beyond a line's end
// means its end, as the protocol says; beyond the last line, the text's end;
// inside a character, its start.
func (m *mapper) offset(p protocol.Position) int {
	if uint64(p.Line) >= uint64(len(m.starts)) {
		return len(m.text)
	}
	span := m.line(int(p.Line))
	line, units := span.In(m.text), int64(p.Character)
	if m.encoding == protocol317.UTF8 {
		at := int(min(units, int64(len(line))))
		for at > 0 && at < len(line) && !utf8.RuneStart(line[at]) {
			at--
		}
		return span.Start + at
	}
	for i, r := range line {
		if units -= int64(m.units(r)); units < 0 {
			return span.Start + i
		}
	}
	return span.End
}

// span turns a range into a span. One that is the wrong way round is an error.
func (m *mapper) span(r protocol.Range) (manuscript.Span, error) {
	s := manuscript.Span{Start: m.offset(r.Start), End: m.offset(r.End)}
	if s.Start > s.End {
		return s, badParams(fmt.Errorf("range ends before it starts"))
	}
	return s, nil
}

// position turns a byte offset into a position. The offset has to lie in the
// text; one inside a line end means the line's end.
func (m *mapper) position(offset int) (protocol.Position, error) {
	if offset < 0 || offset > len(m.text) {
		return protocol.Position{}, fmt.Errorf("offset %d outside a text of %d bytes", offset, len(m.text))
	}
	n := m.lineAt(offset)
	span := m.line(n)
	return protocol.Position{Line: uint32(n), Character: m.count(m.text[span.Start:min(offset, span.End)])}, nil
}

// rangeOf turns a span into a range. A span outside the text is a fault of the
// program; it is cut to the text, for a note in a near place serves the writer
// more than none.
func (m *mapper) rangeOf(s manuscript.Span) protocol.Range {
	start := min(max(s.Start, 0), len(m.text))
	end := min(max(s.End, start), len(m.text))
	from, _ := m.position(start)
	to, _ := m.position(end)
	return protocol.Range{Start: from, End: to}
}

// ranges turns spans into ranges. Its cost grows with the text and the spans,
// not with their product, however long a line is.
func (m *mapper) ranges(spans []manuscript.Span) []protocol.Range {
	offsets := make([]int, 0, 2*len(spans))
	for _, s := range spans {
		start := min(max(s.Start, 0), len(m.text))
		offsets = append(offsets, start, min(max(s.End, start), len(m.text)))
	}
	sorted := slices.Clone(offsets)
	slices.Sort(sorted)
	at := make(map[int]protocol.Position, len(sorted))
	var last protocol.Position
	lastOffset := 0
	for _, offset := range sorted {
		n := m.lineAt(offset)
		span := m.line(n)
		stop := min(offset, span.End)
		if uint32(n) != last.Line || lastOffset > stop {
			last, lastOffset = protocol.Position{Line: uint32(n)}, span.Start
		}
		last.Character += m.count(m.text[lastOffset:stop])
		lastOffset = stop
		at[offset] = last
	}
	out := make([]protocol.Range, len(spans))
	for i := range spans {
		out[i] = protocol.Range{Start: at[offsets[2*i]], End: at[offsets[2*i+1]]}
	}
	return out
}

// count is the length of a piece of a line in the encoding's units.
func (m *mapper) count(s string) uint32 {
	if m.encoding == protocol317.UTF8 {
		return uint32(len(s))
	}
	n := 0
	for _, r := range s {
		n += m.units(r)
	}
	return uint32(n)
}

// units is the length of one character.
func (m *mapper) units(r rune) int {
	switch m.encoding {
	case protocol317.UTF8:
		return utf8.RuneLen(r)
	case protocol317.UTF32:
		return 1
	default:
		return utf16.RuneLen(r)
	}
}
