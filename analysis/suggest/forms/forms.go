// Package forms carries a word from its plain form to another and back: "creep"
// and "crept", "mouse" and "mice", "good" and "better". It knows spelling and
// WordNet's exception lists; it knows no sentence.
package forms

import (
	"cmp"
	_ "embed"
	"slices"
	"strings"
	"sync"

	"dandle/analysis/suggest/words"
	"dandle/phonetics/grammar"
)

//go:generate go run gen.go -o irregular.txt

// irregularText is WordNet's exception lists (Princeton): a part of speech, a
// form and the plain word that it is a form of.
//
//go:embed irregular.txt
var irregularText string

// An entry is a part of speech and a word of it.
type entry struct {
	part words.PartOfSpeech
	word string
}

// irregulars are the exception lists, both ways.
type irregulars struct{ forms, bases map[entry][]string }

var irregular = sync.OnceValue(func() irregulars {
	list := irregulars{forms: map[entry][]string{}, bases: map[entry][]string{}}
	for line := range strings.SplitSeq(irregularText, "\n") {
		f := strings.Fields(line)
		if len(f) != 3 {
			continue
		}
		part := words.PartOfSpeech(f[0][0])
		list.forms[entry{part, f[2]}] = append(list.forms[entry{part, f[2]}], f[1])
		list.bases[entry{part, f[1]}] = append(list.bases[entry{part, f[1]}], f[2])
	}
	return list
})

// An ending is what a form adds to the plain word.
type ending struct {
	part words.PartOfSpeech
	text string
}

var endings = map[grammar.Tag]ending{
	grammar.NounPlural:     {words.Noun, "s"},
	grammar.VerbThird:      {words.Verb, "s"},
	grammar.VerbPast:       {words.Verb, "ed"},
	grammar.VerbParticiple: {words.Verb, "ed"},
	grammar.VerbGerund:     {words.Verb, "ing"},
	grammar.Comparative:    {words.Adjective, "er"},
	grammar.Superlative:    {words.Adjective, "est"},
}

// plainParts are the parts of speech of the tags that add no ending.
var plainParts = map[grammar.Tag]words.PartOfSpeech{
	grammar.Noun: words.Noun, grammar.Verb: words.Verb, grammar.VerbPresent: words.Verb,
	grammar.Adjective: words.Adjective, grammar.Adverb: words.Adverb,
}

// Of gives a plain word the form that a tag asks for: "creep" and
// VerbPast are "crept". It is false where the lists know no such form, as of
// an adjective that is compared with "more".
func Of(base string, tag grammar.Tag) (string, bool) {
	e, ends := endings[tag]
	if !ends {
		_, plain := plainParts[tag]
		return base, plain && grammar.CanBe(base, tag)
	}
	var own []string
	for _, form := range irregular().forms[entry{e.part, base}] {
		if strings.HasSuffix(form, "ing") == (tag == grammar.VerbGerund) && strings.HasSuffix(form, "est") == (tag == grammar.Superlative) && grammar.CanBe(form, tag) {
			own = append(own, form)
		}
	}
	if len(own) > 0 {
		return slices.MinFunc(own, func(a, b string) int { return cmp.Or(cmp.Compare(mixed(a, tag), mixed(b, tag)), rarer(a, b)) }), true
	}
	// Verbs that keep their shape end in t or d, as "put" does ("putted" is of
	// "putt"), or have a past of their own, as "run" has.
	past := tag == grammar.VerbPast || tag == grammar.VerbParticiple
	if past && (strings.HasSuffix(base, "t") || strings.HasSuffix(base, "d") || len(irregular().forms[entry{e.part, base}]) > 0) && grammar.CanBe(base, tag) {
		return base, true
	}
	for _, form := range regular(base, e.text) {
		if words.Find(form) != words.None && grammar.CanBe(form, tag) {
			return form, true
		}
	}
	return base, tag == grammar.NounPlural && grammar.CanBe(base, tag) // "sheep"
}

