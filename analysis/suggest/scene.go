package suggest

import (
	"math"
	"strings"

	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"
	"dandle/analysis/suggest/taste"
	"dandle/analysis/suggest/words"
	"dandle/phonetics/arpabet"
	"dandle/phonetics/grammar"
)

const (
	// commonWord is the rarity up to which a word is in every text, and plainWord
	// that up to which it lends a line no sense of its own.
	commonWord = 8
	plainWord  = 7
	// lineReach is how many words back a line still colours its end, and echo how
	// many back a first sound is still in the ear.
	lineReach = 6
	echo      = 4
)

// A scene is what a place in the text says of the word wanted there.
type scene struct {
	theme   words.Theme
	line    words.Theme  // of the words of the line itself
	about   []words.Word // the words with a sense of their own
	lately  []words.Word // those of the line, the nearest last
	place   taste.Place
	inLine  map[string]bool
	used    map[string]bool // words that end lines already
	echoes  map[string]int  // words that follow elsewhere what stands: how many words agree before them
	onsets  map[arpabet.Phone]bool
	article string         // "a" or "an" where one stands right before the place
	owes    grammar.TagSet // parts of speech, one of which the word before cannot do without; 0 for none
	// conjoined is set where the word before the last mark or conjunction may have
	// its like here: "salt and ...".
	conjoined bool
	old       bool // the manuscript speaks as old verse does
}

// scene gathers what the stanza, and the one before it, speak of.
func (p *Place) scene(line, stands int) scene {
	s := scene{used: map[string]bool{}, inLine: map[string]bool{}, echoes: map[string]int{}, onsets: map[arpabet.Phone]bool{}}
	p.listen(&s, line, stands)
	typed := p.Poem.Lines[line].Words[:stands]
	if stands > 0 {
		s.follow(typed, p.Manuscript.Text[typed[stands-1].Span.End:max(typed[stands-1].Span.End, p.Offset)])
	}
	for i := range typed {
		s.inLine[lower(typed[i].Text)] = true
		w := words.Find(lower(typed[i].Text))
		if w == words.None || w.Rarity() <= plainWord {
			continue
		}
		if i >= stands-lineReach {
			s.lately = append(s.lately, w)
		}
		if i >= stands-echo && len(typed[i].Ways) > 0 {
			if c, ok := firstSound(typed[i].Ways[0].Sounds); ok {
				s.onsets[c] = true
			}
		}
	}
	s.place.Line, s.place.Stanza = direction(s.lately), direction(s.about)
	for i := range p.Manuscript.Lines {
		list := p.Manuscript.Lines[i].Words
		if i != line && len(list) > 0 {
			s.used[lower(list[len(list)-1].Text)] = true
		}
		if i != line {
			s.echo(typed, list)
		}
		for k := range list {
			s.old = s.old || oldWords[lower(list[k].Text)]
		}
	}
	return s
}

// unfinished are the articles and possessives that never stand alone, nominals
// what may follow them. Common practice.
var (
	unfinished = setOf("a an the my your our their its every")
	nominals   = nounTags | nameTags | tags(grammar.Adjective, grammar.Comparative, grammar.Superlative,
		grammar.VerbGerund, grammar.VerbParticiple, grammar.Number)
)

// follow takes in the words right before the place, and what is written behind
// the last of them: a mark stands there as a word would, and so does the ending
// of a possessor.
func (s *scene) follow(typed []scansion.Word, behind string) {
	last := &typed[len(typed)-1]
	text := lower(last.Text)
	s.place.Tag = last.Tag
	if behind = strings.TrimSpace(behind); behind == "" && unfinished[text] {
		s.owes = nominals
		if text == "a" || text == "an" {
			s.article, s.owes = text, nominals&^tags(grammar.NounPlural, grammar.NamePlural)
		}
	}
	if len(typed) > 1 {
		before := &typed[len(typed)-2]
		s.place.TagBefore = before.Tag
		s.place.BeforeThat = words.Find(lower(before.Text)).Vector()
	}
	owner, owns := strings.CutSuffix(text, "'s")
	switch {
	case strings.ContainsAny(behind, ",;:.!?—–"):
		s.place.Tag, s.place.TagBefore = grammar.Punctuation, last.Tag
	case owns && grammar.TagSet(nameTags|nounTags).Has(last.Tag):
		s.place.Tag, s.place.TagBefore, text = grammar.PossessiveEnd, last.Tag, owner
	}
	s.place.Before = words.Find(text).Vector()
	s.conjoined = s.place.Tag == grammar.Punctuation || s.place.Tag == grammar.Conjunction
}

