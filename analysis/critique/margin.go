package critique

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"dandle/analysis/card"
	"dandle/analysis/checks"
	"dandle/analysis/manuscript"
)

// A Remark is a part of the letter as a note in the margin.
type Remark struct {
	Span       manuscript.Span // the words it stands beside
	Paragraphs []string
}

// Margin is the letter as notes beside the words that they are about, for a
// word processor. What is about the whole book stands in the first of them, at
// the title. The reviewer's own notes are left out: they are in the margin
// already.
func Margin(l Letter, p Parts) []Remark {
	var list []Remark
	if whole := overall(l); len(whole) > 0 {
		list = append(list, Remark{Span: opening(p.Manuscript), Paragraphs: whole})
	}
	for _, s := range l.Sections {
		for _, n := range s.Notes {
			if !n.Reviewer && len(n.Places) > 0 && !aboutBook(n) {
				list = append(list, remarks(n, p)...)
			}
		}
	}
	return list
}

func aboutBook(n Note) bool { return n.Code.Area() == "book" }

// opening is where a book is spoken of: its title, or its first line.
func opening(m *manuscript.Manuscript) manuscript.Span {
	if m.Title.Span.Len() > 0 || len(m.Lines) == 0 {
		return m.Title.Span
	}
	return m.Lines[0].Span
}

// remarks are a note at each of its places. One that speaks of several places
// at once would read oddly at each, so there each finding speaks for itself.
func remarks(n Note, p Parts) []Remark {
	if len(n.Places) == 1 || len(n.Findings) != len(n.Places) {
		return []Remark{{Span: n.Places[0].Span, Paragraphs: alone(n)}}
	}
	list := make([]Remark, len(n.Places))
	for i, place := range n.Places {
		list[i] = Remark{Span: place.Span, Paragraphs: []string{p.Findings[n.Findings[i]].Message}}
		if place.Way != "" {
			list[i].Paragraphs = append(list[i].Paragraphs, "Perhaps "+quoted(place.Way)+".")
		}
	}
	return list
}

// alone is a note with its feet and its ways. Feet are told in marks, since a
// margin has no columns to set them in.
func alone(n Note) []string {
	text := []string{n.Text}
	if n.Code == "praise/refrain" && len(n.Places) > 1 {
		text[0] += " " + At(n)
	}
	if n.Heard != "" && n.Code.Area() == "meter" {
		text = append(text, "I hear: "+card.Spaced(n.Heard))
	}
	if wanted := Wanted(n); wanted != "" {
		text = append(text, capital(wanted))
	}
	for i, way := range n.Ways {
		text = append(text, Try(i, way))
	}
	return text
}

// overall is what the letter says about the whole book.
func overall(l Letter) []string {
	var text []string
	for _, s := range l.Sections {
		paragraphs := s.Paragraphs
		if s.Kind == Meter && len(s.Feet) > 0 {
			paragraphs = paragraphs[:len(paragraphs)-1] // it introduces the verse that is set below it
		}
		part := append([]string{}, paragraphs...)
		for _, n := range s.Notes {
			if aboutBook(n) {
				part = append(part, n.Text)
			}
		}
		if s.Kind == First {
			part = append(part, capital(lineNumbers(worst(s.Notes)))+".")
		}
		for i, step := range s.Steps {
			part = append(part, fmt.Sprintf("%d. %s", i+1, step))
		}
		if s.Closing != "" {
			part = append(part, s.Closing)
		}
		if len(part) > 0 {
			text = append(text, strings.ToUpper(s.Heading))
			text = append(text, part...)
		}
	}
	return text
}

// worst are the places of notes, in the order of the book.
func worst(notes []Note) []Place {
	var list []Place
	for _, n := range notes {
		if n.Severity > checks.Praise {
			list = append(list, n.Places...)
		}
	}
	slices.SortFunc(list, func(a, b Place) int { return cmp.Compare(a.Line, b.Line) })
	return list
}
