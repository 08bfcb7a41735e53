package grammar

import "math/bits"

// The features, in the order of gen.go's kinds. They are those of the
// averaged perceptron of Honnibal ("A good part-of-speech tagger in about 200
// lines of Python", 2013), from which the weights are.
const (
	fBias byte = iota
	fSuffix
	fFirst
	fTag1
	fTag2
	fTags
	fWord
	fTag1Word
	fWord1
	fSuffix1
	fWord2
	fNext1
	fNextSuffix
	fNext2
)

// Where the perceptron has not met a word, the lists' most usual tag counts
// this much, in twelfths, as a word's own weights would. On the development
// half of testdata/verse.txt 1 to 4 whole points gave the same answers.
const usual = 2 * 12

// choose gives each piece its class, from the first to the last: a greedy
// search with the tags before, over the tags that the lists allow.
func choose(pieces []piece) []piece {
	from := 0
	for i := range pieces {
		if i > from && pieces[i].opens {
			chooseSentence(pieces[from:i])
			from = i
		}
	}
	chooseSentence(pieces[from:])
	return pieces
}

func chooseSentence(s []piece) {
	tag1, tag2 := start, start2
	var open waiting
	for i := range s {
		p := &s[i]
		if p.may&(p.may-1) != 0 || p.may == 0 {
			p.class = best(s, i, tag1, tag2, open)
		} else {
			p.class = class(bits.TrailingZeros64(uint64(p.may)))
			p.margin = onlyOne
		}
		open = open.next(p)
		tag2, tag1 = tag1, p.class
	}
	findVerbs(s)
}

// findVerbs looks for a verb in each clause that was left without one. Prose
// teaches the tagger to hear two nouns in "the kingfisher dove"; but a clause
// wants a verb, and of the words that may be one the likeliest is taken, if it
// stands behind a noun with which it agrees.
func findVerbs(s []piece) {
	from := 0
	for i := range len(s) + 1 {
		if i == len(s) || parts(&s[i]) {
			findVerb(s[from:i])
			from = i + 1
		}
	}
}

// parts reports whether a piece parts two clauses.
func parts(p *piece) bool {
	switch p.class {
	case cComma, cStop, cDash, cCC, cWRB, cWDT, cWP:
		return true
	case cIN:
		switch p.lower {
		case "if", "because", "while", "though", "although", "till", "until", "unless":
			return true
		}
	}
	return false
}

// unlikely is how much worse a verb may score than the noun that it replaces,
// in twelfths.
const unlikely = 8 * 12

func findVerb(clause []piece) {
	found := -1
	for i := range clause {
		p := &clause[i]
		if t := tagOf[p.class]; t.IsVerb() && t != VerbParticiple && t != VerbGerund || t == Modal {
			return
		}
		if i == 0 || p.verb == start || p.loss > unlikely || !agrees(&clause[i-1], p.verb) {
			continue
		}
		if found < 0 || p.loss < clause[found].loss {
			found = i
		}
	}
	if found >= 0 {
		p := &clause[found]
		p.class, p.margin = p.verb, 0
	}
}

// agrees reports whether a finite verb may follow a subject.
func agrees(subject *piece, verb class) bool {
	switch subject.class {
	case cNN, cNNP:
		return verb == cVBZ || verb == cVBD
	case cNNS, cNNPS:
		return verb == cVBP || verb == cVBD
	}
	return false
}

// waiting is the auxiliary that still waits for its verb. The perceptron sees
// two words back; in a question and in verse's turned order ("so close to the
// fire did the old tomcat lie") the subject stands between.
type waiting uint8

const (
	nothing waiting = iota
	base            // after a modal or a form of "do"
	past            // after a form of "have"
)

func (w waiting) next(p *piece) waiting {
	switch p.lower {
	case "do", "does", "did":
		return base
	case "have", "has", "had", "'ve":
		return past
	}
	switch {
	case p.class == cMD:
		return base
	case p.class == cStop, p.class == cDash, p.class == cComma, p.class == cCC, p.class == cTO, p.class == cWDT, p.class == cWP:
		return nothing
	case tagOf[p.class].IsVerb():
		return nothing
	}
	return w
}

