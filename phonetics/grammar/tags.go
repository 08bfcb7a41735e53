package grammar

import "strings"

// plainTag guesses the tag of a word from its spelling and the tag before it.
func plainTag(word string, capital, opens bool, before Tag) Tag {
	lower := strings.ToLower(strings.ReplaceAll(word, "’", "'"))
	if t := closedClass(lower); t != Unknown {
		return t
	}
	has := func(s string) bool { return len(lower) > len(s)+1 && strings.HasSuffix(lower, s) }
	switch {
	case lower == "":
		return Punctuation
	case lower[0] >= '0' && lower[0] <= '9':
		return Number
	case capital && !opens:
		return Name
	case before == To || before == Modal || before == Pronoun && !has("s") && !has("ed") && !has("ing"):
		return Verb
	case has("ly"):
		return Adverb
	case has("ing"):
		return VerbGerund
	case has("ed"):
		if before == VerbThird || before == VerbPresent || before == Determiner || before == Possessive {
			return VerbParticiple
		}
		return VerbPast
	case has("ous"), has("ful"), has("less"), has("ish"), has("able"), has("ible"), has("ic"), has("ive"):
		return Adjective
	case has("est"):
		return Superlative
	case before == Pronoun && has("s"):
		return VerbThird
	case has("s") && !has("ss") && !has("'s"):
		return NounPlural
	}
	return Noun
}
