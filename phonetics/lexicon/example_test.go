package lexicon_test

import (
	"fmt"

	"dandle/phonetics/arpabet"
	"dandle/phonetics/lexicon"
)

func ExampleLookup() {
	for i, sounds := range lexicon.Lookup("toward").All() {
		fmt.Println(i, sounds)
	}
	// Output:
	// 0 T AH0 W AO1 R D
	// 1 T AO1 R D
}

// Rhymes end in the same sounds from the stressed vowel on.
func ExampleEndingIn() {
	tail, _ := arpabet.Parse("AE1 N T ER0 N")
	for word, sounds := range lexicon.EndingIn(tail) {
		fmt.Println(word, sounds)
	}
	// Output:
	// lantern L AE1 N T ER0 N
}
