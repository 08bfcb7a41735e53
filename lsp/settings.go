package lsp

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"

	"dandle/analysis/manuscript"
	"dandle/phonetics"
)

// section is the name of dandle's part of a client's settings.
const section = "dandle"

// Settings are what a client's user can set, under "dandle" in the editor's
// settings or as initializationOptions. They override the house rules in
// dandle.yaml; a manuscript's front matter overrides both.
type Settings struct {
	// Dialect is the accent that words are pronounced in: "en-US" or "en-GB".
	Dialect string `json:"dialect,omitempty"`
	// Ages are the readers' years: "3-6".
	Ages string `json:"ages,omitempty"`
	// Severities raise, lower or silence findings: a code or an area, and
	// "off", "hint", "information" or "warning".
	Severities map[string]string `json:"severities,omitempty"`
	// Confidence is how sure a finding must be to be raised, by code or area: 0 …
	// 1, where 0.55 is usual.
	Confidence map[string]float64 `json:"confidence,omitempty"`
	// Allow lists codes or areas of findings that are accepted everywhere.
	Allow []string `json:"allow,omitempty"`
	// Pronounce teaches words: the word, and its respelling or ARPAbet.
	Pronounce map[string]string `json:"pronounce,omitempty"`
	// Weak lists more words that show a reader nothing; one after a "-" is no longer
	// among them.
	Weak []string `json:"weak,omitempty"`
	// Dash is the dash of the house's books: "em" or "en".
	Dash string `json:"dash,omitempty"`
	// Hover is what stands in a hover.
	Hover struct {
		// Findings shows what was found at the place pointed at. An editor that
		// shows its marks' notes beside the hover would say it twice.
		Findings bool `json:"findings"`
	} `json:"hover"`
	// InlayHints are the short texts at a line's end.
	InlayHints struct {
		// Beats shows the number of a line's beats.
		Beats bool `json:"beats"`
		// Rhymes shows a line's letter in its stanza's rhyme scheme.
		Rhymes bool `json:"rhymes"`
	} `json:"inlayHints"`
	// CodeLens shows meter and scheme over each stanza, and the book's length.
	CodeLens bool `json:"codeLens"`
}

// defaultSettings are those of a client that sets nothing.
func defaultSettings() Settings {
	var s Settings
	s.Hover.Findings = true
	s.InlayHints.Beats = true
	s.InlayHints.Rhymes = true
	s.CodeLens = true
	return s
}

// parseSettings reads a client's settings. What is not given keeps its default;
// null and absent settings are all default.
func parseSettings(raw json.RawMessage) (Settings, error) {
	s := defaultSettings()
	if len(raw) == 0 {
		return s, nil
	}
	if err := json.Unmarshal(raw, &s); err != nil {
		return defaultSettings(), fmt.Errorf("read settings: %w", err)
	}
	return s, nil
}

// over is the house rules with the settings on top. The error names what could
// not be read as meant, and was left out.
func (s Settings) over(house manuscript.House) (manuscript.House, error) {
	// Settings go the way of dandle.yaml, so that both take the same values and
	// complain in the same words.
	given, problems := manuscript.ParseHouse(s.yaml())
	if given.HasDialect {
		house.Dialect, house.HasDialect = given.Dialect, true
	}
	if given.Ages != (manuscript.Ages{}) {
		house.Ages = given.Ages
	}
	house.Severities = overlay(house.Severities, given.Severities)
	house.Confidence = overlay(house.Confidence, given.Confidence)
	if given.Dash != manuscript.NoDashRule {
		house.Dash = given.Dash
	}
	house.Pronounce = overlay(house.Pronounce, given.Pronounce)
	house.Allow = append(slices.Clip(house.Allow), given.Allow...)
	house.Weak = append(slices.Clip(house.Weak), given.Weak...)
	if len(problems) == 0 {
		return house, nil
	}
	return house, fmt.Errorf("settings: %s", problems[0].Message)
}

// yaml writes the settings as dandle.yaml has them. JSON is YAML.
func (s Settings) yaml() []byte {
	var b strings.Builder
	line := func(key string, value any) {
		text, _ := json.Marshal(value) // strings, lists and maps of them
		fmt.Fprintf(&b, "%s: %s\n", key, text)
	}
	if s.Dialect != "" {
		line("dialect", s.Dialect)
	}
	if s.Ages != "" {
		line("ages", s.Ages)
	}
	if len(s.Severities) > 0 {
		line("severities", s.Severities)
	}
	if len(s.Confidence) > 0 {
		line("confidence", s.Confidence)
	}
	if s.Dash != "" {
		line("dash", s.Dash)
	}
	if len(s.Allow) > 0 {
		line("allow", s.Allow)
	}
	if len(s.Pronounce) > 0 {
		line("pronounce", s.Pronounce)
	}
	if len(s.Weak) > 0 {
		line("weak", s.Weak)
	}
	return []byte(b.String())
}

func overlay[V any](under, over map[string]V) map[string]V {
	if len(over) == 0 {
		return under
	}
	out := maps.Clone(under)
	if out == nil {
		out = map[string]V{}
	}
	maps.Copy(out, over)
	return out
}

// knownDialects are the dialects' tags, for lists of choices.
func knownDialects() []string { return []string{phonetics.EnUS.String(), phonetics.EnGB.String()} }