// echo takes in the words of another line that follow there what stands in this
// one.
func (s *scene) echo(typed []scansion.Word, other []manuscript.Word) {
	for k := 1; k < len(other); k++ {
		agree := 0
		for agree < min(k, len(typed)) && strings.EqualFold(other[k-1-agree].Text, typed[len(typed)-1-agree].Text) {
			agree++
		}
		if word := lower(other[k].Text); agree > 0 {
			s.echoes[word] = max(s.echoes[word], agree)
		}
	}
}

// listen takes in the words of the stanza and of the one before it, but not
// those of the line beyond what stands.
func (p *Place) listen(s *scene, line, stands int) {
	m := p.Manuscript
	stanza := m.Lines[line].Stanza
	var all, own []words.Word
	for i := m.Stanzas[max(0, stanza-1)].From; i < m.Stanzas[stanza].To; i++ {
		list := m.Lines[i].Words
		if i == line {
			list = list[:stands]
		}
		for _, w := range list {
			known := words.Find(lower(w.Text))
			if known == words.None {
				continue
			}
			all = append(all, known)
			if known.Rarity() > commonWord {
				s.about = append(s.about, known)
			}
			if i == line {
				own = append(own, known)
			}
		}
	}
	s.theme, s.line = words.NewTheme(all), words.NewTheme(own)
}

// direction is where words lie together, of length 1.
func direction(list []words.Word) (sum words.Vector) {
	for _, w := range list {
		for i, x := range w.Vector() {
			sum[i] += x
		}
	}
	length := float32(0)
	for _, x := range sum {
		length += x * x
	}
	if length == 0 {
		return sum
	}
	length = float32(math.Sqrt(float64(length)))
	for i := range sum {
		sum[i] /= length
	}
	return sum
}

// firstSound is the consonant that a word's first stressed syllable begins
// with; false where it begins with its vowel.
func firstSound(s arpabet.Sounds) (arpabet.Phone, bool) {
	for i := range len(s) {
		if v := s.At(i); v.IsVowel() && (v.Stress() != arpabet.Unstressed || s.SyllableCount() == 1) {
			if begin := onset(s, i); begin != "" {
				return begin.At(0).Phone(), true
			}
			return 0, false
		}
	}
	return 0, false
}

// nearest is how near a word lies to the one of a list that lies nearest.
func nearest(list []words.Word, w words.Word) float64 {
	best := 0.0
	for _, other := range list {
		best = max(best, words.Nearness(other, w))
	}
	return best
}

// oldWords stand in old verse, and in new verse only where it speaks as the old
// does: the second person singular with its verbs, and adverbs that speech has
// lost. Common practice.
var oldWords = setOf(`thee thou thy thine thyself ye hath doth hast dost wert shalt canst wouldst shouldst couldst didst hadst
wilt mayst durst thence whence hence hither thither whither yon yonder nay anon oft ere betwixt twain methinks perchance
verily forsooth prithee wherefore whereat thereat thereon therein whereon spake bade clad wrought begot forsook nought naught
woe alack lo hark yore fain nigh amid unto nevermore evermore`)

func setOf(list string) map[string]bool {
	set := map[string]bool{}
	for w := range strings.FieldsSeq(list) {
		set[w] = true
	}
	return set
}

// lower is a word as the lists write it.
func lower(text string) string {
	return strings.ToLower(strings.ReplaceAll(text, "’", "'"))
}
