package suggest_test

import (
	"os"
	"slices"
	"strings"
	"testing"

	"dandle/analysis/suggest"
)

// The record on testdata/endings.txt, which may not fall: places where the
// first word offered could be used as it is, and where one of the first five
// could.
const (
	usableFirst = 13
	usableFive  = 17
)

// TestEndings holds what is offered at line ends to what was judged by eye. A
// word that nobody has judged counts as not usable.
func TestEndings(t *testing.T) {
	data, err := os.ReadFile("testdata/endings.txt")
	if err != nil {
		t.Fatal(err)
	}
	verses := strings.Split(string(data), "\n---\n")[1:]
	first, five := 0, 0
	for _, verse := range verses {
		text, judged, _ := strings.Cut(verse, "\nusable: ")
		usable := strings.Split(strings.TrimSpace(judged), ", ")
		offered := texts(suggest.At(place(text+"\n")).Items, 5)
		isUsable := func(word string) bool { return slices.Contains(usable, word) }
		if len(offered) > 0 && isUsable(offered[0]) {
			first++
		}
		if slices.ContainsFunc(offered, isUsable) {
			five++
		} else {
			t.Logf("%s: %v", text[strings.LastIndexByte(text, '\n')+1:], offered)
		}
	}
	t.Logf("of %d places the first word is usable in %d, one of the first five in %d", len(verses), first, five)
	if first < usableFirst || five < usableFive {
		t.Errorf("the first word is usable in %d places, one of the first five in %d; want %d and %d at least", first, five, usableFirst, usableFive)
	}
}
