// Train learns the weights of the scansion from hand-scanned verse.
//
//	go run ./analysis/scansion/train -data FILE
//
// FILE has one poem a row, as JSON: {"set","id","title","foot","length",
// "lines":[{"text","pattern","stanza","beats"}]}. The weights in the repository
// were learned from the hand scansions gathered by T. Haider, Metrical Tagging
// in the Wild (EACL 2021, doi 10.18653/v1/2021.eacl-main.325); the data itself
// is no part of the repository. One poem in five, by the hash of its title, is
// kept back as a test.
package main

import (
	"fmt"
	"os"
)

func main() {
	if err := trainEar(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, "train:", err)
		os.Exit(1)
	}
}
