package ear

import (
	"math"
	"testing"

	"dandle/analysis/manuscript"
	"dandle/phonetics"
	"dandle/phonetics/grammar"
)

// words reads a line of verse without looking at its neighbours.
func words(t testing.TB, text string) []Word {
	t.Helper()
	m := manuscript.Parse(text + "\n")
	if len(m.Lines) != 1 {
		t.Fatalf("%q is not one line of verse", text)
	}
	r := phonetics.NewReader(phonetics.EnUS, nil)
	var tokens []grammar.Token
	for _, w := range m.Lines[0].Words {
		tokens = append(tokens, grammar.Token{Text: w.Text})
	}
	var list []Word
	for i, tag := range grammar.Tags(tokens) {
		w := m.Lines[0].Words[i]
		list = append(list, Word{Word: w, Tag: tag, Ways: r.Pronounce(w.Text, phonetics.Context{Tag: tag})})
	}
	return list
}

var samples = []string{
	"The harbour was silver, the harbour was wide,",
	"Every flower in the family chocolate jar",
	"th'",
	"Oh!",
	"A slow, low, long note; then the hour of a fiery power",
}

// Scores and Read go two ways to the same numbers.
func TestScoresAreThoseOfReadings(t *testing.T) {
	m := Learned()
	for _, text := range samples {
		list := words(t, text)
		l, ok := NewLine(list)
		if !ok {
			continue
		}
		w := m.Weigh(&l)
		scores := w.Scores()
		for foot := range FootCount {
			for b := range MaxBeats + 1 {
				r, ok := w.Read(foot, b)
				if s := scores[foot][b]; ok != Possible(s) || ok && math.Abs(float64(r.Score-s)) > 1e-3 {
					t.Errorf("%q, foot %d, %d beats: score %v, reading %v (%v)", text, foot, b, s, r.Score, ok)
				}
				n := 0
				for _, beat := range r.Beats {
					if beat {
						n++
					}
				}
				if ok && n != b {
					t.Errorf("%q: a reading with %d beats, want %d", text, n, b)
				}
			}
		}
	}
}

// The gradient that training follows is that of the likelihood: it is compared
// with differences of the likelihood itself.
func TestGradient(t *testing.T) {
	list := words(t, "Every harbour was silver and wide,")
	l, _ := NewLine(list)
	e := Example{Words: list, Foot: Anapestic, HasFoot: true, Wanted: 3}
	for _, c := range "/x/xx/xx/" { // ev'ry harbour was silver and wide
		e.Beats = append(e.Beats, c == '/')
	}
	tr := &trainer{w: prior()}
	if _, ok := tr.gradient(&l, &e); !ok {
		t.Fatal("the scansion is impossible")
	}
	checked := 0
	for _, f := range append([]int(nil), tr.touched...) {
		const step = 1e-5
		g := tr.g[f]
		other := &trainer{w: tr.w}
		other.w[f] += step
		up, _ := other.gradient(&l, &e)
		other = &trainer{w: tr.w}
		other.w[f] -= step
		down, _ := other.gradient(&l, &e)
		if d := (up - down) / (2 * step); math.Abs(d-g) > 1e-4*(1+math.Abs(d)) {
			t.Errorf("%s: gradient %v, difference %v", featureName(f), g, d)
		}
		checked++
	}
	if checked < 50 {
		t.Errorf("only %d features touched", checked)
	}
}

func TestEveryFeatureHasAName(t *testing.T) {
	seen := map[string]int{}
	for i := range featureCount {
		name := featureName(i)
		if other, twice := seen[name]; name == "" || twice {
			t.Errorf("features %d and %d are both called %q", other, i, name)
		}
		seen[name] = i
	}
	if len(closed) != closedSize || len(closedLong) != closedLongSize {
		t.Errorf("closed lists of %d and %d words, laid out for %d and %d", len(closed), len(closedLong), closedSize, closedLongSize)
	}
}

func BenchmarkScores(b *testing.B) {
	list := words(b, samples[0])
	l, _ := NewLine(list)
	w := Learned().Weigh(&l)
	b.ReportAllocs()
	for b.Loop() {
		w.Scores()
	}
}

func BenchmarkRead(b *testing.B) {
	list := words(b, samples[0])
	l, _ := NewLine(list)
	w := Learned().Weigh(&l)
	b.ReportAllocs()
	for b.Loop() {
		w.Read(Amphibrachic, 4)
	}
}
