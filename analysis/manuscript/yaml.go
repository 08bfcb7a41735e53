package manuscript

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v3"

	"dandle/phonetics"
)

const (
	// longestYAML is how many bytes of YAML are read. A page of settings has
	// two thousand.
	longestYAML = 64 << 10
	// deepestYAML is how deep brackets may nest: settings need two levels.
	deepestYAML = 32
)

// An entry is one key at the top of a YAML mapping, with its value.
type entry struct {
	key   Key
	value *yaml.Node
}

// readYAML reads a mapping. Where the whole cannot be read, each entry is read
// for itself, so that a slip in one line does not lose the others. Spans count
// from the start of the text. What names the text in messages.
func readYAML(text, what string) ([]entry, []Problem) {
	switch {
	case len(text) > longestYAML:
		return nil, []Problem{{Span{0, 0}, fmt.Sprintf("The %s is over %d kilobytes long, too long to be read. Keep only settings there.", what, longestYAML>>10)}}
	case nesting(text) > deepestYAML:
		return nil, []Problem{{Span{0, 0}, fmt.Sprintf("Brackets nest too deep in the %s for it to be read. Two levels are enough for every setting.", what)}}
	}
	places := newPlaces(text)
	entries, problems, err := readMapping(text, places, 1)
	if err == nil {
		return entries, problems
	}
	problems = append(problems, Problem{places.errorLine(err), fmt.Sprintf(
		"The %s cannot be read as YAML here (%s). Look for a missing colon, quote or bracket; a value with a colon in it needs quotes around it.", what, reason(err))})
	entries = nil
	for _, c := range places.chunks() {
		more, _, err := readMapping(text[c.span.Start:c.span.End], places, c.line)
		if err == nil {
			entries = append(entries, more...)
		}
	}
	return entries, problems
}

// nesting is the greatest depth of brackets, and of dashes that open list after
// list on one line.
func nesting(text string) int {
	depth, deepest, dashes := 0, 0, 0
	for i := range len(text) {
		switch text[i] {
		case '[', '{':
			depth++
			deepest = max(deepest, depth)
		case ']', '}':
			depth = max(0, depth-1)
		case '-', '?', ':':
			dashes++
			deepest = max(deepest, dashes/2)
		case '\n', '\r':
			dashes = 0
		case ' ':
		default:
			dashes = 0
		}
	}
	return deepest
}

// readMapping reads a mapping whose first line is the given line of the text,
// counted from 1.
func readMapping(text string, places *places, line int) (entries []entry, problems []Problem, err error) {
	var document yaml.Node
	if err := yaml.Unmarshal([]byte(text), &document); err != nil {
		return nil, nil, err
	}
	if len(document.Content) == 0 {
		return nil, nil, nil // nothing but comments
	}
	top := document.Content[0]
	if top.Kind != yaml.MappingNode {
		return nil, nil, fmt.Errorf("line %d: settings are written key: value", max(1, top.Line))
	}
	seen := map[string]int{}
	for i := 0; i+1 < len(top.Content); i += 2 {
		name, value := top.Content[i], top.Content[i+1]
		key := Key{Name: name.Value, Span: places.node(name, line), Value: places.node(value, line)}
		if usesAlias(name) || usesAlias(value) {
			problems = append(problems, Problem{
				key.Span,
				fmt.Sprintf("The entry %q uses an anchor or alias (& or *), which are not read here. Write the value out, or set it in quotes.", key.Name),
			})
			continue
		}
		e := entry{key, value}
		if at, again := seen[key.Name]; again {
			problems = append(problems, Problem{key.Span, fmt.Sprintf("The key %q stands twice; this one, the later, holds. Keep one of them.", key.Name)})
			entries[at] = e
			continue
		}
		seen[key.Name] = len(entries)
		entries = append(entries, e)
	}
	return entries, problems, nil
}

// usesAlias reports whether an anchor or alias occurs: the means by which a few
// bytes of YAML unfold to gigabytes.
func usesAlias(n *yaml.Node) bool {
	if n.Kind == yaml.AliasNode || n.Anchor != "" {
		return true
	}
	for _, c := range n.Content {
		if usesAlias(c) {
			return true
		}
	}
	return false
}

