package docx_test

import (
	"archive/zip"
	"bytes"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dandle/analysis/docx"
	"dandle/analysis/manuscript"

	"github.com/google/go-cmp/cmp"
)

// unpacked are the parts of a file by name.
func unpacked(t testing.TB, data []byte) map[string]string {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	parts := map[string]string{}
	for _, f := range z.File {
		in, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		text, err := io.ReadAll(in)
		if err != nil {
			t.Fatal(err)
		}
		parts[f.Name] = string(text)
	}
	return parts
}

// spans are the places of some words in a text, in order.
func spans(t *testing.T, text string, words ...string) []docx.Comment {
	t.Helper()
	var list []docx.Comment
	for _, w := range words {
		at := strings.Index(text, w)
		if at < 0 {
			t.Fatalf("%q is not in %q", w, text)
		}
		list = append(list, docx.Comment{Span: manuscript.Span{Start: at, End: at + len(w)}, Paragraphs: []string{"About " + w}})
	}
	return list
}

func TestAnnotate(t *testing.T) {
	const bold = `<w:rPr><w:b/></w:rPr>`
	begin := func(id string) string { return `<w:commentRangeStart w:id="` + id + `"/>` }
	end := func(id string) string {
		return `<w:commentRangeEnd w:id="` + id + `"/><w:r><w:commentReference w:id="` + id + `"/></w:r>`
	}
	for _, c := range []struct {
		name, body string
		words      []string
		want       string
	}{
		{"a whole run", p(r("One hat")), []string{"One hat"}, p(begin("6"), r("One hat"), end("6"))},
		{"a word within", p(`<w:r>` + bold + `<w:t>One red hat</w:t></w:r>`), []string{"red"}, p(
			`<w:r>`+bold+`<w:t xml:space="preserve">One </w:t></w:r>`, begin("6"), `<w:r>`+bold+`<w:t xml:space="preserve">red</w:t></w:r>`, end("6"),
			`<w:r>`+bold+`<w:t xml:space="preserve"> hat</w:t></w:r>`)},
		{"over runs", p(r("One r"), italic("ed h"), r("at")), []string{"r*ed h*at"}, p(
			r("One "), begin("6"), r("r"), italic("ed h"), r("at"), end("6"))},
		{"over paragraphs", p(r("One hat")) + p(r("two hats")), []string{"hat\ntwo"}, p(r("One "), begin("6"), r("hat")) + p(r("two"), end("6"), r(" hats"))},
		{"one after the other", p(r("One hat")), []string{"One ", "hat"}, p(begin("6"), r("One "), end("6")+begin("7"), r("hat"), end("7"))},
		{"one in the other", p(r("One hat")), []string{"One hat", "hat"}, p(begin("6"), r("One "), begin("7"), r("hat"), end("6")+end("7"))},
		{"after a break in its run", p(`<w:r><w:br/><w:t>One</w:t></w:r>`), []string{"One"}, p(`<w:r><w:br/></w:r>`, begin("6"), r("One"), end("6"))},
		{"before a break in its run", p(`<w:r><w:t>One</w:t><w:br/><w:t>two</w:t></w:r>`), []string{"One"}, p(begin("6"), r("One"), end("6"), `<w:r><w:br/><w:t>two</w:t></w:r>`)},
		{"signs", p(r("snow &amp; ice &lt;3")), []string{"& ice"}, p(r("snow "), begin("6"), r("&amp; ice"), end("6"), r(" &lt;3"))},
		{"emphasis", p(r("It is "), italic("so"), r(" cold")), []string{"*so*"}, p(r("It is "), begin("6"), italic("so"), end("6"), r(" cold"))},
	} {
		t.Run(c.name, func(t *testing.T) {
			data := document(t, c.body)
			d, err := docx.Read(data)
			if err != nil {
				t.Fatal(err)
			}
			out, err := d.Annotate(spans(t, d.Text, c.words...))
			if err != nil {
				t.Fatal(err)
			}
			before, after := unpacked(t, data), unpacked(t, out)
			if diff := cmp.Diff(head+c.want+foot, after["word/document.xml"]); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
			delete(before, "word/document.xml")
			delete(after, "word/document.xml")
			if grown, found := strings.CutPrefix(after["word/comments.xml"], comments[:strings.Index(comments, `<w:comment w:id="5"`)]); !found || !strings.Contains(grown, "About "+strings.ReplaceAll(strings.ReplaceAll(c.words[0], "&", "&amp;"), "\n", " ")) {
				t.Errorf("the comments: %s", after["word/comments.xml"])
			}
			delete(before, "word/comments.xml")
			delete(after, "word/comments.xml")
			if diff := cmp.Diff(before, after); diff != "" {
				t.Errorf("another part changed (-want +got):\n%s", diff)
			}
		})
	}
}

// TestAnnotateOthers puts a comment on every word of files that others wrote;
// the manuscript reads the same, and only the parts that must have changed.
func TestAnnotateOthers(t *testing.T) {
	for _, name := range []string{"pandoc", "libreoffice"} {
		data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "docx", name+".docx"))
		if err != nil {
			t.Fatal(err)
		}
		out := annotateAll(t, data)
		before, after := unpacked(t, data), unpacked(t, out)
		for part := range after {
			if part != "word/document.xml" && part != "word/comments.xml" && before[part] != after[part] {
				t.Errorf("%s: %s changed", name, part)
			}
		}
	}
}

