package ear

import (
	"fmt"
	"strings"

	"dandle/analysis/manuscript"
	"dandle/phonetics/arpabet"
	"dandle/phonetics/grammar"
)

// A kind sorts syllables by what makes them strong or weak: for words of one
// syllable what the word does, for longer ones the dictionary's stress and the
// place in the word.
type kind uint8

// The kinds of words of one syllable.
const (
	article kind = iota
	preposition
	toward // "to"
	conjunction
	pronoun
	possessive
	auxiliary
	question // wh-words
	pointing // this, that, these, those
	quantity // all, each, both, some, no, any, such
	negation // not, no, never, nor
	particle // woke up
	adverb
	adjective
	number
	noun
	name
	verb
	interjection
	existential // there is
	unsure

	monoKinds
)

// longKind is the kind of a syllable in a word of two syllables or more.
func longKind(stress arpabet.Stress, place, count int, function bool) kind {
	where := 1 // inside
	switch place {
	case 0:
		where = 0
	case count - 1:
		where = 2
	}
	k := (int(stress)*3+where)*3 + min(count, 4) - 2
	if function {
		k += longKinds / 2
	}
	return monoKinds + kind(k)
}

const (
	longKinds = 2 * 3 * 3 * 3
	kinds     = int(monoKinds) + longKinds
)

var kindNames = [monoKinds]string{
	"article", "preposition", "to", "conjunction", "pronoun", "possessive", "auxiliary", "question", "pointing",
	"quantity", "negation", "particle", "adverb", "adjective", "number", "noun", "name", "verb", "interjection",
	"existential", "unsure",
}

func (k kind) String() string {
	if k < monoKinds {
		return kindNames[k]
	}
	n := int(k - monoKinds)
	class := "content"
	if n >= longKinds/2 {
		n, class = n-longKinds/2, "function"
	}
	return fmt.Sprintf("%s stress %d %s of %d", class, n/9, [...]string{"first", "inside", "last"}[n/3%3], n%3+2)
}

// A strength is a syllable's rank among its neighbours (Jespersen 1900: four
// degrees suffice).
type strength uint8

const (
	weakest strength = iota
	weak
	middling
	strong
	edge // beyond the line's end

	strengths     = int(edge)     // of a syllable
	nearStrengths = int(edge) + 1 // of a neighbour
)

var strengthNames = [...]string{"weakest", "weak", "middling", "strong", "edge"}

func (s strength) String() string { return strengthNames[s] }

func (k kind) strength() strength {
	switch {
	case k >= monoKinds:
		n := int(k-monoKinds) % (longKinds / 2)
		function := int(k-monoKinds) >= longKinds/2
		switch arpabet.Stress(n / 9) {
		case arpabet.Primary:
			if function {
				return middling
			}
			return strong
		case arpabet.Secondary:
			return middling
		}
		return weakest
	case k == article:
		return weakest
	}
	switch k {
	case preposition, toward, conjunction, pronoun, possessive, auxiliary, existential:
		return weak
	case question, pointing, quantity, negation, particle, adverb, number, interjection, unsure:
		return middling
	}
	return strong
}

// closed lists the commonest words of one syllable in the closed classes: each
// has a weight of its own, since no two of them sit alike in verse.
var closed = strings.Fields(`a an the and but or nor for so yet of to in on at by with from up down out off
	as if when where how who what which that this these those there then than though while till
	i you he she it we they me him her us them my your his its our their thy thee thou ye
	is are was were be been am do does did has have had can could will would shall should may might must
	no not all some such each both one now here just too still more most like o oh through let`)

// closedLong lists the commonest longer ones: each has a weight for its first
// syllable, since "into" bends to the meter and "under" does not.
var closedLong = strings.Fields(`into onto unto upon within without until beneath beyond above about among around
	across along before behind below between because under over after either neither never ever only many any every
	other another myself himself herself itself themselves`)

var closedIndex, closedLongIndex = indexOf(closed), indexOf(closedLong)

func indexOf(words []string) map[string]int16 {
	m := make(map[string]int16, len(words))
	for i, w := range words {
		m[w] = int16(i)
	}
	return m
}

