package docx

import (
	"bytes"
	"cmp"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
)

// Author is whom the comments are from that dandle writes. They are not read
// back as a reviewer's.
const Author = "dandle"

// A comments is what a document has in its margin (17.13.4).
type comments struct {
	texts map[string]string // a reviewer's, by their ids
	ours  map[string]bool   // the ids of those that dandle wrote
}

func (a *archive) comments(main string) (comments, error) {
	list := comments{map[string]string{}, map[string]bool{}}
	name, err := a.related(main, "comments")
	if err != nil || name == "" {
		return list, err
	}
	data, err := a.part(name)
	if err != nil || data == nil {
		return list, err
	}
	decoder := xml.NewDecoder(bytes.NewReader(data))
	id, depth := "", 0
	var text strings.Builder
	for {
		token, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			return list, nil
		}
		if err != nil {
			return list, errDamaged
		}
		switch t := token.(type) {
		case xml.StartElement:
			if depth++; depth > maxDepth {
				return list, errDamaged
			}
			switch t.Name.Local {
			case "comment":
				text.Reset()
				if id = attribute(t, "id"); attribute(t, "author") == Author {
					list.ours[id] = true
					id = ""
				}
			case "p", "br", "cr", "tab":
				text.WriteByte(' ')
			}
		case xml.CharData:
			text.Write(t)
		case xml.EndElement:
			depth--
			if t.Name.Local == "comment" && id != "" {
				list.texts[id] = strings.Join(strings.Fields(text.String()), " ")
			}
		}
	}
}

// A commentsPart is the part with the comments, as it was.
type commentsPart struct {
	name string
	data []byte // nil where the document has none
	next int    // the first free number
}

func (d *Document) commentsPart() (commentsPart, error) {
	name, err := d.archive.related(d.main, "comments")
	if err != nil {
		return commentsPart{}, err
	}
	if name == "" {
		return commentsPart{name: sibling(d.main, "comments.xml")}, nil
	}
	part := commentsPart{name: name}
	if part.data, err = d.archive.part(name); err != nil {
		return part, err
	}
	var stale []edit
	decoder := xml.NewDecoder(bytes.NewReader(part.data))
	for from := 0; ; {
		at := int(decoder.InputOffset())
		token, err := decoder.RawToken()
		if err != nil { // it was read whole before
			part.data, err = splice(part.data, stale)
			return part, err
		}
		switch t := token.(type) {
		case xml.StartElement:
			if t.Name.Local != "comment" {
				break
			}
			from = -1
			if attribute(t, "author") == Author {
				from = at
			}
			if id, err := strconv.Atoi(attribute(t, "id")); err == nil && id >= part.next && id < 1<<30 {
				part.next = id + 1
			}
		case xml.EndElement:
			if t.Name.Local == "comment" && from >= 0 {
				stale = append(stale, edit{from: from, to: int(decoder.InputOffset())})
			}
		}
	}
}

func sibling(part, name string) string { return part[:strings.LastIndexByte(part, '/')+1] + name }

// with is the part with more comments in it.
func (p commentsPart) with(comments []Comment, namespace string) ([]byte, error) {
	if p.data == nil {
		var b bytes.Buffer
		fmt.Fprintf(&b, "%s<w:comments xmlns:w=\"%s\">", xml.Header, namespace)
		writeComments(&b, "w:", p.next, comments)
		b.WriteString("</w:comments>")
		return b.Bytes(), nil
	}
	// The last tag is that of the root: "</w:comments>", or "<w:comments/>".
	end := bytes.LastIndexByte(p.data, '<')
	if end < 0 {
		return nil, errDamaged
	}
	name := strings.TrimLeft(string(p.data[end:]), "</")
	if i := strings.IndexAny(name, " \t\r\n/>"); i >= 0 {
		name = name[:i]
	}
	prefix, _, found := strings.Cut(name, ":")
	if prefix += ":"; !found {
		prefix = ""
	}
	var b bytes.Buffer
	if bytes.HasPrefix(p.data[end:], []byte("</")) {
		b.Write(p.data[:end])
	} else {
		slash := bytes.LastIndexByte(p.data, '/')
		b.Write(p.data[:max(slash, end)])
		b.WriteByte('>')
	}
	writeComments(&b, prefix, p.next, comments)
	fmt.Fprintf(&b, "</%s>", name)
	return b.Bytes(), nil
}

func writeComments(b *bytes.Buffer, prefix string, number int, comments []Comment) {
	for i, c := range comments {
		author := cmp.Or(c.Author, Author)
		fmt.Fprintf(b, `<%[1]scomment %[1]sid="%[2]d" %[1]sauthor="%[3]s" %[1]sinitials="%[4]s">`, prefix, number+i, escaped(author), escaped(author[:1]))
		for _, text := range c.Paragraphs {
			fmt.Fprintf(b, `<%[1]sp><%[1]sr><%[1]st xml:space="preserve">%[2]s</%[1]st></%[1]sr></%[1]sp>`, prefix, escaped(text))
		}
		fmt.Fprintf(b, "</%scomment>", prefix)
	}
}

// register makes a new part with comments known to the package and to the part
// with the text.
func (d *Document) register(changed map[string][]byte, name string) error {
	const types = "[Content_Types].xml"
	list, err := d.archive.part(types)
	if err != nil {
		return err
	}
	if changed[types], err = before(list, "Types", fmt.Sprintf(`Override PartName="/%s" ContentType="%s"/>`, name, commentsType)); err != nil {
		return err
	}
	relations := relationshipsOf(d.main)
	list, err = d.archive.part(relations)
	if err != nil {
		return err
	}
	if list == nil {
		list = []byte(xml.Header + `<Relationships xmlns="` + relationshipsNamespace + `"></Relationships>`)
	}
	kind := officeRelationship
	if d.namespace == strict {
		kind = strictRelationship
	}
	id := "dandle"
	for bytes.Contains(list, []byte(`"`+id+`"`)) {
		id += "1"
	}
	changed[relations], err = before(list, "Relationships", fmt.Sprintf(`Relationship Id="%s" Type="%s/comments" Target="comments.xml"/>`, id, kind))
	return err
}

// before puts an element, without its first bracket, before the end of a list.
func before(list []byte, root, element string) ([]byte, error) {
	end := bytes.LastIndex(list, []byte("</"))
	if end < 0 {
		return nil, errDamaged
	}
	name := list[end+2:]
	at := bytes.Index(name, []byte(root))
	if at < 0 {
		return nil, errDamaged
	}
	prefix := string(name[:at])
	return slices.Concat(list[:end], []byte("<"+prefix+element), list[end:]), nil
}

const (
	commentsType           = "application/vnd.openxmlformats-officedocument.wordprocessingml.comments+xml"
	relationshipsNamespace = "http://schemas.openxmlformats.org/package/2006/relationships"
	officeRelationship     = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	strictRelationship     = "http://purl.oclc.org/ooxml/officeDocument/relationships"
)
