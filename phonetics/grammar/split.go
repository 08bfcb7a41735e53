package grammar

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// A piece is a word as the treebank counts words: "don't" is "do" and "n't",
// and marks are words too.
type piece struct {
	text   string // for the features of the word itself, as written
	lower  string // in lower case and modern spelling: for lists and neighbours
	norm   string // what neighbours see: lower, or the name of a class of words
	may    classes
	most   class // start where the lists do not know the word
	class  class // the answer
	verb   class // the likeliest finite verb that the word may be, or start
	loss   int32 // how much likelier the answer is, in twelfths of a weight
	margin int32 // by how much the answer beats the best other part of speech
	token  int
	head   bool // whether the piece gives its token the tag
	opens  bool // whether a sentence begins here
}

// content are the classes that have new members all the time.
var content = setOf(cNN, cNNS, cNNP, cJJ, cRB, cVB, cVBD, cVBG, cVBN, cVBP, cVBZ, cUH)

var verbs = setOf(cVB, cVBD, cVBN, cVBP, cVBZ, cMD)

// marks are the classes of what parts phrases.
var marks = setOf(cComma, cStop, cDash)

// nominal are the classes that may begin what a possessive is said of.
var nominal = setOf(cNN, cNNS, cNNP, cNNPS, cJJ, cJJR, cJJS, cCD, cVBG, cVBN, cFW)

const names = classes(1<<cNNP | 1<<cNNPS)

// split takes tokens apart.
func split(tokens []Token) []piece {
	pieces := make([]piece, 0, len(tokens)+len(tokens)/2+2)
	lined := false // whether line breaks are told
	for _, t := range tokens {
		lined = lined || strings.IndexByte(t.After, '\n') >= 0
	}
	sentence, line := true, true
	for i, t := range tokens {
		text := straighten(t.Text)
		from := len(pieces)
		pieces = splitWord(pieces, strings.Trim(text, "\"“”()[]*_.,!?;:…"), i)
		if from == len(pieces) {
			pieces = append(pieces, piece{class: cDash, may: 1 << cDash, token: i, head: true})
		} else {
			p := &pieces[from]
			p.opens = sentence
			personified := from > 0 && (pieces[from-1].most == cDT || pieces[from-1].most == cPRPS) // "the Moon"
			decapitalise(p, line || !lined || personified)
			sentence, line = false, false
		}
		if mark := markAfter(t.After); mark.class != start {
			mark.token = i
			pieces = append(pieces, mark)
			if mark.class == cStop {
				sentence, line = true, true
			}
		}
		line = line || strings.IndexByte(t.After, '\n') >= 0
	}
	return pieces
}

// decapitalise takes a capital for the line's where the word is a common one,
// and allows a name where the capital seems to be the word's own.
func decapitalise(p *piece, line bool) {
	first, _ := utf8.DecodeRuneInString(p.text)
	if !unicode.IsUpper(first) || p.may == 0 || p.may&names == p.may {
		return
	}
	shouted := len(p.text) > 1 && strings.ToUpper(p.text) == p.text
	if p.may == 1<<cUH || p.most != start && (line || shouted || p.may&^content != 0) {
		p.text = p.lower
		p.may &^= names
		return
	}
	p.may |= 1 << cNNP
}

// markAfter is the treebank's piece for the marks between two words.
func markAfter(after string) piece {
	for i, r := range after {
		c, text := start, ""
		switch r {
		case '.', '!', '?':
			if strings.HasPrefix(after[i:], "...") {
				c, text = cDash, "..."
			} else {
				c, text = cStop, after[i:i+1]
			}
		case ',':
			c, text = cComma, ","
		case ';', ':':
			c, text = cDash, after[i:i+1]
		case '—', '–', '…':
			c, text = cDash, "--"
		case '-':
			if len(after) > 1 {
				c, text = cDash, "--"
			}
		}
		if c != start {
			return piece{text: text, lower: text, norm: text, class: c, may: 1 << c}
		}
	}
	return piece{}
}

// clitics are the ends that the treebank parts from a word.
var clitics = [...]string{"n't", "'ll", "'re", "'ve", "'d", "'m", "'s"}

