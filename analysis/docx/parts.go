package docx

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
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

// front is the front matter that Compose left in the document's properties; ""
// where there is none.
func (a *archive) front() (string, error) {
	name, err := a.related("", "custom-properties")
	if err != nil || name == "" {
		return "", err
	}
	data, err := a.part(name)
	if err != nil || data == nil {
		return "", err
	}
	var read struct {
		Properties []struct {
			Name string `xml:"name,attr"`
			Text string `xml:"lpwstr"`
		} `xml:"property"`
	}
	if err := xml.Unmarshal(data, &read); err != nil {
		return "", errDamaged
	}
	for _, p := range read.Properties {
		if p.Name == frontProperty {
			return strings.Trim(strings.ReplaceAll(p.Text, "\r\n", "\n"), "\n"), nil
		}
	}
	return "", nil
}

// frontProperty is the custom property that holds front matter.
const frontProperty = "dandle front matter"
