package lsp

import (
	"fmt"
	"strings"

	"dandle/analysis"
	"dandle/analysis/rhyme"
)

// rhymeTexts say how a line's end answers those it rhymes with in its stanza:
// one sentence for each sort of rhyme.
func rhymeTexts(s *analysis.Snapshot, n int) []string {
	scheme := schemeOf(s, n)
	if len(scheme.Letters) < 2 {
		return nil
	}
	m := s.Manuscript()
	var sorts []string
	words := map[string][]string{}
	for _, mate := range mates(s, n) {
		if mate == n {
			continue
		}
		sort := rhymeSort(s, n, mate)
		if words[sort] == nil {
			sorts = append(sorts, sort)
		}
		words[sort] = append(words[sort], "“"+lastWord(m.Lines[mate]).In(m.Text)+"”")
	}
	if len(sorts) == 0 {
		return []string{unrhymedText(scheme)}
	}
	for i, sort := range sorts {
		before, after, _ := strings.Cut(sort, "%")
		with := listed(words[sort])
		if i == 0 {
			with += fmt.Sprintf(" (%s)", scheme)
		}
		sorts[i] = before + with + after + "."
	}
	return sorts
}

func unrhymedText(scheme rhyme.Scheme) string {
	for _, letter := range scheme.Letters {
		if letter != rhyme.Unrhymed {
			return fmt.Sprintf("Rhymes with no line of its stanza (%s).", scheme)
		}
	}
	return "No line of this stanza rhymes with another."
}

// rhymeSorts name the sorts of rhyme and what is heard in each; "%" stands for the
// words that the line rhymes with.
var rhymeSorts = map[rhyme.Kind]string{
	rhyme.NoRhyme:   "Stands where a rhyme with % is wanted; my ear hears none",
	rhyme.Perfect:   "Perfect rhyme with %",
	rhyme.Mosaic:    "Mosaic rhyme with %: a rhyme made of more than one word",
	rhyme.Identical: "Rhymes with % by being the same word",
	rhyme.Homophone: "Rhymes with % by sounding the same, consonants and all",
	rhyme.Light:     "Light rhyme with %: a light last syllable answers a strong one",
	rhyme.Near:      "Near rhyme with %",
	rhyme.Wrenched:  "Wrenched rhyme with %: only light syllables agree",
	rhyme.Eye:       "Eye rhyme with %: alike on the page, not in the ear",
}

// likenesses say what agrees in a near rhyme.
var likenesses = map[rhyme.Likeness]string{
	rhyme.OneFeature: ": one consonant is a shade off",
	rhyme.Assonance:  ": the vowels agree, the consonants do not",
	rhyme.Consonance: ": the consonants agree, the vowels do not",
	rhyme.OneMore:    ": one of them has a sound more",
}

// rhymeSort is the sort of rhyme of two lines, and where else it is perfect.
func rhymeSort(s *analysis.Snapshot, a, b int) string {
	match := s.Rhyme(a, b)
	text := rhymeSorts[match.Kind]
	switch match.Kind {
	case rhyme.Perfect:
		if match.Syllables > 1 {
			text = fmt.Sprintf("Perfect rhyme of %d syllables with %%", match.Syllables)
		}
		if match.Rich {
			text += ", rich in the consonants before the vowel too"
		}
	case rhyme.Near:
		text += likenesses[match.Near]
	}
	switch match.Kind {
	case rhyme.NoRhyme, rhyme.Near, rhyme.Wrenched, rhyme.Eye:
		if accent := s.RhymeElsewhere(a, b); accent != rhyme.OwnAccent {
			text += fmt.Sprintf("; a perfect rhyme in %s", accent)
		}
	}
	return text
}

// listed joins words as a sentence does.
func listed(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " and " + words[last]
}
