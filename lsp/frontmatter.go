package lsp

import (
	"encoding/json"
	"strings"

	"dandle/analysis/checks"
	"dandle/analysis/manuscript"
)

// teaching is the edit that teaches a word: an entry more under "pronounce".
func (v view) teaching(word, respelling string) checks.Edit {
	entry := yamlString(word) + ": " + yamlString(respelling)
	return v.frontEntry("pronounce", "{", entry, entry)
}

// allowThroughout is the edit that accepts a code in the whole manuscript: an
// entry more under "allow".
func (v view) allowThroughout(code string) checks.Edit {
	return v.frontEntry("allow", "[", code, "- "+code)
}

// frontEntry is the edit that adds an entry to a key of the front matter: in the
// brackets that its value stands in, else on a line of its own under the key;
// in a new key, or in new front matter.
func (v view) frontEntry(key, open, inBrackets, onLine string) checks.Edit {
	m := v.snapshot().Manuscript()
	end := v.snapshot().Manuscript().LineEnd()
	brackets := open + " " + inBrackets + " }"
	if open == "[" {
		brackets = "[" + inBrackets + "]"
	}
	for _, k := range m.Front.Keys {
		if k.Name != key {
			continue
		}
		value := strings.TrimSpace(k.Value.In(v.text))
		at := k.Value.Start + strings.Index(k.Value.In(v.text), open) + 1
		switch {
		case strings.HasPrefix(value, open) && strings.Trim(value[1:], " \t\r\n]}") == "":
			return checks.Edit{Span: manuscript.Span{Start: k.Value.Start, End: k.Value.End}, Text: brackets}
		case strings.HasPrefix(value, open):
			return checks.Edit{Span: spanAt(at), Text: pad(open) + inBrackets + ","}
		case value == "" || strings.Contains(value, "\n") || strings.HasPrefix(value, "- ") || v.lineAt(k.Value.Start) > v.lineAt(k.Span.Start):
			line := v.line(v.lineAt(k.Span.Start))
			return checks.Edit{Span: spanAt(line.End), Text: end + "  " + onLine}
		default: // one value without brackets, such as "allow: word/weak"
			return checks.Edit{Span: k.Value, Text: "[" + value + ", " + inBrackets + "]"}
		}
	}
	if m.Front.Span.Len() > 0 {
		first := v.line(v.lineAt(m.Front.Span.Start))
		return checks.Edit{Span: spanAt(first.End), Text: end + key + ": " + brackets}
	}
	return checks.Edit{Span: spanAt(byteOrderMark(v.text)), Text: "---" + end + key + ": " + brackets + end + "---" + end + end}
}

// pad is the space that is customary inside braces and not inside brackets.
func pad(open string) string {
	if open == "{" {
		return " "
	}
	return ""
}

// byteOrderMark is the length of the mark that a text may start with.
func byteOrderMark(text string) int {
	const mark = "\ufeff"
	if strings.HasPrefix(text, mark) {
		return len(mark)
	}
	return 0
}

// yamlString quotes a text for YAML, of which JSON's strings are a part.
func yamlString(text string) string {
	data, _ := json.Marshal(text) // a string
	return string(data)
}