// Weights of rules, in twelfths, chosen on the development half of
// testdata/verse.txt. The perceptron's own sums for a word differ by some 10
// whole points between a sure and an unlikely tag.
const (
	awaited    = 12 * 12 // the verb an auxiliary waits for
	infinite   = 2 * 12  // the base form after "to"
	running    = 15 * 12 // "is sleeping", which newspapers have seldom
	liveVerb   = 1 * 12  // any verb: verse has more of them than newspapers
	beginning  = 8 * 12  // "asked the mole": a past form opens a clause
	nowhere    = 30 * 12 // "there" before anything but a verb is a place
	hanging    = 5 * 12  // a preposition before a pause: "he flickered by"
	asking     = 8 * 12  // "how can ye", not a can
	reaching   = 6 * 12  // "yield him shade": only a verb has an object
	doing      = 14 * 12 // "kissing the meadows"
	compound   = 6 * 12  // "a pleasure-dome": newspapers join adjectives
	existing   = 8 * 12  // "there arose such a clatter"
	modal      = 6 * 12  // "can", which is seldom a tin
	counted    = 6 * 12  // "seven sorrows"
	compared   = 12 * 12 // "number than", which is no noun
	impossible = 8 * 12  // "his tarry", "sold produce": no verb in the present
	alone      = 4 * 12  // "nobody minds": no plural after a pronoun
)

// rules adds what verse needs beyond the weights learned from newspapers.
func rules(sum *scores, s []piece, i int, tag1 class, open waiting) {
	for c := cVB; c <= cVBZ; c++ {
		sum[c] += liveVerb
	}
	before := ""
	if i > 0 {
		before = s[i-1].lower
	}
	if i > 0 && (tagOf[tag1].IsNoun() || tag1 == cPRP || tag1 == cRB || before == "one") {
		switch open {
		case base:
			sum[cVB] += awaited
		case past:
			sum[cVBN] += awaited
		}
	}
	if s[i].lower == "there" && (i+1 == len(s) || s[i+1].may&verbs == 0) {
		sum[cEX] -= nowhere
	}
	if s[i].lower == "there" && i+2 < len(s) && s[i+1].may&verbs != 0 && s[i+2].may&setOf(cDT, cPDT, cCD) != 0 {
		sum[cEX] += existing
	}
	if s[i].may&(1<<cMD) != 0 && tag1 != cDT && tag1 != cPRPS && tag1 != cJJ && tag1 != cTO {
		sum[cMD] += modal
	}
	ends, next := i+1 == len(s), piece{}
	if !ends {
		next = s[i+1]
		ends = next.may&marks != 0
	}
	if ends {
		sum[cIN] -= hanging
	}
	if s[i].lower == "her" && next.may&nominal == 0 {
		sum[cPRP] += nowhere
	}
	if next.may == 1<<cPRP && s[i].may&(1<<cMD) != 0 {
		sum[cMD] += asking
	}
	switch next.lower {
	case "me", "him", "us", "them":
		for c := cVB; c <= cVBZ; c++ {
			sum[c] += reaching
		}
	}
	if s[i].may&(1<<cVBG) != 0 && tag1 != cDT && tag1 != cPRPS && tag1 != cJJ && next.may&setOf(cDT, cPRP, cPRPS, cIN, cRP, cTO) != 0 {
		sum[cVBG] += doing
	}
	if s[i].norm == "!HYPHEN" && s[i].most == cNN {
		sum[cNN] += compound
	}
	if next.lower == "than" {
		sum[cJJR] += compared
		sum[cRBR] += compared
	}
	switch tag1 {
	case cDT, cPRPS:
		for _, c := range [...]class{cVB, cVBP, cVBZ, cVBD, cMD} {
			sum[c] -= impossible
		}
	case cVBD:
		sum[cVBP] -= impossible
	}
	switch tag1 {
	case cTO:
		if s[i].most != cVB {
			break // "measureless to man"
		}
		sum[cVB] += infinite
	case start, cComma, cStop, cDash:
		if i+1 < len(s) && s[i+1].may&setOf(cDT, cPRPS, cPRP, cNNP) != 0 {
			sum[cVBD] += beginning
			sum[cVBN] -= beginning
		}
	case cVBZ, cVBP, cVBD:
		switch before {
		case "is", "are", "am", "was", "were", "'s", "'re", "'m":
			sum[cVBG] += running
		}
	case cCD:
		if before != "one" {
			sum[cNNS] += counted
		}
	case cNN:
		switch before {
		case "nobody", "everybody", "somebody", "anybody", "everyone", "someone", "anyone", "nothing", "everything", "something", "anything":
			sum[cVBZ] += alone
			sum[cNNS] -= alone
		}
	}
}

