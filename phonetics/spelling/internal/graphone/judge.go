package graphone

import (
	"strings"

	"dandle/phonetics/arpabet"
)

// A Dictionary gives the ways to say a word, none where it lacks the word.
type Dictionary func(word string) []arpabet.Sounds

// kin is a word of the dictionary that shares its beginning or its end with
// the word to be read.
type kin struct {
	kind   kinship
	ways   []arpabet.Sounds
	shared int    // letters
	own    uint64 // what of the word is not shared, as a hash
	its    uint64 // what of the kin is not shared: a place in the list of endings
}

type kinship uint64

const (
	stem    kinship = iota // all of the kin begins the word: lantern, lanterns
	sibling                // both go on after a shared beginning: baking, baker
	head                   // all of the kin ends the word: light, moonlight
)

// suffixes are the commonest inflections and derivations of English, which
// siblings of a word may have.
var suffixes = [...]string{
	"e", "y", "s", "es", "ed", "d", "ing", "er", "ers", "'s", "ly", "al", "ic", "ies", "ied", "ion", "ions",
	"or", "able", "ity", "ism", "ist", "ment", "ness", "ous", "ive", "a", "o", "i", "n", "on", "an", "in", "en",
}

// leastShared is the number of letters that kin must share. Fewer tell
// nothing of the sounds.
const leastShared = 3

// findKin looks for the word's nearest kin, one of each kind at most.
func findKin(kins []kin, word string, known Dictionary) []kin {
	for k := len(word) - 1; k >= leastShared; k-- {
		if e := known(word[:k]); len(e) > 0 {
			kins = append(kins, kin{stem, e, k, hashOf(word[k:]), 0})
			break
		}
	}
siblings:
	for k := len(word) - 1; k > leastShared && k >= len(word)-4; k-- {
		for s, suffix := range suffixes {
			if suffix == word[k:] {
				continue
			}
			if e := known(word[:k] + suffix); len(e) > 0 {
				kins = append(kins, kin{sibling, e, k, hashOf(word[k:]), uint64(s) + 1})
				break siblings
			}
		}
	}
	for k := 1; len(word)-k >= leastShared; k++ {
		if e := known(word[k:]); len(e) > 0 {
			kins = append(kins, kin{head, e, len(word) - k, hashOf(word[:k]), 0})
			break
		}
	}
	return kins
}

func hashOf[S ~string](s S) uint64 {
	h := uint64(len(s))
	for i := range len(s) {
		h = (h ^ uint64(s[i])) * 0x100000001b3
	}
	return h
}

// spelling writes letters as the dictionary does.
func spelling(letters []Letter) string {
	var b strings.Builder
	for _, l := range letters {
		b.WriteByte("?abcdefghijklmnopqrstuvwxyz'-."[l])
	}
	return b.String()
}

// KinFeatures appends for each reading the keys of how far its sounds go
// together with those of the word's kin.
func KinFeatures(letters []Letter, readings []Reading, known Dictionary, yield func(reading int, keys []Key)) {
	var kins [3]kin
	found := findKin(kins[:0], spelling(letters), known)
	if len(found) == 0 {
		return
	}
	best := readings[0].LogProb
	for _, r := range readings[1:] {
		best = max(best, r.LogProb)
	}
	kinds := uint64(0)
	for _, k := range found {
		kinds |= 1 << k.kind
	}
	var keys []Key
	for i, r := range readings {
		// How far the reading is behind the best tells how much the models'
		// own opinion should count.
		behind := uint64(min(2*(best-r.LogProb), 15))
		keys = append(keys[:0], mix(kinds, behind, 388))
		both := uint64(0)
		for _, k := range found {
			keys = k.features(keys, r.Sounds, behind, &both)
		}
		if len(found) > 1 {
			keys = append(keys, mix(both, uint64(len(found)), 399))
		}
		yield(i, keys)
	}
}

func (k kin) features(keys []Key, s arpabet.Sounds, behind uint64, both *uint64) []Key {
	// Of the kin's ways the one that goes furthest together counts.
	var its arpabet.Sounds
	agree, bare := -1, -1
	for _, e := range k.ways {
		a, b := common(s, e, k.kind == head)
		if b > bare || b == bare && a > agree {
			its, agree, bare = e, a, b
		}
	}
	kind := uint64(k.kind)
	missing, missingBare := uint64(min(len(its)-agree, 7)), uint64(min(len(its)-bare, 7))
	own := s[bare:]
	if k.kind == head {
		own = s[:len(s)-bare]
	}
	shared := uint64(min(k.shared, 9))
	*both = *both<<9 | kind<<7 | min(missing, 3)<<3 | min(missingBare, 3)<<1
	return append(keys,
		mix(kind<<8|shared, missing<<8|missingBare, 380),
		mix(kind<<8|k.its, missing<<8|missingBare, 381),
		mix(kind<<8|k.its, missingBare, 382),
		mix(kind<<8|k.its, k.own*31+missing, 383),
		mix(kind<<8|k.its, k.own*31+missingBare, 384),
		mix(kind<<8|k.its, k.own*31+missingBare^hashOf(own)<<8, 385),
		mix(kind<<8|k.its, missingBare^hashOf(own)<<8, 386),
		mix(kind<<8|uint64(len(own)), missing, 387),
		mix(kind<<8|k.its, missing<<8|behind, 389),
	)
}

// common is the number of sounds at the beginning, or at the end, that two
// words share, and the number when stress is left out of account.
func common(a, b arpabet.Sounds, atEnd bool) (agree, bare int) {
	stressed := true
	for i := range min(len(a), len(b)) {
		x, y := a.At(i), b.At(i)
		if atEnd {
			x, y = a.At(len(a)-1-i), b.At(len(b)-1-i)
		}
		if x.Phone() != y.Phone() {
			break
		}
		bare++
		stressed = stressed && x == y
		if stressed {
			agree++
		}
	}
	return agree, bare
}
