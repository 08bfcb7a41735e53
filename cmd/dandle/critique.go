package main

import (
	"flag"
	"fmt"

	"dandle/analysis"
	"dandle/analysis/critique"
	"dandle/analysis/docx"
	"dandle/analysis/page"
)

func critiqueCommand() *command {
	return &command{
		name: "critique", synopsis: "[-f md|html|docx] [--tone brief|full] [-o OUT] FILE|FOLDER…", summary: "the letter an editor would write about it",
		help: `
Reads a manuscript and writes the letter that a read-through ends in: what works, the
meter, the notes that matter most with what could be tried, and the next three steps.
As html it is one page, with the manuscript set over its beats, that needs nothing but
itself and prints well. As docx it is a copy of the manuscript with the notes as comments
beside the words; nothing else in a word processor's file is changed. Without -f the name
of the output decides.

` + inputHelp + ` About several manuscripts, or a
folder, -o names the folder for the letters, and a table stands at the end.

Examples:

  dandle critique lamp.verse
  dandle critique --tone brief lamp.verse
  dandle critique -o lamp.html lamp.verse
  dandle critique -o "lamp, with notes.docx" lamp.docx
  dandle critique -f html -o letters manuscripts
`,
		flags: func(flags *flag.FlagSet) action {
			f := formatFlag(flags, markdownFormat, htmlFormat, docxFormat)
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
			return func(s *session, args []string) (int, error) {
				return s.critique(writing{f.or(formatOf(out.name)), tone}, out, args)
			}
		},
	}
}

// A writing is how a letter is to be written.
type writing struct {
	format format
	tone   critique.Tone
}

func (s *session) critique(w writing, out *output, named []string) (int, error) {
	files, complete, err := s.files(named)
	if err != nil {
		return exitBad, err
	}
	if len(named) > 1 || len(files) == 1 && files[0] != named[0] || len(files) > 1 {
		return s.critiqueMany(w, out, named, files, complete)
	}
	if !complete {
		return exitBad, nil
	}
	if w.format == docxFormat && out.name == "" {
		return exitBad, misuse("a document cannot be shown here; -o names a file for it (- for the standard output)")
	}
	if err := out.check(files...); err != nil {
		return exitBad, err
	}
	all, err := readManuscripts(s, files, w.letter, func(data []byte) error { return out.write(s, data) })
	if err != nil || !all {
		return exitBad, err
	}
	return exitFine, nil
}

// letter is the letter about one manuscript.
func (w writing) letter(r reading) ([]byte, error) {
	if w.format == docxFormat {
		return w.annotated(r)
	}
	parts := r.snapshot.Parts()
	letter := critique.Write(parts, w.tone)
	if w.format == htmlFormat {
		return page.Critique(letter, parts), nil
	}
	return []byte(critique.Markdown(letter)), nil
}

// annotated is a copy of the manuscript with the letter in its margin.
func (w writing) annotated(r reading) ([]byte, error) {
	r, err := asDocument(r)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", r.name, err)
	}
	parts := r.snapshot.Parts()
	var comments []docx.Comment
	for _, remark := range critique.Margin(critique.Write(parts, w.tone), parts) {
		comments = append(comments, docx.Comment{Span: remark.Span, Paragraphs: remark.Paragraphs})
	}
	data, err := r.document.Annotate(comments)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", r.name, err)
	}
	return data, nil
}

// asDocument is a manuscript in plain text as the document that it is set as, so
// that the letter counts the lines that its reader sees.
func asDocument(r reading) (reading, error) {
	if r.document != nil {
		return r, nil
	}
	data, err := docx.New(r.snapshot.Manuscript()).Bytes()
	if err != nil {
		return r, err
	}
	d, err := docx.Read(data)
	if err != nil {
		return r, err
	}
	r.document, r.snapshot = d, analysis.NewExtract(d.Text, d.Lines, r.options)
	return r, nil
}
