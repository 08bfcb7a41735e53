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

// comments are the texts of the comments by their id (17.13.4).
func (a *archive) comments(main string) (map[string]string, error) {
	name, err := a.related(main, "comments")
	if err != nil || name == "" {
		return nil, err
	}
	data, err := a.part(name)
	if err != nil || data == nil {
		return nil, err
	}
	list := map[string]string{}
	decoder := xml.NewDecoder(bytes.NewReader(data))
	id, depth := "", 0
	var text strings.Builder
	for {
		token, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			return list, nil
		}
		if err != nil {
			return nil, errDamaged
		}
		switch t := token.(type) {
		case xml.StartElement:
			if depth++; depth > maxDepth {
				return nil, errDamaged
			}
			switch t.Name.Local {
			case "comment":
				text.Reset()
				if id = attribute(t, "id"); attribute(t, "author") == Author {
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
				list[id] = strings.Join(strings.Fields(text.String()), " ")
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