// TestSecondLetter has the comments of one letter give way to those of the next;
// a reviewer's stay.
func TestSecondLetter(t *testing.T) {
	d, err := docx.Read(document(t, p(r("One hat, "), r("two hats"), `<w:r><w:commentReference w:id="4"/></w:r>`)))
	if err != nil {
		t.Fatal(err)
	}
	once, err := d.Annotate(spans(t, d.Text, "hat", "two hats"))
	if err != nil {
		t.Fatal(err)
	}
	again, err := docx.Read(once)
	if err != nil {
		t.Fatal(err)
	}
	twice, err := again.Annotate(spans(t, again.Text, "One"))
	if err != nil {
		t.Fatal(err)
	}
	parts := unpacked(t, twice)
	for text, want := range map[string]int{"<w:comment ": 2, "About One": 1, "About hat": 0, "Whose hat": 1} {
		if got := strings.Count(parts["word/comments.xml"], text); got != want {
			t.Errorf("%q stands %d times, want %d", text, got, want)
		}
	}
	for text, want := range map[string]int{"<w:commentRangeStart ": 1, "<w:commentRangeEnd ": 1, "<w:commentReference ": 2} {
		if got := strings.Count(parts["word/document.xml"], text); got != want {
			t.Errorf("%q stands %d times, want %d in %s", text, got, want, parts["word/document.xml"])
		}
	}
	if last, err := docx.Read(twice); err != nil || last.Text != d.Text {
		t.Errorf("the text is %q, %v", last.Text, err)
	}
}

// annotateAll puts a comment on every word of a file, and holds the copy to
// what every copy owes.
func annotateAll(t *testing.T, data []byte) []byte {
	t.Helper()
	d, err := docx.Read(data)
	if err != nil {
		return nil
	}
	m := manuscript.ParseExtract(d.Text, d.Lines)
	var list []docx.Comment
	for i := range m.Lines {
		for _, w := range m.Lines[i].Words {
			list = append(list, docx.Comment{Span: w.Span, Paragraphs: []string{w.Text}})
		}
	}
	out, err := d.Annotate(list)
	if err != nil {
		t.Skip("a part besides the text is damaged")
	}
	again, err := docx.Read(out)
	if err != nil {
		t.Fatalf("the copy cannot be read: %v", err)
	}
	if diff := cmp.Diff(d.Text, again.Text); diff != "" {
		t.Errorf("the text changed (-want +got):\n%s", diff)
	}
	if diff := cmp.Diff(d.Lines, again.Lines); diff != "" {
		t.Errorf("the lines changed (-want +got):\n%s", diff)
	}
	return out
}

// TestFirstComments makes the part for comments known where there was none, in
// both conformance classes.
func TestFirstComments(t *testing.T) {
	for _, class := range []string{"transitional", "strict"} {
		text, kind := head+p(r("One hat"))+foot, "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
		if class == "strict" {
			kind = "http://purl.oclc.org/ooxml/officeDocument/relationships"
			text = strings.Replace(text, "http://schemas.openxmlformats.org/wordprocessingml/2006/main", "http://purl.oclc.org/ooxml/wordprocessingml/main", 1)
		}
		d, err := docx.Read(file(t, "[Content_Types].xml", types, "_rels/.rels", relations, "word/document.xml", text))
		if err != nil {
			t.Fatal(err)
		}
		out, err := d.Annotate(spans(t, d.Text, "hat"))
		if err != nil {
			t.Fatal(err)
		}
		parts := unpacked(t, out)
		if want := `<Override PartName="/word/comments.xml" ContentType="application/vnd.openxmlformats-officedocument.wordprocessingml.comments+xml"/></Types>`; !strings.HasSuffix(parts["[Content_Types].xml"], want) {
			t.Errorf("%s: %s", class, parts["[Content_Types].xml"])
		}
		if want := `Type="` + kind + `/comments" Target="comments.xml"/></Relationships>`; !strings.HasSuffix(parts["word/_rels/document.xml.rels"], want) {
			t.Errorf("%s: %s", class, parts["word/_rels/document.xml.rels"])
		}
		if !strings.Contains(parts["word/comments.xml"], "About hat") {
			t.Errorf("%s: %s", class, parts["word/comments.xml"])
		}
	}
}

func FuzzRead(f *testing.F) {
	for _, name := range []string{"pandoc", "libreoffice"} {
		data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "docx", name+".docx"))
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Add([]byte("PK\x05\x06" + strings.Repeat("\x00", 18)))
	f.Fuzz(func(t *testing.T, data []byte) { annotateAll(t, data) })
}

// FuzzBody tries the text itself, which FuzzRead seldom reaches through the
// packing.
func FuzzBody(f *testing.F) {
	f.Add(p(r("One "), italic("hat"), soft, r("two")) + p() + styled("Art", "a goat"))
	f.Add(p(r("Robin")) + centred("The Goat") + p(`<w:ins>`+r("One")+`</w:ins>`) + `<w:tbl><w:tr/></w:tbl>`)
	f.Add(p(`<w:r><w:t>One</w:t><w:r><w:t>in</w:t></w:r><w:t>two</w:t><w:tab/><w:t> &amp; </w:t></w:r>`))
	f.Fuzz(func(t *testing.T, body string) {
		if len(body) < 1<<14 {
			annotateAll(t, document(t, body))
		}
	})
}
