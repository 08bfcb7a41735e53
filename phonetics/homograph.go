package phonetics

import (
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"dandle/phonetics/arpabet"
	"dandle/phonetics/grammar"
)

// homograph says which of its sounds a word has in its sentence, where the
// spelling alone leaves that open: "wind" the noun and "wind" the verb. The
// word is in the dictionary's form; written is as it stands in the text, for
// "Polish" is not "polish"; ways are what the dictionary lists. The answer is
// one of them, or what the dictionary lacks ("row" as a quarrel). The reason
// is a phrase that can follow "it is": "a verb here", "beside “loud”".
//
// It is not ok where the word has one sound, or where nothing in sight
// decides.
func homograph(written, word string, beside *surroundings, ways []Sounds) (want Sounds, reason string, ok bool) {
	if senses, found := homographs()[word]; found {
		return pick(senses, written, beside)
	}
	return alternate(word, beside.tag(), ways)
}

// A tagSet is a set of parts of speech, as bits.
type tagSet uint64

func tagsOf(tags ...grammar.Tag) tagSet {
	var s tagSet
	for _, t := range tags {
		s |= 1 << t
	}
	return s
}

func (s tagSet) has(t grammar.Tag) bool { return s>>t&1 != 0 }

// A sense is one meaning of a homograph and how it sounds.
type sense struct {
	sounds Sounds
	tags   tagSet // the parts of speech that it has
	// before and after list words, with a space on either side of each; one
	// of them beside the homograph calls for this sense, if it has the right
	// part of speech too. With neither, the part of speech alone decides.
	before, after string
	capital       bool // only where written with a capital
}

func pick(senses []sense, written string, beside *surroundings) (Sounds, string, bool) {
	first, _ := utf8.DecodeRuneInString(written)
	before, after := bare(beside.before()), bare(beside.after())
	for _, s := range senses {
		if s.capital && !unicode.IsUpper(first) || !s.tags.has(beside.tag()) {
			continue
		}
		switch {
		case before != "" && strings.Contains(s.before, " "+before+" "):
			return s.sounds, "beside “" + before + "”", true
		case after != "" && strings.Contains(s.after, " "+after+" "):
			return s.sounds, "beside “" + after + "”", true
		case s.before == "" && s.after == "":
			return s.sounds, tagPhrase(beside.tag()), true
		}
	}
	return "", "", false
}

// bare is a word in the form in which the lists hold it.
func bare(word string) string {
	return strings.Trim(fold(word).text, ".,;:!?\"()[]")
}

// tagPhrase names a part of speech as a reason.
func tagPhrase(t grammar.Tag) string {
	switch {
	case t == grammar.VerbPast, t == grammar.VerbParticiple:
		return "a past form here"
	case t.IsVerb():
		return "a verb here"
	case t == grammar.Name, t == grammar.NamePlural:
		return "a name here"
	case t.IsNoun():
		return "a noun here"
	case t.IsAdjective():
		return "an adjective here"
	case t.IsAdverb():
		return "an adverb here"
	}
	return "alone here"
}

// homographs are the words whose sounds no rule yields. The meanings and
// their sounds are after Webster's Unabridged Dictionary (1913), the sounds
// in General American.
//
// A line is a word and one of its senses: the parts of speech (n noun, v verb
// in the present, p past form, j adjective, r adverb, N name, * any),
// the sounds, and after "<" or ">" the words one of which stands before or
// after. "^" asks for a capital. The first sense that fits is taken.
var homographs = sync.OnceValue(func() map[string][]sense {
	list := map[string][]sense{}
	for line := range strings.Lines(homographTable) {
		word, rest, ok := strings.Cut(strings.TrimSpace(line), ": ")
		if !ok {
			continue
		}
		parts, rest, _ := strings.Cut(rest, " ")
		var s sense
		for _, r := range parts {
			s.tags |= partTags[r]
			s.capital = s.capital || r == '^'
		}
		rest, after, found := strings.Cut(rest, " > ")
		if found {
			s.after = " " + after + " "
		}
		text, before, found := strings.Cut(rest, " < ")
		if found {
			s.before = " " + before + " "
		}
		sounds, err := arpabet.Parse(text)
		if err != nil {
			continue // TestHomographTable has read every line
		}
		s.sounds = sounds
		list[word] = append(list[word], s)
	}
	return list
})

