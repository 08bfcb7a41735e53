package checks

import (
	"slices"
	"strings"

	"dandle/analysis/scansion"
	lexis "dandle/analysis/suggest/words"
	"dandle/phonetics"
	"dandle/phonetics/grammar"
)

// imitates reports whether a word sounds like what it tells: it is spelled to be
// sounded out, or what it means is a sound. Known is WordNet's definition of one
// of its usual senses as the part of speech that it plays: "make a buzzing
// sound", "a rattling noise".
func (p *Pass) imitates(w *scansion.Word) bool {
	part := lexis.Verb
	switch {
	case w.Tag == grammar.Noun, w.Tag == grammar.NounPlural:
		part = lexis.Noun
	case !w.Tag.IsVerb():
		return soundedOut(w)
	}
	return soundedOut(w) || p.sounds(w, part)
}

// mayImitate reports whether a word imitates a sound in some part of speech: a
// row of sound words is no sentence, and its parts are hard to tell.
func (p *Pass) mayImitate(w *scansion.Word) bool {
	return soundedOut(w) || p.sounds(w, lexis.Noun) || p.sounds(w, lexis.Verb)
}

// soundedOut reports whether a word is spelled to be sounded out, as "vrrrm" is.
func soundedOut(w *scansion.Word) bool {
	return slices.ContainsFunc(w.Ways, func(way phonetics.Pronunciation) bool { return way.Source == phonetics.FromImitation })
}

func (p *Pass) sounds(w *scansion.Word, part lexis.PartOfSpeech) bool {
	return recall(p, "sounds "+string(part)+plain(w.Text), func() bool { return meansSound(lemma(w.Text), part) })
}

// meansSound reports whether a plain form means a sound as a part of speech.
// English makes the verb of such a word from the noun, or the other way round;
// a footstep is a sound too, and imitates none.
func meansSound(lemma string, part lexis.PartOfSpeech) bool {
	k := lexis.Find(lemma)
	if k == lexis.None || lemma == "sound" || lemma == "noise" || !grammar.CanBe(lemma, grammar.Noun) || !grammar.CanBe(lemma, grammar.Verb) {
		return false
	}
	noun, verb := soundSense(k, lexis.Noun), soundSense(k, lexis.Verb)
	if part == lexis.Verb {
		return verb > 0
	}
	// A bay is the sound of a hound, and first of all something else.
	return noun == 1 || noun > 0 && verb > 0
}

// soundSense is which of a word's usual senses as a part of speech is a sound,
// from 1; 0 where none is.
func soundSense(k lexis.Word, part lexis.PartOfSpeech) int {
	looked := 0
	for _, s := range k.Senses() {
		if s.Part != part {
			continue
		}
		if looked++; looked > usualSenses {
			break
		}
		if definesSound(&s, k.String()) {
			return looked
		}
	}
	return 0
}

// definesSound reads the first clause of a definition. What means no more than
// "a sound", or the sound of the word itself ("the sound of laughing"), imitates
// nothing: the sound must be told apart from others, by what makes it or how it
// goes.
func definesSound(s *lexis.Sense, lemma string) bool {
	clause, _, _ := strings.Cut(s.Meaning, ";")
	fields := strings.Fields(clause)
	at := slices.IndexFunc(fields, func(f string) bool {
		f = strings.Trim(f, "(),:")
		return f == "sound" || f == "sounds" || f == "noise" || f == "noises"
	})
	if at < 0 {
		return false
	}
	before := slices.DeleteFunc(slices.Clone(fields[:at]), func(f string) bool {
		return f == "a" || f == "an" || f == "the" || f == "to" || f == "or" || f == "as" || f == "if"
	})
	if s.Part == lexis.Verb {
		return len(before) > 1 && soundMakers[before[0]]
	}
	if len(before) > 0 {
		return !slices.ContainsFunc(before, func(f string) bool {
			return relatives[f] || grammar.CanBe(f, grammar.Preposition) && !grammar.CanBe(f, grammar.Adjective)
		})
	}
	if len(fields) <= at+2 {
		return false
	}
	return fields[at+1] == "like" || fields[at+1] == "of" && !slices.ContainsFunc(fields[at+2:], func(f string) bool { return strings.HasPrefix(f, lemma) })
}

// soundMakers begin WordNet's definitions of verbs that make a sound.
var soundMakers = class("make emit utter produce move fall drop strike hit close shut")
