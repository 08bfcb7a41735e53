package spelling_test

import (
	"fmt"

	"dandle/phonetics/spelling"
)

// A word that no dictionary has: the best guess comes first.
func ExampleGuess() {
	for _, r := range spelling.Guess("snufflewump", 1) {
		fmt.Println(r.Sounds)
		fmt.Println(r.Sounds.SyllableCount(), "syllables")
	}
	// Output:
	// S N AH1 F AH0 L W AH2 M P
	// 3 syllables
}
