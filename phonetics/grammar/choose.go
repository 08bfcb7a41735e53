package grammar

import (
	"math/bits"
	"slices"
)

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
// this much, in twelfths, as a word's own weights would. From 0 to 8 whole points,
// 4 gave the most right tags on newspaper text and on the development half of
// testdata/verse.txt, though the choice moves one word in a thousand.
const usual = 4 * 12

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
	tag2 := start2
	v := view{s: s, tag1: start}
	for v.i = range s {
		p := v.word()
		if p.may&(p.may-1) != 0 || p.may == 0 {
			p.class = best(&v, tag2)
		} else {
			p.class = class(bits.TrailingZeros64(uint64(p.may)))
			p.margin = onlyOne
		}
		v.open = v.open.next(p)
		tag2, v.tag1 = v.tag1, p.class
	}
	findVerbs(s)
}

// findVerbs looks for a verb in each clause that was left without one. Prose
// teaches the tagger to hear two nouns in "the kingfisher dove"; but a clause
// wants a verb, and of the words that may be one the likeliest is taken, if it
// stands behind a noun with which it agrees.
func findVerbs(s []piece) {
	limit := int32(unlikely)
	if !slices.ContainsFunc(s, isFinite) {
		limit = verbless
	}
	from := 0
	for i := range len(s) + 1 {
		if i == len(s) || parts(&s[i]) {
			findVerb(s[from:i], limit)
			from = i + 1
		}
	}
}

func isFinite(p piece) bool {
	return setOf(cMD, cVB, cVBD, cVBP, cVBZ)>>p.class&1 != 0
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

// How much worse a verb may score than the noun that it replaces, in twelfths:
// in one clause of several, and where the whole sentence has no verb.
const (
	unlikely = 8 * 12
	verbless = 16 * 12
)

func findVerb(clause []piece, limit int32) {
	found := -1
	for i := range clause {
		p := &clause[i]
		if isFinite(*p) {
			return
		}
		if i == 0 || p.verb == start || p.loss > limit || !agrees(&clause[i-1], p.verb) {
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

// alike reports whether two classes are forms of one part of speech.
func alike(a, b class) bool {
	x, y := tagOf[a], tagOf[b]
	return x.IsVerb() && y.IsVerb() || x.IsNoun() && y.IsNoun() || x.IsAdjective() && y.IsAdjective() || x.IsAdverb() && y.IsAdverb()
}

// onlyOne is the margin of a word that has one part of speech.
const onlyOne = 40 * 12

// scores holds a score for each class.
type scores [classCount]int32

// add adds a feature's weights; it reports whether the perceptron has met the
// feature.
func (s *scores) add(f place) bool {
	w := f.weights()
	for i := 0; i < len(w); i += 2 {
		s[w[i]] += int32(int8(w[i+1]))
	}
	return w != ""
}

func best(v *view, tag2 class) class {
	p := v.word()
	if imitates(v) {
		return cUH
	}
	score := score(v.s, v.i, v.tag1, tag2)
	for _, r := range rules {
		if p.may&r.of == 0 || !r.when(v) {
			continue
		}
		for of := r.of; of != 0; of &= of - 1 {
			score[bits.TrailingZeros64(uint64(of))] += 12 * r.by
		}
	}
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
	// All places are found before one is read: so the memory fetches them side
	// by side, which is where the time goes.
	word := find(feature(fWord).text(p.norm))
	others := [...]place{
		find(feature(fBias)),
		find(feature(fSuffix).text(suffix(p.text))),
		find(feature(fFirst).text(p.text[:min(1, len(p.text))])),
		find(feature(fTag1).byte(byte(tag1))),
		find(feature(fTag2).byte(byte(tag2))),
		find(feature(fTags).byte(byte(tag1)).byte(byte(tag2))),
		find(feature(fTag1Word).byte(byte(tag1)).text(p.norm)),
		find(feature(fWord1).text(before)),
		find(feature(fSuffix1).text(suffix(before))),
		find(feature(fWord2).text(around(i - 2))),
		find(feature(fNext1).text(after)),
		find(feature(fNextSuffix).text(suffix(after))),
		find(feature(fNext2).text(around(i + 2))),
	}
	word.open()
	for i := range others {
		others[i].open()
	}
	met := sum.add(word)
	for _, f := range others {
		sum.add(f)
	}
	if !met && p.most != start {
		sum[p.most] += usual
	}
	return sum
}

func suffix(s string) string { return s[max(0, len(s)-3):] }
