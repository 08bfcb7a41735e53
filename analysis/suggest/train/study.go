package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"os"
	"regexp"
	"slices"
	"strings"

	"dandle/analysis/manuscript"
	"dandle/analysis/rhyme"
	"dandle/analysis/scansion"
	"dandle/analysis/suggest"
	"dandle/analysis/suggest/taste"
	"dandle/phonetics"
)

// A stanza is one row of the data.
type stanza struct {
	Poet   string
	Poem   any // a number or a title
	Lines  []string
	Scheme []int
}

func read(path string) ([]stanza, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	var list []stanza
	rows := bufio.NewScanner(f)
	rows.Buffer(nil, 1<<24)
	for rows.Scan() {
		var s stanza
		if err := json.Unmarshal(rows.Bytes(), &s); err != nil {
			return nil, err
		}
		if len(s.Scheme) == len(s.Lines) {
			list = append(list, s)
		}
	}
	return list, rows.Err()
}

// A lesson is what was studied of some poets.
type lesson struct {
	examples     []taste.Example
	asked, found int // places, and those where the poet's word was among the candidates
}

func (l lesson) String() string {
	return fmt.Sprintf("%d places, the poet's word a candidate in %d", l.asked, l.found)
}

// context is how many lines of the stanza before are shown with a stanza.
const context = 8

// study takes the last word from each line that rhymes with one close by, and
// gathers what could stand there. The poets kept go into a lesson of
// their own.
func study(stanzas []stanza, keep []string) (learnt, kept lesson) {
	var before stanza
	for _, s := range stanzas {
		var lines []string
		if s.Poet == before.Poet && s.Poem == before.Poem {
			lines = append(slices.Clone(before.Lines[max(0, len(before.Lines)-context):]), "")
		}
		before = s
		into := &learnt
		if slices.Contains(keep, s.Poet) {
			into = &kept
		}
		for i := range s.Lines {
			if s.answers(i) {
				into.add(lines, s.Lines, i)
			}
		}
	}
	return learnt, kept
}

var word = regexp.MustCompile(`[A-Za-z][A-Za-z'’-]*`)

// lastWord is the place of a line's last word in it.
func lastWord(line string) (from, to int, ok bool) {
	all := word.FindAllStringIndex(line, -1)
	if len(all) == 0 {
		return 0, 0, false
	}
	last := all[len(all)-1]
	return last[0], last[1], true
}

var reader = phonetics.NewReader(phonetics.EnUS, nil)

// farthest is how many lines off a line's mate is looked for, either way: what
// the writer completes may be answered later as well as earlier.
const farthest = 4

// answers reports whether a line rhymes perfectly with the nearest of its mates,
// and not by saying the same word.
func (s *stanza) answers(line int) bool {
	end := endOf(s.Lines[line])
	for gap := 1; gap <= farthest; gap++ {
		for _, i := range [2]int{line - gap, line + gap} {
			if 0 <= i && i < len(s.Lines) && s.Scheme[i] == s.Scheme[line] {
				other := endOf(s.Lines[i])
				kind := rhyme.Compare(&other, &end).Kind
				return kind == rhyme.Perfect || kind == rhyme.Homophone
			}
		}
	}
	return false
}

func endOf(line string) rhyme.End {
	from, to, ok := lastWord(line)
	if !ok {
		return rhyme.End{}
	}
	text := line[from:to]
	return rhyme.NewEnd([]rhyme.Word{{Text: text, Ways: reader.Pronounce(text, phonetics.Context{})}})
}

// add studies the place of a line's last word.
func (l *lesson) add(before, lines []string, line int) {
	from, to, _ := lastWord(lines[line])
	shown := slices.Concat(before, lines[:line], []string{lines[line][:from]})
	text := strings.Join(shown, "\n")
	m := manuscript.Parse(text + "\n" + strings.Join(lines[line+1:], "\n") + "\n")
	l.asked++
	p := suggest.Place{Manuscript: m, Poem: scansion.Scan(m, scansion.NewMemo(reader)), Reader: reader, Offset: len(text)}
	if e, ok := suggest.Study(p, lines[line][from:to]); ok {
		l.found++
		l.examples = append(l.examples, e)
	}
}

// score tells how often the poet's word is among the first 1, 5 and 20.
func (l *lesson) score(m *taste.Model) string {
	limits := [...]int{1, 5, 20}
	var hits [len(limits)]int
	for i := range l.examples {
		rank := rankOf(m, &l.examples[i])
		for k, limit := range limits {
			if rank < limit {
				hits[k]++
			}
		}
	}
	asked := float64(max(l.asked, 1))
	return fmt.Sprintf("among the first 1, 5, 20: %.1f, %.1f, %.1f %%",
		100*float64(hits[0])/asked, 100*float64(hits[1])/asked, 100*float64(hits[2])/asked)
}

// rankOf is how many candidates are likelier than the one chosen.
func rankOf(m *taste.Model, e *taste.Example) int {
	likely := m.Probabilities(e)
	best := 0.0
	for _, i := range e.Chosen {
		best = max(best, likely[i])
	}
	n := 0
	for _, p := range likely {
		if p > best {
			n++
		}
	}
	return n
}
