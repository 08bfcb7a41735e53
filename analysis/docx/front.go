package docx

import (
	"encoding/xml"
	"strings"
)

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
