package manuscript

import "dandle/phonetics"

// House is the house rules of a workspace: dandle.yaml at its root. A
// manuscript's front matter overrides them.
type House struct {
	Dialect    phonetics.Dialect
	HasDialect bool
	Ages       Ages
	Pronounce  map[string]string // word in lower case → respelling
	Allow      []string          // codes of findings, or areas
	Severities map[string]string // code or area → "off", "hint", "information", "warning"
	Weak       []string          // more words that show nothing
}
