package manuscript

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v3"

	"dandle/phonetics"
)

// House is the house rules of a workspace: dandle.yaml at its root. A
// manuscript's front matter overrides them.
type House struct {
	Dialect    phonetics.Dialect
	HasDialect bool
	Ages       Ages
	Pronounce  map[string]string // word in lower case → respelling
	Allow      []string          // codes of findings, or areas
	Severities map[string]string // code or area → "off", "hint", "information", "warning"
	Weak       []string          // more words that show nothing, in lower case
	Dash       Dash              // the dash of the house's books
	// Confidence is how sure a finding must be to be raised, by code or area: 0 …
	// 1, where 0.55 is usual.
	Confidence map[string]float64
}

// A Dash is the sign with which a house sets a pause.
type Dash uint8

// The dashes. Without a rule the manuscript's own use decides, then its dialect.
const (
	NoDashRule Dash = iota
	EmDash          // U+2014, closed up
	EnDash          // U+2013, with a space on both sides
)

// houseKeys are the keys of dandle.yaml.
const houseKeys = "dialect, ages, pronounce, allow, severities, confidence, weak and dash"

// ParseHouse reads house rules. Any bytes parse; what cannot be read as meant is
// told in the problems, whose spans are offsets into data.
func ParseHouse(data []byte) (House, []Problem) {
	text := string(data)
	skipped := 0
	if strings.HasPrefix(text, byteOrderMark) {
		skipped = len(byteOrderMark)
	}
	var house House
	entries, problems := readYAML(text[skipped:], "house rules file")
	for i := range problems {
		problems[i].Span = Span{problems[i].Span.Start + skipped, problems[i].Span.End + skipped}
	}
	for _, e := range entries {
		e.shift(skipped)
		trouble := ""
		switch e.key.Name {
		case "dialect":
			house.Dialect, house.HasDialect, trouble = e.dialect()
		case "ages":
			house.Ages, trouble = e.ages()
		case "pronounce", "pronunciations":
			house.Pronounce, trouble = e.pronounce()
			if trouble == "" {
				trouble = unspeakable(house.Pronounce)
			}
		case "allow":
			house.Allow, trouble = e.list()
		case "severities":
			house.Severities, trouble = e.severities()
		case "confidence":
			house.Confidence, trouble = e.confidence()
		case "weak":
			house.Weak, trouble = e.list()
			for i, w := range house.Weak {
				house.Weak[i] = strings.ToLower(w)
			}
		case "dash":
			house.Dash, trouble = e.dash()
		default:
			problems = append(problems, Problem{
				e.key.Span,
				fmt.Sprintf("The key %q is not known in the house rules. Known are %s.", e.key.Name, houseKeys),
			})
		}
		if trouble != "" {
			problems = append(problems, Problem{e.place(), trouble})
		}
	}
	return house, problems
}

// unspeakable says which of the pronunciations cannot be read, and why; empty
// where all can.
func unspeakable(taught map[string]string) string {
	for _, word := range slices.Sorted(maps.Keys(taught)) {
		if _, err := phonetics.ParseSpoken(taught[word]); err != nil {
			return fmt.Sprintf("I cannot read how %q is said: %v. Write it as you would for a friend, the stressed part in capitals (OH-bn), or in ARPAbet or IPA.", word, err)
		}
	}
	return ""
}

// dash reads which dash the house's books are set with.
func (e *entry) dash() (Dash, string) {
	s, trouble := e.text()
	switch {
	case trouble != "" || s == "":
		return NoDashRule, trouble
	case strings.EqualFold(s, "em"):
		return EmDash, ""
	case strings.EqualFold(s, "en"):
		return EnDash, ""
	}
	return NoDashRule, fmt.Sprintf("The dash %q is not known. Write em for the closed dash (wait—listen), or en for the open one (wait – listen).", s)
}

// confidence reads how sure a finding of each code must be.
func (e *entry) confidence() (map[string]float64, string) {
	if e.value.Tag == "!!null" {
		return nil, ""
	}
	if e.value.Kind != yaml.MappingNode {
		return nil, "confidence: takes codes with how sure a finding must be. Write one to a line, such as word/filler: 0.7, indented below the key."
	}
	out := make(map[string]float64, len(e.value.Content)/2)
	for i := 0; i+1 < len(e.value.Content); i += 2 {
		code, text := e.value.Content[i].Value, e.value.Content[i+1].Value
		least, err := strconv.ParseFloat(text, 64)
		if err != nil || !(least >= 0 && least <= 1) {
			return out, fmt.Sprintf("The confidence %q of %s is not between 0 and 1. The usual one is 0.55; more lets fewer findings pass.", text, code)
		}
		out[code] = least
	}
	return out, ""
}

// severities reads how much each code matters in this house.
func (e *entry) severities() (map[string]string, string) {
	if e.value.Tag == "!!null" {
		return nil, ""
	}
	if e.value.Kind != yaml.MappingNode {
		return nil, "severities: takes codes with how much they matter. Write one to a line, such as word/weak: hint, indented below the key."
	}
	out := make(map[string]string, len(e.value.Content)/2)
	for i := 0; i+1 < len(e.value.Content); i += 2 {
		code, severity := e.value.Content[i].Value, e.value.Content[i+1].Value
		// YAML 1.1 reads a bare off as false, so its written form is what counts.
		switch s := strings.ToLower(severity); s {
		case "off", "hint", "information", "warning":
			out[code] = s
		default:
			return out, fmt.Sprintf("The severity %q of %s is not known. Choose off, hint, information or warning.", severity, code)
		}
	}
	return out, ""
}
