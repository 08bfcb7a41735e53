package graphone

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"dandle/phonetics/arpabet"
)

func TestLetters(t *testing.T) {
	for word, want := range map[string]string{
		"Lantern":     "lantern",
		"ÉTÉ":         "ete",
		"o’er":        "o'er",
		"snow-soft":   "snow-soft",
		"Łódź":        "lodz",
		"St.":         "st.",
		"4 \xff ☃":    "",
		"naïve\u00a0": "naive",
	} {
		if diff := cmp.Diff(want, spelling(Letters(word))); diff != "" {
			t.Errorf("%q (-want +got)\n%s", word, diff)
		}
	}
}

// TestTableKeepsWeights packs weights and reads each back within half a step.
func TestTableKeepsWeights(t *testing.T) {
	var weights []Weight
	for i := range 5000 {
		weights = append(weights, Weight{mix(uint64(i), 7, 9), uint8(i % MaxOutputs), float32(i%255-127) / 30})
	}
	want := map[Key]Weight{}
	for _, w := range weights {
		want[w.Key] = w
	}
	table, err := openTable(string(Pack(weights)))
	if err != nil {
		t.Fatal(err)
	}
	strangers := 0
	for k, w := range want {
		var scores [MaxOutputs]int32
		table.addAll(&scores, []Key{k})
		if got := float32(scores[w.Output]) * table.step; math.Abs(float64(got-w.Value)) > float64(table.step)/2+1e-6 {
			strangers++ // a neighbour in the bucket has the same check bits
		}
	}
	if strangers > len(want)/50 {
		t.Errorf("%d of %d weights do not read back", strangers, len(want))
	}
}

// TestReadingsShareOne: the probabilities of a letter's outputs add up to 1.
func TestReadingsShareOne(t *testing.T) {
	r := tiny(t)
	s := searching(r.forward, NewWord(Letters("abba")))
	for i := range 4 {
		sum := 0.0
		e := s.expand(i, Start())
		for o := range r.inventory[s.w.letters[i]] {
			sum += math.Exp(float64(e.logProbs[o]))
		}
		if math.Abs(sum-1) > 1e-5 {
			t.Errorf("letter %d: the probabilities add up to %v", i, sum)
		}
	}
}

// TestBeamAgreesWithLogProb: a reading's probability is the same whether it is
// found or given.
func TestBeamAgreesWithLogProb(t *testing.T) {
	r := tiny(t)
	for _, p := range searching(r.forward, NewWord(Letters("abbaba"))).beam(Wide) {
		if got := searching(r.forward, NewWord(Letters("abbaba"))).logProb(p.Outputs); math.Abs(float64(got-p.LogProb)) > 1e-5 {
			t.Errorf("%v: %v in the beam, %v given", p.Outputs, p.LogProb, got)
		}
	}
}

// tinyPacked is a reader of two letters whose weights are made up.
func tinyPacked() []byte {
	var inv Inventory
	for l := range inv {
		inv[l] = []arpabet.Sounds{""}
	}
	a := Letters("a")[0]
	b := Letters("b")[0]
	inv[a] = []arpabet.Sounds{
		arpabet.Sounds([]byte{byte(arpabet.Make(arpabet.AA, arpabet.Primary))}),
		arpabet.Sounds([]byte{byte(arpabet.Make(arpabet.AH, arpabet.Unstressed))}),
	}
	inv[b] = []arpabet.Sounds{arpabet.Sounds([]byte{byte(arpabet.Make(arpabet.B, arpabet.Unstressed))}), ""}
	var weights []Weight
	w := NewWord(Letters("abbaba"))
	for i := range w.Len() {
		for j, k := range w.LetterFeatures(nil, i) {
			if k != 0 {
				weights = append(weights, Weight{k, uint8(j % 2), float32(j%5) / 4})
			}
		}
	}
	return PackReader(&inv, Pack(weights), Pack(weights), nil)
}

func tiny(t *testing.T) *Reader {
	t.Helper()
	r, err := OpenReader(string(tinyPacked()))
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// FuzzOpenReader: broken weights are refused or opened, with no panic.
func FuzzOpenReader(f *testing.F) {
	packed := tinyPacked()
	f.Add(string(packed))
	f.Add(string(packed[:len(packed)/2]))
	f.Add(magic)
	f.Fuzz(func(t *testing.T, packed string) {
		if len(packed) > 1<<20 {
			return
		}
		if _, err := OpenReader(packed); err != nil {
			t.Skip()
		}
	})
}

func searching(m *Model, w *Word) *search {
	s := new(search)
	s.begin(m, w)
	return s
}
