package main

import (
	"errors"
	"slices"
	"sync/atomic"
	"testing"
)

func TestInOrderKeepsTheOrder(t *testing.T) {
	for _, n := range []int{0, 1, 2, 100} {
		var got []int
		err := inOrder(n, func(i int) int { return i * i }, func(v int) error {
			got = append(got, v)
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
		var want []int
		for i := range n {
			want = append(want, i*i)
		}
		if !slices.Equal(got, want) {
			t.Errorf("of %d: got %v", n, got)
		}
	}
}

func TestInOrderEndsAtTheFirstError(t *testing.T) {
	full := errors.New("disk full")
	var worked atomic.Int32
	err := inOrder(1_000_000, func(i int) int { worked.Add(1); return i }, func(i int) error {
		if i == 3 {
			return full
		}
		return nil
	})
	if !errors.Is(err, full) {
		t.Errorf("got %v", err)
	}
	if worked.Load() > 1000 {
		t.Errorf("%d pieces of work done for nothing", worked.Load())
	}
}
