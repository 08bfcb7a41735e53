package forms

import (
	"testing"

	"dandle/phonetics/grammar"
)

// The forms are those of the tables of irregular verbs, plurals and degrees in
// Quirk et al., A Comprehensive Grammar, 1985, 3.11–3.20, 5.80–5.95 and 7.74–7.79
// (from memory); each leads there and back.
func TestThereAndBack(t *testing.T) {
	for _, c := range []struct {
		base string
		tag  grammar.Tag
		want string
	}{
		{"walk", grammar.VerbPast, "walked"},
		{"shine", grammar.VerbPast, "shone"},
		{"hop", grammar.VerbPast, "hopped"},
		{"hope", grammar.VerbPast, "hoped"},
		{"hope", grammar.VerbGerund, "hoping"},
		{"visit", grammar.VerbPast, "visited"},
		{"admit", grammar.VerbPast, "admitted"},
		{"carry", grammar.VerbPast, "carried"},
		{"carry", grammar.VerbGerund, "carrying"},
		{"play", grammar.VerbPast, "played"},
		{"lie", grammar.VerbGerund, "lying"},
		{"see", grammar.VerbGerund, "seeing"},
		{"creep", grammar.VerbPast, "crept"},
		{"creep", grammar.VerbParticiple, "crept"},
		{"sing", grammar.VerbPast, "sang"},
		{"sing", grammar.VerbParticiple, "sung"},
		{"go", grammar.VerbPast, "went"},
		{"go", grammar.VerbParticiple, "gone"},
		{"run", grammar.VerbPast, "ran"},
		{"run", grammar.VerbParticiple, "run"},
		{"cut", grammar.VerbPast, "cut"},
		{"put", grammar.VerbPast, "put"},
		{"sheep", grammar.NounPlural, "sheep"},
		{"wash", grammar.VerbThird, "washes"},
		{"cry", grammar.VerbThird, "cries"},
		{"go", grammar.VerbThird, "goes"},
		{"berry", grammar.NounPlural, "berries"},
		{"monkey", grammar.NounPlural, "monkeys"},
		{"mouse", grammar.NounPlural, "mice"},
		{"leaf", grammar.NounPlural, "leaves"},
		{"fox", grammar.NounPlural, "foxes"},
		{"piano", grammar.NounPlural, "pianos"},
		{"wet", grammar.Comparative, "wetter"},
		{"good", grammar.Comparative, "better"},
		{"good", grammar.Superlative, "best"},
		{"happy", grammar.Superlative, "happiest"},
		{"nice", grammar.Comparative, "nicer"},
	} {
		form, ok := Of(c.base, c.tag)
		if !ok || form != c.want {
			t.Errorf("%s as %v: got %q, %v, want %q", c.base, c.tag, form, ok, c.want)
		}
		if back, _, ok := Base(c.want, c.tag); !ok || back.String() != c.base {
			t.Errorf("%s as %v: not led back to %s", c.want, c.tag, c.base)
		}
	}
}

func TestRefuses(t *testing.T) {
	for _, c := range []struct {
		base string
		tag  grammar.Tag
	}{
		{"waterlogged", grammar.Comparative},
		{"beautiful", grammar.Superlative},
		{"lantern", grammar.VerbGerund},
		{"e", grammar.NounPlural},
		{"", grammar.VerbPast},
	} {
		if form, ok := Of(c.base, c.tag); ok {
			t.Errorf("%q as %v: got %q", c.base, c.tag, form)
		}
	}
}
