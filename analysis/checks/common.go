package checks

import (
	"encoding/binary"
	"strings"
	"sync"

	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"
)

// common is what several checks listen to, worked out when the first one asks.
type common struct {
	said   func() []*said
	again  func() []bool // the lines that come again word for word
	frames func() []frame
	held   func() []hold
	pairs  func() []rhymePair
	owed   func() []rhymePair
	curly  func() bool // whether the text has a typographic apostrophe

	strongOf    map[int][]strongSyllable // by line, as far as asked for
	lastPassage *passage                 // the one that was asked for last
}

func newCommon(p *Pass) *common {
	s := &common{strongOf: map[int][]strongSyllable{}}
	s.said = sync.OnceValue(func() []*said { return allSaid(p) })
	s.again = sync.OnceValue(func() []bool { return refrains(s.said()) })
	s.frames = sync.OnceValue(func() []frame {
		return p.Memory.frames.Get(p.framesKey(), func() []frame { return frames(p.Manuscript, s.said()) })
	})
	s.held = sync.OnceValue(func() []hold { return heldWords(len(p.Manuscript.Lines), s.frames()) })
	s.pairs = sync.OnceValue(func() []rhymePair { return rhymePairs(p) })
	s.owed = sync.OnceValue(func() []rhymePair { return owedPairs(p) })
	s.curly = sync.OnceValue(func() bool { return strings.Contains(p.Manuscript.Text, "’") })
	return s
}

// framesKey is all that refrains are found by: the lines that are looked at, and
// where their stanzas begin.
func (p *Pass) framesKey() []byte {
	n := min(len(p.Manuscript.Lines), mostRefrainLines)
	key := p.appendSounds(make([]byte, 0, 9*n), manuscript.Stanza{To: n})
	for i := range n {
		key = append(key, truth(p.Manuscript.Lines[i].Place == 0))
	}
	return key
}

// said is the words of a line as they are said, however they are written.
type said struct {
	words []string // in lower case, with a plain apostrophe
	whole string   // all of them
	// start and end are the first two words and the last two, where there are
	// enough for a refrain.
	start, end string
	stems      func() []string
}

func newSaid(line *manuscript.Line) *said {
	s := &said{words: make([]string, len(line.Words))}
	var b strings.Builder
	if n := len(line.Words); n > 0 {
		b.Grow(line.Words[n-1].Span.End - line.Words[0].Span.Start + 1)
	}
	for k, w := range line.Words {
		s.words[k] = plain(w.Text)
		b.WriteString(s.words[k])
		b.WriteByte(' ')
	}
	s.whole = b.String()
	// What is remembered must not hold on to the text that it was read from.
	at := 0
	for k, w := range s.words {
		s.words[k] = s.whole[at : at+len(w)]
		at += len(w) + len(" ")
	}
	if n := len(s.words); n >= frameWords {
		s.start = s.whole[:len(s.words[0])+len(" ")+len(s.words[1])]
		s.end = s.whole[len(s.whole)-len(s.words[n-2])-len(s.words[n-1])-2*len(" "):]
	}
	s.stems = sync.OnceValue(func() []string {
		stems := make([]string, len(s.words))
		for k, w := range s.words {
			stems[k] = stem(w)
		}
		return stems
	})
	return s
}

func allSaid(p *Pass) []*said {
	list := make([]*said, len(p.Manuscript.Lines))
	var key [8]byte
	for i := range list {
		line := &p.Manuscript.Lines[i]
		sound := p.sound(i)
		if sound == 0 {
			list[i] = newSaid(line)
			continue
		}
		binary.LittleEndian.PutUint64(key[:], uint64(sound))
		list[i] = p.Memory.said.Get(key[:], func() *said { return newSaid(line) })
	}
	return list
}

// sound is that of a line; 0 where it was not heard.
func (p *Pass) sound(line int) scansion.Sound {
	if line >= len(p.Poem.Lines) {
		return 0
	}
	return p.Poem.Lines[line].Sound()
}

// appendSounds appends the sounds of a stanza's lines to a key.
func (p *Pass) appendSounds(b []byte, s manuscript.Stanza) []byte {
	for i := s.From; i < s.To; i++ {
		b = binary.LittleEndian.AppendUint64(b, uint64(p.sound(i)))
	}
	return b
}