// splitWord adds a word's pieces; none for a word without a letter or digit.
func splitWord(pieces []piece, word string, token int) []piece {
	if strings.IndexFunc(word, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) || r == '&' }) < 0 {
		return pieces
	}
	low := strings.ToLower(word)
	if rest, ok := strings.CutPrefix(low, "'t"); ok {
		switch rest {
		case "is", "was", "were", "will", "would":
			return append(pieces, known("it", token, true), known(rest, token, false))
		}
	}
	switch low {
	case "cannot":
		can := known("can", token, true)
		can.may = 1 << cMD
		return append(pieces, can, known("not", token, false))
	case "thou'rt":
		return append(pieces, known("you", token, true), known("are", token, false))
	case "thou'lt":
		return append(pieces, known("you", token, true), known("will", token, false))
	}
	if stem, ok := strings.CutSuffix(low, "'d"); ok && len(stem) > 2 {
		if past := stem + "ed"; clipsPast(stem, past) {
			p := known(past, token, true)
			return append(pieces, p)
		}
	}
	// The ends are taken off from the last to the first, and added in order.
	head, ends := len(low), [3]int{}
	n := 0
	for n < len(ends) {
		found := false
		for _, c := range clitics {
			if strings.HasSuffix(low[:head], c) && head > len(c) {
				head -= len(c)
				ends[n] = head
				n++
				found = true
				break
			}
		}
		if !found {
			break
		}
	}
	if n == 0 && strings.HasSuffix(low, "s'") && len(low) > 3 {
		head, ends[0], n = len(low)-1, len(low)-1, 1
	}
	if len(low) != len(word) { // a letter whose cases differ in length
		word = low
	}
	p := known(modern(low[:head]), token, true)
	p.text = word[:head]
	if p.lower != low[:head] {
		p.text = p.lower // an old or clipped spelling
		if c := word[0]; 'A' <= c && c <= 'Z' {
			p.text = strings.ToUpper(p.lower[:1]) + p.lower[1:]
		}
	}
	pieces = append(pieces, p)
	for ; n > 0; n-- {
		to := len(low)
		if n > 1 {
			to = ends[n-2]
		}
		end := known(low[ends[n-1]:to], token, false)
		if end.lower == "'s" {
			end.may, end.most = sMay(p), cVBZ
		}
		pieces = append(pieces, end)
	}
	return pieces
}

// clipsPast reports whether a verb's past is written with 'd: "weather'd". A
// noun with "would" is written so too, but hardly in verse.
func clipsPast(stem, past string) bool {
	set, ok := lookup(stem)
	if ok && set.may&setOf(cPRP, cWP, cWRB, cEX, cDT, cMD) != 0 {
		return false
	}
	p, listed := lookup(past)
	return listed && p.may&setOf(cVBD, cVBN) != 0 || inflected(past)&setOf(cVBD, cVBN) != 0
}

// sMay is what "'s" may be after a word: no possessive after a pronoun.
func sMay(p piece) classes {
	switch {
	case p.lower == "let":
		return 1 << cPRP
	case p.may&setOf(cPRP, cWP, cWRB, cEX, cDT, cRB) != 0 && p.most != cNN:
		return 1 << cVBZ
	}
	return 1<<cPOS | 1<<cVBZ
}

// known is the piece of a word in lower case, with what the lists and, where
// they are silent, the word's form say of it.
func known(low string, token int, head bool) piece {
	p := piece{text: low, lower: low, norm: low, token: token, head: head}
	if low == "" {
		p.may, p.most = content, start
		return p
	}
	switch {
	case '0' <= low[0] && low[0] <= '9':
		p.norm = "!DIGITS"
		p.may, p.most = 1<<cCD, cCD
		if strings.HasSuffix(low, "st") || strings.HasSuffix(low, "nd") || strings.HasSuffix(low, "rd") || strings.HasSuffix(low, "th") {
			p.may, p.most = 1<<cJJ, cJJ
		}
		return p
	case strings.IndexByte(low, '-') > 0:
		p.norm = "!HYPHEN"
	}
	if set, ok := lookup(low); ok {
		p.may, p.most = set.may, set.most
		return p
	}
	p.may, p.most = formed(low)
	return p
}

