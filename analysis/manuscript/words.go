package manuscript

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// skipSpace is the first place in [start, end) that holds no space.
func (p *parser) skipSpace(start, end int) int {
	for start < end {
		r, n := utf8.DecodeRuneInString(p.text[start:end])
		if !isSpace(r) {
			break
		}
		start += n
	}
	return start
}

// trimRight is where text[start:end] ends without its trailing space.
func trimRight(text string, start, end int) int {
	for end > start {
		r, n := utf8.DecodeLastRuneInString(text[start:end])
		if !isSpace(r) {
			break
		}
		end -= n
	}
	return end
}

// isSpace holds for white space (Unicode's White_Space) and the NUL and
// zero-width space that other programs leave behind.
func isSpace(r rune) bool { return unicode.IsSpace(r) || r == 0 || r == '\u200B' || r == '\uFEFF' }

func isASCIILetter(c byte) bool { return 'a' <= c|0x20 && c|0x20 <= 'z' }

func isASCIIWord(c byte) bool { return isASCIILetter(c) || isDigit(c) }

// startsWord holds for the characters that make a word a word.
func startsWord(r rune) bool {
	if r < utf8.RuneSelf {
		return isASCIIWord(byte(r))
	}
	return unicode.IsLetter(r) || unicode.IsNumber(r)
}

// isApostrophe holds for the marks that writers, and the software they write
// with, use as an apostrophe.
func isApostrophe(r rune) bool {
	return r == '\'' || r == '’' || r == '‘' || r == 'ʼ'
}

// isHyphen holds for the hyphens that join a word; dashes part words.
func isHyphen(r rune) bool { return r == '-' || r == '\u2010' || r == '\u2011' }

