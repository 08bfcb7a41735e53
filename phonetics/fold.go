package phonetics

import (
	"strings"
	"unicode/utf8"
)

// A written word in the form that the dictionary uses.
type folded struct {
	text string // lower case, straight apostrophes, no accents
	// places are the bytes of the word as written at which the bytes of text
	// begin, and at its end the word's length; nil where they are the same.
	places []int
}

// place is the byte of the written word at which byte i of the form begins.
func (f folded) place(i int) int {
	if f.places == nil {
		return i
	}
	return f.places[i]
}

// fold brings a word into the dictionary's form.
func fold(written string) folded {
	if isPlain(written) {
		return folded{text: written}
	}
	var b strings.Builder
	places := make([]int, 0, len(written)+1)
	for i, r := range written {
		plain := foldRune(r)
		for range len(plain) {
			places = append(places, i)
		}
		b.WriteString(plain)
	}
	return folded{b.String(), append(places, len(written))}
}

func isPlain(written string) bool {
	for i := range len(written) {
		if c := written[i]; c >= utf8.RuneSelf || 'A' <= c && c <= 'Z' || c == '*' || c == '_' {
			return false
		}
	}
	return true
}

func foldRune(r rune) string {
	switch {
	case 'A' <= r && r <= 'Z':
		return string(r + 'a' - 'A')
	case r == '*' || r == '_':
		return ""
	case r < utf8.RuneSelf:
		return string(r)
	case r == '’' || r == '‘' || r == 'ʼ' || r == '`' || r == '´':
		return "'"
	case r == '‐' || r == '‑' || r == '–' || r == '—':
		return "-"
	case r == 'ß':
		return "ss"
	}
	if i := strings.IndexRune(accented, r); i >= 0 {
		return string(unaccented[utf8.RuneCountInString(accented[:i])])
	}
	switch r {
	case 'æ', 'Æ':
		return "ae"
	case 'œ', 'Œ':
		return "oe"
	}
	return ""
}

const (
	accented   = "àáâãäåçèéêëìíîïñòóôõöøùúûüýÿÀÁÂÃÄÅÇÈÉÊËÌÍÎÏÑÒÓÔÕÖØÙÚÛÜÝ"
	unaccented = "aaaaaaceeeeiiiinoooooouuuuyyaaaaaaceeeeiiiinoooooouuuuy"
)
