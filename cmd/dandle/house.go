package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"unicode/utf8"

	"dandle/analysis/manuscript"
	"dandle/phonetics"
)

// houseFile holds the house rules for the folder it lies in and all below it.
const houseFile = "dandle.yaml"

// houses finds the house rules that hold for a file, and keeps them by folder,
// since a workspace's manuscripts share them; so they share who reads them.
type houses struct {
	mu       sync.Mutex
	byFolder map[string]house
	readers  phonetics.Readers
}

type house struct {
	rules manuscript.House
	err   error
}

func newHouses() *houses {
	return &houses{byFolder: map[string]house{}, readers: phonetics.Readers{Words: manyWords}}
}

// manyWords is how many words are remembered from one file to the next, at half a
// kilobyte each: those of many books, of which most words are in few.
const manyWords = 16 << 10

// of is the house rules of a file: those of the nearest folder upwards that has
// any. Rules that cannot be read as they are meant are an error, since a run
// under other rules than the house's would say the wrong things.
func (h *houses) of(name string) (manuscript.House, error) {
	folder := "."
	if name != standardInput {
		folder = filepath.Dir(name)
	}
	folder, err := filepath.Abs(folder)
	if err != nil {
		return manuscript.House{}, fmt.Errorf("%s: find its folder: %w; call dandle from a folder that is there", name, err)
	}
	h.mu.Lock()
	defer h.mu.Unlock()
	found := h.find(folder)
	return found.rules, found.err
}

func (h *houses) find(folder string) house {
	if known, ok := h.byFolder[folder]; ok {
		return known
	}
	path := filepath.Join(folder, houseFile)
	data, err := os.ReadFile(path)
	var found house
	switch parent := filepath.Dir(folder); {
	case err == nil:
		found.rules, found.err = parseHouse(path, data)
	case !errors.Is(err, fs.ErrNotExist):
		found.err = fileError(path, err)
	case parent != folder:
		found = h.find(parent)
	}
	h.byFolder[folder] = found
	return found
}

func parseHouse(path string, data []byte) (manuscript.House, error) {
	rules, problems := manuscript.ParseHouse(data)
	if len(problems) == 0 {
		return rules, nil
	}
	before := string(data[:problems[0].Span.Start])
	line := strings.Count(before, "\n") + 1
	column := utf8.RuneCountInString(before[strings.LastIndexByte(before, '\n')+1:]) + 1
	return rules, fmt.Errorf("%s:%d:%d: %s", path, line, column, problems[0].Message)
}
