//go:build ignore

// Gen learns the ear's weights from hand-scanned verse and writes weights.go.
//
//	go run gen.go -data FILE [-all] [-folds N]
//
// FILE has one poem a row, as JSON: {"set","id","title","foot","lines":[{"text",
// "pattern","stanza","beats"}]}. The weights in the repository were learned from
// the hand scansions gathered by T. Haider, Metrical Tagging in the Wild (EACL
// 2021, doi 10.18653/v1/2021.eacl-main.325): the data itself is no part of the
// repository. One poem in five, by the hash of its title, is kept for testing
// unless -all is given; -folds trains N times, each time without another fifth.
package main

import (
	"bufio"
	"encoding/json"
	"flag"
	"fmt"
	"hash/fnv"
	"log"
	"os"
	"regexp"
	"strings"

	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"
	"dandle/analysis/scansion/ear"
	"dandle/phonetics"
)

type poem struct {
	Set, ID, Title, Foot, Length string
	Lines                        []struct {
		Text, Pattern string
		Stanza, Beats int
	}
}

const folds = 5

// fold is the part of the data that a poem belongs to.
func (p poem) fold() int {
	h := fnv.New32a()
	h.Write([]byte(p.Title + p.ID))
	return int(h.Sum32() % folds)
}

var feet = map[string]ear.Foot{"iambic": ear.Iambic, "trochaic": ear.Trochaic, "anapestic": ear.Anapestic, "dactylic": ear.Dactylic}

var lengths = map[string]int{"monometer": 1, "dimeter": 2, "trimeter": 3, "tetrameter": 4, "pentameter": 5, "hexameter": 6, "heptameter": 7, "octameter": 8}

func main() {
	log.SetFlags(0)
	data := flag.String("data", "", "hand-scanned poems, one a row")
	all := flag.Bool("all", false, "keep no poem back")
	cross := flag.Bool("cross", false, "train once for each fifth kept back; write nothing")
	out := flag.String("o", "weights.go", "file to write")
	epochs := flag.Int("epochs", 30, "")
	rate := flag.Float64("rate", 0.15, "")
	decay := flag.Float64("decay", 0.01, "")
	flag.Parse()
	poems, err := read(*data)
	if err != nil {
		log.Fatalf("read poems: %v", err)
	}
	examples := make([][]ear.Example, folds)
	for _, p := range poems {
		examples[p.fold()] = append(examples[p.fold()], p.examples()...)
	}
	how := ear.Training{Epochs: *epochs, Rate: *rate, Decay: *decay, Seed: 1}
	train := func(without int) *ear.Model {
		var part []ear.Example
		for f := range folds {
			if f != without {
				part = append(part, examples[f]...)
			}
		}
		m, ll := ear.Train(part, how)
		fmt.Printf("without %d: %d lines, log-likelihood %.3f\n", without, len(part), ll)
		return m
	}
	if *cross {
		var right, total, exact, lines int
		for f := range folds {
			m := train(f)
			r, t, e, l := score(m, examples[f])
			fmt.Printf("  kept part: %.2f %% of syllables, %.2f %% of %d lines\n", 100*float64(r)/float64(t), 100*float64(e)/float64(l), l)
			right, total, exact, lines = right+r, total+t, exact+e, lines+l
		}
		fmt.Printf("all: %.2f %% of syllables, %.2f %% of lines\n", 100*float64(right)/float64(total), 100*float64(exact)/float64(lines))
		return
	}
	kept := 0
	if *all {
		kept = -1
	}
	m := train(kept)
	if err := os.WriteFile(*out, m.Source(), 0o644); err != nil {
		log.Fatal(err)
	}
}

// score reads lines whose foot and length are given.
func score(m *ear.Model, examples []ear.Example) (right, total, exact, lines int) {
	for _, e := range examples {
		if !e.HasFoot {
			continue
		}
		l, ok := ear.NewLine(e.Words)
		lines++
		total += len(e.Beats)
		if !ok {
			continue
		}
		var best ear.Reading
		best.Score = -1e9
		for b := 1; b <= ear.MaxBeats; b++ {
			if r, ok := m.Read(&l, len(e.Words), e.Foot, b); ok {
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
		right += good
		if good == len(e.Beats) {
			exact++
		}
	}
	return
}

func read(path string) ([]poem, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	var list []poem
	rows := bufio.NewScanner(f)
	rows.Buffer(nil, 1<<24)
	for rows.Scan() {
		var p poem
		if err := json.Unmarshal(rows.Bytes(), &p); err != nil {
			return nil, err
		}
		list = append(list, p)
	}
	return list, rows.Err()
}

var opening = regexp.MustCompile(`^[#>\-\s]+`)

// examples reads the poem's lines as a manuscript's.
func (p poem) examples() []ear.Example {
	var text strings.Builder
	where := map[int]int{} // line of the file → index of the poem's line
	number := 1
	for i, l := range p.Lines {
		if i > 0 && l.Stanza != p.Lines[i-1].Stanza {
			text.WriteString("\n")
			number++
		}
		t := strings.NewReplacer("[", "(", "]", ")", "*", "", "_", "", "<!--", "").Replace(l.Text)
		t = opening.ReplaceAllString(t, "")
		text.WriteString(t + "\n")
		where[number] = i
		number++
	}
	m := manuscript.Parse(text.String())
	words := scansion.Words(m, phonetics.NewReader(phonetics.EnUS, nil))
	wanted := p.wanted()
	var list []ear.Example
	for k, line := range m.Lines {
		i, ok := where[line.Number]
		if !ok || p.Lines[i].Pattern == "" {
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

// wanted is the number of beats that each line's place calls for: the poem's
// length, or the commonest for that place of the stanza where four in five agree.
func (p poem) wanted() []int {
	list := make([]int, len(p.Lines))
	if n := lengths[p.Length]; n > 0 {
		for i := range list {
			list[i] = n
		}
		return list
	}
	count := map[int]map[int]int{}
	place, last := 0, -1
	places := make([]int, len(p.Lines))
	for i, l := range p.Lines {
		if l.Stanza != last {
			place = 0
		} else {
			place++
		}
		last = l.Stanza
		places[i] = place
		if l.Beats > 0 {
			if count[place] == nil {
				count[place] = map[int]int{}
			}
			count[place][l.Beats]++
		}
	}
	for i, at := range places {
		best, total := 0, 0
		for n, c := range count[at] {
			total += c
			if c > count[at][best] || c == count[at][best] && n < best {
				best = n
			}
		}
		if total >= 3 && count[at][best]*5 >= total*4 {
			list[i] = best
		}
	}
	return list
}
