package lsp

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"

	"dandle/analysis/card"
	"dandle/analysis/checks"
	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"
	"dandle/lsp/protocol317"
	"dandle/phonetics"
	"dandle/phonetics/arpabet"

	"go.lsp.dev/protocol"
)

// hover says what is heard at a place. Its first line holds what matters most,
// for some editors show no more: a finding at the place, else how the line goes.
// Then come the line's feet over its syllables, what was expected, what varies,
// what it rhymes with, praise, and how the word sounds.
func hover(_ context.Context, v view, p protocol.HoverParams) (any, error) {
	s := v.snapshot()
	m := s.Manuscript()
	offset := v.offset(p.Position)
	n := m.LineAt(offset)
	poem := s.Poem()
	page := newPage(v.client.hoverFormat())
	if n < 0 || n >= len(poem.Lines) {
		return besideVerse(v, page, offset), nil
	}
	v.lineHover(page, n, offset)
	out := protocol317.Hover{}
	if line, w, ok := m.WordAt(offset); ok && line == n {
		place := v.rangeOf(m.Lines[n].Words[w].Span)
		out.Range = &place
		wordHover(page, poem.Lines[n], w, s.Reader().Dialect())
	}
	out.Contents = page.content()
	return out, nil
}

// lineHover says what is heard in a line, of which one place is pointed at.
func (v view) lineHover(page *page, n, offset int) {
	s := v.snapshot()
	m, heard := s.Manuscript(), s.Poem().Lines[n]
	meter := meterOf(s, m.Lines[n].Stanza)
	here, elsewhere, praise := findingsAt(s.Findings(), n, offset)
	found := elsewhere
	if v.settings.Hover.Findings && len(here) > 0 {
		page.line(here[0].Message)
		found = slices.Concat(here[1:], elsewhere)
	} else {
		page.pattern(heard.Reading.FeetPattern(), summary(heard, meter))
	}
	page.code(feetBlock(m, n, heard, meter))
	for _, f := range found {
		page.item(f.Message)
	}
	if meter.Regular { // elsewhere nothing is there to depart from
		for _, variation := range heard.Variations {
			page.item(variationText(variation, heard))
		}
		doubts(page, s.Poem(), n, meter)
	} else {
		leanings(page, s.Poem(), n)
	}
	if !slices.ContainsFunc(slices.Concat(here, elsewhere), judgesRhyme) {
		for _, text := range rhymeTexts(s, n) {
			page.item(text)
		}
	}
	for _, f := range praise {
		page.item(f.Message)
	}
}

// leanings say which of the tunes that pull at a poem a line keeps.
func leanings(page *page, poem *scansion.Poem, n int) {
	for _, l := range poem.Leanings() {
		if slices.Contains(l.Lines, n) {
			page.item(fmt.Sprintf("This line leans to %s, as %s of the poem's %d do.", l.Meter.Name(), count(len(l.Lines), "line"), len(poem.Lines)))
		}
	}
}

// doubts say where another ear may hear a line otherwise.
func doubts(page *page, poem *scansion.Poem, n int, meter scansion.Meter) {
	if next, unsure := card.NextBest(meter); unsure {
		page.item(fmt.Sprintf("I am %.0f %% sure of %s here; %s feet would explain these lines next best.", 100*meter.Confidence, meter.Name(), next))
	}
	if ways := card.Otherwise(poem, n, meter); ways != "" {
		page.item(fmt.Sprintf("By itself the line could as well be said %s.", ways))
	}
}

// judgesRhyme reports whether a finding says itself how its line rhymes, which
// nobody wants to hear twice.
func judgesRhyme(f checks.Finding) bool {
	switch f.Code {
	case "rhyme/none", "rhyme/near", "rhyme/same-word", "rhyme/homophone", "rhyme/wrenched":
		return true
	default:
		return false
	}
}

// wordHover says how a word of a line is said.
func wordHover(page *page, heard scansion.Line, w int, d phonetics.Dialect) {
	if w >= len(heard.Words) {
		return
	}
	if text := sounds(heard, w, d); text != "" {
		page.paragraph()
		page.item(text)
	}
}

// besideVerse says what there is to say where no verse stands: what was found
// there, and what a key of the front matter is for.
func besideVerse(v view, page *page, offset int) any {
	var at manuscript.Span
	here, _, _ := findingsAt(v.snapshot().Findings(), -1, offset)
	if !v.settings.Hover.Findings {
		here = nil
	}
	for _, f := range here {
		page.item(f.Message)
		at = here[0].Span
	}
	for _, k := range v.snapshot().Manuscript().Front.Keys {
		for _, known := range frontKeys() {
			if k.Name != known.name || !k.Span.Touches(offset) && !k.Value.Contains(offset) {
				continue
			}
			if len(here) > 0 {
				page.paragraph()
			} else {
				at = k.Span
			}
			page.line(known.doc)
		}
	}
	if at.Len() == 0 {
		return nil
	}
	place := v.rangeOf(at)
	return protocol317.Hover{Contents: page.content(), Range: &place}
}

// findingsAt parts a line's findings: those at the place, gravest first, the
// others of the line, and praise.
func findingsAt(all []checks.Finding, line, offset int) (here, elsewhere, praise []checks.Finding) {
	for _, f := range all {
		switch {
		case f.Severity == checks.Praise && f.Line == line && line >= 0:
			praise = append(praise, f)
		case f.Severity == checks.Praise:
		case f.Span.Touches(offset) && f.Span.Len() > 0:
			here = append(here, f)
		case f.Line == line && line >= 0:
			elsewhere = append(elsewhere, f)
		}
	}
	slices.SortStableFunc(here, func(a, b checks.Finding) int { return cmp.Compare(b.Severity, a.Severity) })
	return here, elsewhere, praise
}

