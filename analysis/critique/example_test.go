package critique_test

import (
	"fmt"

	"dandle/analysis/critique"
	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"
)

func ExampleWrite() {
	letter := critique.Write(critique.Parts{
		Manuscript: manuscript.Parse("# The Kite\n\n> Begin with the wind.\n"),
		Poem:       &scansion.Poem{},
	}, critique.Full)
	fmt.Println(letter.Title)
	for _, s := range letter.Sections {
		fmt.Println("-", s.Heading)
	}
	// Output:
	// The Kite
	// - No verse yet
	// - From the reviewer’s own pencil
}
