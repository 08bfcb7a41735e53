//go:build ignore

// Gen trains the reader on nine tenths of the dictionary and writes its
// weights. The last tenth, which train.HeldOut names, it only scores.
//
//	go run gen.go -o weights.bin     train and write
//	go run gen.go -score weights.bin score weights that stand
package main

import (
	"flag"
	"fmt"
	"log"
	"os"
	"sync"
	"time"

	"dandle/phonetics/arpabet"
	"dandle/phonetics/lexicon"
	"dandle/phonetics/spelling/internal/graphone"
	"dandle/phonetics/spelling/internal/train"
)

func main() {
	log.SetFlags(log.Ltime)
	out := flag.String("o", "", "write the weights to this `file`")
	dev := flag.Bool("dev", false, "tune: hold out one more tenth, and score that")
	dump := flag.String("dump", "", "")
	score := flag.String("score", "", "score the weights in this `file`")
	var o train.Options
	rate, sparse, shrink := flag.Float64("rate", 0.1, ""), flag.Float64("sparse", 0.2, ""), flag.Float64("shrink", 1, "")
	flag.IntVar(&o.Rounds, "rounds", 6, "")
	flag.IntVar(&o.Settle, "settle", 2, "")
	flag.IntVar(&o.Most, "most", 310000, "")
	flag.IntVar(&o.AtLeast, "atleast", 2, "")
	flag.Parse()
	o.Rate, o.Sparse, o.Shrink = float32(*rate), float32(*sparse), float32(*shrink)
	o.Log = log.Printf

	var packed []byte
	if *score != "" {
		b, err := os.ReadFile(*score)
		if err != nil {
			log.Fatal(err)
		}
		packed = b
	} else {
		packed = learn(o, *dev)
	}
	if *out != "" {
		if err := os.WriteFile(*out, packed, 0o644); err != nil {
			log.Fatal(err)
		}
	}
	r, err := graphone.OpenReader(string(packed))
	if err != nil {
		log.Fatal(err)
	}
	var s, oracle train.Score
	var dumpFile *os.File
	if *dump != "" {
		dumpFile, _ = os.Create(*dump)
	}
	start := time.Now()
	for word, entries := range lexicon.All() {
		if *dev && train.Part(word) != 1 || !*dev && !train.HeldOut(word) {
			continue
		}
		var answers []arpabet.Sounds
		for _, a := range entries.All() {
			answers = append(answers, a)
		}
		guess := arpabet.Sounds("")
		list := r.Read(graphone.Letters(word))
		if len(list) > 0 {
			guess = list[0].Sounds
		}
		var best train.Score
		for _, g := range list {
			var t train.Score
			t.Add(g.Sounds, answers)
			best.Right, best.RightSounds, best.RightMain, best.RightCount = max(best.Right, t.Right), max(best.RightSounds, t.RightSounds), max(best.RightMain, t.RightMain), max(best.RightCount, t.RightCount)
		}
		oracle.Words++
		oracle.Right += best.Right
		oracle.RightSounds += best.RightSounds
		oracle.RightMain += best.RightMain
		oracle.RightCount += best.RightCount
		if *dump != "" {
			fmt.Fprintf(dumpFile, "%s\t%v\t", word, answers)
			for _, g := range list {
				fmt.Fprintf(dumpFile, "%v %.2f; ", g.Sounds, g.LogProb)
			}
			fmt.Fprintln(dumpFile)
		}
		s.Add(guess, answers)
	}
	fmt.Printf("%d bytes, %d words, %v a word\n", len(packed), s.Words, time.Since(start)/time.Duration(s.Words))
	fmt.Printf("phone error %.2f  word error %.2f  with stress %.2f  syllable count %.2f  main stress %.2f\n",
		s.PhoneError(), s.WordError(), s.StressedWordError(), s.SyllableCount(), s.MainStress())
	oracle.Polysyllables = s.Polysyllables
	fmt.Printf("oracle word error %.2f with stress %.2f count %.2f main %.2f\n", oracle.WordError(), oracle.StressedWordError(), oracle.SyllableCount(), oracle.MainStress())
}

func learn(o train.Options, dev bool) []byte {
	var examples []train.Example
	for word, entries := range lexicon.All() {
		if train.HeldOut(word) || dev && train.Part(word) == 1 {
			continue
		}
		for _, s := range entries.All() {
			examples = append(examples, train.Example{Word: word, Sounds: s, Weight: 1 / float32(entries.Len())})
		}
	}
	aligned, inv := train.Align(examples)
	most := 0
	for _, list := range inv {
		most = max(most, len(list))
	}
	log.Printf("%d of %d examples aligned, at most %d outputs", len(aligned), len(examples), most)
	var forward, backward []byte
	var both sync.WaitGroup
	both.Go(func() { forward = graphone.Pack(train.Fit(aligned, inv, o)) })
	both.Go(func() { backward = graphone.Pack(train.Fit(train.Reverse(aligned), inv.Reversed(), o)) })
	both.Wait()
	return graphone.PackReader(inv, forward, backward)
}