var partTags = map[rune]tagSet{
	'n': tagsOf(grammar.Noun, grammar.NounPlural, grammar.Name, grammar.NamePlural),
	'N': tagsOf(grammar.Name, grammar.NamePlural),
	'v': tagsOf(grammar.Verb, grammar.VerbPresent, grammar.VerbThird, grammar.VerbGerund),
	'p': tagsOf(grammar.VerbPast, grammar.VerbParticiple),
	'j': tagsOf(grammar.Adjective, grammar.Comparative, grammar.Superlative),
	'r': tagsOf(grammar.Adverb, grammar.AdverbMore, grammar.AdverbMost, grammar.Particle, grammar.Preposition),
	'*': ^tagsOf(grammar.Unknown),
}

const homographTable = `
wind: njr W IH1 N D
wind: vp W AY1 N D
winds: n W IH1 N D Z
winds: vp W AY1 N D Z
tear: n T EH1 R < jagged ragged
tear: nj T IH1 R
tear: vp T EH1 R
tears: n T IH1 R Z
tears: v T EH1 R Z
live: vp L IH1 V
live: njr L AY1 V
lives: v L IH1 V Z
lives: n L AY1 V Z
read: vp R EH1 D < he she it who
read: p R EH1 D
read: vnj R IY1 D
misread: p M IH0 S R EH1 D
misread: v M IH0 S R IY1 D
lead: n L EH1 D < of as like heavy molten grey gray with from is > pipe pipes pencil pencils boots weight weights shot paint roof
lead: jn L EH1 D > pipe pipes pencil pencils boots weight weights shot paint roof
lead: * L IY1 D
close: * K L OW1 S < so too very as how stay stayed staying come came comes coming drew draw draws hold held holds sat sit sits stood stand stands crept creep creeps kept keep keeps snuggle snuggled nestle nestled lie lay huddled flew ran > beside behind by together
close: * K L OW1 Z > the your my his her its our their
close: jr K L OW1 S
close: vpn K L OW1 Z
closer: n K L OW1 Z ER0
closer: jr K L OW1 S ER0
used: p Y UW1 S T > to
used: pj Y UW1 Z D
house: v HH AW1 Z
house: njp HH AW1 S
houses: nv HH AW1 Z IH0 Z
mouth: v M AW1 DH
mouth: n M AW1 TH
minute: * M AY0 N UW1 T > little brown black white red green blue yellow golden silver grey gray pink
minute: j M AY0 N UW1 T
minute: nr M IH1 N AH0 T
bow: n B AW1 < deep low graceful polite solemn courtly humble sweeping final ship's boat's > wave
bow: * B AW1 > low down
bow: nj B OW1
bow: v B AW1
bows: n B AW1 Z < deep low graceful polite solemn courtly humble sweeping ship's boat's
bows: n B OW1 Z
bows: v B AW1 Z
bowed: pj B AW1 D
bowing: vnj B AW1 IH0 NG
row: n R AW1 < loud noisy terrible awful dreadful frightful blazing fearful > about between
row: njvp R OW1
rows: n R AW1 Z < loud noisy terrible awful dreadful frightful blazing fearful > about between
rows: nv R OW1 Z
sow: n S AW1
sow: vp S OW1
sows: n S AW1 Z
sows: v S OW1 Z
does: * D OW1 Z < the two three four five six some many young timid gentle graceful shy
does: n D OW1 Z
does: v D AH1 Z
wound: * W AW1 N D > up round around about through
wound: p W AW1 N D
wound: nvj W UW1 N D
deserts: n D IH0 Z ER1 T S < just
deserts: n D EH1 Z ER0 T S
deserts: v D IH0 Z ER1 T S
content: jvpr K AH0 N T EH1 N T
content: n K AH0 N T EH1 N T < heart's
content: n K AA1 N T EH0 N T
contents: n K AA1 N T EH0 N T S
invalid: n IH1 N V AH0 L IH0 D
invalid: j IH2 N V AE1 L AH0 D
bass: n B AE1 S < sea striped black catch catches caught catching hooked fished river lake rock > swim swims swam nibbled fishing
bass: nj B EY1 S
dove: p D OW1 V
dove: nvj D AH1 V
learned: * L ER1 N IH0 D < a the my our his her most very so
learned: j L ER1 N IH0 D
learned: p L ER1 N D
blessed: * B L EH1 S IH0 D < a the my our his this that every
blessed: j B L EH1 S IH0 D
blessed: pn B L EH1 S T
aged: * EY1 JH IH0 D < a an the my our his her this that
aged: * EY1 JH D > two three four five six seven eight nine ten eleven twelve
aged: p EY1 JH D
aged: j EY1 JH IH0 D
beloved: * B IH0 L AH1 V D > by of
beloved: jnp B IH0 L AH1 V IH0 D
cursed: * K ER1 S IH0 D < a the my our his her this that
cursed: pj K ER1 S T
dogged: * D AO1 G IH0 D < a the his her our with such
dogged: j D AO1 G IH0 D
dogged: p D AO1 G D
jagged: jp JH AE1 G IH0 D
legged: jp L EH1 G IH0 D
crooked: p K R UH1 K T
crooked: jn K R UH1 K IH0 D
refuse: n R EH1 F Y UW2 S
refuse: vp R IH0 F Y UW1 Z
august: ^jn AO1 G AH0 S T < in of by till until since last next every this each through
august: N AO1 G AH0 S T
august: ^n AO1 G AH0 S T
august: jn AO0 G AH1 S T
job: N JH OW1 B
job: n JH AA1 B
polish: ^jnN P OW1 L IH0 SH
polish: njvp P AA1 L IH0 SH
mobile: n M OW1 B IY2 L
mobile: j M OW1 B AH0 L
number: j N AH1 M ER0
number: nv N AH1 M B ER0
sewer: n S OW1 ER0 < nimble clever careful patient skilled quick neat fine > sews sewed sewing stitched stitches
sewer: n S UW1 ER0
resume: n R EH1 Z AH0 M EY2
resume: v R IH0 Z UW1 M
tarry: j T AA1 R IY0
tarry: v T EH1 R IY0
entrance: n EH1 N T R AH0 N S
entrance: v EH0 N T R AE1 N S
slough: n S L UW1
slough: v S L AH1 F
worsted: nj W UH1 S T IH0 D
worsted: p W ER1 S T IH0 D
moped: n M OW1 P EH2 D
moped: p M OW1 P T
buffet: n B AH0 F EY1
buffet: v B AH1 F AH0 T
cleanly: j K L EH1 N L IY0
cleanly: r K L IY1 N L IY0
putting: n P AH1 T IH0 NG > green greens
putting: vnj P UH1 T IH0 NG
viola: N V AY0 OW1 L AH0
viola: n V IY0 OW1 L AH0
accent: * AE1 K S EH2 N T
effect: * IH0 F EH1 K T
effects: * IH0 F EH1 K T S
ravel: nvp R AE1 V AH0 L
upset: n AH1 P S EH2 T
upset: jvp AH0 P S EH1 T
absent: j AE1 B S AH0 N T
absent: v AE0 B S EH1 N T
frequent: j F R IY1 K W AH0 N T
frequent: v F R IY0 K W EH1 N T
export: n EH1 K S P AO0 R T
export: v IH0 K S P AO1 R T
perfume: n P ER1 F Y UW2 M
perfume: v P ER0 F Y UW1 M
consort: n K AA1 N S AO0 R T
consort: v K AH0 N S AO1 R T
fragment: n F R AE1 G M AH0 N T
fragment: v F R AE0 G M EH1 N T
transplant: n T R AE1 N S P L AE2 N T
transplant: v T R AE0 N S P L AE1 N T
overlap: n OW1 V ER0 L AE2 P
overlap: v OW2 V ER0 L AE1 P
overthrow: n OW1 V ER0 TH R OW2
overthrow: v OW2 V ER0 TH R OW1
`

