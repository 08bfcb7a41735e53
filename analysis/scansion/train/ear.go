package main

import (
	"flag"
	"fmt"
	"os"

	"dandle/analysis/scansion"
	"dandle/analysis/scansion/ear"
	"dandle/phonetics"
)

// trainEar learns how much each syllable wants a beat, and each meter's gaps.
func trainEar(args []string) error {
	flags := flag.NewFlagSet("train", flag.ExitOnError)
	data := flags.String("data", "", "hand-scanned poems, one a row")
	all := flags.Bool("all", false, "keep no poem back")
	cross := flags.Bool("cross", false, "train once for each fifth kept back; write nothing")
	out := flags.String("o", "analysis/scansion/ear/weights.go", "file to write")
	how := ear.Training{Seed: 1}
	flags.IntVar(&how.Epochs, "epochs", 10, "times that the data is gone through")
	flags.Float64Var(&how.Rate, "rate", 0.15, "of learning")
	flags.Float64Var(&how.Decay, "decay", 0.002, "of the weights towards 0")
	if err := flags.Parse(args); err != nil {
		return err
	}
	poems, err := read(*data)
	if err != nil {
		return fmt.Errorf("read poems: %w", err)
	}
	examples := make([][]ear.Example, folds)
	for _, p := range poems {
		examples[p.fold()] = append(examples[p.fold()], p.examples()...)
	}
	train := func(without int) *ear.Model {
		var part []ear.Example
		for f := range folds {
			if f != without {
				part = append(part, examples[f]...)
			}
		}
		m, ll := ear.Train(part, how)
		fmt.Printf("without part %d: %d lines, log-likelihood %.3f\n", without, len(part), ll)
		return m
	}
	if *cross {
		var sum tally
		for f := range folds {
			part := score(train(f), examples[f])
			fmt.Printf("  kept part: %v\n", part)
			sum.add(part)
		}
		fmt.Printf("all: %v\n", sum)
		return nil
	}
	kept := 0
	if *all {
		kept = -1
	}
	return os.WriteFile(*out, train(kept).Source(), 0o644)
}

// A tally counts what was read right.
type tally struct{ right, syllables, exact, lines int }

func (t *tally) add(o tally) {
	t.right, t.syllables, t.exact, t.lines = t.right+o.right, t.syllables+o.syllables, t.exact+o.exact, t.lines+o.lines
}

func (t tally) String() string {
	return fmt.Sprintf("%.2f %% of %d syllables, %.2f %% of %d lines", 100*float64(t.right)/float64(t.syllables), t.syllables,
		100*float64(t.exact)/float64(t.lines), t.lines)
}

// score reads lines whose foot and length are given.
func score(m *ear.Model, examples []ear.Example) (t tally) {
	for _, e := range examples {
		if !e.HasFoot {
			continue
		}
		l, ok := ear.NewLine(e.Words)
		t.lines++
		t.syllables += len(e.Beats)
		if !ok {
			continue
		}
		w := m.Weigh(&l)
		best := ear.Reading{Score: -1e9}
		for b := 1; b <= ear.MaxBeats; b++ {
			if r, ok := w.Read(e.Foot, b); ok {
				if e.Wanted > 0 {
					r.Score += m.LengthCost(b, e.Wanted)
				}
				if r.Score > best.Score {
					best = r
				}
			}
		}
		if len(best.Beats) != len(e.Beats) {
			continue
		}
		good := 0
		for i := range e.Beats {
			if best.Beats[i] == e.Beats[i] {
				good++
			}
		}
		t.right += good
		if good == len(e.Beats) {
			t.exact++
		}
	}
	return t
}

// examples reads the poem's lines as a manuscript's.
func (p poem) examples() []ear.Example {
	m, index := p.manuscript(p.texts())
	words := scansion.Words(m, phonetics.NewReader(phonetics.EnUS, nil))
	wanted := p.wanted()
	var list []ear.Example
	for k, i := range index {
		if p.Lines[i].Pattern == "" {
			continue
		}
		e := ear.Example{Words: words[k], Weight: 1, Wanted: wanted[i]}
		e.Foot, e.HasFoot = feet[p.Foot]
		for _, c := range p.Lines[i].Pattern {
			e.Beats = append(e.Beats, c == '/')
		}
		list = append(list, e)
	}
	return list
}