// reason is the error's text without the library's name and line.
func reason(err error) string {
	s := strings.TrimPrefix(err.Error(), "yaml: ")
	if strings.HasPrefix(s, "line ") {
		if _, after, ok := strings.Cut(s, ": "); ok {
			return after
		}
	}
	return s
}

// places turns YAML's lines and columns into offsets.
type places struct {
	text   string
	starts []int
}

// newPlaces finds where YAML lets lines begin: behind \n, \r, \r\n, and behind
// NEL, LS and PS as YAML 1.1 does, which the library reads.
func newPlaces(text string) *places {
	p := &places{text: text, starts: []int{0}}
	for i := 0; i < len(text); {
		r, n := utf8.DecodeRuneInString(text[i:])
		i += n
		switch r {
		case '\r':
			if i < len(text) && text[i] == '\n' {
				i++
			}
			p.starts = append(p.starts, i)
		case '\n', '\u0085', '\u2028', '\u2029':
			p.starts = append(p.starts, i)
		}
	}
	return p
}

// offset is the place of a line and column, both from 1; columns count
// characters. Places outside the text count as its nearest.
func (p *places) offset(line, column int) int {
	line = min(max(line, 1), len(p.starts))
	at := p.starts[line-1]
	for ; column > 1 && at < len(p.text); column-- {
		_, n := utf8.DecodeRuneInString(p.text[at:])
		at += n
	}
	return at
}

// lineEnd is where the line of the offset ends, without trailing space.
func (p *places) lineEnd(offset int) int {
	end := len(p.text)
	if i := strings.IndexAny(p.text[offset:], "\r\n"); i >= 0 {
		end = offset + i
	}
	return trimRight(p.text, offset, end)
}

// node is the stretch that a node is written in. The library tells where a node
// starts only: a plain word ends with its last letter, anything else with the
// last line that holds a part of it.
func (p *places) node(n *yaml.Node, firstLine int) Span {
	start := p.offset(n.Line+firstLine-1, n.Column)
	if n.Kind == yaml.ScalarNode && n.Style&(yaml.SingleQuotedStyle|yaml.DoubleQuotedStyle|yaml.LiteralStyle|yaml.FoldedStyle) == 0 &&
		strings.HasPrefix(p.text[start:], n.Value) {
		return Span{start, start + len(n.Value)}
	}
	end := p.lineEnd(start)
	if len(n.Content) > 0 {
		end = max(end, p.node(n.Content[len(n.Content)-1], firstLine).End)
	}
	return Span{start, end}
}

// errorLine is the line that a message of the library speaks of, or the first.
func (p *places) errorLine(err error) Span {
	line := 1
	s := strings.TrimPrefix(err.Error(), "yaml: ")
	if rest, ok := strings.CutPrefix(s, "line "); ok {
		digits, _, _ := strings.Cut(rest, ":")
		if n, err := strconv.Atoi(digits); err == nil {
			line = n
		}
	}
	start := p.offset(line, 1)
	return Span{start, p.lineEnd(start)}
}

// A chunk is one entry's lines.
type chunk struct {
	span Span
	line int // of the text, from 1
}

// chunks cuts the text before every line that is not indented. More than a few
// dozen are no settings.
func (p *places) chunks() []chunk {
	const most = 64
	var out []chunk
	for i, start := range p.starts {
		end := len(p.text)
		if i+1 < len(p.starts) {
			end = p.starts[i+1]
		}
		if n := len(out); n > 0 && (start == end || strings.IndexByte(" \t-#}]\r\n", p.text[start]) >= 0) {
			out[n-1].span.End = end
			continue
		}
		if len(out) == most {
			break
		}
		out = append(out, chunk{Span{start, end}, i + 1})
	}
	return out
}

func (e *entry) shift(by int) {
	e.key.Span = Span{e.key.Span.Start + by, e.key.Span.End + by}
	e.key.Value = Span{e.key.Value.Start + by, e.key.Value.End + by}
}

