package lexicon

import (
	"slices"
	"strings"
	"testing"

	"dandle/phonetics/arpabet"
)

func TestLookup(t *testing.T) {
	for word, want := range map[string]string{
		"lighthouse": "L AY1 T HH AW2 S",
		"every":      "EH1 V ER0 IY0, EH1 V R IY0",
		"for":        "F AO1 R, F ER0",
		"taoiseach":  "T IY1 SH AH0 K", // a comment leaks into the source's entry
		"qzx":        "",
		"":           "",
	} {
		var got []string
		for _, s := range Lookup(word).All() {
			got = append(got, s.String())
		}
		if joined := strings.Join(got, ", "); joined != want {
			t.Errorf("Lookup(%q) = %q, want %q", word, joined, want)
		}
	}
}

func TestAllFindsItself(t *testing.T) {
	n, last := 0, ""
	for word, e := range All() {
		if n++; word <= last {
			t.Fatalf("%q follows %q", word, last)
		}
		last = word
		if got := Lookup(word); got.Len() != e.Len() || e.Len() == 0 || got.At(0) != e.At(0) {
			t.Fatalf("Lookup(%q) disagrees with All", word)
		}
	}
	if n != Len() {
		t.Errorf("All yields %d words of %d", n, Len())
	}
}

func TestEndingInFindsWhatAFullSearchFinds(t *testing.T) {
	for _, text := range []string{"UW1 N", "AE1 T ER0", "OW2 T", "EH1 N D", "AO1 R AH0 JH", "ZH AH0 N"} {
		tail, err := arpabet.Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		var want, got []string
		for word, e := range All() {
			for _, s := range e.All() {
				if strings.HasSuffix(string(s), string(tail)) {
					want = append(want, word)
				}
			}
		}
		for word := range EndingIn(tail) {
			got = append(got, word)
		}
		slices.Sort(got)
		if !slices.Equal(got, want) || len(got) < 2 {
			t.Errorf("EndingIn(%s) finds %d words, a full search %d", text, len(got), len(want))
		}
	}
}

func BenchmarkLookup(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		Lookup("lighthouse")
	}
}

func BenchmarkEndingIn(b *testing.B) {
	tail := Lookup("moon").At(0)[1:]
	b.ReportAllocs()
	for b.Loop() {
		for range EndingIn(tail) {
		}
	}
}
