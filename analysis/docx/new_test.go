package docx_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dandle/analysis/docx"
	"dandle/analysis/manuscript"

	"github.com/google/go-cmp/cmp"
)

// told is what a manuscript says, without where.
func told(m *manuscript.Manuscript) []string {
	list := []string{m.Title.Text, m.Front.Title, m.Front.Meter, m.Front.Pitch}
	stanza := -1
	for i := range m.Lines {
		if m.Lines[i].Stanza != stanza {
			stanza = m.Lines[i].Stanza
			list = append(list, "")
		}
		text := ""
		for _, w := range m.Lines[i].Words {
			text += w.Text + map[bool]string{true: "*"}[w.Emphasis] + " "
		}
		list = append(list, text)
	}
	for _, s := range m.Spreads {
		list = append(list, s.Heading.Text)
	}
	for _, n := range m.Notes {
		list = append(list, strings.Join(strings.Fields(n.Text), " "))
	}
	for _, a := range m.Allowances {
		list = append(list, a.Codes...)
	}
	return list
}

// TestNew reads back what New set: nothing of a manuscript is lost.
func TestNew(t *testing.T) {
	files, err := filepath.Glob("../../testdata/manuscripts/*.verse")
	if err != nil || len(files) == 0 {
		t.Fatal(err)
	}
	texts := map[string]string{"markup": "---\ntitle: The Goat\nauthor: Robin Ashdown\ncontact: |\n  3 Weir Cottages\n  Lower Ferry\n---\n\n> First of all, whose goat is it?\n\nIt is *so* cold, _so very\ncold_, said she. <!-- dandle: allow word/filler -->\n> Why so?\n> And who asks?\nTo the goat\\* & to you, <snow>! [Goat = *hat*]\n***\n  The snake_case hissed."}
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		texts[filepath.Base(name)] = string(data)
		texts[filepath.Base(name)+" on Windows"] = strings.ReplaceAll(string(data), "\n", "\r\n")
	}
	for name, text := range texts {
		m := manuscript.Parse(text)
		data, err := docx.New(m).Bytes()
		if err != nil {
			t.Fatal(err)
		}
		d, err := docx.Read(data)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		want := told(m)
		if want[0] == "" {
			want[0] = m.Front.Title // it is set over the text
		}
		if diff := cmp.Diff(want, told(manuscript.ParseExtract(d.Text, d.Lines))); diff != "" {
			t.Errorf("%s (-want +got):\n%s\n%s", name, diff, d.Text)
		}
	}
}

// TestFormat holds a new document to the format that publishers ask for.
func TestFormat(t *testing.T) {
	data, err := docx.New(manuscript.Parse("---\ntitle: The Goat\nauthor: Robin Ashdown\ncontact: 3 Weir Cottages\nages: 3-6\n---\nThe lamp went out.\n")).Bytes()
	if err != nil {
		t.Fatal(err)
	}
	parts := unpacked(t, data)
	for part, wants := range map[string][]string{
		"word/styles.xml":   {`w:ascii="Times New Roman"`, `<w:sz w:val="24"/>`, `w:line="480"`},
		"word/document.xml": {`<w:pgMar w:top="1440" w:right="1440" w:bottom="1440" w:left="1440"`, "<w:titlePg/>", ">Robin Ashdown<", ">3 Weir Cottages<", ">Picture book, ages 3–6, 4 words<"},
		"word/header1.xml":  {">Ashdown / The Goat / <", " PAGE "},
	} {
		for _, want := range wants {
			if !strings.Contains(parts[part], want) {
				t.Errorf("%s lacks %s", part, want)
			}
		}
	}
}

// TestAnnotateNew puts comments on words of the manuscript that a document was
// made from.
func TestAnnotateNew(t *testing.T) {
	m := manuscript.Parse("It is *so* cold.\n> Is it?\nThe goat went in.\n")
	d := docx.New(m)
	out, err := d.Annotate(spans(t, m.Text, "so", "goat"))
	if err != nil {
		t.Fatal(err)
	}
	parts := unpacked(t, out)
	for _, want := range []string{
		`<w:p><w:commentRangeStart w:id="0"/><w:r><w:t xml:space="preserve">It is </w:t></w:r><w:commentRangeStart w:id="1"/><w:r><w:rPr><w:i/></w:rPr><w:t xml:space="preserve">so</w:t></w:r><w:commentRangeEnd w:id="1"/>`,
		`<w:commentRangeStart w:id="2"/><w:r><w:t xml:space="preserve">goat</w:t></w:r><w:commentRangeEnd w:id="2"/>`,
	} {
		if !strings.Contains(parts["word/document.xml"], want) {
			t.Errorf("%s is missing in %s", want, parts["word/document.xml"])
		}
	}
	if !strings.Contains(parts["word/comments.xml"], `w:author="Reviewer" w:initials="R"><w:p><w:r><w:t xml:space="preserve">Is it?`) {
		t.Errorf("the reviewer’s note is missing in %s", parts["word/comments.xml"])
	}
}

func FuzzNew(f *testing.F) {
	f.Add("---\ntitle: The Goat\n---\nIt is *so* cold. <!-- x\ny --> [a\n> Why?\n")
	f.Add("# A\n## B\n\\*a\\* **b** _c\nd_\r\n\r\n***")
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 1<<12 {
			return
		}
		data, err := docx.New(manuscript.Parse(text)).Bytes()
		if err != nil {
			t.Fatal(err)
		}
		annotateAll(t, data)
		if _, err := docx.Read(data); err != nil {
			t.Fatal(err)
		}
	})
}
