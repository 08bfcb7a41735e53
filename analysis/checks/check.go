package checks

import (
	"fmt"
	"slices"
	"strings"
)

// A Check is one thing that a verse editor listens for. It is a plain value:
// everything that Run may see comes in its Pass, and Pass.Report is its only
// way out.
type Check struct {
	Code     Code
	Severity Severity // of its findings
	// Sometimes is the severity of those findings that name their own, for more or
	// less is at stake in them; Praise, the zero value, where there are none.
	Sometimes Severity
	Reach     Reach
	// Doc is the page under "dandle explain CODE", in Markdown: a first
	// sentence that says what is heard, then why it matters, when it is meant,
	// and verse of both kinds. How to accept a finding is added by Explain,
	// since that is the same for all.
	Doc string
	Run func(*Pass)
}

// A Reach is how far a check listens.
type Reach uint8

// The reaches. A check of OneStanza looks at Pass.lines and Pass.passages
// alone, and at nothing of the rest of the manuscript but refrains; so what it
// finds in a stanza is remembered until the stanza changes.
const (
	WholePoem Reach = iota
	OneStanza
)

// Lookup finds a check by its code.
func Lookup(code Code) (*Check, bool) {
	i, found := slices.BinarySearchFunc(All, code, func(c *Check, code Code) int {
		return strings.Compare(string(c.Code), string(code))
	})
	if !found {
		return nil, false
	}
	return All[i], true
}

// Explain is the page about a code, in Markdown; false where no check has it.
func Explain(code Code) (string, bool) {
	c, found := Lookup(code)
	if !found {
		return "", false
	}
	return c.page(), true
}

// Page is the page of all checks, in Markdown, in the order of their codes.
func Page() string {
	var b strings.Builder
	b.WriteString("# What dandle listens for\n\n")
	b.WriteString("<!-- Made from the checks' own words by go test ./analysis/checks -update. -->\n\n")
	b.WriteString("A finding that is meant can be accepted: `<!-- dandle: allow CODE -->` on a line or above\nit, `allow: [CODE]` in the front matter, or `allow` in `dandle.yaml` for a whole folder. An\narea, such as `word`, stands for all of its codes. Under `severities` in `dandle.yaml`,\n`CODE: off` silences a code, and `hint`, `information` or `warning` make it matter more or\nless. `weak` there adds words to word/weak, and takes one away that has a minus\nbefore it. `confidence` there says how sure a finding must be, by code or area: 0 to 1, where\n0.55 is usual.\n\n    allow: [sound/tongue-tangle]\n    severities: { word/weak: information, book: off }\n    confidence: { word/filler: 0.7 }\n    weak: [cozy, -fine]\n\n")
	b.WriteString("| code | raised as | what is heard |\n|---|---|---|\n")
	for _, c := range All {
		fmt.Fprintf(&b, "| [%s](#%s) | %s | %s |\n", c.Code, strings.ReplaceAll(string(c.Code), "/", ""), c.raisedAs(), c.Summary())
	}
	for _, c := range All {
		fmt.Fprintf(&b, "\n## %s\n\n%s\n\nRaised as %s.\n", c.Code, strings.TrimSpace(c.Doc), c.raisedAs())
	}
	return b.String()
}

// Summary is the first sentence of the check's page.
func (c *Check) Summary() string {
	doc := strings.TrimSpace(c.Doc)
	if i := strings.Index(doc, "\n\n"); i >= 0 {
		doc = doc[:i]
	}
	return strings.Join(strings.Fields(doc), " ")
}

// Area is the part of the code before the slash: what the note is about.
func (c Code) Area() string {
	area, _, _ := strings.Cut(string(c), "/")
	return area
}

// raisedAs names the severities of a check's findings.
func (c *Check) raisedAs() string {
	if c.Sometimes == Praise {
		return c.Severity.String()
	}
	return fmt.Sprintf("%s, at times as %s", c.Severity, c.Sometimes)
}

func (c *Check) page() string {
	var b strings.Builder
	fmt.Fprintf(&b, "# %s\n\n%s\n\n", c.Code, strings.TrimSpace(c.Doc))
	if c.Severity == Praise {
		fmt.Fprintf(&b, "This is praise: it shows when one points at the line and in the letter, never as a\nmark under the words. To hear it no more, write `%s: off` under `severities` in\n`dandle.yaml`.\n", c.Code)
		return b.String()
	}
	fmt.Fprintf(&b, "Raised as %s. If it is meant, write `<!-- dandle: allow %s -->` on the line or\nabove it, or `allow: [%s]` in the front matter for the whole manuscript. Under\n`severities` in `dandle.yaml`, `%s: off` silences it for a whole folder, and another\nseverity makes it matter more or less.\n", c.raisedAs(), c.Code, c.Code, c.Code)
	return b.String()
}
