package typescript_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dandle/analysis/manuscript"
	"dandle/analysis/typescript"

	"github.com/google/go-cmp/cmp"
)

const story = `---
title: The Goat
author: Robin Ashdown
contact:
  - 3 Weir Cottages
  - Lower Ferry
ages: 3-6
---
# The Goat at the Lighthouse

## Spread 1

The lamp went *out*, <!-- dandle: allow word/filler -->
the keeper had a cough. [Goat = hat]
> Whose hat?

A goat \*climbed\* up,
***
the gulls were off.
`

const typed = `Robin Ashdown
3 Weir Cottages
Lower Ferry
Picture book, ages 3–6, 17 words


                 THE GOAT AT THE LIGHTHOUSE
                      by Robin Ashdown



Spread 1


The lamp went _out_,

the keeper had a cough. [Goat = hat]


A goat *climbed* up,

#

the gulls were off.
`

func TestSet(t *testing.T) {
	if diff := cmp.Diff(typed, typescript.Set(manuscript.Parse(story))); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestValue(t *testing.T) {
	m := manuscript.Parse("---\nauthor: \"Robin Ashdown\"\ncontact: |\n  3 Weir Cottages\n  Lower Ferry\nphones:\n  - one\n  - two\nages: 3-6\n---\nx\n")
	for name, want := range map[string]string{"author": "Robin Ashdown", "contact": "3 Weir Cottages\nLower Ferry", "phones": "one\ntwo", "ages": "3-6", "none": ""} {
		if got := typescript.Value(m, name); got != want {
			t.Errorf("%s: got %q, want %q", name, got, want)
		}
	}
}

func TestPlain(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"single spacing", "One,\ntwo.\n\nThree.", "One,\ntwo.\n\nThree.\n"},
		{"Windows, an old Mac, and a mark of the byte order", "\ufeffOne,\r\ntwo.\rThree.\n", "One,\ntwo.\nThree.\n"},
		{"double spacing", "One,\n\ntwo,\n\nthree.\n\n\nFour,\n\nfive.\n", "One,\ntwo,\nthree.\n\n\nFour,\nfive.\n"},
		{"a capital line in its place is no title", "One,\n    TWO!\nthree.", "One,\n    TWO!\nthree.\n"},
	} {
		m, ok := typescript.Plain(c.text)
		if diff := cmp.Diff(c.want, m.Text); diff != "" || !ok {
			t.Errorf("%s (-want +got):\n%s", c.name, diff)
		}
	}
	for _, text := range []string{story, "# A\n\nOne", "One\n> why?", "One\n<!-- two -->"} {
		if _, ok := typescript.Plain(text); ok {
			t.Errorf("%q has markup of its own", text)
		}
	}
}

// TestThereAndBack types manuscripts and reads them again: the story is the
// same, line by line.
func TestThereAndBack(t *testing.T) {
	told := func(m *manuscript.Manuscript) []string {
		list := []string{strings.ToUpper(m.Title.Text)}
		for i := range m.Stanzas {
			list = append(list, "")
			for _, line := range m.StanzaLines(i) {
				text := ""
				for _, w := range line.Words {
					text += w.Text + map[bool]string{true: "*"}[w.Emphasis] + " "
				}
				list = append(list, text)
			}
		}
		for _, s := range m.Spreads {
			list = append(list, s.Heading.Text)
		}
		for _, n := range m.Notes {
			if n.Kind == manuscript.ArtNote {
				list = append(list, n.Text)
			}
		}
		return list
	}
	files, err := filepath.Glob("../../testdata/manuscripts/*.verse")
	if err != nil || len(files) == 0 {
		t.Fatal(err)
	}
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		m := manuscript.Parse(string(data))
		back, ok := typescript.Plain(typescript.Set(m))
		if !ok {
			t.Fatalf("%s: its typescript has markup", name)
		}
		if diff := cmp.Diff(told(m), told(manuscript.ParseExtract(back.Text, back.Lines))); diff != "" {
			t.Errorf("%s (-want +got):\n%s\n%s", name, diff, back.Text)
		}
	}
}

func FuzzPlain(f *testing.F) {
	f.Add(story)
	f.Add(typed)
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 1<<12 {
			return
		}
		typescript.Set(manuscript.Parse(text))
		m, ok := typescript.Plain(text)
		if !ok {
			return
		}
		last := 0
		for _, at := range m.Lines {
			if at < last || at > len(m.Text) {
				t.Fatalf("line at %d after %d of %d", at, last, len(m.Text))
			}
			last = at
		}
		manuscript.ParseExtract(m.Text, m.Lines)
	})
}
