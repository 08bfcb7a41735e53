package docx_test

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"dandle/analysis/docx"
	"dandle/analysis/manuscript"

	"github.com/google/go-cmp/cmp"
)

const (
	head = `<?xml version="1.0" encoding="UTF-8"?><w:document xmlns:w="http://schemas.openxmlformats.org/wordprocessingml/2006/main" xmlns:mc="http://schemas.openxmlformats.org/markup-compatibility/2006" xmlns:v="urn:schemas-microsoft-com:vml"><w:body>`
	foot = `</w:body></w:document>`
	// The relationships of the smallest package that ECMA-376 allows.
	relations = `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="r1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="word/document.xml"/></Relationships>`
	types     = `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="xml" ContentType="application/xml"/></Types>`
	related   = `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="s" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/styles" Target="styles.xml"/><Relationship Id="c" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/comments" Target="/word/comments.xml"/></Relationships>`
	styles    = `<w:styles xmlns:w="http://schemas.openxmlformats.org/wordprocessingml/2006/main"><w:style w:type="paragraph" w:default="1" w:styleId="N"><w:name w:val="Normal"/></w:style>
<w:style w:type="paragraph" w:styleId="T"><w:name w:val="Title"/></w:style><w:style w:type="paragraph" w:styleId="H1"><w:name w:val="heading 1"/></w:style><w:style w:type="paragraph" w:styleId="H2"><w:name w:val="heading 2"/><w:basedOn w:val="H1"/></w:style>
<w:style w:type="paragraph" w:styleId="Art"><w:name w:val="For the artist"/><w:pPr><w:ind w:left="720"/></w:pPr><w:rPr><w:i/></w:rPr></w:style>
<w:style w:type="character" w:styleId="Em"><w:name w:val="Emphasis"/><w:rPr><w:i w:val="true"/></w:rPr></w:style><w:style w:type="paragraph" w:styleId="Last"><w:name w:val="Last line"/><w:pPr><w:spacing w:after="240"/></w:pPr></w:style></w:styles>`
	comments = `<w:comments xmlns:w="http://schemas.openxmlformats.org/wordprocessingml/2006/main"><w:comment w:id="4" w:author="Ada"><w:p><w:r><w:t>Whose hat</w:t></w:r></w:p><w:p><w:r><w:t>is it?</w:t></w:r></w:p></w:comment><w:comment w:id="5" w:author="dandle"><w:p><w:r><w:t>Ours</w:t></w:r></w:p></w:comment></w:comments>`
)

