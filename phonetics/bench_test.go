package phonetics

import "testing"

// BenchmarkPronounce says words that are not remembered; the guess of a word's
// letters is.
func BenchmarkPronounce(b *testing.B) {
	r := NewReader(EnUS, nil)
	gb := NewReader(EnGB, nil)
	for _, bench := range []struct {
		name, word string
		reader     *Reader
	}{
		{"monosyllable", "moon", r},
		{"function", "and", r},
		{"dictionary", "lighthouse", r},
		{"capital", "Lantern", r},
		{"loosened", "wandering", r},
		{"inflected", "hedgehoggish", r},
		{"compound", "moonmoth", r},
		{"elision", "wand’ring", r},
		{"british", "lantern", gb},
		{"stretched", "whoooosh", r},
		{"guessed", "grommish", r},
		{"guessed long", "wibbleflopsticated", r},
	} {
		b.Run(bench.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				bench.reader.pronounce(bench.word, &surroundings{})
			}
		})
	}
}
