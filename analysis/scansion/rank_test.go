package scansion

import (
	"math/rand/v2"
	"slices"
	"testing"
)

func TestRankedIsWhatSortingGives(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	for range 500 {
		list := make([]float64, 1+r.IntN(40))
		for i := range list {
			list[i] = float64(r.IntN(1 + r.IntN(20)))
		}
		sorted := slices.Sorted(slices.Values(list))
		k := r.IntN(len(list))
		if got := ranked(slices.Clone(list), k); got != sorted[k] {
			t.Fatalf("place %d of %v is %v, want %v", k, list, got, sorted[k])
		}
	}
}
