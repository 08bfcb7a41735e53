package phonetics

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// A written word in the form that the dictionary uses.
type folded struct {
	text string // lower case, straight apostrophes, no accents
	// places are the bytes of the word as written at which the bytes of text
	// begin, and at its end the word's length; nil where they are the same.
	places []int
}

// fold brings a word into the dictionary's form.
func fold(written string) folded {
	if isPlain(written) {
		return folded{text: written}
	}
	if r, ok := lowered(written); ok {
		return r
	}
	var b strings.Builder
	places := make([]int, 0, len(written)+1)
	for i, r := range written {
		if i >= longestWord {
			break
		}
		plain := foldRune(r)
		// An accent over -ed says that it is a syllable: see markedEd.
		if (r == 'è' || r == 'é' || r == 'È' || r == 'É') && endsInD(written[i+utf8.RuneLen(r):]) {
			plain = "E" // no other letter of the form is a capital
		}
		for range len(plain) {
			places = append(places, i)
		}
		b.WriteString(plain)
	}
	return folded{b.String(), append(places, len(written))}
}

// endsInD reports whether a word ends in the rest, and the rest is a d.
func endsInD(rest string) bool {
	if rest == "" || rest[0] != 'd' && rest[0] != 'D' {
		return false
	}
	r, _ := utf8.DecodeRuneInString(rest[1:])
	return !unicode.IsLetter(r)
}

func isPlain(written string) bool {
	if len(written) > longestWord {
		return false
	}
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
	case strings.ContainsRune("£€¢½¼¾°×÷", r):
		return string(r)
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

// lowered folds a word of ASCII letters, whose places stay the same.
func lowered(written string) (folded, bool) {
	for i := range len(written) {
		if c := written[i]; c >= utf8.RuneSelf || c == '*' || c == '_' || i >= longestWord {
			return folded{}, false
		}
	}
	return folded{text: strings.ToLower(written)}, true
}