// summary is how a line goes, in a few words.
func summary(l scansion.Line, meter scansion.Meter) string {
	beats := count(l.Reading.Beats(), "beat")
	switch {
	case len(l.Reading.Syllables) == 0:
		return "No reading of this line is known."
	case meter.Foot == scansion.NoMeter:
		return beats + "."
	case !meter.Regular:
		return fmt.Sprintf("%s, in %s.", beats, meter.Name())
	case l.Beats != 0 && l.Beats != l.Reading.Beats():
		return fmt.Sprintf("%s where %s wants %d.", beats, meter.Name(), l.Beats)
	case inStep(l):
		return fmt.Sprintf("%s, in step with %s.", beats, meter.Name())
	default:
		return fmt.Sprintf("%s, and yet out of step with %s.", beats, meter.Name())
	}
}

// feetBlock is the line's card, and the pattern that its place calls for where
// the line is out of step with it.
func feetBlock(m *manuscript.Manuscript, n int, heard scansion.Line, meter scansion.Meter) string {
	block := card.Line(m.Text, m.Lines[n], heard).String()
	if meter.Regular && !inStep(heard) && heard.Expected != "" && heard.Expected != heard.Reading.FeetPattern() {
		block += "\nexpected  " + card.Spaced(heard.Expected) + "\nheard     " + card.Spaced(heard.Reading.FeetPattern()) + "\n"
	}
	return block
}

// variationMeaning says what each licensed variation does.
var variationMeaning = map[scansion.VariationKind]string{
	scansion.Headless:       "the line starts on its beat, without the light syllable before it",
	scansion.Anacrusis:      "a light syllable before the first beat",
	scansion.Inversion:      "beat and light syllable change places",
	scansion.FeminineEnding: "a light syllable after the last beat",
	scansion.TripleEnding:   "two light syllables after the last beat",
	scansion.Catalexis:      "the line ends on its beat, without the light syllable after it",
	scansion.ExtraSlack:     "one light syllable more",
	scansion.LightFoot:      "one light syllable fewer",
	scansion.Clash:          "two beats side by side",
	scansion.LightEnding:    "the last beat lifts a syllable that speech passes over",
	scansion.SilentBeat:     "the pause holds a beat",
}

// variationText names a variation, what it does and, since it is no fault, that
// it is common.
func variationText(v scansion.Variation, l scansion.Line) string {
	name := v.Kind.String()
	text := capital(name)
	if v.From >= 0 && v.From < v.To && v.To <= len(l.Reading.Syllables) {
		words := l.Words
		if w := l.Reading.Syllables[v.From].Word; w >= 0 && w < len(words) {
			text += fmt.Sprintf(" at “%s”", words[w].Text)
		}
	}
	text += ": " + variationMeaning[v.Kind]
	if inStep(l) {
		text += ", as verse may"
	}
	return text + "."
}

// maxWays is how many ways to say a word are told; more are seldom heard apart.
const maxWays = 4

// sounds tell the ways to say a word, the one that was heard first; empty where
// none is known.
func sounds(l scansion.Line, w int, d phonetics.Dialect) string {
	word := l.Words[w]
	ways := word.Ways
	if len(ways) == 0 {
		return ""
	}
	chosen := 0
	if w < len(l.Reading.Ways) && l.Reading.Ways[w] >= 0 && l.Reading.Ways[w] < len(ways) {
		chosen = l.Reading.Ways[w]
	}
	texts := []string{soundText(word.Text, ways[chosen], d)}
	told := map[string]bool{said(word.Text, ways[chosen], d): true}
	for _, way := range ways {
		// Ways that differ only in how heavily the word is leant on look alike.
		if key := said(word.Text, way, d); !told[key] && len(texts) < maxWays {
			told[key] = true
			texts = append(texts, soundText(word.Text, way, d))
		}
	}
	return fmt.Sprintf("“%s” is said %s", word.Text, strings.Join(texts, ", or "))
}

// said is one way to say a word: its syllables with the main stress in capitals,
// and its sounds in the IPA.
func said(word string, p phonetics.Pronunciation, d phonetics.Dialect) string {
	text := "/" + p.IPA(d) + "/"
	if parts := dividedWord(word, p); len(parts) > 1 {
		text = strings.Join(parts, "·") + " " + text
	}
	return text
}

// soundText is one way to say a word, and how it is known where that is not the
// dictionary.
func soundText(word string, p phonetics.Pronunciation, d phonetics.Dialect) string {
	text := said(word, p, d)
	if p.Source != phonetics.FromLexicon {
		text += fmt.Sprintf(" (%s)", sourceText[p.Source])
	}
	return text
}

// dividedWord is a word in syllables, or nothing where the spelling cannot be
// divided.
func dividedWord(word string, p phonetics.Pronunciation) []string {
	parts := make([]string, 0, len(p.Syllables))
	for _, s := range p.Syllables {
		if s.Start < 0 || s.End > len(word) || s.Start > s.End {
			return nil
		}
		part := strings.ToLower(word[s.Start:s.End])
		if s.Stress == arpabet.Primary {
			part = strings.ToUpper(part)
		}
		parts = append(parts, part)
	}
	return parts
}

// sourceText says how a pronunciation is known.
var sourceText = map[phonetics.Source]string{
	phonetics.FromSpelling:   "a guess from the spelling",
	phonetics.FromWriter:     "as you taught me",
	phonetics.FromInflection: "from a word I know",
	phonetics.FromCompound:   "from its parts",
	phonetics.FromNumber:     "a number read out",
	phonetics.FromElision:    "shortened",
	phonetics.FromLetters:    "letter by letter",
	phonetics.FromImitation:  "a sound imitated",
}

func count(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}
