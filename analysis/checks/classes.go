package checks

import (
	_ "embed"
	"maps"
	"strings"
)

// classesText holds the classes of words that the checks ask for, each with its
// source. An editor can read it, and the house rules can add to or allow what
// it holds.
//
//go:embed classes.txt
var classesText string

// words is a class of words, in lower case.
type words map[string]bool

func class(list string) words {
	c := words{}
	for _, w := range strings.Fields(list) {
		c[w] = true
	}
	return c
}

// section is the text of one section of the classes. A name that is not there
// is a slip of this package, which the first test to run shows.
func section(name string) string {
	_, rest, found := strings.Cut(classesText, "\n["+name+"]\n")
	if !found {
		panic("classes.txt has no section " + name)
	}
	if end := strings.Index(rest, "\n\n"); end >= 0 {
		rest = rest[:end]
	}
	return strings.TrimSpace(rest)
}

// listed is a section as one class.
func listed(name string) words { return class(section(name)) }

// linesOf is a section with a class on each line.
func linesOf(name string) []words {
	var list []words
	for line := range strings.Lines(section(name)) {
		list = append(list, class(line))
	}
	return list
}

// union is all that is in one class or another.
func union(list []words) words {
	all := words{}
	for _, c := range list {
		maps.Copy(all, c)
	}
	return all
}

// pairs is a section with a phrase on each line, for looking up.
func pairs(name string) words {
	c := words{}
	for line := range strings.Lines(section(name)) {
		c[strings.Join(strings.Fields(line), " ")] = true
	}
	return c
}

// holding is a section with words before a colon and words behind it on each line: for each
// of those behind it, those before it.
func holding(name string) map[string]words {
	c := map[string]words{}
	for line := range strings.Lines(section(name)) {
		holders, held, _ := strings.Cut(line, ":")
		for h := range strings.FieldsSeq(held) {
			if c[h] == nil {
				c[h] = words{}
			}
			maps.Copy(c[h], class(holders))
		}
	}
	return c
}

// phrases is a section with a phrase on each line.
func phrases(name string) [][]string {
	var list [][]string
	for line := range strings.Lines(section(name)) {
		list = append(list, strings.Fields(line))
	}
	return list
}

// byFirst sorts phrases by their first word.
func byFirst(list [][]string) map[string][][]string {
	sorted := map[string][][]string{}
	for _, phrase := range list {
		sorted[phrase[0]] = append(sorted[phrase[0]], phrase)
	}
	return sorted
}
