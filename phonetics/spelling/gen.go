//go:build ignore

// Gen trains the reader on nine tenths of the dictionary and writes its
// weights. The last tenth, which train.HeldOut names, it only scores. The same
// dictionary and settings give the same bytes, whatever the number of
// processors; on one it takes about ten minutes and 2 GB.
//
//	go run gen.go -o weights.bin      train, write, score
//	go run gen.go -check weights.bin  train; fail if these weights would change
//	go run gen.go -dev                train on eight tenths and score the ninth,
//	                                  for whoever tunes a setting
package main

import (
	"bytes"
	"flag"
	"fmt"
	"log"
	"os"

	"dandle/phonetics/lexicon"
	"dandle/phonetics/spelling/internal/graphone"
	"dandle/phonetics/spelling/internal/train"
)

func main() {
	log.SetFlags(log.Ltime)
	out := flag.String("o", "", "write the weights to this `file`")
	check := flag.String("check", "", "compare the weights with this `file`")
	dev := flag.Bool("dev", false, "keep one more tenth from training, and score that")
	s := train.Standard()
	flag.IntVar(&s.Models.Most, "most", s.Models.Most, "how many weights each model may keep")
	flag.Parse()
	s.Log = log.Printf

	if *check != "" {
		checkSource(*check)
	}
	known, scored := train.Known, train.HeldOut
	if *dev {
		known = func(word string) bool { return train.Known(word) && !train.Tuning(word) }
		scored = train.Tuning
	}
	weights, err := train.Reader(lexicon.All(), known, s)
	if err != nil {
		log.Fatal(err)
	}
	for _, with := range []struct {
		name string
		kin  bool
	}{{"letters alone", false}, {"letters and kin", true}} {
		score, err := train.Evaluate(string(weights), known, scored, with.kin)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("%s: %v\n", with.name, score)
	}
	if *out != "" {
		if err := os.WriteFile(*out, weights, 0o644); err != nil {
			log.Fatal(err)
		}
	}
	if *check != "" {
		stands, err := os.ReadFile(*check)
		if err != nil {
			log.Fatal(err)
		}
		if !bytes.Equal(stands, weights) {
			log.Fatalf("%s is not what training gives", *check)
		}
	}
}

// checkSource spares a training that could only fail.
func checkSource(name string) {
	b, err := os.ReadFile(name)
	if err != nil {
		log.Fatal(err)
	}
	r, err := graphone.OpenReader(string(b))
	if err != nil {
		log.Fatal(err)
	}
	if r.Source() != train.Digest(train.Examples(lexicon.All(), train.Known)) {
		log.Fatalf("the dictionary has changed since %s was trained: run go generate", name)
	}
}
