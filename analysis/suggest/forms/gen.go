//go:build ignore

// Gen builds irregular.txt from the exception lists of WordNet, as
// Debian's wordnet-base carries them: verb.exc, noun.exc and adj.exc. The
// package is pinned by version and checksum, and the output depends on nothing
// else but the words that package words knows.
//
//	go run gen.go -o irregular.txt             fetches the package with apt-get
//	go run gen.go -src DIR -o irregular.txt    takes it from a folder
package main

import (
	"flag"
	"log"
	"os"
	"path"
	"slices"
	"strings"

	"dandle/analysis/suggest/words"
	"dandle/phonetics/pinned"
)

var wordnet = pinned.Package{From: pinned.Debian, Name: "wordnet-base", Version: "1:3.0-37", SHA256: "61060d960f9ada8fa120872312eccd3ecebfbab8c4579e4f5a74e1cf67620752"}

func main() {
	log.SetFlags(0)
	src := flag.String("src", "", "a folder with the package; empty to fetch it")
	out := flag.String("o", "irregular.txt", "file to write")
	flag.Parse()
	if err := run(*src, *out); err != nil {
		log.Fatal(err)
	}
}

func run(dir, out string) error {
	parts := map[string]string{"verb.exc": "v", "noun.exc": "n", "adj.exc": "a"}
	var lines []string
	files, err := wordnet.Files(dir, func(name string) bool { return parts[path.Base(name)] != "" })
	if err != nil {
		return err
	}
	for name, text := range files {
		part := parts[path.Base(name)]
		for line := range strings.SplitSeq(string(text), "\n") {
			f := strings.Fields(line)
			for _, base := range f[min(1, len(f)):] {
				if f[0] != base && words.Find(f[0]) != words.None && words.Find(base) != words.None {
					lines = append(lines, part+" "+f[0]+" "+base)
				}
			}
		}
	}
	slices.Sort(lines)
	lines = slices.Compact(lines)
	log.Printf("%s: %d forms", out, len(lines))
	return os.WriteFile(out, []byte(strings.Join(lines, "\n")+"\n"), 0o644)
}