// The layout of the weights: each block of features starts where the one
// before it ends.
const (
	atKind       = 0                                                // kind
	atFamily     = atKind + kinds                                   // family × kind
	atTriple     = atFamily + int(familyCount)*kinds                // before × strength × after
	atNext       = atTriple + nearStrengths*strengths*nearStrengths // kind of a one-syllable word × kind of the next syllable
	atPrevious   = atNext + int(monoKinds)*(kinds+1)                // … × kind of the syllable before
	atBreakAfter = atPrevious + int(monoKinds)*(kinds+1)            // break × strength
	atBreakFore  = atBreakAfter + breaks*strengths                  // break × strength
	atStart      = atBreakFore + breaks*strengths                   // family × place from the start × strength
	atEnd        = atStart + int(familyCount)*places*strengths      // family × place from the end × strength
	atVowel      = atEnd + int(familyCount)*places*strengths        // fullness of an unstressed vowel × place in word
	atEmphasis   = atVowel + fullnesses*3
	atShouted    = atEmphasis + 1
	atWord       = atShouted + 1                        // one of the closed list
	atLongWord   = atWord + closedSize                  // first syllable of one of the longer closed list
	atWrench     = atLongWord + closedLongSize          // beside the main stress of its own word: content or function, before or after it
	atGap        = atWrench + 4                         // family × context × gap
	atGapBreak   = atGap + int(familyCount)*gapFeatures // break before the beat × gap
	atOpening    = atGapBreak + breaks*gaps             // foot × opening
	atEnding     = atOpening + int(FootCount)*openings  // foot × ending
	atFoot       = atEnding + int(FootCount)*endings    // foot
	atCost       = atFoot + int(FootCount)              // of a pronunciation
	atLength     = atCost + 1                           // each beat away from what the line's place calls for
	featureCount = atLength + 1

	breaks         = int(manuscript.FullBreak) + 1
	places         = 3
	fullnesses     = 3
	closedSize     = 104
	closedLongSize = 38
)

// featureName says in words what a weight is about.
func featureName(i int) string {
	break_ := func(n int) string { return [...]string{"no", "light", "heavy", "full"}[n] }
	fam := func(n int) string { return [...]string{"duple", "triple", "loose"}[n] }
	foot := func(n int) string {
		return [...]string{"iambic", "trochaic", "anapestic", "dactylic", "amphibrachic", "mixed"}[n]
	}
	near := func(n int) string {
		if n == kinds {
			return "edge"
		}
		return kind(n).String()
	}
	context := func(c int) string {
		if c < gaps {
			return fmt.Sprintf("gap %d", c)
		}
		return fmt.Sprintf("opening %d", c-gaps)
	}
	switch {
	case i < atFamily:
		return "beat on: " + kind(i).String()
	case i < atTriple:
		i -= atFamily
		return fmt.Sprintf("beat on, in %s meter: %v", fam(i/kinds), kind(i%kinds))
	case i < atNext:
		i -= atTriple
		return fmt.Sprintf("beat on %v between %v and %v", strength(i/nearStrengths%strengths), strength(i/nearStrengths/strengths), strength(i%nearStrengths))
	case i < atPrevious:
		i -= atNext
		return fmt.Sprintf("beat on %v before %s", kind(i/(kinds+1)), near(i%(kinds+1)))
	case i < atBreakAfter:
		i -= atPrevious
		return fmt.Sprintf("beat on %v after %s", kind(i/(kinds+1)), near(i%(kinds+1)))
	case i < atBreakFore:
		i -= atBreakAfter
		return fmt.Sprintf("beat on %v with %s break after", strength(i%strengths), break_(i/strengths))
	case i < atStart:
		i -= atBreakFore
		return fmt.Sprintf("beat on %v with %s break before", strength(i%strengths), break_(i/strengths))
	case i < atEnd:
		i -= atStart
		return fmt.Sprintf("beat on %v, place %d from the start, in %s meter", strength(i%strengths), i/strengths%places, fam(i/strengths/places))
	case i < atVowel:
		i -= atEnd
		return fmt.Sprintf("beat on %v, place %d from the end, in %s meter", strength(i%strengths), i/strengths%places, fam(i/strengths/places))
	case i < atEmphasis:
		i -= atVowel
		return fmt.Sprintf("beat on an unstressed %s vowel, %s in its word", [...]string{"reduced", "half-full", "full"}[i/3], [...]string{"first", "inside", "last"}[i%3])
	case i == atEmphasis:
		return "beat on an emphasised word"
	case i == atShouted:
		return "beat on a shouted word"
	case i < atLongWord:
		return "beat on the word " + closed[i-atWord]
	case i < atWrench:
		return "beat on the first syllable of " + closedLong[i-atLongWord]
	case i < atGap:
		i -= atWrench
		return fmt.Sprintf("beat on an unstressed syllable right %s the main stress of its %s word", [...]string{"before", "after"}[i%2], [...]string{"content", "function"}[i/2])
	case i < atGapBreak:
		i -= atGap
		return fmt.Sprintf("%d slacks between beats after %s, in %s meter", i%gaps, context(i/gaps%contexts), fam(i/gapFeatures))
	case i < atOpening:
		i -= atGapBreak
		return fmt.Sprintf("%d slacks between beats with %s break before the second", i%gaps, break_(i/gaps))
	case i < atEnding:
		i -= atOpening
		return fmt.Sprintf("%s line opens with %d slacks", foot(i/openings), i%openings)
	case i < atFoot:
		i -= atEnding
		return fmt.Sprintf("%s line ends with %d slacks", foot(i/endings), i%endings)
	case i < atCost:
		return foot(i-atFoot) + " line"
	case i == atCost:
		return "cost of a pronunciation"
	}
	return "each beat away from what the line's place calls for"
}