// isInvisible holds for what may stand inside a word unheard: soft hyphen,
// joiners.
func isInvisible(r rune) bool {
	return r == '\u00AD' || '\u200C' <= r && r <= '\u200D' || r == '\u2060'
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

// at decodes the character at i, or 0 at the end.
func (p *parser) at(i, end int) (rune, int) {
	if i >= end {
		return 0, 0
	}
	if c := p.text[i]; c < utf8.RuneSelf {
		return rune(c), 1
	}
	return utf8.DecodeRuneInString(p.text[i:end])
}

// wordAhead reports whether a letter or digit stands at i.
func (p *parser) wordAhead(i, end int) bool {
	r, n := p.at(i, end)
	return n > 0 && startsWord(r)
}

// readWords appends the words of a line.
func (p *parser) readWords(segments []Span, blockEnd int) {
	first := len(p.words)
	for _, s := range segments {
		for i := s.Start; i < s.End; {
			r, n := p.at(i, s.End)
			if p.opensWord(i, n, r, s.End, blockEnd) {
				i = p.word(i, s.End, blockEnd)
				p.words[len(p.words)-1].Quoted = p.speech.open()
				continue
			}
			i += p.gap(i, n, r, s, blockEnd, len(p.words) > first)
		}
	}
}

// opensWord reports whether a word starts with the character r at i: a letter
// or digit, a sign of money before a digit, "&", or an apostrophe that elides
// a word's start.
func (p *parser) opensWord(i, n int, r rune, end, blockEnd int) bool {
	switch {
	case startsWord(r):
		return true
	case r == '&':
		return true
	case r == '$' || r == '£' || r == '€':
		return i+n < end && isDigit(p.text[i+n])
	case isApostrophe(r):
		return p.wordAhead(i+n, end) && p.elides(i, n, r, end, blockEnd)
	}
	return false
}

// word reads the word at i, appends it and returns where it ends.
func (p *parser) word(start, end, blockEnd int) int {
	i := start
	unheard := false
	letters, dotted := 0, false
	if r, n := p.at(i, end); r == '&' {
		p.words = append(p.words, Word{Span: Span{i, i + n}, Text: p.text[i : i+n]})
		return i + n
	} else if !startsWord(r) {
		i += n // the apostrophe or the sign of money that opened it
	}
loop:
	for i < end {
		for i < end && isASCIIWord(p.text[i]) {
			letters++
			i++
		}
		r, n := p.at(i, end)
		switch {
		case n == 0:
			break loop
		case startsWord(r):
			letters++
			i += n
		case r >= utf8.RuneSelf && unicode.IsMark(r):
			i += n
		case isHyphen(r):
			next, size := p.at(i+n, end)
			if !startsWord(next) && !(isApostrophe(next) && p.wordAhead(i+n+size, end)) {
				break loop
			}
			i += n
		case isApostrophe(r):
			if !p.innerApostrophe(i, n, end) && !p.trailing(start, i, n, r, end, blockEnd) {
				break loop
			}
			i += n
		case isInvisible(r):
			if !p.wordAhead(i+n, end) {
				break loop
			}
			unheard = true
			i += n
		case r == '*':
			j := i
			for j < end && p.text[j] == '*' {
				j++
			}
			if !p.wordAhead(j, end) || j-i > 3 {
				break loop
			}
			p.mark(i, j, end)
			unheard = true
			i = j
		case r == ',' && i+3 < end && isDigit(p.text[i-1]) && isDigit(p.text[i+1]) && isDigit(p.text[i+2]) && isDigit(p.text[i+3]),
			(r == '.' || r == ':' || r == '/') && i+1 < end && isDigit(p.text[i-1]) && isDigit(p.text[i+1]):
			i += n
		case r == '%' && isDigit(p.text[i-1]):
			i += n
			break loop
		case r == '.' && letters == 1 && p.initials(i, end):
			i += n
			letters, dotted = 0, true
		case r == '.' && letters == 1 && dotted:
			i += n // the last point of a.m.
			break loop
		default:
			break loop
		}
	}
	w := Word{Span: Span{start, i}, Text: p.text[start:i]}
	if unheard {
		w.Text = strings.Map(func(r rune) rune {
			if r == '*' || isInvisible(r) {
				return -1
			}
			return r
		}, w.Text)
	}
	p.words = append(p.words, w)
	return i
}

// initials reports whether the full stop at i, after a single letter, goes on
// to another single letter: a.m., U.S.A.
func (p *parser) initials(i, end int) bool {
	return i+1 < end && isASCIILetter(p.text[i+1]) && (i+2 == end || !isASCIILetter(p.text[i+2]) && p.text[i+2] != '\'')
}

// innerApostrophe reports whether the apostrophe at i has its word going on
// behind it: o’er, will-o’-the-wisp.
func (p *parser) innerApostrophe(i, n, end int) bool {
	next, size := p.at(i+n, end)
	return size > 0 && (startsWord(next) || isHyphen(next) && p.wordAhead(i+n+size, end))
}

// shout marks the words of a line that are all in capitals, where not the
// whole line is.
func shout(words []Word) {
	lower := false
	for i := range words {
		for _, r := range words[i].Text {
			if unicode.IsLower(r) {
				lower = true
				break
			}
		}
		if lower {
			break
		}
	}
	if !lower {
		return
	}
	for i := range words {
		letters := 0
		for _, r := range words[i].Text {
			if unicode.IsLower(r) {
				letters = 0
				break
			}
			if unicode.IsUpper(r) {
				letters++
			}
		}
		words[i].Shouted = letters >= 2
	}
}

// gap reads one character between words: the pause it asks for, the quotation
// it opens or closes, the emphasis it marks. It returns how many bytes it read.
func (p *parser) gap(i, n int, r rune, s Span, blockEnd int, after bool) int {
	pause := NoBreak
	switch r {
	case ' ', '\t':
		return n
	case '\\':
		// An escaped mark is itself and marks nothing. Others mean the same
		// with and without it.
		if i+1 < s.End && strings.IndexByte("*_\\", p.text[i+1]) >= 0 {
			return 2
		}
		return n
	case '*', '_':
		j := i
		for j < s.End && p.text[j] == byte(r) {
			j++
		}
		p.mark(i, j, s.End)
		return j - i
	case ',', '(', ')', '/':
		pause = LightBreak
	case '"', '“', '”', '«', '»', '„', '‟':
		pause = LightBreak
		p.speech.double(p, i, n, r)
	case '\'', '‘', '’', '‹', '›':
		pause = LightBreak
		p.speech.single(p, i, n, r)
	case ';', ':', '—', '–', '―', '…':
		pause = HeavyBreak
	case '.', '!', '?':
		pause = p.stop(i, s.End)
		j := i + n
		for r == '.' && j < s.End && p.text[j] == '.' {
			j++
		}
		n = j - i
	case '-':
		j := i
		for j < s.End && p.text[j] == '-' {
			j++
		}
		// Hyphens do a dash's work in pairs, or alone between spaces.
		if j-i > 1 || spacedAt(p.text, i, j) {
			pause = HeavyBreak
		}
		n = j - i
	}
	if after && pause > p.words[len(p.words)-1].Break {
		p.words[len(p.words)-1].Break = pause
	}
	return n
}

func spacedAt(text string, i, j int) bool {
	return i > 0 && j < len(text) && text[i-1] == ' ' && text[j] == ' '
}

// stop tells a full stop from an ellipsis and from the point of an
// abbreviation. Both ! and ? always close.
func (p *parser) stop(i, end int) Break {
	if p.text[i] != '.' {
		return FullBreak
	}
	if i+1 < end && p.text[i+1] == '.' {
		return HeavyBreak
	}
	if len(p.words) == 0 {
		return FullBreak
	}
	w := p.words[len(p.words)-1]
	if w.Span.End != i {
		return FullBreak
	}
	more := p.skipSpace(i+1, end) < end
	switch w.Text {
	case "Mr", "Mrs", "Ms", "Dr", "St", "Mme", "Prof", "Capt":
		return NoBreak
	}
	// An initial: "J. Goat". "I." closes a sentence.
	if len(w.Text) == 1 && 'A' <= w.Text[0] && w.Text[0] <= 'Z' && w.Text != "I" && more {
		return NoBreak
	}
	return FullBreak
}