// place is where a problem with the value is shown.
func (e *entry) place() Span {
	if e.key.Value.Len() > 0 {
		return e.key.Value
	}
	return e.key.Span
}

// The readers below return what they read, or why they could not and what to do.

func (e *entry) text() (string, string) {
	if e.value.Kind != yaml.ScalarNode {
		return "", fmt.Sprintf("%s: takes one line of text, and this is a list or a mapping. Write %s: TEXT, in quotes if the text starts with a bracket.", e.key.Name, e.key.Name)
	}
	if e.value.Tag == "!!null" {
		return "", ""
	}
	return strings.TrimSpace(e.value.Value), ""
}

// oldest is the greatest age a band may end with.
const oldest = 99

func (e *entry) ages() (Ages, string) {
	s, trouble := e.text()
	if trouble != "" || s == "" {
		return Ages{}, trouble
	}
	unclear := fmt.Sprintf("The ages %q cannot be read. Write a band of years such as 3-6, one age such as 4, or 8+.", s)
	s = strings.NewReplacer("–", "-", "—", "-", " to ", "-", " ", "").Replace(s)
	from, to, band := strings.Cut(s, "-")
	if !band {
		from, band = strings.CutSuffix(s, "+")
		to = from
		if band {
			to = strconv.Itoa(oldest)
		}
	}
	a, err1 := strconv.Atoi(from)
	b, err2 := strconv.Atoi(to)
	if err1 != nil || err2 != nil || a < 0 || b > oldest {
		return Ages{}, unclear
	}
	if a > b {
		return Ages{}, fmt.Sprintf("The ages run backwards, from %d to %d. Write the younger age first.", a, b)
	}
	return Ages{a, b}, ""
}

func (e *entry) dialect() (phonetics.Dialect, bool, string) {
	s, trouble := e.text()
	if trouble != "" || s == "" {
		return phonetics.EnUS, false, trouble
	}
	d, err := phonetics.ParseDialect(s)
	if err != nil {
		return phonetics.EnUS, false, fmt.Sprintf("The %v. Choose one of them, or leave the key out for en-US.", err)
	}
	return d, true, ""
}

func (e *entry) pronounce() (map[string]string, string) {
	if e.value.Tag == "!!null" {
		return nil, ""
	}
	if e.value.Kind != yaml.MappingNode {
		return nil, fmt.Sprintf("%s: takes words with their sounds. Write one to a line, such as Oban: OH-bn, indented below the key.", e.key.Name)
	}
	out := make(map[string]string, len(e.value.Content)/2)
	for i := 0; i+1 < len(e.value.Content); i += 2 {
		word, sound := e.value.Content[i], e.value.Content[i+1]
		if word.Kind != yaml.ScalarNode || sound.Kind != yaml.ScalarNode || sound.Tag == "!!null" {
			return out, fmt.Sprintf("The entry %q under %s: has no sound that can be read. Write the word, a colon, and how it is said, such as OH-bn.", word.Value, e.key.Name)
		}
		out[strings.ToLower(strings.TrimSpace(word.Value))] = strings.TrimSpace(sound.Value)
	}
	return out, ""
}

// list reads a list of words, written as a YAML list or on one line.
func (e *entry) list() ([]string, string) {
	switch {
	case e.value.Tag == "!!null":
		return nil, ""
	case e.value.Kind == yaml.ScalarNode:
		return splitCodes(e.value.Value), ""
	case e.value.Kind == yaml.SequenceNode:
		var out []string
		for _, c := range e.value.Content {
			if c.Kind != yaml.ScalarNode {
				return out, fmt.Sprintf("%s: takes a plain list, and one of its items is a list or mapping itself. Write one name an item.", e.key.Name)
			}
			if s := strings.TrimSpace(c.Value); s != "" {
				out = append(out, s)
			}
		}
		return out, ""
	}
	return nil, fmt.Sprintf("%s: takes a list, and this is a mapping. Write [one, two], or one name an item below the key.", e.key.Name)
}