// formed is what the form of a word tells that no list has.
func formed(low string) (classes, class) {
	if i := strings.LastIndexByte(low, '-'); i > 0 {
		last := low[i+1:]
		set, ok := lookup(last)
		if !ok {
			set.may, set.most = formed(last)
		}
		return set.may&content | 1<<cJJ | 1<<cNN, set.most
	}
	if short := unstretched(low); short != low {
		if set, ok := lookup(short); ok {
			return set.may, set.most
		}
	}
	if may := inflected(low); may != 0 {
		return may, start
	}
	for _, e := range endings {
		if len(low) > len(e.text)+2 && strings.HasSuffix(low, e.text) {
			return e.may, start
		}
	}
	return content, start
}

// inflected is what a word may be as a regular inflection of a listed one.
func inflected(low string) classes {
	var may classes
	add := func(ending string, base, gives classes) {
		stem, ok := strings.CutSuffix(low, ending)
		if !ok || len(stem) < 3 {
			return
		}
		is := func(word string) bool {
			set, ok := lookup(word)
			return ok && set.may&base != 0
		}
		last := len(stem) - 1
		found := is(stem) ||
			ending != "s" && is(stem+"e") ||
			ending != "s" && stem[last] == stem[last-1] && is(stem[:last]) ||
			stem[last] == 'i' && is(stem[:last]+"y")
		if found {
			may |= gives
		}
	}
	add("s", 1<<cNN, 1<<cNNS)
	add("s", 1<<cVB, 1<<cVBZ)
	add("es", 1<<cNN, 1<<cNNS)
	add("es", 1<<cVB, 1<<cVBZ)
	add("ed", 1<<cVB, 1<<cVBD|1<<cVBN)
	add("ing", 1<<cVB, 1<<cVBG)
	add("er", 1<<cJJ, 1<<cJJR)
	add("est", 1<<cJJ, 1<<cJJS)
	add("ly", 1<<cJJ, 1<<cRB)
	return may
}

// endings are what a word's last letters tell of its class, the longest
// first (after Quirk et al., A Comprehensive Grammar of the English Language,
// 1985, appendix I, from memory).
var endings = [...]struct {
	text string
	may  classes
}{
	{"iness", 1 << cNN},
	{"ness", 1 << cNN},
	{"ment", 1 << cNN},
	{"tion", 1 << cNN},
	{"ship", 1<<cNN | 1<<cVB | 1<<cVBP},
	{"hood", 1 << cNN},
	{"less", 1 << cJJ},
	{"ful", 1<<cJJ | 1<<cNN},
	{"ous", 1 << cJJ},
	{"ish", 1<<cJJ | 1<<cVB | 1<<cVBP | 1<<cNN},
	{"like", 1<<cJJ | 1<<cRB},
	{"able", 1 << cJJ},
	{"ible", 1 << cJJ},
	{"some", 1 << cJJ},
	{"ward", 1<<cRB | 1<<cJJ},
	{"wards", 1 << cRB},
	{"wise", 1 << cRB},
	{"edly", 1 << cRB},
	{"ly", 1<<cRB | 1<<cJJ},
	{"ing", 1<<cVBG | 1<<cNN | 1<<cJJ},
	{"ed", 1<<cVBD | 1<<cVBN | 1<<cJJ},
	{"est", 1<<cJJS | 1<<cRBS | 1<<cNN},
	{"er", 1<<cJJR | 1<<cRBR | 1<<cNN | 1<<cVB | 1<<cVBP},
	{"y", 1<<cJJ | 1<<cNN | 1<<cRB | 1<<cVB},
	{"ss", 1<<cNN | 1<<cVB | 1<<cVBP},
	{"s", 1<<cNNS | 1<<cVBZ | 1<<cNN},
}

// unstretched writes letters that stand three times and more once, or twice
// where once makes no word: "sooo", "nooo", "whooosh".
func unstretched(low string) string {
	long := false
	for i := 2; i < len(low); i++ {
		long = long || low[i] == low[i-1] && low[i] == low[i-2]
	}
	if !long {
		return low
	}
	squeeze := func(most int) string {
		b := make([]byte, 0, len(low))
		run := 0
		for i := range len(low) {
			if i > 0 && low[i] == low[i-1] {
				run++
			} else {
				run = 1
			}
			if run <= most {
				b = append(b, low[i])
			}
		}
		return string(b)
	}
	once, twice := squeeze(1), squeeze(2)
	if _, ok := lookup(once); !ok {
		return twice
	}
	return once
}
