package main

import (
	"bytes"
	"context"
	"flag"
	"fmt"

	"dandle/analysis/card"
	"dandle/analysis/page"
	"dandle/analysis/revision"
	"dandle/lsp/lastcommit"
)

func compareCommand() *command {
	return &command{
		name: "compare", synopsis: "[-f text|json|html] [-o OUT] OLD NEW | --last-commit FILE", summary: "what a revision mended, and what it broke",
		help: `
Lays two drafts side by side: every line that changed with its feet before and after,
the notes that are mended, new and unchanged, and in the last line the warnings before
and after. Lines are followed where they were moved, split, joined or reworded.

With --last-commit the older draft is what git has of the manuscript: "git cat-file" is
run for it, and nothing else. Drafts may be of different kinds, one .docx and one .verse.

Examples:

  dandle compare lamp-1.verse lamp-2.verse
  dandle compare --last-commit lamp.verse
  git show HEAD~3:lamp.verse | dandle compare - lamp.verse
  dandle compare -f html -o changes.html lamp-1.verse lamp-2.verse
`,
		flags: func(flags *flag.FlagSet) action {
			f := formatFlag(flags, textFormat, jsonFormat, htmlFormat)
			out := outputFlags(flags)
			var committed bool
			flags.BoolVar(&committed, "last-commit", false, "compare FILE with what git has of it")
			return func(s *session, args []string) (int, error) {
				if committed {
					return s.compareCommitted(f.or(formatOf(out.name)), out, args)
				}
				return s.compare(f.or(formatOf(out.name)), out, args)
			}
		},
	}
}

// A comparison is two drafts with what happened between them.
type comparison struct {
	readings [2]reading
	drafts   [2]revision.Draft
	revision.Revision
}

func (s *session) compare(f format, out *output, files []string) (int, error) {
	if len(files) != 2 {
		return exitBad, misuse("name two drafts, the older first (%d given)", len(files))
	}
	if err := checkNames(files); err != nil {
		return exitBad, err
	}
	if err := out.check(files...); err != nil {
		return exitBad, err
	}
	var drafts []reading
	all, err := readManuscripts(s, files, heard, func(r reading) error {
		drafts = append(drafts, r)
		return nil
	})
	if err != nil || !all {
		return exitBad, err
	}
	return s.write(f, out, [2]reading{drafts[0], drafts[1]})
}

// heard has a draft's findings heard beside the other draft's.
func heard(r reading) (reading, error) {
	r.snapshot.Raised()
	return r, nil
}

// compareCommitted compares a manuscript with what the last commit has of it.
func (s *session) compareCommitted(f format, out *output, files []string) (int, error) {
	if len(files) != 1 || files[0] == standardInput {
		return exitBad, misuse("name one manuscript that git has (%d given)", len(files))
	}
	if err := out.check(files...); err != nil {
		return exitBad, err
	}
	houses := newHouses()
	now, err := s.read(files[0], houses)
	if err != nil {
		return exitBad, err
	}
	data, err := lastcommit.Text(context.Background(), files[0], maxSize)
	if err != nil {
		return exitBad, fmt.Errorf("%s: %w", files[0], err)
	}
	old, err := readingOf(files[0], data, houses)
	if err != nil {
		return exitBad, fmt.Errorf("the last commit of %w", err)
	}
	old.name += " (last commit)"
	return s.write(f, out, [2]reading{old, now})
}

// write compares two drafts and writes what is to say.
func (s *session) write(f format, out *output, drafts [2]reading) (int, error) {
	c := comparison{readings: drafts}
	for i, r := range c.readings {
		c.drafts[i] = r.snapshot.Draft()
	}
	c.Revision = revision.Compare(c.drafts[0], c.drafts[1])
	data, err := s.comparison(f, &c)
	if err != nil {
		return exitBad, err
	}
	if err := out.write(s, data); err != nil {
		return exitBad, err
	}
	return exitFine, nil
}

func (s *session) comparison(f format, c *comparison) ([]byte, error) {
	switch f {
	case jsonFormat:
		var b bytes.Buffer
		err := encode(&b, compared(c))
		return b.Bytes(), err
	case htmlFormat:
		return page.Revision(c.Revision, c.readings[0].name, c.readings[1].name, c.drafts), nil
	}
	return c.text(s.paint), nil
}

// text is the comparison for a person.
func (c *comparison) text(p painter) []byte {
	var b bytes.Buffer
	fmt.Fprintf(&b, "%s\n", p.paint(bold, printable(c.readings[0].name+" → "+c.readings[1].name)))
	fmt.Fprintf(&b, "Lines: %s.\n", c.Lines())
	for _, change := range c.Changes {
		if change.Kind == revision.Kept {
			continue
		}
		fmt.Fprintf(&b, "\n%s\n", p.paint(faint, change.Kind.String()))
		c.side(&b, p, 0, "before", change.Old)
		c.side(&b, p, 1, "after", change.New)
	}
	same := make([]int, len(c.Same))
	for i, pair := range c.Same {
		same[i] = pair.New
	}
	c.list(&b, p, "mended", 0, c.Mended, false)
	c.list(&b, p, "gone with lines that were cut", 0, c.Gone, false)
	c.list(&b, p, "new", 1, c.New, true)
	c.list(&b, p, "unchanged", 1, same, false)
	fmt.Fprintf(&b, "\n%s\n", p.paint(bold, c.Verdict()))
	return b.Bytes()
}

// side sets the lines of one draft with their feet.
func (c *comparison) side(b *bytes.Buffer, p painter, draft int, when string, lines []int) {
	m, poem := c.drafts[draft].Manuscript, c.drafts[draft].Poem
	for _, at := range lines {
		line, heard := &m.Lines[at], &poem.Lines[at]
		block := card.Line(m.Text, *line, *heard)
		if block.Syllables == "" {
			fmt.Fprintf(b, "%-6s %5d    %s\n", when, line.Number, printable(line.Span.In(m.Text)))
			continue
		}
		marks := p.paint(faint, block.Marks)
		if !heard.Fits {
			marks = p.paint(yellow, block.Marks)
		}
		fmt.Fprintf(b, "                %s\n%-6s %5d    %s\n", marks, when, line.Number, block.Syllables)
		if !heard.Fits && heard.Expected != "" {
			fmt.Fprintf(b, "                %s\n", p.paint(yellow, "^ its place calls for "+card.Spaced(heard.Expected)))
		}
	}
}

// list names findings of one draft; what is new is told in full.
func (c *comparison) list(b *bytes.Buffer, p painter, heading string, draft int, found []int, inFull bool) {
	if len(found) == 0 {
		return
	}
	m := c.drafts[draft].Manuscript
	fmt.Fprintf(b, "\n%s\n", p.paint(faint, heading))
	for _, i := range found {
		f := c.drafts[draft].Findings[i]
		line, column := place(m, f.Span.Start)
		_, words, _ := cut(m, f.Span)
		fmt.Fprintf(b, "  %s:%d:%d: %s %s", printable(c.readings[draft].name), line, column,
			p.paint(severityInks[f.Severity], f.Severity.String()), p.paint(bold, string(f.Code)))
		if inFull {
			fmt.Fprintf(b, "  %s\n", printable(oneLine(f.Message)))
		} else {
			fmt.Fprintf(b, "  “%s”\n", words)
		}
	}
}
