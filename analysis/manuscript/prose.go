package manuscript

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

const (
	// longestVerse is the length in characters beyond which one line is a
	// paragraph: lines of eight beats run to about 110 (ours).
	longestVerse = 140
	// longestSentence is the length beyond which a line that stands alone and
	// holds more than one sentence is a paragraph (ours).
	longestSentence = 110
	// narrowestWrap is the least width that letters are wrapped at. Verse of
	// shorter lines is never weighed (ours).
	narrowestWrap = 56
)

// isProse reports whether the block is a paragraph of prose. It says so only
// where nothing else is likely: verse taken for prose would get no reading at
// all, while prose taken for verse can be told apart by its reader.
func (p *parser) isProse() bool {
	width, long, all := 0, 0, 0
	for _, raw := range p.block {
		if raw.span.Len() < narrowestWrap {
			all += raw.span.Len()
			continue
		}
		n := utf8.RuneCountInString(p.plain(raw))
		width = max(width, n)
		all += n
		if n > longestVerse {
			long += n
		}
	}
	switch {
	case long > 0:
		return 2*long > all
	case len(p.block) == 1 && width > longestSentence:
		return severalSentences(p.plain(p.block[0]))
	case width < narrowestWrap && p.framesLetter():
		return true
	}
	return width >= narrowestWrap && p.isWrapped(width)
}

// isWrapped reports whether the block's lines break where the width ends and
// not where the verse would: each line but the last is so full that the next
// word would not have fitted, most lines start in mid-sentence, without a
// capital and without a stop before them, and their ends do not rhyme.
func (p *parser) isWrapped(width int) bool {
	lines := p.block
	if len(lines) < 3 {
		return false
	}
	inside, stops := 0, 0
	for i := range lines[1:] {
		this, next := p.plain(lines[i]), p.plain(lines[i+1])
		first := next
		if sp := strings.IndexByte(next, ' '); sp >= 0 {
			first = next[:sp]
		}
		if utf8.RuneCountInString(this)+1+utf8.RuneCountInString(first) <= width {
			return false
		}
		if r, _ := utf8.DecodeRuneInString(next); unicode.IsLower(r) {
			inside++
		}
		if r, _ := utf8.DecodeLastRuneInString(this); unicode.IsPunct(r) {
			stops++
		}
	}
	breaks := len(lines) - 1
	return 3*inside >= 2*breaks && 2*stops <= breaks && !p.endsChime()
}

// plain is a line of the block without the space around it, and without a note or
// a comment at either end, which may be as long as it likes.
func (p *parser) plain(raw rawLine) string {
	return p.lineSpan(p.segments[raw.from:raw.to]).In(p.text)
}

// endsChime reports whether a quarter of the block's line ends are spelled
// alike, as rhymes mostly are.
func (p *parser) endsChime() bool {
	var ends [3]string // of the last three lines
	pairs := 0
	for _, raw := range p.block {
		end := tail(p.plain(raw))
		if end != "" && (end == ends[2] || end == ends[1]) {
			pairs++
		}
		ends[0], ends[1], ends[2] = ends[1], ends[2], end
	}
	return 4*pairs >= len(p.block)
}

// tail is the last three letters of a line.
func tail(line string) string {
	line = strings.TrimRightFunc(line, func(r rune) bool { return !unicode.IsLetter(r) })
	if len(line) < 3 {
		return ""
	}
	return strings.ToLower(line[len(line)-3:])
}

// severalSentences reports whether a sentence ends within the line and another
// starts.
func severalSentences(line string) bool {
	for {
		_, after, ok := strings.Cut(line, ". ")
		if !ok {
			return false
		}
		if r, _ := utf8.DecodeRuneInString(after); unicode.IsUpper(r) {
			return true
		}
		line = after
	}
}

// framesLetter reports whether the block is the salutation of a letter, or,
// behind prose, its close. These few words are the whole custom of letters
// (common practice).
func (p *parser) framesLetter() bool {
	first := p.plain(p.block[0])
	words := strings.Fields(first)
	if len(words) == 0 || len(words) > 6 || !strings.HasSuffix(first, ",") && !strings.HasSuffix(first, ":") {
		return false
	}
	if len(p.block) == 1 && words[0] == "Dear" && len(p.m.Lines) == 0 {
		return true
	}
	if !p.afterProse || len(p.block) > 4 {
		return false
	}
	switch strings.TrimSuffix(words[0], ",") {
	case "Sincerely", "Warmly", "Regards", "Cordially", "Yours":
		return true
	case "Best", "Kind", "Warm", "Warmest", "With", "Many":
		switch strings.TrimRight(words[len(words)-1], ",") {
		case "wishes", "regards", "thanks":
			return true
		}
	}
	return false
}
