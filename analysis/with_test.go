package analysis_test

import (
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"dandle/analysis"
	"dandle/analysis/scansion"
	"dandle/testdata/manuscripts"
)

// sameHearing fails unless a snapshot that grew from others says what one says
// that was made of the same text at once.
func sameHearing(t *testing.T, grown *analysis.Snapshot) {
	t.Helper()
	text := grown.Manuscript().Text
	fresh := analysis.New(text, analysis.Options{})
	if diff := cmp.Diff(fresh.Findings(), grown.Findings(), cmpopts.EquateEmpty()); diff != "" {
		t.Fatalf("findings of\n%s\n(-fresh +grown)\n%s", text, diff)
	}
	if diff := cmp.Diff(fresh.Schemes(), grown.Schemes(), cmpopts.EquateEmpty()); diff != "" {
		t.Fatalf("schemes of\n%s\n(-fresh +grown)\n%s", text, diff)
	}
	if diff := cmp.Diff(fresh.Poem(), grown.Poem(), cmpopts.IgnoreUnexported(scansion.Poem{}, scansion.Line{}, scansion.Evidence{}), cmpopts.EquateEmpty()); diff != "" {
		t.Fatalf("scansion of\n%s\n(-fresh +grown)\n%s", text, diff)
	}
}

// edits are what a writer may do to a text at a place. Each keeps it UTF-8.
var edits = []func(r *rand.Rand, before, after string) string{
	func(r *rand.Rand, before, after string) string {
		pieces := []string{"x", "so very ", "\n", "\n\n", "’", "'", "!", "- ", " — ", "“", "the old ", "did go ", "*so* ", "[A note.]\n", "## \n", "> hm\n", "<!-- dandle: allow word -->", "violin ", "\r\n"}
		return before + pieces[r.IntN(len(pieces))] + after
	},
	func(r *rand.Rand, before, after string) string { // a few bytes go
		n := min(len(after), r.IntN(12))
		for n < len(after) && !utf8.RuneStart(after[n]) {
			n++
		}
		return before + after[n:]
	},
	func(r *rand.Rand, before, after string) string { // a line comes again
		line, _, _ := strings.Cut(after, "\n")
		return before + line + "\n" + after
	},
	func(r *rand.Rand, before, after string) string { // a stanza moves to the start
		stanza, rest, _ := strings.Cut(after, "\n\n")
		return stanza + "\n\n" + before + rest
	},
	func(r *rand.Rand, before, after string) string { // all the rest turns rough or smooth
		rest := manuscripts.Long(24, r.Uint64())
		if r.IntN(2) == 0 {
			rest = strings.NewReplacer("The ", "Upon the old ", " in ", " ", "Then ", "Softly and then ").Replace(rest)
		}
		return before + "\n\n" + rest
	},
}

func edited(r *rand.Rand, text string) string {
	at := r.IntN(len(text) + 1)
	for at < len(text) && !utf8.RuneStart(text[at]) {
		at++
	}
	return edits[r.IntN(len(edits))](r, text[:at], text[at:])
}

// TestWithEqualsNew types at random and compares what was remembered with what
// is heard anew. Some versions are never asked, as when typing is fast.
func TestWithEqualsNew(t *testing.T) {
	padded := strings.NewReplacer("The ", "The very ", "A ", "A just so ", "And ", "And did ").Replace(manuscripts.Long(16, 7))
	texts := []string{manuscripts.Long(80, 7), padded, padded + "\n" + manuscripts.Long(40, 8)}
	files, err := filepath.Glob("../testdata/*/*.verse")
	if err != nil || len(files) == 0 {
		t.Fatalf("no manuscripts: %v", err)
	}
	more, _ := filepath.Glob("../testdata/checks/*/*.verse")
	for _, name := range append(files, more...) {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		texts = append(texts, string(data))
	}
	for i, text := range texts {
		r := rand.New(rand.NewPCG(uint64(i), 1))
		s := analysis.New(text, analysis.Options{})
		for range 3 {
			s = s.With(edited(r, s.Manuscript().Text))
			if r.IntN(3) > 0 {
				sameHearing(t, s)
			}
		}
	}
}

// FuzzWith types whatever it is told to.
func FuzzWith(f *testing.F) {
	f.Add(manuscripts.Long(12, 3), uint64(1))
	f.Add("The goat took the lamp,\nthe goat took the light.\n\n“Oh, very so nice,\nit was all right.", uint64(2))
	f.Fuzz(func(t *testing.T, text string, seed uint64) {
		if len(text) > 1500 || !utf8.ValidString(text) {
			t.Skip()
		}
		r := rand.New(rand.NewPCG(seed, 2))
		s := analysis.New(text, analysis.Options{})
		s.Findings()
		for range 3 {
			s = s.With(edited(r, s.Manuscript().Text))
			sameHearing(t, s)
		}
	})
}