// alternate follows the patterns that many English words share: a noun or an
// adjective is stressed earlier than the verb ("a record", "to record"), ends
// in a weak vowel where the verb ends in a full one ("a separate room", "to
// separate"), and in s where the verb ends in z ("an excuse", "to excuse").
// (Quirk et al., A Comprehensive Grammar of the English Language, 1985,
// appendix I, from memory; Jespersen, A Modern English Grammar, part I, 1909,
// chapters V and VI, from memory.)
func alternate(word string, tag grammar.Tag, ways []Sounds) (want Sounds, reason string, ok bool) {
	verb := tag.IsVerb()
	if len(ways) < 2 || !verb && !tag.IsNoun() && !tag.IsAdjective() || !isVerbToo(word) {
		return "", "", false
	}
	for _, differs := range [...]func(Sounds) (verb, other bool){weightOfAte, voicing} {
		if want, ok := choose(ways, verb, differs); ok {
			return want, tagPhrase(tag), true
		}
	}
	if want, ok := byStress(ways, verb); ok {
		return want, tagPhrase(tag), true
	}
	return "", "", false
}

// isVerbToo reports whether the word lists know a word both as a verb and as
// a noun or an adjective: else two places of stress are two habits, not two
// words ("adult").
func isVerbToo(word string) bool {
	verb := grammar.CanBe(word, grammar.Verb) || grammar.CanBe(word, grammar.VerbThird)
	return verb && (grammar.CanBe(word, grammar.Noun) || grammar.CanBe(word, grammar.NounPlural) || grammar.CanBe(word, grammar.Adjective))
}