// imitates reports whether a word stands for a sound: "plop went the rain".
func imitates(s []piece, i int, tag1 class) bool {
	switch tag1 {
	case start, cComma, cCC, cDash, cUH:
		return i+1 < len(s) && (s[i+1].lower == "went" || s[i+1].lower == "goes") && s[i].may&^content == 0 && s[i].may&setOf(cRB, cNNS, cNNP) == 0
	}
	return false
}

// alike reports whether two classes are forms of one part of speech.
func alike(a, b class) bool {
	x, y := tagOf[a], tagOf[b]
	return x.IsVerb() && y.IsVerb() || x.IsNoun() && y.IsNoun() || x.IsAdjective() && y.IsAdjective() || x.IsAdverb() && y.IsAdverb()
}

// onlyOne is the margin of a word that has one part of speech.
const onlyOne = 40 * 12

// scores holds a score for each class.
type scores [classCount]int32

func (s *scores) add(h hash) bool {
	w := weights(h.done())
	for i := 0; i < len(w); i += 2 {
		s[w[i]] += int32(int8(w[i+1]))
	}
	return w != ""
}

func best(s []piece, i int, tag1, tag2 class, open waiting) class {
	p := &s[i]
	if imitates(s, i, tag1) {
		return cUH
	}
	score := score(s, i, tag1, tag2)
	rules(&score, s, i, tag1, open)
	top, answer := int32(-1<<31), cNN
	for c := range classCount {
		if p.may>>c&1 != 0 && score[c] > top {
			top, answer = score[c], c
		}
	}
	p.margin = onlyOne
	for c := range classCount {
		if c != answer && p.may>>c&1 != 0 && !alike(c, answer) {
			p.margin = min(p.margin, top-score[c])
		}
	}
	p.verb, p.loss = start, 0
	for _, c := range [...]class{cVBD, cVBP, cVBZ} {
		if p.may>>c&1 != 0 && (p.verb == start || top-score[c] < p.loss) {
			p.verb, p.loss = c, top-score[c]
		}
	}
	return answer
}

func score(s []piece, i int, tag1, tag2 class) scores {
	var sum scores
	p := &s[i]
	feature := func(kind byte) hash { return newHash().byte(kind) }
	around := func(j int) string {
		switch {
		case j >= 0 && j < len(s):
			return s[j].norm
		case j == -1:
			return "-START2-"
		case j == -2:
			return "-START-"
		case j == len(s):
			return "-END-"
		}
		return "-END2-"
	}
	before, after := around(i-1), around(i+1)
	sum.add(feature(fBias))
	sum.add(feature(fSuffix).text(suffix(p.text)))
	sum.add(feature(fFirst).text(p.text[:min(1, len(p.text))]))
	sum.add(feature(fTag1).byte(byte(tag1)))
	sum.add(feature(fTag2).byte(byte(tag2)))
	sum.add(feature(fTags).byte(byte(tag1)).byte(byte(tag2)))
	met := sum.add(feature(fWord).text(p.norm))
	sum.add(feature(fTag1Word).byte(byte(tag1)).text(p.norm))
	sum.add(feature(fWord1).text(before))
	sum.add(feature(fSuffix1).text(suffix(before)))
	sum.add(feature(fWord2).text(around(i - 2)))
	sum.add(feature(fNext1).text(after))
	sum.add(feature(fNextSuffix).text(suffix(after)))
	sum.add(feature(fNext2).text(around(i + 2)))
	if !met && p.most != start {
		sum[p.most] += usual
	}
	return sum
}

func suffix(s string) string { return s[max(0, len(s)-3):] }
