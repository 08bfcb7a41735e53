package docx

import (
	"encoding/xml"
	"fmt"
)

// The parts of a new document that are the same in all.
const (
	packageNamespace = "http://schemas.openxmlformats.org/package/2006/content-types"
	wordType         = "application/vnd.openxmlformats-officedocument.wordprocessingml."

	contentTypes = xml.Header + `<Types xmlns="` + packageNamespace + `">` +
		`<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>` +
		`<Default Extension="xml" ContentType="application/xml"/>` +
		`<Override PartName="/word/document.xml" ContentType="` + wordType + `document.main+xml"/>` +
		`<Override PartName="/word/styles.xml" ContentType="` + wordType + `styles+xml"/>` +
		`<Override PartName="/word/header1.xml" ContentType="` + wordType + `header+xml"/>` +
		`<Override PartName="/docProps/core.xml" ContentType="application/vnd.openxmlformats-package.core-properties+xml"/>` +
		`<Override PartName="/docProps/custom.xml" ContentType="application/vnd.openxmlformats-officedocument.custom-properties+xml"/>` +
		`</Types>`

	packageRelations = xml.Header + `<Relationships xmlns="` + relationshipsNamespace + `">` +
		`<Relationship Id="r1" Type="` + officeRelationship + `/officeDocument" Target="word/document.xml"/>` +
		`<Relationship Id="r2" Type="http://schemas.openxmlformats.org/package/2006/relationships/metadata/core-properties" Target="docProps/core.xml"/>` +
		`<Relationship Id="r3" Type="` + officeRelationship + `/custom-properties" Target="docProps/custom.xml"/>` +
		`</Relationships>`

	documentRelations = xml.Header + `<Relationships xmlns="` + relationshipsNamespace + `">` +
		`<Relationship Id="r1" Type="` + officeRelationship + `/styles" Target="styles.xml"/>` +
		`<Relationship Id="r2" Type="` + officeRelationship + `/header" Target="header1.xml"/>` +
		`</Relationships>`
)

// newSheet is the style sheet of a new document. Sizes are in half points,
// spaces in twentieths of a point; a line of 240 is single spacing.
const newSheet = xml.Header + `<w:styles xmlns:w="` + transitional + `">` +
	`<w:docDefaults><w:rPrDefault><w:rPr><w:rFonts w:ascii="Times New Roman" w:hAnsi="Times New Roman" w:eastAsia="Times New Roman" w:cs="Times New Roman"/><w:sz w:val="24"/><w:szCs w:val="24"/></w:rPr></w:rPrDefault>` +
	`<w:pPrDefault><w:pPr><w:spacing w:before="0" w:after="0" w:line="480" w:lineRule="auto"/></w:pPr></w:pPrDefault></w:docDefaults>` +
	`<w:style w:type="paragraph" w:default="1" w:styleId="Normal"><w:name w:val="Normal"/></w:style>` +
	`<w:style w:type="paragraph" w:styleId="Title"><w:name w:val="Title"/><w:basedOn w:val="Normal"/><w:pPr><w:spacing w:before="2400" w:after="0"/><w:jc w:val="center"/></w:pPr></w:style>` +
	`<w:style w:type="paragraph" w:styleId="Heading2"><w:name w:val="heading 2"/><w:basedOn w:val="Normal"/><w:pPr><w:keepNext/><w:outlineLvl w:val="1"/></w:pPr></w:style>` +
	`<w:style w:type="paragraph" w:customStyle="1" w:styleId="ArtNote"><w:name w:val="Art note"/><w:basedOn w:val="Normal"/></w:style>` +
	`<w:style w:type="paragraph" w:customStyle="1" w:styleId="Contact"><w:name w:val="` + contactStyle + `"/><w:basedOn w:val="Normal"/><w:pPr><w:spacing w:line="240" w:lineRule="auto"/></w:pPr></w:style>` +
	`<w:style w:type="paragraph" w:customStyle="1" w:styleId="Byline"><w:name w:val="` + bylineStyle + `"/><w:basedOn w:val="Normal"/><w:pPr><w:spacing w:after="480"/><w:jc w:val="center"/></w:pPr></w:style>` +
	`<w:style w:type="paragraph" w:styleId="Header"><w:name w:val="header"/><w:basedOn w:val="Normal"/><w:pPr><w:spacing w:line="240" w:lineRule="auto"/><w:jc w:val="right"/></w:pPr></w:style>` +
	`</w:styles>`

// The names of the styles of what stands above the title of a new document and
// below it; neither is a part of the text.
const (
	contactStyle = "Manuscript contact"
	bylineStyle  = "Manuscript byline"
)

// custom is the part with the document's own properties: the front matter.
func custom(front string) string {
	const namespace = "http://schemas.openxmlformats.org/officeDocument/2006/custom-properties"
	head := fmt.Sprintf(`%s<Properties xmlns="%s" xmlns:vt="http://schemas.openxmlformats.org/officeDocument/2006/docPropsVTypes">`, xml.Header, namespace)
	if front == "" {
		return head + `</Properties>`
	}
	// The number names user-defined properties ([MS-OLEPS] 3.1.2.2); the first free place is 2.
	return fmt.Sprintf(`%s<property fmtid="{D5CDD505-2E9C-101B-9397-08002B2CF9AE}" pid="2" name="%s"><vt:lpwstr>%s</vt:lpwstr></property></Properties>`, head, frontProperty, escapedLines(front))
}