// mixed is 1 for a form that does for the past as well as for the participle:
// the lists let "went" be both, and where "gone" is at hand it is better.
func mixed(form string, tag grammar.Tag) int {
	if tag == grammar.VerbParticiple && grammar.CanBe(form, grammar.VerbPast) {
		return 1
	}
	return 0
}

func rarer(a, b string) int {
	return cmp.Or(cmp.Compare(words.Find(a).Rarity(), words.Find(b).Rarity()), strings.Compare(a, b))
}

// regular lists the spellings that a word with a regular ending may have, the
// likeliest first (Quirk et al. 1985, 3.5–3.10, 5.80 and 7.79, from memory).
func regular(base, with string) []string {
	n := len(base)
	if n < 2 {
		return nil
	}
	last, before := base[n-1], base[n-2]
	if with == "s" {
		switch {
		case last == 'y' && !isVowel(before):
			return []string{base[:n-1] + "ies"}
		case last == 's' || last == 'x' || last == 'z' || last == 'h' && (before == 'c' || before == 's'):
			return []string{base + "es", base + "s"} // "stomachs"
		case last == 'o' && !isVowel(before):
			return []string{base + "es", base + "s"}
		}
		return []string{base + "s"}
	}
	switch {
	case last == 'e' && with != "ing":
		return []string{base + with[1:]}
	case last == 'e' && before == 'i':
		return []string{base[:n-2] + "ying"}
	case last == 'e' && before != 'e' && before != 'o' && before != 'y':
		return []string{base[:n-1] + with, base + with} // "singeing"
	case last == 'y' && !isVowel(before) && with != "ing":
		return []string{base[:n-1] + "i" + with}
	case n > 2 && !isVowel(last) && !strings.ContainsRune("wxyh", rune(last)) && isVowel(before) && (!isVowel(base[n-3]) || strings.HasPrefix(base, "qu")):
		doubled := base + base[n-1:] + with
		if strings.IndexFunc(base[:n-2], func(r rune) bool { return isVowel(byte(r)) && r != 'u' }) < 0 {
			return []string{doubled} // one vowel: "hopped", since "hoped" is of "hope"
		}
		return []string{base + with, doubled}
	}
	return []string{base + with}
}

func isVowel(letter byte) bool { return strings.IndexByte("aeiou", letter) >= 0 }

// Base is the plain word that a word is a form of, as a tag reads it, and its part
// of speech; false where the lists know none with a meaning.
func Base(text string, tag grammar.Tag) (words.Word, words.PartOfSpeech, bool) {
	e, ends := endings[tag]
	if !ends {
		part, plain := plainParts[tag]
		w := words.Find(text)
		return w, part, plain && Means(w, part)
	}
	candidates := slices.Clone(irregular().bases[entry{e.part, text}])
	if stem, cut := strings.CutSuffix(text, e.text); cut && stem != "" {
		candidates = append(candidates, stem, stem+"e")
		if n := len(stem); n > 1 && stem[n-1] == stem[n-2] {
			candidates = append(candidates, stem[:n-1])
		}
		if y, cut := strings.CutSuffix(stem, "i"); cut {
			candidates = append(candidates, y+"y")
		}
		if ie, cut := strings.CutSuffix(stem, "y"); cut && tag == grammar.VerbGerund {
			candidates = append(candidates, ie+"ie")
		}
		if y, cut := strings.CutSuffix(stem, "ie"); cut && e.text == "s" {
			candidates = append(candidates, y+"y")
		}
		if es, cut := strings.CutSuffix(stem, "e"); cut && e.text == "s" {
			candidates = append(candidates, es)
		}
	}
	candidates = append(candidates, text)
	for _, base := range candidates {
		w := words.Find(base)
		if !Means(w, e.part) {
			continue
		}
		if form, known := Of(base, tag); known && form == text || slices.Contains(irregular().forms[entry{e.part, base}], text) {
			return w, e.part, true
		}
	}
	return words.None, e.part, false
}

// Means reports whether a word has a meaning of a part of speech.
func Means(w words.Word, part words.PartOfSpeech) bool {
	return w != words.None && slices.ContainsFunc(w.Senses(), func(s words.Sense) bool { return s.Part == part })
}
