package checks

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// quote sets a stretch of the text in quotation marks, on one line.
func quote(s string) string { return "“" + strings.Join(strings.Fields(s), " ") + "”" }

var (
	cardinals = [...]string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"}
	ordinals  = [...]string{"", "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth", "eleventh", "twelfth"}
)

// cardinal is a number in a word: "four"; "many" beyond twelve.
func cardinal(n int) string {
	if 0 <= n && n < len(cardinals) {
		return cardinals[n]
	}
	return "many"
}

// ordinal is a place in a word with its article: "a fourth", "an eighth".
func ordinal(n int) string {
	if n < 1 || n >= len(ordinals) {
		return "one more"
	}
	if n == 8 || n == 11 {
		return "an " + ordinals[n]
	}
	return "a " + ordinals[n]
}

// counted is a number with its noun: "one beat", "three beats".
func counted(n int, noun string) string {
	if n == 1 {
		return "one " + noun
	}
	return cardinal(n) + " " + noun + "s"
}

// capital gives a sentence its first capital.
func capital(s string) string {
	r, size := utf8.DecodeRuneInString(s)
	if size == 0 || r == utf8.RuneError {
		return s
	}
	if r == '“' { // a quotation begins with its first letter
		return s[:size] + capital(s[size:])
	}
	return string(unicode.ToUpper(r)) + s[size:]
}

// enumerated joins words as a sentence does: "a moth, a mouse and a wind". Of more
// than six it names the first five.
func enumerated(list []string) string {
	const most = 6
	if len(list) > most {
		list = append(slices.Clone(list[:most-1]), "more")
	}
	if len(list) < 2 {
		return strings.Join(list, "")
	}
	return strings.Join(list[:len(list)-1], ", ") + " and " + list[len(list)-1]
}
