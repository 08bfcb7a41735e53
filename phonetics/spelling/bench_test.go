package spelling

import "testing"

func BenchmarkGuess(b *testing.B) {
	var words []string
	for word := range heldOutSplit {
		words = append(words, word)
	}
	b.ReportAllocs()
	i := 0
	for b.Loop() {
		Guess(words[i*7919%len(words)], 1)
		i++
	}
}
