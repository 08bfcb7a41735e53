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
	"archive/tar"
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"flag"
	"fmt"
	"io"
	"log"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"dandle/analysis/suggest/words"
)

const (
	name    = "wordnet-base"
	version = "1:3.0-37"
	sum     = "61060d960f9ada8fa120872312eccd3ecebfbab8c4579e4f5a74e1cf67620752" // SHA-256
)

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
	if dir == "" {
		temporary, err := os.MkdirTemp("", "irregular")
		if err != nil {
			return err
		}
		defer os.RemoveAll(temporary)
		dir = temporary
		c := exec.Command("apt-get", "download", name+"="+version)
		c.Dir, c.Stderr = dir, os.Stderr
		if err := c.Run(); err != nil {
			return fmt.Errorf("apt-get download: %w", err)
		}
	}
	found, err := filepath.Glob(filepath.Join(dir, name+"_*.deb"))
	if err != nil || len(found) != 1 {
		return fmt.Errorf("want one %s package in %s, got %v", name, dir, found)
	}
	packed, err := os.ReadFile(found[0])
	if err != nil {
		return err
	}
	if s := sha256.Sum256(packed); hex.EncodeToString(s[:]) != sum {
		return fmt.Errorf("%s: checksum is %x", found[0], s)
	}
	files, err := exec.Command("dpkg-deb", "--fsys-tarfile", found[0]).Output()
	if err != nil {
		return fmt.Errorf("dpkg-deb: %w", err)
	}
	parts := map[string]string{"verb.exc": "v", "noun.exc": "n", "adj.exc": "a"}
	var lines []string
	for r := tar.NewReader(bytes.NewReader(files)); ; {
		h, err := r.Next()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return err
		}
		part, wanted := parts[path.Base(h.Name)]
		if !wanted {
			continue
		}
		text, err := io.ReadAll(r)
		if err != nil {
			return err
		}
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
