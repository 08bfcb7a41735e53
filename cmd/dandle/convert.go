package main

import (
	"flag"
	"fmt"

	"dandle/analysis/docx"
	"dandle/analysis/typescript"
)

func convertCommand() *command {
	return &command{
		name: "convert", synopsis: "[-f verse|docx|txt] -o OUT FILE", summary: "between .verse, .docx and plain text for submission",
		help: `
Writes a manuscript in another form: as .verse to go on writing; as .docx or as plain text
(txt) in the format that publishers ask for. The name of the output decides, or -f.

The .docx has 12-point Times, double-spaced, 1-inch margins, the contact and the length on
the first page, and a header with name, title and page number on the others. Name and
contact come from the front matter: author: and contact:. Emphasis becomes italics, art
notes stand in brackets and italics, a reviewer's notes become comments. The front matter
goes along unseen, and is there on the way back.

Plain text has the same without fonts: emphasis between _underscores_, and neither front
matter nor a reviewer's notes.

Examples:

  dandle convert -o lamp.docx lamp.verse
  dandle convert -o lamp.verse lamp.docx
  dandle convert -f txt lamp.verse | less
`,
		flags: func(flags *flag.FlagSet) action {
			f := formatFlag(flags, verseFormat, docxFormat, typescriptFormat)
			out := outputFlags(flags)
			return func(s *session, args []string) (int, error) {
				to, known := formatOf(out.name)
				if !f.told && (!known || f.or(to, true) != to) {
					return exitBad, misuse("say into what: -o names a file that ends in .verse, .docx or .txt, or -f gives the format")
				}
				return s.convert(f.or(to, known), out, args)
			}
		},
	}
}

func (s *session) convert(f format, out *output, files []string) (int, error) {
	if len(files) > 1 {
		return exitBad, misuse("%d files given; one at a time", len(files))
	}
	if err := checkNames(files); err != nil {
		return exitBad, err
	}
	if f == docxFormat && out.name == "" {
		return exitBad, misuse("a document cannot be shown here; -o names a file for it (- for the standard output)")
	}
	if err := out.check(files...); err != nil {
		return exitBad, err
	}
	all, err := readManuscripts(s, files, func(r reading) ([]byte, error) { return converted(f, r) },
		func(data []byte) error { return out.write(s, data) })
	if err != nil || !all {
		return exitBad, err
	}
	return exitFine, nil
}

// converted is a manuscript in another form.
func converted(f format, r reading) ([]byte, error) {
	m := r.snapshot.Manuscript()
	switch f {
	case verseFormat:
		return []byte(m.Text), nil
	case typescriptFormat:
		return []byte(typescript.Set(m)), nil
	}
	data, err := docx.New(m).Bytes()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", r.name, err)
	}
	return data, nil
}
