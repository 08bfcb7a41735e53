package memo_test

import (
	"testing"

	"dandle/analysis/memo"
)

func TestForgetsAfterTwoGenerations(t *testing.T) {
	var m memo.Memo[int]
	made := 0
	get := func(key string) int {
		return m.Get(key, func() int { made++; return len(key) })
	}
	get("line")
	if v := get("line"); v != 4 || made != 1 {
		t.Errorf("got %d, made %d times; want 4, once", v, made)
	}
	m.Age()
	get("line") // asked for again, so it lives on
	m.Age()
	get("line")
	if made != 1 {
		t.Errorf("made %d times while it was asked for each time", made)
	}
	m.Age()
	m.Age()
	get("line")
	if made != 2 {
		t.Errorf("made %d times; want it forgotten after two generations without", made)
	}
}