// file packs parts, given as name and content in turn.
func file(t testing.TB, parts ...string) []byte {
	t.Helper()
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for i := 0; i < len(parts); i += 2 {
		out, err := w.Create(parts[i])
		if err != nil {
			t.Fatal(err)
		}
		if _, err := io.WriteString(out, parts[i+1]); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// document packs a text with a style sheet and comments.
func document(t testing.TB, body string) []byte {
	t.Helper()
	return file(t, "[Content_Types].xml", types, "_rels/.rels", relations, "word/_rels/document.xml.rels", related,
		"word/styles.xml", styles, "word/comments.xml", comments, "word/document.xml", head+body+foot)
}

func p(runs ...string) string { return "<w:p>" + strings.Join(runs, "") + "</w:p>" }

func r(text string) string { return `<w:r><w:t xml:space="preserve">` + text + `</w:t></w:r>` }

func italic(text string) string {
	return `<w:r><w:rPr><w:i/></w:rPr><w:t xml:space="preserve">` + text + `</w:t></w:r>`
}

func styled(style, text string) string {
	return `<w:p><w:pPr><w:pStyle w:val="` + style + `"/></w:pPr>` + r(text) + `</w:p>`
}

const soft = `<w:r><w:br/></w:r>`

func centred(text string) string {
	return `<w:p><w:pPr><w:jc w:val="center"/></w:pPr>` + r(text) + `</w:p>`
}

func TestRead(t *testing.T) {
	lines := p(r("The lamp went out,")) + p(r("the goat had a cough."))
	for _, c := range []struct{ name, body, want string }{
		{"a paragraph a line", lines + p() + lines, "The lamp went out,\nthe goat had a cough.\n\nThe lamp went out,\nthe goat had a cough.\n"},
		{"a paragraph a stanza", p(r("One,"), soft, r("two."), soft) + p(r("Three,"), soft, r("four.")), "One,\ntwo.\n\n\nThree,\nfour.\n"},
		{"one soft break among lines parts no stanza", lines + lines + p(r("One,"), soft, r("two.")) + lines, "The lamp went out,\nthe goat had a cough.\nThe lamp went out,\nthe goat had a cough.\nOne,\ntwo.\nThe lamp went out,\nthe goat had a cough.\n"},
		{"space below parts stanzas", p(r("One,")) + styled("Last", "two.") + p(r("three,")) + styled("Last", "four."), "One,\ntwo.\n\nthree,\nfour.\n"},
		{"double spacing by hand", p(r("One,")) + p() + p(r("two,")) + p() + p(r("three.")) + p() + p() + p(r("Four,")) + p() + p(r("five.")), "One,\ntwo,\nthree.\n\n\nFour,\nfive.\n"},
		{"a new page", p(r("One")) + p(`<w:r><w:br w:type="page"/></w:r>`, r("two")) + `<w:p><w:pPr><w:pageBreakBefore/></w:pPr>` + r("three") + `</w:p>`, "One\n\ntwo\n\nthree\n"},
		{"a word in italics", p(r("It is "), italic("so "), r("cold")), "It is *so* cold\n"},
		{"italics in several runs, with a mark", p(r("“"), italic("So"), italic(" it is,"), r("” she said")), "“*So it is,*” she said\n"},
		{"italics by a style", p(r("It is "), `<w:r><w:rPr><w:rStyle w:val="Em"/></w:rPr><w:t>so</w:t></w:r>`), "It is *so*\n"},
		{"italics turned off", `<w:p><w:pPr><w:pStyle w:val="Art"/></w:pPr><w:r><w:rPr><w:i w:val="0"/></w:rPr><w:t>Up she went</w:t></w:r></w:p>`, "Up she went\n"},
		{"italic spaces and marks raise nothing", p(r("Up"), italic(" "), r("and down"), italic("!")), "Up and down!\n"},
		{"a title and spreads by style", styled("T", "The Goat") + styled("H1", "Spread 1") + p(r("One")) + styled("H2", "Spread 2"), "# The Goat\n## Spread 1\nOne\n## Spread 2\n"},
		{"one first heading is the title", styled("H1", "The Goat") + styled("H2", "Spread 1") + p(r("One")), "# The Goat\n## Spread 1\nOne\n"},
		{"spreads by their labels", p(r("Spread 1")) + p(r("One")) + p(r("[Pages 6–7]")) + p(r("Two")) + p(r("Page four:")) + p(r("Pages turned in the wind")), "## Spread 1\nOne\n## [Pages 6–7]\nTwo\n## Page four:\nPages turned in the wind\n"},
		{"the head of a manuscript", p(r("Robin Ashdown")) + p(r("3 Weir Cottages")) + p() + centred("The Goat") + centred("by Robin Ashdown") + p(r("Word count: 384")) + p() + lines + p() + lines, "<!-- Robin Ashdown -->\n<!-- 3 Weir Cottages -->\n\n# The Goat\n<!-- by Robin Ashdown -->\n<!-- Word count: 384 -->\n\nThe lamp went out,\nthe goat had a cough.\n\nThe lamp went out,\nthe goat had a cough.\n"},
		{"a title by its capitals", p(r("Robin Ashdown")) + p(r("Two Wellies")) + p(r("by Robin Ashdown")) + p() + p(r("By the back door, side by side,")) + p(r("stood two wellies.")), "<!-- Robin Ashdown -->\n# Two Wellies\n<!-- by Robin Ashdown -->\n\nBy the back door, side by side,\nstood two wellies.\n"},
		{"a title alone at the top", p(r("The Goat")) + p() + p(r("By the back door, side by side,")) + p(r("stood two wellies.")), "# The Goat\n\nBy the back door, side by side,\nstood two wellies.\n"},
		{"a line alone at the top", p(r("Up we go")) + p() + p(r("By the back door, side by side,")), "Up we go\n\nBy the back door, side by side,\n"},
		{"a title over verse that begins with by", styled("T", "Two Wellies") + p(r("By the back door, side by side,")) + p(r("10 wellies stood")), "# Two Wellies\nBy the back door, side by side,\n10 wellies stood\n"},
		{"a title over verse in the middle", styled("T", "Two Wellies") + centred("By the back door,") + centred("side by side") + centred("they stood"), "# Two Wellies\nBy the back door,\nside by side\nthey stood\n"},
		{"verse set in the middle has no head", centred("One") + centred("two"), "One\ntwo\n"},
		{"notes for the illustrator", p(r("One")) + p(italic("[A goat]")) + p(r("[Two goats]")) + p(r("Art note: three goats")) + p(italic("(four goats)")) + p(`<w:r><w:tab/></w:r>`, italic("five goats")) + styled("Art", "six goats") + p(r("(Illo: seven goats)")), "One\n[A goat]\n[Two goats]\n[Art note: three goats]\n[four goats]\n\t[five goats]\n[six goats]\n[Illo: seven goats]\n"},
		{"an aside is no note", p(r("(The goat was asleep.)")), "(The goat was asleep.)\n"},
		{"a break between scenes", p(r("One")) + p(r("#")) + p(r("# # #")), "One\n\\#\n\\# # #\n"},
		{"a reviewer's comment", p(r("One "), `<w:commentRangeStart w:id="4"/>`, r("hat"), `<w:commentRangeEnd w:id="4"/><w:r><w:commentReference w:id="4"/></w:r>`) + p(r("two")), "One hat\n> Whose hat is it?\ntwo\n"},
		{"our own comments are not read back", p(r("One"), `<w:r><w:commentReference w:id="5"/></w:r>`), "One\n"},
		{"tracked changes count as accepted", p(r("One "), `<w:ins w:id="1">`+r("fine ")+`</w:ins><w:del w:id="2"><w:r><w:delText>poor </w:delText></w:r></w:del>`, r("hat")), "One fine hat\n"},
		{"tables and text boxes", `<w:tbl><w:tr><w:tc>` + p(r("plan")) + `</w:tc></w:tr></w:tbl>` + p(`<w:r><mc:AlternateContent><mc:Choice Requires="wps"><w:drawing><w:txbxContent>`+p(r("box"))+`</w:txbxContent></w:drawing></mc:Choice><mc:Fallback><w:pict><w:txbxContent>`+p(r("box"))+`</w:txbxContent></w:pict></mc:Fallback></mc:AlternateContent></w:r>`, r("One")), "One\n"},
		{"links, fields and hidden words", p(`<w:hyperlink>`+r("One")+`</w:hyperlink><w:r><w:instrText> PAGE </w:instrText></w:r><w:r><w:rPr><w:vanish/></w:rPr><w:t>secret</w:t></w:r>`) + p(r("two"), `<w:r><w:rPr><w:vanish/></w:rPr><w:t>&lt;!-- dandle: allow word/filler --></w:t></w:r>`), "One\ntwo<!-- dandle: allow word/filler -->\n"},
		{"special characters", p(r("snow&amp;ice"), `<w:r><w:noBreakHyphen/><w:t>cold</w:t><w:softHyphen/><w:t>er</w:t><w:cr/><w:t> trimmed </w:t></w:r>`), "snow&ice\u2011cold\u00ader\ntrimmed\n"},
		{"nothing", "", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			d, err := docx.Read(document(t, c.body))
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(c.want, d.Text); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}

// TestLines counts as a word processor does: every paragraph and soft break,
// empty or not, and nothing that the manuscript has besides.
func TestLines(t *testing.T) {
	body := p(r("One,"), soft, r("two."), `<w:r><w:commentReference w:id="4"/></w:r>`) + p(r("Three,"), soft, r("four.")) + p() + p(r("Five."))
	d, err := docx.Read(document(t, body))
	if err != nil {
		t.Fatal(err)
	}
	m := manuscript.ParseExtract(d.Text, d.Lines)
	got := map[string]int{}
	for i := range m.Lines {
		got[m.Lines[i].Span.In(m.Text)] = m.Lines[i].Number
		if at := m.LineAt(m.Lines[i].Span.Start); at != i {
			t.Errorf("line %d is found as %d", i, at)
		}
	}
	if diff := cmp.Diff(map[string]int{"One,": 1, "two.": 2, "Three,": 3, "four.": 4, "Five.": 6}, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if len(m.Stanzas) != 3 || len(m.Notes) != 1 {
		t.Errorf("%d stanzas and %d notes", len(m.Stanzas), len(m.Notes))
	}
}

func TestNotices(t *testing.T) {
	d, err := docx.Read(document(t, p(r("One"))+`<w:tbl><w:tr/></w:tbl>`+p(`<w:ins>`+r("two")+`</w:ins>`, `<w:r><w:drawing><w:txbxContent/></w:drawing></w:r>`)))
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, n := range d.Notices {
		got = append(got, fmt.Sprintf("%d %s", n.Line, strings.Join(strings.Fields(n.Message)[:3], " ")))
	}
	if diff := cmp.Diff([]string{"1 a table is", "2 changes are being", "2 a text box"}, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// TestOthersFiles reads what a word processor and a converter wrote from the
// same story; testdata/docx/make.sh says which, and how.
func TestOthersFiles(t *testing.T) {
	var read []string
	for _, name := range []string{"pandoc", "libreoffice"} {
		data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "docx", name+".docx"))
		if err != nil {
			t.Fatal(err)
		}
		d, err := docx.Read(data)
		if err != nil {
			t.Fatal(err)
		}
		m := manuscript.ParseExtract(d.Text, d.Lines)
		story := []string{m.Title.Text}
		for _, s := range m.Spreads {
			story = append(story, s.Heading.Text)
		}
		for i := range m.Lines {
			story = append(story, m.Lines[i].Span.In(m.Text))
		}
		for _, n := range m.Notes[:2] {
			story = append(story, n.Text)
		}
		read = append(read, strings.Join(story, "\n"))
	}
	want := `The Otter Who Opened a Library
Spread 1
Spread 2
The rain filled the burrow, the rain filled the hall,
The otter had books in a stack by the wall.
She carried them up to the top of the hill
And dried every page on a warm windowsill.
The badgers came early, the beavers came late,
A toad with a very old lamp stood in wait.
“Is there *room* for a story?” the dormouse began.
“There is room,” said the otter, “for all of your clan.”
Otter on the roof, pages on a line.
Could it be the hares who come first?`
	if diff := cmp.Diff([]string{want, want}, read); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestRefused(t *testing.T) {
	bomb := head + p(r(strings.Repeat("la ", 12<<20))) + foot
	deep := head + strings.Repeat("<w:sdt>", 300) + strings.Repeat("</w:sdt>", 300) + foot
	locked := bytes.Replace(document(t, p(r("One"))), []byte("PK\x03\x04\x14\x00\x08"), []byte("PK\x03\x04\x14\x00\x09"), 1)
	locked = bytes.Replace(locked, []byte("PK\x01\x02\x14\x00\x14\x00\x08"), []byte("PK\x01\x02\x14\x00\x14\x00\x09"), 1)
	for _, c := range []struct {
		name, want string
		data       []byte
	}{
		{"cut off", "damaged", document(t, p(r("One")))[:400]},
		{"no XML", "damaged", file(t, "_rels/.rels", relations, "word/document.xml", "<w:document")},
		{"another XML", "no text in it", file(t, "_rels/.rels", relations, "word/document.xml", "<html/>")},
		{"a billion laughs", "damaged", file(t, "word/document.xml", `<!DOCTYPE d [<!ENTITY a "aaa"><!ENTITY b "&a;&a;">]><d>&b;</d>`)},
		{"a bomb", "unpacks to more than 16 MiB", file(t, "word/document.xml", bomb)},
		{"deep", "256 deep", file(t, "word/document.xml", deep)},
		{"locked", "password", locked},
		{"a spreadsheet", "spreadsheet", file(t, "xl/workbook.xml", "")},
		{"an OpenDocument", "OpenDocument", file(t, "mimetype", "application/vnd.oasis.opendocument.text")},
		{"some ZIP", "packed folder", file(t, "lamp.verse", "")},
		{"many parts", "more than 4096 parts", file(t, slices.Repeat([]string{"a", ""}, 5000)...)},
	} {
		if _, err := docx.Read(c.data); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.name, err, c.want)
		}
		if !docx.Is(c.data) {
			t.Errorf("%s is not taken for a packed file", c.name)
		}
	}
}

func TestForeign(t *testing.T) {
	const compound = "\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
	for data, want := range map[string]string{
		compound + "\x00\x00": "old word-processor file",
		compound + "E\x00n\x00c\x00r\x00y\x00p\x00t\x00e\x00d\x00P\x00a\x00c\x00k\x00a\x00g\x00e\x00": "password",
		`{\rtf1 The lamp}`: "rich text",
		"%PDF-1.7":         "PDF",
	} {
		if err := docx.Foreign([]byte(data)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %q", data, err, want)
		}
	}
	for _, data := range []string{"", "The lamp went out", "---\ntitle: PK\n"} {
		if err := docx.Foreign([]byte(data)); err != nil || docx.Is([]byte(data)) {
			t.Errorf("%q is text: %v", data, err)
		}
	}
}