// auxiliaries are the forms of be, have, do and the modals of one syllable,
// with what they are shortened to (a closed class; Quirk and others, A
// Comprehensive Grammar of the English Language, 1985, ch. 3, from memory).
var auxiliaries = makeSet(`am is are was were be been being do does did has have had hath hast doth dost can could
	will would shall should may might must ought i'm you're he's she's it's we're they're i'll you'll he'll
	she'll we'll they'll i'd you'd he'd she'd we'd they'd i've you've we've they've that's there's 'twas 'tis`)

var (
	pointers  = makeSet("this that these those")
	amounts   = makeSet("all each both some such any half few much many")
	negatives = makeSet("not no never nor none don't can't won't isn't wasn't didn't")
	modalLike = makeSet("let")
)

func makeSet(words string) map[string]bool {
	m := map[string]bool{}
	for w := range strings.FieldsSeq(words) {
		m[w] = true
	}
	return m
}

// monoKind is the kind of a word of one syllable.
func monoKind(lower string, tag grammar.Tag) kind {
	switch {
	case negatives[lower]:
		return negation
	case auxiliaries[lower] || modalLike[lower]:
		return auxiliary
	case pointers[lower] && tag != grammar.Preposition:
		return pointing
	case amounts[lower]:
		return quantity
	}
	switch tag {
	case grammar.Determiner, grammar.Predeterminer:
		if lower == "the" || lower == "a" || lower == "an" || lower == "th'" {
			return article
		}
		return quantity
	case grammar.Preposition:
		return preposition
	case grammar.To:
		return toward
	case grammar.Conjunction:
		return conjunction
	case grammar.Pronoun:
		return pronoun
	case grammar.Possessive:
		return possessive
	case grammar.Modal:
		return auxiliary
	case grammar.WhAdverb, grammar.WhDeterminer, grammar.WhPronoun:
		return question
	case grammar.Particle:
		return particle
	case grammar.Adverb, grammar.AdverbMore, grammar.AdverbMost:
		return adverb
	case grammar.Adjective, grammar.Comparative, grammar.Superlative:
		return adjective
	case grammar.Number:
		return number
	case grammar.Noun, grammar.NounPlural:
		return noun
	case grammar.Name, grammar.NamePlural:
		return name
	case grammar.Verb, grammar.VerbPast, grammar.VerbGerund, grammar.VerbParticiple, grammar.VerbPresent, grammar.VerbThird:
		return verb
	case grammar.Interjection:
		return interjection
	case grammar.There:
		return existential
	}
	return unsure
}

// isFunction reports whether a longer word is a function word: "into",
// "upon", "because", "himself".
func isFunction(tag grammar.Tag) bool {
	switch tag {
	case grammar.Preposition, grammar.Conjunction, grammar.Pronoun, grammar.Possessive, grammar.Determiner,
		grammar.Predeterminer, grammar.Modal, grammar.WhAdverb, grammar.WhDeterminer, grammar.WhPronoun, grammar.To:
		return true
	}
	return false
}

// fullness ranks an unstressed vowel: schwa and its like are hard to put a
// beat on, "happy" is easier, a full vowel easiest.
func fullness(p arpabet.Phone) int {
	switch p {
	case arpabet.AH, arpabet.ER, arpabet.IH:
		return 0
	case arpabet.IY:
		return 1
	}
	return 2
}
