package lsp

import (
	"context"
	"encoding/json"
	"fmt"
	"strings"

	"dandle/analysis/card"
	"dandle/analysis/checks"
	"dandle/analysis/revision"
	"dandle/lsp/lastcommit"
	"dandle/lsp/protocol317"

	"go.lsp.dev/jsonrpc2"
)

// An earlier is a version that a manuscript is compared with.
type earlier struct {
	when string // as it goes on from "since"
	text func(context.Context, string) ([]byte, error)
}

// earliers are the versions that a client may ask for by name.
var earliers = map[string]earlier{
	"saved":  {"the manuscript was saved", func(_ context.Context, path string) ([]byte, error) { return readFile(path, maxAnalysed) }},
	"commit": {"the last commit", func(ctx context.Context, path string) ([]byte, error) { return lastcommit.Text(ctx, path, maxAnalysed) }},
}

// compare lays the manuscript in the editor beside the one on the disk, or the
// one that was committed last.
func (s *server) compare(list []json.RawMessage) (work, error) {
	v, err := s.documentArgument(list)
	if err != nil {
		return nil, err
	}
	with := earliers["saved"]
	if len(list) > 1 {
		name, err := argument[string](list, 1, "saved or commit")
		if err != nil {
			return nil, err
		}
		known := false
		if with, known = earliers[name]; !known {
			return nil, badParams(fmt.Errorf("argument 2: %q is neither saved nor commit", name))
		}
	}
	path, ok := localPath(v.uri)
	if !ok {
		return nil, jsonrpc2.NewError(protocol317.RequestFailed, "this manuscript was never saved")
	}
	return func(ctx context.Context) (any, error) {
		data, err := with.text(ctx, path)
		if err != nil {
			return nil, jsonrpc2.NewError(protocol317.RequestFailed, "the manuscript to compare with cannot be had: "+err.Error())
		}
		m := newMapper(strings.ToValidUTF8(string(data), "\uFFFD"), v.encoding)
		old := newDocument(v.uri, v.language, 0, m, newVoice(v.voice.options))
		text := changesText(with.when, old.snapshot().Draft(), v.snapshot().Draft())
		s.say(text)
		return text, nil
	}, nil
}

// changesText is what happened between two drafts, in Markdown: the lines that
// became others, with their feet, and the notes that went and came.
func changesText(when string, before, after revision.Draft) string {
	r := revision.Compare(before, after)
	if r.Count(revision.Kept) == len(r.Changes) && len(r.Mended)+len(r.Gone)+len(r.New) == 0 {
		return "Nothing that I listen for has changed since " + when + ".\n"
	}
	var b strings.Builder
	fmt.Fprintf(&b, "# Since %s\n\n%s\n\nLines: %s.\n", when, escapedMarkdown(r.Verdict()), r.Lines())
	notesText(&b, "New", after, r.New)
	notesText(&b, "Mended", before, r.Mended)
	notesText(&b, "Gone with lines that were cut", before, r.Gone)
	opened := false
	for _, c := range r.Changes {
		if c.Kind == revision.Kept {
			continue
		}
		if !opened {
			b.WriteString("\n## Lines\n")
			opened = true
		}
		fmt.Fprintf(&b, "\n%s, %s:\n\n%s", capital(c.Kind.String()), numbers(before, after, c), fenced(sides(before, after, c)))
	}
	return b.String()
}

// notesText lists notes of a draft by the lines they stand on.
func notesText(b *strings.Builder, title string, d revision.Draft, found []int) {
	if len(found) == 0 {
		return
	}
	fmt.Fprintf(b, "\n## %s\n\n", title)
	for _, i := range found {
		f := d.Findings[i]
		fmt.Fprintf(b, "- %s: %s\n", noteLine(d, f), escapedMarkdown(f.Message))
	}
}

func noteLine(d revision.Draft, f checks.Finding) string {
	return fmt.Sprintf("line %d", d.Manuscript.FileLine(f.Span.Start)+1)
}

// numbers are the lines of a change in their files: "line 3 → lines 3 and 4".
func numbers(before, after revision.Draft, c revision.Change) string {
	side := func(d revision.Draft, lines []int) string {
		words := make([]string, len(lines))
		for i, n := range lines {
			words[i] = fmt.Sprint(d.Manuscript.Lines[n].Number)
		}
		if len(words) == 1 {
			return "line " + words[0]
		}
		return "lines " + listed(words)
	}
	switch {
	case len(c.Old) == 0:
		return side(after, c.New)
	case len(c.New) == 0:
		return side(before, c.Old)
	default:
		return side(before, c.Old) + " → " + side(after, c.New)
	}
}

// sides are the lines of a change in feet, the older above the newer.
func sides(before, after revision.Draft, c revision.Change) string {
	var b strings.Builder
	side := func(d revision.Draft, lines []int) {
		for _, n := range lines {
			block := card.Line(d.Manuscript.Text, d.Manuscript.Lines[n], d.Poem.Lines[n])
			if block.Syllables == "" { // no reading is known: the words alone
				block.Syllables = strings.Join(strings.Fields(d.Manuscript.Lines[n].Span.In(d.Manuscript.Text)), " ")
			}
			b.WriteString(block.String())
		}
	}
	side(before, c.Old)
	if len(c.Old) > 0 && len(c.New) > 0 {
		b.WriteString("\n")
	}
	side(after, c.New)
	return b.String()
}

func capital(word string) string { return strings.ToUpper(word[:1]) + word[1:] }
