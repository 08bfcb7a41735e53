package grammar

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
func choose(pieces []piece) {
	from := 0
	for i := range pieces {
		if i > from && pieces[i].opens {
			chooseSentence(pieces[from:i])
			from = i
		}
	}
	chooseSentence(pieces[from:])
}

func chooseSentence(s []piece) {
	tag1, tag2 := start, start2
	for i := range s {
		p := &s[i]
		if p.may&(p.may-1) != 0 || p.may == 0 {
			p.class = best(s, i, tag1, tag2)
		} else {
			for p.class = 0; p.may>>p.class&1 == 0; p.class++ {
			}
		}
		tag2, tag1 = tag1, p.class
	}
}

// scores holds a score for each class.
type scores [classCount]int32

func (s *scores) add(h hash) bool {
	w := weights(h.done())
	for i := 0; i < len(w); i += 2 {
		s[w[i]] += int32(int8(w[i+1]))
	}
	return w != ""
}

func best(s []piece, i int, tag1, tag2 class) class {
	p := &s[i]
	score := score(s, i, tag1, tag2)
	top, answer := int32(-1<<31), cNN
	for c := range classCount {
		if p.may>>c&1 != 0 && score[c] > top {
			top, answer = score[c], c
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
