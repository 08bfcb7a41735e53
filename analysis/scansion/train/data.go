package main

import (
	"bufio"
	"encoding/json"
	"hash/fnv"
	"os"
	"regexp"
	"strings"

	"dandle/analysis/manuscript"
	"dandle/analysis/scansion/ear"
)

// A poem is one row of the data.
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

// markup is what a manuscript would take for something else than verse.
var markup = regexp.MustCompile(`^[#>\-\s]+`)

// clean is a line of verse that no manuscript syntax can claim.
func clean(text string) string {
	text = strings.NewReplacer("[", "(", "]", ")", "*", "", "_", "", "<!--", "").Replace(text)
	return markup.ReplaceAllString(text, "")
}

// manuscript reads texts in the place of the poem's lines. The second result
// has for each line of the manuscript the index of the poem's line.
func (p poem) manuscript(texts []string) (*manuscript.Manuscript, []int) {
	var text strings.Builder
	where := map[int]int{} // line of the file → index of the poem's line
	number := 1
	for i, l := range p.Lines {
		if i > 0 && l.Stanza != p.Lines[i-1].Stanza {
			text.WriteString("\n")
			number++
		}
		text.WriteString(clean(texts[i]) + "\n")
		where[number] = i
		number++
	}
	m := manuscript.Parse(text.String())
	index := make([]int, len(m.Lines))
	for k := range m.Lines {
		index[k] = where[m.Lines[k].Number]
	}
	return m, index
}

// texts are the poem's lines as they stand.
func (p poem) texts() []string {
	list := make([]string, len(p.Lines))
	for i := range p.Lines {
		list[i] = p.Lines[i].Text
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
