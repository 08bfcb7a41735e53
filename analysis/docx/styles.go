package docx

import (
	"encoding/xml"
	"strconv"
	"strings"

	"dandle/analysis/typescript"
)

// A format is what matters here of how text is set. What a style does not say
// is nil or negative, and its base says it.
type format struct {
	italic        *bool
	centred       *bool
	before, after int // twentieths of a point around a paragraph; -1 for unsaid
	indent        int // twentieths of a point; -1 for unsaid
	role          typescript.Role
}

var unsaid = format{before: -1, after: -1, indent: -1}

// over is f where it says something, base elsewhere.
func (f format) over(base format) format {
	if f.italic == nil {
		f.italic = base.italic
	}
	if f.centred == nil {
		f.centred = base.centred
	}
	if f.before < 0 {
		f.before = base.before
	}
	if f.after < 0 {
		f.after = base.after
	}
	if f.indent < 0 {
		f.indent = base.indent
	}
	if f.role == typescript.BodyText {
		f.role = base.role
	}
	return f
}

// A property is an element that says something by its w:val.
type property struct {
	Value *string `xml:"val,attr"`
}

// on reports what a switch says (ECMA-376 part 1, 17.17.4); nil for no switch.
func (p *property) on() *bool {
	if p == nil {
		return nil
	}
	is := p.Value == nil || *p.Value != "0" && *p.Value != "false" && *p.Value != "off"
	return &is
}

func (p *property) text() string {
	if p == nil || p.Value == nil {
		return ""
	}
	return *p.Value
}

// runProperties are a w:rPr (17.3.2.28).
type runProperties struct {
	Style  *property `xml:"rStyle"`
	Italic *property `xml:"i"`
	Hidden *property `xml:"vanish"`
}

// paragraphProperties are a w:pPr (17.3.1.26).
type paragraphProperties struct {
	Style     *property `xml:"pStyle"`
	Align     *property `xml:"jc"`
	Outline   *property `xml:"outlineLvl"`
	PageBreak *property `xml:"pageBreakBefore"`
	Spacing   struct {
		Before string `xml:"before,attr"`
		After  string `xml:"after,attr"`
	} `xml:"spacing"`
	Indent struct {
		Left  string `xml:"left,attr"`
		Start string `xml:"start,attr"`
		First string `xml:"firstLine,attr"`
	} `xml:"ind"`
}

func twips(text string) int {
	n, err := strconv.Atoi(text)
	if err != nil || n < 0 || n > 1<<16 {
		return -1
	}
	return n
}

func (p *paragraphProperties) format() format {
	f := unsaid
	f.before, f.after = twips(p.Spacing.Before), twips(p.Spacing.After)
	f.indent = max(twips(p.Indent.Left), twips(p.Indent.Start), twips(p.Indent.First))
	if align := p.Align.text(); align != "" {
		centred := align == "center"
		f.centred = &centred
	}
	switch p.Outline.text() {
	case "0":
		f.role = typescript.TopHeading
	case "1", "2", "3", "4", "5", "6", "7", "8":
		f.role = typescript.LowerHeading
	}
	return f
}

// A style is one entry of the style sheet (17.7.4.17).
type style struct {
	ID        string              `xml:"styleId,attr"`
	Default   string              `xml:"default,attr"`
	Type      string              `xml:"type,attr"`
	Name      property            `xml:"name"`
	Base      *property           `xml:"basedOn"`
	Run       runProperties       `xml:"rPr"`
	Paragraph paragraphProperties `xml:"pPr"`
}

// A styleSheet holds the formats of styles, their bases taken in.
type styleSheet struct {
	formats map[string]format
	plain   format // of a paragraph without a style
}

// maxBases is how far a style is followed to what it is based on.
const maxBases = 16

func (a *archive) styles(main string) (styleSheet, error) {
	sheet := styleSheet{formats: map[string]format{}, plain: unsaid}
	name, err := a.related(main, "styles")
	if err != nil || name == "" {
		return sheet, err
	}
	data, err := a.part(name)
	if err != nil || data == nil {
		return sheet, err
	}
	var read struct {
		Run       runProperties       `xml:"docDefaults>rPrDefault>rPr"`
		Paragraph paragraphProperties `xml:"docDefaults>pPrDefault>pPr"`
		Styles    []style             `xml:"style"`
	}
	if err := xml.Unmarshal(data, &read); err != nil {
		return sheet, errDamaged
	}
	byID := map[string]*style{}
	for i := range read.Styles {
		byID[read.Styles[i].ID] = &read.Styles[i]
	}
	defaults := read.Paragraph.format()
	sheet.plain = defaults
	for i := range read.Styles {
		s := &read.Styles[i]
		f := s.own()
		for base, n := byID[s.Base.text()], 0; base != nil && n < maxBases; base, n = byID[base.Base.text()], n+1 {
			f = f.over(base.own())
		}
		f = f.over(defaults)
		sheet.formats[s.ID] = f
		if s.Type == "paragraph" && (s.Default == "1" || s.Default == "true") {
			sheet.plain = f
		}
	}
	return sheet, nil
}

// own is what a style itself says.
func (s *style) own() format {
	f := s.Paragraph.format()
	f.italic = s.Run.Italic.on()
	switch name := strings.ToLower(s.Name.text()); {
	case name == "title":
		f.role = typescript.TitleText
	case name == "subtitle" || name == "author" || name == "date":
		f.role = typescript.SubtitleText
	case name == strings.ToLower(contactStyle), name == strings.ToLower(bylineStyle):
		f.role = typescript.ContactText
	case name == "heading 1":
		f.role = typescript.TopHeading
	case strings.HasPrefix(name, "heading "):
		f.role = typescript.LowerHeading
	}
	return f
}

// of is the format of a style; the plain one where it is not in the sheet.
func (s styleSheet) of(id string) format {
	if f, known := s.formats[id]; known {
		return f
	}
	return s.plain
}
