package main

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// inputHelp tells what a command that reads manuscripts takes.
const inputHelp = `Manuscripts are .verse files, plain text, and .docx files of a word processor; their lines
are then counted as the word processor does when it shows line numbers. Of a folder all
.verse, .txt and .docx files in it and below are read.`

// manuscriptEndings are the names of files that are read in a folder.
var manuscriptEndings = []string{".verse", ".txt", ".docx"}

// files lists what names stand for: folders give the manuscripts in them, in
// order, and patterns that no shell has filled in the files that fit. What
// stands for nothing is told on the error stream, and complete is false.
func (s *session) files(names []string) (list []string, complete bool, err error) {
	if err := checkNames(names); err != nil {
		return nil, false, err
	}
	complete = true
	for _, name := range names {
		found, err := filesOf(name)
		if err != nil {
			s.fail("dandle", err)
			complete = false
		}
		list = append(list, found...)
	}
	return list, complete, nil
}

func filesOf(name string) ([]string, error) {
	if name == standardInput {
		return []string{name}, nil
	}
	info, err := os.Stat(name)
	switch {
	case err == nil && info.IsDir():
		return filesIn(name)
	case err != nil && strings.ContainsAny(name, "*?["):
		found, err := filepath.Glob(name)
		if err != nil || len(found) == 0 {
			return nil, fmt.Errorf("%s: no file fits this pattern", name)
		}
		return found, nil
	}
	return []string{name}, nil
}

// filesIn lists the manuscripts in a folder and below, in the order of their
// names. Hidden files are left out, and the locks of word processors with them. A
// folder that cannot be read is an error beside what was found elsewhere.
func filesIn(folder string) ([]string, error) {
	var found []string
	var closed error
	err := filepath.WalkDir(folder, func(path string, entry fs.DirEntry, err error) error {
		if err != nil {
			closed = fileError(path, err)
			return fs.SkipDir
		}
		hidden := strings.HasPrefix(entry.Name(), ".") || strings.HasPrefix(entry.Name(), "~$")
		switch {
		case entry.IsDir() && hidden && path != folder && entry.Name() != "..":
			return filepath.SkipDir
		case !entry.IsDir() && !hidden && slices.Contains(manuscriptEndings, strings.ToLower(filepath.Ext(path))):
			found = append(found, path)
		}
		return nil
	})
	if err == nil {
		err = closed
	}
	if err == nil && len(found) == 0 {
		err = fmt.Errorf("%s: a folder without manuscripts; they end in %s", folder, orList(manuscriptEndings))
	}
	return found, err
}
