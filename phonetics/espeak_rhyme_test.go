package phonetics

import (
	"os/exec"
	"strings"
	"testing"
)

// rhymePairs are pairs that rhyme in Southern British and not in General
// American, or the other way round, by the features that part the two (Wells,
// Accents of English, 1982, from memory): no r but before a vowel, the vowel of
// "bath", that of "lot", and single words.
var rhymePairs = []struct {
	a, b              string
	british, american bool
}{
	{"path", "hearth", true, false},
	{"fast", "vast", true, true},
	{"farther", "father", true, false},
	{"dawn", "born", true, false},
	{"sauce", "horse", true, false},
	{"spa", "star", true, false},
	{"comma", "hammer", false, false},
	{"panda", "veranda", true, true},
	{"last", "massed", false, true},
	{"dance", "romance", false, true},
	{"calm", "bomb", false, true},
	{"tuna", "lunar", true, false},
	{"saw", "four", true, false},
	{"caught", "court", true, false},
	{"glass", "mass", false, true},
	{"rather", "gather", false, true},
	{"vase", "face", false, true},
	{"clerk", "park", true, false},
}

// TestBritishRhymesAgreeWithEspeak asks espeak-ng's two English voices which of
// the pairs rhyme, and compares what our readings say.
func TestBritishRhymesAgreeWithEspeak(t *testing.T) {
	if _, err := exec.LookPath("espeak-ng"); err != nil {
		t.Skip("espeak-ng is not installed (Debian: espeak-ng)")
	}
	var words []string
	for _, p := range rhymePairs {
		words = append(words, p.a, p.b)
	}
	for _, d := range []struct {
		dialect Dialect
		voice   string
		column  int
	}{{EnUS, "en-us", 0}, {EnGB, "en-gb", 1}} {
		said := espeakSays(t, d.voice, words)
		reader := NewReader(d.dialect, nil)
		agreed := 0
		for i, p := range rhymePairs {
			theirs := rime(fromEspeakStressed(t, said[2*i], d.column)) == rime(fromEspeakStressed(t, said[2*i+1], d.column))
			ours := false
			for _, x := range reader.Pronounce(p.a, Context{}) {
				for _, y := range reader.Pronounce(p.b, Context{}) {
					ours = ours || rimeOf(x.Sounds) == rimeOf(y.Sounds)
				}
			}
			want := p.american
			if d.dialect == EnGB {
				want = p.british
			}
			if ours != want {
				t.Errorf("%v: %s and %s rhyme: %v, want %v", d.dialect, p.a, p.b, ours, want)
			}
			if ours == theirs {
				agreed++
			} else {
				t.Logf("%v: %s and %s rhyme: %v for us, %v for the voice", d.dialect, p.a, p.b, ours, theirs)
			}
		}
		t.Logf("%v: the voice agrees on %d of %d pairs", d.dialect, agreed, len(rhymePairs))
		if agreed*10 < len(rhymePairs)*8 {
			t.Errorf("%v: the voice agrees on %d of %d pairs only", d.dialect, agreed, len(rhymePairs))
		}
	}
}

// espeakSays is what a voice makes of each word, in its mnemonics.
func espeakSays(t *testing.T, voice string, words []string) []string {
	t.Helper()
	cmd := exec.Command("espeak-ng", "-q", "-x", "--sep=_", "-v", voice, "--stdin")
	cmd.Stdin = strings.NewReader(strings.Join(words, ".\n") + ".\n")
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(string(out)), "\n")
	if len(lines) != len(words) {
		t.Fatalf("%d answers to %d words", len(lines), len(words))
	}
	return lines
}

// fromEspeakStressed is a word as the comparison sees it, from its last
// stressed vowel on: the voice writes ' before it.
func fromEspeakStressed(t *testing.T, line string, column int) string {
	t.Helper()
	if i := strings.LastIndex(line, "'"); i >= 0 {
		return fromEspeak(t, line[i:], column)
	}
	return fromEspeak(t, line, column)
}

// rimeOf is a reading from its main stress on, as the comparison sees it.
func rimeOf(s Sounds) string {
	for i := range len(s) {
		if v := s.At(i); v.IsVowel() && (v.Stress() == 1 || s.SyllableCount() == 1) {
			return weakless(s[i:])
		}
	}
	return weakless(s)
}

// rime cuts the consonants before the first vowel off.
func rime(names string) string {
	list := strings.Fields(names)
	for i, name := range list {
		if vowelCount(name) > 0 {
			return strings.Join(list[i:], " ")
		}
	}
	return names
}
