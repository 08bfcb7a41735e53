package lsp

import (
	"encoding/json"
	"maps"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"

	"dandle/analysis/manuscript"

	gocmp "github.com/google/go-cmp/cmp"
)

// settingNames are the settings' names in JSON, such as "inlayHints.beats".
func settingNames(t reflect.Type, under string) []string {
	var out []string
	for field := range t.Fields() {
		name, _, _ := strings.Cut(field.Tag.Get("json"), ",")
		if field.Type.Kind() == reflect.Struct {
			out = append(out, settingNames(field.Type, under+name+".")...)
			continue
		}
		out = append(out, under+name)
	}
	return out
}

// Every setting can be set in VS Code, and is told of where other editors' users
// look.
func TestSettingsAreDocumented(t *testing.T) {
	var manifest struct {
		Contributes struct {
			Configuration struct {
				Properties map[string]struct{ MarkdownDescription string }
			}
		}
	}
	data, err := os.ReadFile("../editors/vscode/package.json")
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(data, &manifest); err != nil {
		t.Fatal(err)
	}
	page, err := os.ReadFile("../editors/README.md")
	if err != nil {
		t.Fatal(err)
	}
	want := settingNames(reflect.TypeFor[Settings](), "")
	slices.Sort(want)
	var got []string
	for name, property := range maps.All(manifest.Contributes.Configuration.Properties) {
		if property.MarkdownDescription == "" {
			t.Errorf("%s is not described", name)
		}
		// The extension's own, which the server knows nothing of.
		if name != "dandle.program" && name != "dandle.trace.server" {
			got = append(got, strings.TrimPrefix(name, section+"."))
		}
	}
	slices.Sort(got)
	if diff := gocmp.Diff(want, got); diff != "" {
		t.Errorf("settings in package.json (-want +got):\n%s", diff)
	}
	for _, name := range want {
		if !strings.Contains(string(page), "| `"+name+"` |") {
			t.Errorf("editors/README.md does not tell of %s", name)
		}
	}
}

// Every setting that dandle.yaml has, too, is heard, over what the house says.
func TestSettingsOverrideTheHouse(t *testing.T) {
	house, problems := manuscript.ParseHouse([]byte("dialect: en-US\ndash: em\nconfidence: { word/filler: 0.6, rhyme: 0.6 }\nseverities: { sound: hint }\n"))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	settings, err := parseSettings(json.RawMessage(`{
		"dialect": "en-GB", "ages": "3-6", "dash": "en", "confidence": {"word/filler": 0.9}, "severities": {"sound": "off"},
		"allow": ["word/weak"], "weak": ["nifty"], "pronounce": {"Oban": "OH-bn"}
	}`))
	if err != nil {
		t.Fatal(err)
	}
	got, err := settings.over(house)
	if err != nil {
		t.Fatal(err)
	}
	want, _ := manuscript.ParseHouse([]byte(`dialect: en-GB
ages: 3-6
dash: en
confidence: { word/filler: 0.9, rhyme: 0.6 }
severities: { sound: off }
allow: [word/weak]
weak: [nifty]
pronounce: { Oban: "OH-bn" }
`))
	if diff := gocmp.Diff(want, got); diff != "" {
		t.Errorf("house (-want +got):\n%s", diff)
	}
}
