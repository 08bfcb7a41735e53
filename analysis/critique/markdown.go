package critique

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"dandle/analysis/card"
	"dandle/analysis/checks"
)

// Markdown is the letter in CommonMark. Whatever the writer typed stands as
// typed: nothing in it can become markup.
func Markdown(l Letter) string {
	var b strings.Builder
	fmt.Fprintf(&b, "# %s\n", Escape(Heading(l)))
	for _, s := range l.Sections {
		fmt.Fprintf(&b, "\n## %s\n", Escape(s.Heading))
		for _, p := range s.Paragraphs {
			fmt.Fprintf(&b, "\n%s\n", Escape(p))
		}
		fence(&b, "", s.Feet, "")
		action := ""
		for _, n := range s.Notes {
			if n.Action != action && n.Action != "" && Grouped(s.Kind) {
				action = n.Action
				fmt.Fprintf(&b, "\n### %s\n", Escape(action))
			}
			note(&b, n)
		}
		if len(s.Steps) > 0 {
			b.WriteByte('\n')
		}
		for i, step := range s.Steps {
			fmt.Fprintf(&b, "%d. %s\n", i+1, Escape(step))
		}
		if s.Closing != "" {
			fmt.Fprintf(&b, "\n%s\n", Escape(s.Closing))
		}
	}
	return b.String()
}

// Grouped reports whether a section's notes stand under their actions.
func Grouped(kind SectionKind) bool { return kind == First || kind == Lines || kind == Verses }

// Heading is what stands over a letter.
func Heading(l Letter) string {
	if l.Title == "" {
		return "A letter about your manuscript"
	}
	return "A letter about " + quoted(l.Title)
}

func note(b *strings.Builder, n Note) {
	b.WriteString("\n- ")
	switch {
	case n.Reviewer:
		fmt.Fprintf(b, "%s%s *(reviewer)*\n", strong(Lead(n)), Escape(n.Text))
	case len(n.Places) == 1:
		fmt.Fprintf(b, "%s%s\n", strong(Lead(n)), Escape(n.Text))
	case len(n.Places) == 0:
		fmt.Fprintf(b, "%s\n", Escape(n.Text))
	default:
		fmt.Fprintf(b, "%s %s\n", Escape(n.Text), Escape(At(n)))
	}
	fence(b, "  ", n.Feet, Wanted(n))
	for i, way := range n.Ways {
		fmt.Fprintf(b, "\n  %s\n", Escape(Try(i, way)))
		fence(b, "  ", []Verse{{Block: way.Block}}, "")
	}
}

// Wanted is the pattern that a note relied on, for under the line that has
// another; empty where it is the same.
func Wanted(n Note) string {
	if n.Expected == "" || n.Expected == n.Heard {
		return ""
	}
	return "its place goes: " + card.Spaced(n.Expected)
}

// Try is the sentence that offers a way, the first of a note or another.
func Try(i int, way Way) string {
	lead := "A way: "
	if i > 0 {
		lead = "Or: "
	}
	switch {
	case way.Line == "":
		return lead + way.Title + "."
	case strings.ContainsAny(way.Line, "“”\""):
		return lead + way.Line
	}
	return lead + quoted(way.Line)
}

// Lead is what a note opens with: its place. It is empty for a note about
// several places, whose text names them, and for one about the whole book.
func Lead(n Note) string {
	switch {
	case len(n.Places) != 1:
		return ""
	case n.Reviewer && n.Places[0].Quote == "":
		return "At the head of the manuscript:"
	case n.Reviewer:
		return fmt.Sprintf("After line %d, %s:", n.Places[0].Line, quoted(n.Places[0].Quote))
	case n.Places[0].Verse < 0 && n.Code.Area() == "book", n.Severity == checks.Praise && n.Code == "praise/refrain":
		return ""
	}
	return fmt.Sprintf("Line %d.", n.Places[0].Line)
}

// At are the places of a note about several, as its text goes on: each with its
// words, its line, and what could stand there; those that are many by line only.
func At(n Note) string {
	var parts, lines []string
	for i, p := range n.Places {
		switch {
		case i >= quotedPlaces || p.Quote == "":
			lines = append(lines, strconv.Itoa(p.Line))
		case p.Way != "":
			parts = append(parts, fmt.Sprintf("%s (%d), perhaps %s", quoted(p.Quote), p.Line, quoted(p.Way)))
		default:
			parts = append(parts, fmt.Sprintf("%s (%d)", quoted(p.Quote), p.Line))
		}
	}
	lines = slices.Compact(lines)
	if more := len(lines) - namedLines; more > 0 {
		lines = append(lines[:namedLines], counted(more, "line")+" more")
	}
	if len(lines) > 0 {
		parts = append(parts, pick(len(lines), "line ", "lines ")+listed(lines))
	}
	for _, p := range parts {
		if strings.Contains(p, ", ") {
			return strings.Join(parts, "; ") + "."
		}
	}
	return listed(parts) + "."
}

const (
	quotedPlaces = 6  // a note about many places quotes so many, and
	namedLines   = 24 // names so many lines besides
)

func strong(s string) string {
	if s == "" {
		return ""
	}
	return "**" + strings.TrimRight(Escape(s), " ") + "** "
}

// fence sets verses with their feet as a block of code, where columns hold, and
// a last row under them.
func fence(b *strings.Builder, indent string, verses []Verse, under string) {
	if len(verses) == 0 {
		return
	}
	open := false
	for _, v := range verses {
		if v.Block.Syllables == "" {
			continue
		}
		if !open {
			fmt.Fprintf(b, "\n%s```text\n", indent)
			open = true
		}
		fmt.Fprintf(b, "%s%s\n%s%s\n", indent, v.Block.Marks, indent, v.Block.Syllables)
	}
	if open {
		if under != "" {
			fmt.Fprintf(b, "%s%s\n", indent, under)
		}
		fmt.Fprintf(b, "%s```\n", indent)
	}
}

// Escape makes plain text into Markdown that reads the same: every character
// that could be markup is escaped (CommonMark 0.31, 2.4), line breaks and
// controls become spaces, and there is no space at either end.
func Escape(text string) string {
	text = strings.TrimSpace(strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || r == '\u2028' || r == '\u2029' {
			return ' '
		}
		return r
	}, text))
	var b strings.Builder
	for i, r := range text {
		switch {
		case strings.ContainsRune("\\`*_[]<>&~$", r),
			i == 0 && strings.ContainsRune("#+-=:", r),
			(r == '.' || r == ')') && i > 0 && allDigits(text[:min(i, maxMarker)]):
			b.WriteByte('\\')
		}
		b.WriteRune(r)
	}
	return b.String()
}

// maxMarker is the most digits that open a list (CommonMark 0.31, 5.2), and one.
const maxMarker = 10

func allDigits(s string) bool {
	for i := range len(s) {
		if s[i] < '0' || s[i] > '9' {
			return false
		}
	}
	return s != ""
}