// choose takes the first way of the wanted kind, if both kinds are there.
func choose(ways []Sounds, verb bool, kinds func(Sounds) (verb, other bool)) (Sounds, bool) {
	var asVerb, asOther Sounds
	for _, s := range ways {
		v, o := kinds(s)
		if v && asVerb == "" {
			asVerb = s
		}
		if o && asOther == "" {
			asOther = s
		}
	}
	if asVerb == "" || asOther == "" {
		return "", false
	}
	if verb {
		return asVerb, true
	}
	return asOther, true
}

// weightOfAte tells "-ate" with its full vowel, as verbs have it, from "-ate"
// with a weak one.
func weightOfAte(s Sounds) (verb, other bool) {
	end := len(s)
	if end > 0 && (s.At(end-1).Phone() == arpabet.S) {
		end-- // separates
	}
	if s.SyllableCount() < 2 || end < 2 || s.At(end-1).Phone() != arpabet.T {
		return false, false
	}
	v := s.At(end - 2)
	switch v.Phone() {
	case arpabet.EY:
		return v.Stress() != arpabet.Primary, false
	case arpabet.AH, arpabet.IH:
		return false, v.Stress() == arpabet.Unstressed
	}
	return false, false
}

// voicing tells a last z from a last s: in "excuses" before the ending.
func voicing(s Sounds) (verb, other bool) {
	end := len(s)
	if end > 2 && s.At(end-1).Phone() == arpabet.Z && s.At(end-2).IsVowel() && s.At(end-2).Stress() == arpabet.Unstressed {
		end -= 2
	}
	if end < 2 || !s.At(end-2).IsVowel() {
		return false, false
	}
	last := s.At(end - 1).Phone()
	return last == arpabet.Z, last == arpabet.S
}

// byStress takes the way that is stressed latest for a verb, and earliest for
// any other word, among ways of as many syllables.
func byStress(ways []Sounds, verb bool) (Sounds, bool) {
	n := ways[0].SyllableCount()
	early, late := -1, -1
	var asVerb, asOther Sounds
	for _, s := range ways {
		place := mainStress(s)
		if s.SyllableCount() != n || place < 0 {
			continue
		}
		if early < 0 || place < early {
			early, asOther = place, s
		}
		if place > late {
			late, asVerb = place, s
		}
	}
	if early == late {
		return "", false
	}
	if verb {
		return asVerb, true
	}
	return asOther, true
}

// mainStress is the number of the syllable with the main stress, from 0; -1
// where there is none.
func mainStress(s Sounds) int {
	n := 0
	for i := range len(s) {
		if v := s.At(i); v.IsVowel() {
			if v.Stress() == arpabet.Primary {
				return n
			}
			n++
		}
	}
	return -1
}

// sameReading reports whether two ways of saying a word serve one meaning:
// they are stressed alike and differ at most in weak vowels, or by a weak
// vowel that the voice may skip ("sep-a-rate" the adjective and "sep-rate").
// "Record" the noun and "record" the verb are two readings, whose letters the
// dictionary gives the same consonants.
func sameReading(a, b Sounds) bool {
	a, b = skipped(a), skipped(b)
	if len(a) != len(b) {
		return false
	}
	for i := range len(a) {
		x, y := a.At(i), b.At(i)
		same := x.Phone() == y.Phone()
		switch {
		case !x.IsVowel() || !y.IsVowel():
			if !same {
				return false
			}
		case (x.Stress() == arpabet.Primary) != (y.Stress() == arpabet.Primary):
			return false
		case same:
		case x.Stress() != arpabet.Unstressed || y.Stress() != arpabet.Unstressed:
			return false
		case x.Phone() == arpabet.EY || y.Phone() == arpabet.EY:
			return false // "-ate" the verb, now and then written with EY0
		}
	}
	return true
}

// skipped leaves out the weak vowels before r, l or n and another vowel.
func skipped(s Sounds) Sounds {
	var b []byte
	for i := range len(s) {
		v := s.At(i)
		vowelAt := func(j int) bool { return j < len(s) && s.At(j).IsVowel() }
		if v.IsVowel() && v.Stress() == arpabet.Unstressed && i > 0 {
			switch v.Phone() {
			case arpabet.ER:
				if vowelAt(i + 1) {
					b = append(b, byte(arpabet.R))
					continue
				}
			case arpabet.AH, arpabet.IH:
				if vowelAt(i+2) && i+1 < len(s) {
					switch s.At(i + 1).Phone() {
					case arpabet.R, arpabet.L, arpabet.N:
						continue
					}
				}
			}
		}
		b = append(b, s[i])
	}
	return Sounds(b)
}
