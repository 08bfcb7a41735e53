package main

import (
	"os"
	"strings"
	"unicode"
)

// A painter colours text where colour is wanted, and leaves it alone elsewhere.
type painter bool

// An ink is a way to set text off, as the parameters of an SGR sequence
// (ECMA-48, 8.3.117).
type ink string

const (
	bold   ink = "1"
	faint  ink = "2"
	yellow ink = "33"
	blue   ink = "34"
	cyan   ink = "36"
)

func (p painter) paint(i ink, text string) string {
	if !p || text == "" {
		return text
	}
	return "\x1b[" + string(i) + "m" + text + "\x1b[0m"
}

// colorful reports whether colour is wanted on a stream: only on a terminal,
// and not where the person has said no (no-color.org).
func colorful(f *os.File, getenv func(string) string) bool {
	return getenv("NO_COLOR") == "" && getenv("TERM") != "dumb" && isTerminal(f)
}

func isTerminal(f *os.File) bool {
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}

// printable makes text safe to show: a control character, which could move the
// terminal's cursor or worse, becomes a blank, so that columns stay.
func printable(text string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) {
			return ' '
		}
		return r
	}, text)
}

// width is the number of columns that text takes up on a terminal, as far as
// that can be told without its fonts: marks that sit on a letter take none.
func width(text string) int {
	n := 0
	for _, r := range text {
		if !unicode.In(r, unicode.Mn, unicode.Me, unicode.Cf) {
			n++
		}
	}
	return n
}
