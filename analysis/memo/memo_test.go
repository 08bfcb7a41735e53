package memo_test

import (
	"strconv"
	"testing"

	"dandle/analysis/memo"
)

func TestRemembersWhatIsAskedFor(t *testing.T) {
	var m memo.Memo[int]
	made := 0
	get := func(key string) int {
		return m.Get([]byte(key), func() int { made++; return len(key) })
	}
	get("line")
	for range 10 {
		if v := get("line"); v != 4 || made != 1 {
			t.Fatalf("got %d, made %d times; want 4, once", v, made)
		}
		m.Age()
	}
}

// TestForgetsWhatIsNotAskedFor asks for a text once and for another ever after,
// with a key of its own in each generation, as typing does.
func TestForgetsWhatIsNotAskedFor(t *testing.T) {
	var m memo.Memo[int]
	made := 0
	ask := func(key string) { m.Get([]byte(key), func() int { made++; return 0 }) }
	for i := range 1000 {
		ask("old " + strconv.Itoa(i))
	}
	for i := range 1000 {
		m.Age()
		ask("new")
		ask("typed " + strconv.Itoa(i))
	}
	if made != 2001 {
		t.Errorf("made %d values; want each of 2001 once", made)
	}
	made = 0
	for i := range 1000 {
		ask("old " + strconv.Itoa(i))
	}
	for i := range 999 {
		ask("typed " + strconv.Itoa(i))
	}
	if made < 1900 {
		t.Errorf("%d of 1999 values were forgotten; want nearly all", made)
	}
}
