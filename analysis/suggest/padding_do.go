package suggest

import (
	"slices"

	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"
	"dandle/analysis/suggest/forms"
	"dandle/analysis/suggest/words"
	"dandle/phonetics/grammar"
)

// PaddedVerb lists what would do in the place of "did" or "does" at word do of a line
// and the bare verb at word verb, best first: another verb, the verb in its own
// tense with a sight of who does it or a word that tells when; and where the bare
// verb bears the rhyme, another helper that says something.
func PaddedVerb(p Place, line, do int) []Item {
	if line < 0 || line >= len(p.Poem.Lines) || do < 0 || do+1 >= len(p.Poem.Lines[line].Words) {
		return nil
	}
	list := p.Poem.Lines[line].Words
	helper := lower(list[do].Text)
	verb := do + 1
	for verb < len(list)-1 && list[verb].Tag.IsAdverb() && !grammar.CanBe(lower(list[verb].Text), grammar.Verb) {
		verb++
	}
	if list[verb].Tag == grammar.Determiner || list[verb].Tag == grammar.Possessive {
		verb = len(list) - 1 // "together did the friends play"
	}
	if !grammar.CanBe(lower(list[verb].Text), grammar.Verb) {
		return nil
	}
	own, ok := p.ownTense(line, verb, helper)
	if !ok {
		return p.rewrites(line, p.helpers(line, do, helper), maxReplacements, readRewrites)
	}
	alone := slices.Clone(own)
	if verb == do+1 {
		alone[0].with = likeIn(alone[0].with, list[do].Text) // it may open the line then
	}
	gone, _ := merged([]change{{at: manuscript.Span{Start: list[do].Span.Start, End: list[do+1].Span.Start}}}, alone)
	out := p.elsewhere(line, do, do+1, gone)
	if verb+1 == len(list) {
		out = append(out, p.atTheEnd(line, do, verb, helper)...)
		items := p.rewrites(line, out, maxReplacements, readRewrites)
		for i := range items {
			if items[i].Span.End == list[verb].Span.End {
				items[i].Wants = lastWord(items[i].Text)
			}
		}
		return append(items, p.rewrites(line, p.helpers(line, do, helper), maxReplacements, readRewrites)...)
	}
	out = append(append(out, p.helpers(line, do, helper)...), rewrite{gone, 4, "in its own tense"})
	for i, when := range whens(helper) {
		with, _ := merged([]change{{list[do].Span, likeIn(when, list[do].Text)}}, own)
		out = append(out, rewrite{with, 2.5 - 0.05*float64(i), "tells when"})
	}
	return p.rewrites(line, out, maxReplacements, readRewrites)
}

// ownTense puts the bare verb at a word, and one that "and" joins to it, in the tense
// that a helper gives them: "did reach and hook" has two that lean on it.
func (p *Place) ownTense(line, verb int, helper string) ([]change, bool) {
	list := p.Poem.Lines[line].Words
	form, ok := conjugated(lower(list[verb].Text), helper)
	if !ok {
		return nil, false
	}
	own := []change{{list[verb].Span, form}}
	for i := verb + 1; i+1 < len(list); i++ {
		if lower(list[i].Text) == "and" && (list[i+1].Tag == grammar.Verb || list[i+1].Tag == grammar.VerbPresent) {
			second, known := conjugated(lower(list[i+1].Text), helper)
			if !known {
				return nil, false
			}
			own = append(own, change{list[i+1].Span, second})
		}
	}
	return own, true
}

// atTheEnd are verbs in the past for "did" and a bare verb that end a line, as long as
// they are: with a word that says where to, "a mouse crept out", or, in a clause that
// says when, "when the wind had dropped". The line then ends on another sound.
func (p *Place) atTheEnd(line, do, verb int, helper string) []rewrite {
	list := p.Poem.Lines[line].Words
	if helper != "did" || verb != do+1 {
		return nil
	}
	bare := lower(list[verb].Text)
	span := manuscript.Span{Start: list[do].Span.Start, End: list[verb].Span.End}
	var out []rewrite
	acted := do > 1 && list[do-1].Tag == grammar.Pronoun && list[do-2].Tag.IsNoun() // "the yarn she did wind"
	if past, ok := forms.Of(bare, grammar.VerbPast); ok && isWayToGo(words.Find(bare)) && !acted && list[verb].Break != manuscript.NoBreak {
		for i, to := range p.particles(line, do, bare) {
			out = append(out, rewrite{[]change{{span, past + " " + to}}, 4 - 0.1*float64(i), "in its own tense"})
		}
	}
	saysThen := slices.ContainsFunc(list[:do], func(w scansion.Word) bool { return isAny(lower(w.Text), "then", "when") })
	if past, ok := forms.Of(bare, grammar.VerbPast); ok && !saysThen {
		out = append(out, rewrite{[]change{{span, "then " + past}}, 3, "in its own tense"})
	}
	for _, w := range list[:do] {
		if list[do-1].Tag.IsAdverb() {
			break // "till it truly did shine" stresses it
		}
		if isAny(lower(w.Text), "when", "once", "after", "before", "till", "until", "since") {
			if done, ok := forms.Of(bare, grammar.VerbParticiple); ok {
				out = append(out, rewrite{[]change{{span, "had " + done}}, 3.8, "in its own tense"})
			}
			break
		}
	}
	return out
}

// particles say where somebody goes, after what the line has told of it.
func (p *Place) particles(line, do int, verb string) []string {
	if isAny(verb, "fall", "drop", "sink", "tumble") {
		return []string{"down"}
	}
	for _, w := range p.Poem.Lines[line].Words[:do] {
		switch lower(w.Text) {
		case "from", "out":
			return []string{"out", "down"}
		case "into", "through":
			return []string{"in"}
		case "up", "down":
			return []string{"on"}
		}
	}
	return []string{"by", "on"}
}

// whens are words of one syllable that tell when, for the tense of a helper.
func whens(helper string) []string {
	if helper == "did" {
		return []string{"then", "soon"}
	}
	return []string{"now", "still"}
}

// helpers are other helpers than "do" where a clause tells what somebody is able to
// do: "a sheep who could knit". Elsewhere they would say another thing than happens.
func (p *Place) helpers(line, do int, helper string) []rewrite {
	list := p.Poem.Lines[line].Words
	able := map[string]string{"did": "could", "does": "can", "do": "can"}[helper]
	if able == "" || do == 0 || !isAny(lower(list[do-1].Text), "who", "that", "which") {
		return nil
	}
	return []rewrite{{[]change{{list[do].Span, likeIn(able, list[do].Text)}}, 3.4, "says something of its own"}}
}

// conjugated is a bare verb in the tense that a helper gives it.
func conjugated(verb, helper string) (string, bool) {
	switch helper {
	case "did":
		return forms.Of(verb, grammar.VerbPast)
	case "does":
		return forms.Of(verb, grammar.VerbThird)
	}
	return verb, true
}
