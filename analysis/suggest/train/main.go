// Train learns how suggest ranks the words that could end a line.
//
//	go run ./analysis/suggest/train -data FILE
//
// FILE has one stanza a row, as JSON: {"poet","poem","lines":[…],"scheme":[0,1,…]},
// lines with the same number rhyming. The weights in the repository were learned
// from the Chicago Rhyming Poetry Corpus (Sonderegger; Reddy and Knight 2011),
// public-domain verse with rhyme schemes by hand, which is no part of the
// repository. The poets named by -keep are kept back as a test.
package main

import (
	"flag"
	"fmt"
	"os"
	"strings"

	"dandle/analysis/suggest/taste"
)

func main() {
	if err := run(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, "train:", err)
		os.Exit(1)
	}
}

func run(args []string) error {
	flags := flag.NewFlagSet("train", flag.ExitOnError)
	data := flags.String("data", "", "stanzas with their schemes, one a row")
	keep := flags.String("keep", "housman,kipling", "poets to keep back, parted by commas")
	out := flags.String("o", "analysis/suggest/taste/weights.bin", "file to write")
	how := taste.Training{Seed: 1}
	flags.IntVar(&how.Epochs, "epochs", 8, "times that the data is gone through")
	flags.Float64Var(&how.Rate, "rate", 0.01, "of learning")
	flags.Float64Var(&how.Decay, "decay", 0.0003, "of the weights towards 0")
	if err := flags.Parse(args); err != nil {
		return err
	}
	stanzas, err := read(*data)
	if err != nil {
		return fmt.Errorf("read stanzas: %w", err)
	}
	learnt, kept := study(stanzas, strings.Split(*keep, ","))
	m, mean := taste.Train(learnt.examples, how)
	fmt.Printf("%v; log-likelihood %.3f\n", learnt, mean)
	fmt.Printf("kept back: %v; %s\n", kept, kept.score(m))
	return os.WriteFile(*out, m.Bytes(), 0o644)
}
