package main

import (
	"flag"
	"fmt"

	"dandle/analysis/critique"
	"dandle/analysis/page"
)

func critiqueCommand() *command {
	return &command{
		name: "critique", synopsis: "[-f md|html] [--tone brief|full] [-o OUT] FILE", summary: "the letter an editor would write about it",
		help: `
Reads a manuscript and writes the letter that a read-through ends in: what works, the
meter, the notes that matter most with what could be tried, and the next three steps.
As html it is one page, with the manuscript set over its beats, that needs nothing but
itself and prints well.

Examples:

  dandle critique lamp.verse
  dandle critique --tone brief lamp.verse
  dandle critique -f html -o lamp.html lamp.verse
`,
		flags: func(flags *flag.FlagSet) action {
			f := formatFlag(flags, markdownFormat, htmlFormat)
			out := outputFlags(flags)
			tone := critique.Full
			flags.Func("tone", "how much to say: `TONE` is brief or full", func(text string) error {
				switch text {
				case "full":
					tone = critique.Full
				case "brief":
					tone = critique.Brief
				default:
					return fmt.Errorf("use brief or full")
				}
				return nil
			})
			return func(s *session, args []string) (int, error) { return s.critique(*f, tone, out, args) }
		},
	}
}

func (s *session) critique(f format, tone critique.Tone, out *output, files []string) (int, error) {
	if len(files) > 1 {
		return exitBad, misuse("%d files given; a letter is about one manuscript", len(files))
	}
	if err := checkNames(files); err != nil {
		return exitBad, err
	}
	if err := out.check(files...); err != nil {
		return exitBad, err
	}
	all, err := readManuscripts(s, files, func(r reading) ([]byte, error) {
		parts := r.snapshot.Parts()
		letter := critique.Write(parts, tone)
		if f == htmlFormat {
			return page.Critique(letter, parts)
		}
		return []byte(critique.Markdown(letter)), nil
	}, func(data []byte) error { return out.write(s, data) })
	if err != nil || !all {
		return exitBad, err
	}
	return exitFine, nil
}
