package manuscript

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// speech follows quotation through the verse. Marks are paired as a reader
// pairs them: by what stands on either side.
type speech struct {
	inDouble bool
	inSingle bool
	// The next place at or behind scannedFrom where a single mark closes
	// speech: kept, so that many apostrophes cost one look ahead.
	closer, scannedFrom, scannedTo int
	nextDouble                     int // where the next double mark was last found
}

func (s *speech) open() bool { return s.inDouble || s.inSingle }

// double reads a double quotation mark.
func (s *speech) double(p *parser, i, n int, r rune) {
	switch r {
	case '“', '«', '„':
		s.inDouble = true
	case '”', '»':
		s.inDouble = false
	default:
		before, after := p.around(i, n)
		switch {
		case before && !after:
			s.inDouble = true
		case after && !before:
			s.inDouble = false
		default:
			s.inDouble = !s.inDouble
		}
	}
}

// single reads a single quotation mark that is no part of a word.
func (s *speech) single(p *parser, i, n int, r rune) {
	switch r {
	case '‘', '‹':
		s.inSingle = true
	case '’', '›':
		s.inSingle = false
	default:
		before, _ := p.around(i, n)
		if !before || s.inSingle {
			s.inSingle = false
			return
		}
		s.inSingle = true
	}
}

// around reports whether the mark at i is open to its left (space, line start,
// dash, bracket or another mark before it) and to its right.
func (p *parser) around(i, n int) (left, right bool) {
	before, _ := utf8.DecodeLastRuneInString(p.text[:i])
	after, _ := utf8.DecodeRuneInString(p.text[i+n:])
	left = i == 0 || isSpace(before) || strings.ContainsRune("([—–-“‘\"'*_", before)
	right = i+n == len(p.text) || isSpace(after)
	return left, right
}

// stanzaEnds closes a quotation that the next stanza does not close either. A
// speech of several stanzas opens each with a mark and closes only the last;
// some writers close the last without opening each.
func (s *speech) stanzaEnds(p *parser) {
	s.inSingle = false
	if !s.inDouble {
		return
	}
	from := p.block[0].span.Start
	if s.nextDouble < from {
		next := strings.IndexAny(p.text[from:], "“”\"«»„")
		if next < 0 {
			s.inDouble = false
			return
		}
		s.nextDouble = from + next
	}
	r, n := utf8.DecodeRuneInString(p.text[s.nextDouble:])
	if r == '"' {
		left, right := p.around(s.nextDouble, n)
		s.inDouble = right && !left
		return
	}
	s.inDouble = r == '”' || r == '»'
}

// elided are words that are written with an apostrophe for their missing start,
// and that are no words, or quite other ones, without it. The value tells
// whether the word also stands whole, so that the mark before it might open a
// quotation.
var elided = map[string]bool{
	"tis": false, "twas": false, "twere": false, "twill": true, "twould": false, "twixt": false,
	"tween": false, "tisn": false, "twasn": false, "em": false, "n": false, "cos": false, "cuz": false, "coz": false,
	"til": false, "till": true, "bout": true, "neath": false, "gainst": false, "nother": false,
	"round": true, "cause": true, "stead": true, "cross": true, "way": true,
}

// elides reports whether the apostrophe at i, with a letter behind it, stands
// for the missing start of a word, and does not open speech.
func (p *parser) elides(i, n int, r rune, end, blockEnd int) bool {
	if r == 'ʼ' {
		return true
	}
	if before, _ := utf8.DecodeLastRuneInString(p.text[:i]); i > 0 && startsWord(before) {
		return false
	}
	if r == '’' {
		// It never opens a quotation. Between a stop and a word it closes one.
		before, _ := utf8.DecodeLastRuneInString(p.text[:i])
		return !(p.speech.inSingle && strings.ContainsRune(",.!?…", before))
	}
	j := i + n
	first, _ := p.at(j, end)
	if unicode.IsDigit(first) {
		return !p.closesAhead(j, blockEnd) // ’99
	}
	for j < end && isASCIILetter(p.text[j]) && j-i-n < 8 {
		j++
	}
	whole, known := elided[strings.ToLower(p.text[i+n:j])]
	if known && !whole {
		return true
	}
	return !p.closesAhead(j, blockEnd)
}

// trailing reports whether the apostrophe at i, with no letter behind it,
// belongs to the word before it: goin’, o’, the goats’. Where speech between
// single marks is open, and this is the last mark that could close it, it does.
func (p *parser) trailing(start, i, n int, r rune, end, blockEnd int) bool {
	if r == '‘' {
		return false
	}
	if r == 'ʼ' {
		return true
	}
	if !p.speech.inSingle {
		// Behind a lone letter pair such as ’n’ it always belongs to the word.
		return true
	}
	return p.closesAhead(i+n, blockEnd)
}

// closesAhead reports whether a single mark that can close speech lies ahead in
// the block: no letter behind it, and no space before it.
func (p *parser) closesAhead(from, blockEnd int) bool {
	s := &p.speech
	if s.scannedTo == blockEnd && s.scannedFrom <= from && (s.closer < 0 || s.closer >= from) {
		return s.closer >= 0
	}
	s.scannedFrom, s.scannedTo, s.closer = from, blockEnd, -1
	for i := from; i < blockEnd; {
		r, n := p.at(i, blockEnd)
		if r == '\'' || r == '’' {
			before, _ := utf8.DecodeLastRuneInString(p.text[:i])
			if !isSpace(before) && !p.wordAhead(i+n, blockEnd) {
				s.closer = i
				return true
			}
		}
		i += n
	}
	return false
}
