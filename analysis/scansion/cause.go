package scansion

import (
	"dandle/analysis/manuscript"
	"dandle/analysis/scansion/ear"
	"dandle/phonetics/grammar"
)

// crowd is the number of strong syllables in a row, with no pause between,
// that a reader cannot dance through (ours: three are slow, four stop).
const crowd = 4

// slow is the number of them below which a line must be surelyOff to be called
// crowded (ours).
const (
	slow      = 3
	surelyOff = 0.75
)

// foreign is how much better another foot must suit a line, in units of the
// score, before the line is said to walk in that foot (ours).
const foreign = 1.5

// spareable is the strain that a line without a word may have and still be
// said to be better without it (ours).
const spareable = 0.8

// cause finds where an off line loses the meter, and how. l has been read
// already; h is what was heard in it.
func (l *Line) cause(h *heard, f *form) *Break {
	_, heardBeats := h.free(f.foot)
	forced, ok := h.read(f.foot, l.Beats)
	own, _ := h.read(f.foot, heardBeats)
	if from, to, found := longestCrowd(l, own.Strong); found && to-from >= crowd {
		return l.broken(CrowdedStress, from, to)
	}
	if l.Evidence.Hollow > 0 {
		l.setReading(h, f.foot, l.Beats-1)
		short, _ := h.read(f.foot, l.Beats-1)
		from, to := l.hole(short.Beats, f.foot)
		return l.broken(MissingBeat, from, to)
	}
	if from, to, found := l.jam(h, f); found && l.Evidence.Jammed > 0 && heardBeats >= l.Beats-1 {
		l.setReading(h, f.foot, l.Beats)
		return l.broken(CrowdedStress, from, to)
	}
	if l.Evidence.Foreign-l.Evidence.Forced >= foreign && l.Evidence.foreignBeats == l.Beats {
		return l.broken(PatternChange, 0, len(l.Reading.Syllables))
	}
	if from, to, found := l.wrench(forced); found && l.Evidence.Forced < foreign {
		return l.broken(WrenchedStress, from, to)
	}
	switch {
	case ok && heardBeats < l.Beats && longestLull(own.Beats) > ownGap(f.foot)+1:
		// No voice passes over so much; the beat falls where the place wants it, and
		// too many slacks come before it.
		if from, to, found := l.run(forced.Beats, f); found {
			l.setReading(h, f.foot, l.Beats)
			return l.broken(SlackRun, from, to)
		}
		fallthrough
	case !ok && len(l.Reading.Syllables) < l.Beats || heardBeats < l.Beats:
		l.setReading(h, f.foot, heardBeats) // as the voice has it, not as the place would
		from, to := l.hole(own.Beats, f.foot)
		return l.broken(MissingBeat, from, to)
	case heardBeats > l.Beats:
		if from, to, found := l.run(forced.Beats, f); found && (l.Evidence.Forced < foreign || ownGap(f.foot) > 1 && l.propped(own, forced)) {
			return l.broken(SlackRun, from, to)
		}
		l.setReading(h, f.foot, heardBeats)
		from, to, spare := l.surplus(f)
		b := l.broken(ExtraBeat, from, to)
		b.Spare = spare
		return b
	}
	return l.local(forced, f)
}

// longestLull is the most slacks in a row, wherever they stand.
func longestLull(beats []bool) int {
	longest, run := 0, 0
	for _, b := range beats {
		if run++; b {
			run = 0
		}
		longest = max(longest, run)
	}
	return longest
}

// broken makes the break out of the syllables that it lies in.
func (l *Line) broken(c Cause, from, to int) *Break {
	s := l.Reading.Syllables
	from = max(0, min(from, len(s)-1))
	to = max(from+1, min(to, len(s)))
	span := manuscript.Span{
		Start: l.Words[s[from].Word].Span.Start,
		End:   l.Words[s[to-1].Word].Span.End,
	}
	return &Break{Cause: c, From: from, To: to, Span: span}
}

// jam is the one place where strong syllables stand side by side on beats, with
// no pause between, when the line is given the beats of its place.
func (l *Line) jam(h *heard, f *form) (from, to int, found bool) {
	a := h.answer(f.foot, l.Beats)
	for i := 1; i < len(a.Beats); i++ {
		if !a.Beats[i-1] || !a.Beats[i] || breakBefore(l.Words, a.syllables, i) != manuscript.NoBreak {
			continue
		}
		if found || !a.Strong[i-1] || !a.Strong[i] {
			return 0, 0, false
		}
		from, to, found = i-1, i+1, true
	}
	return from, to, found
}

// longestCrowd is the longest run of strong syllables with no pause in it.
func longestCrowd(l *Line, strong []bool) (from, to int, found bool) {
	if len(strong) != len(l.Reading.Syllables) {
		return 0, 0, false
	}
	start := 0
	for i := range strong {
		if !strong[i] {
			start = i + 1
			continue
		}
		if i > start && l.pauseBefore(i) {
			start = i
		}
		if i+1-start > to-from {
			from, to, found = start, i+1, true
		}
	}
	return from, to, found
}

// pauseBefore reports whether punctuation stands before a syllable.
func (l *Line) pauseBefore(i int) bool {
	return breakBefore(l.Words, l.Reading.Syllables, i) != manuscript.NoBreak
}

// breakBefore is the break of the sentence that stands before a syllable.
func breakBefore(words []Word, s []Syllable, i int) manuscript.Break {
	if i < 1 || s[i-1].Word == s[i].Word {
		return manuscript.NoBreak
	}
	return words[s[i-1].Word].Break
}

// hole is where a beat is missing: the widest gap that is wider than the
// foot's own, else the line's end.
func (l *Line) hole(beats []bool, foot ear.Foot) (from, to int) {
	n := len(l.Reading.Syllables)
	if len(beats) != n {
		return n - 1, n
	}
	o := outlineOf(beats)
	widest := ownGap(foot)
	from, to = n-1, n
	for k := 0; k+1 < len(o.at); k++ {
		if g := o.gap(k); g > widest {
			widest, from, to = g, o.at[k]+1, o.at[k+1]
		}
	}
	return from, to
}

// surplus is what the line has too much: a word or a phrase that could go, by
// its grammar, and without which the line would fit its place. Of a phrase it
// is the part that bears the beat. Where nothing could go, the line just runs
// on: it is the last word.
func (l *Line) surplus(f *form) (from, to int, spare manuscript.Span) {
	best, first, last := spareable, len(l.Words)-1, len(l.Words)-1
	for _, c := range l.spare() {
		// One word is sooner spared than a phrase.
		if v := l.strainWithout(c, ask{f.foot, l.Beats}) + 0.3*float64(c.to-c.from-1); v < best {
			best, first, last = v, c.from, c.to-1
		}
	}
	from, to = len(l.Reading.Syllables), 0
	for i, s := range l.Reading.Syllables {
		if first <= s.Word && s.Word <= last && (s.Beat || first == last) {
			start, end := l.wordOf(i)
			from, to = min(from, start), max(to, end)
		}
	}
	if last < len(l.Words)-1 {
		spare = manuscript.Span{Start: l.Words[first].Span.Start, End: l.Words[last].Span.End}
	}
	return from, to, spare
}

// A stretch is the words [from, to) of a line.
type stretch struct{ from, to int }

// A lessening is a line without some of its words, read in some way.
type lessening struct {
	without stretch
	read    ask
}

// strainWithout is the strain of the line without some of its words, from memory
// where it was asked before: a line that is off is asked again at each keystroke
// anywhere in the poem.
func (l *Line) strainWithout(c stretch, read ask) float64 {
	return l.heard.lessened(lessening{c, read}, func() float64 {
		rest := hear(append(append([]Word{}, l.Words[:c.from]...), l.Words[c.to:]...))
		if !rest.ok {
			return farOff
		}
		return rest.strain(read.foot, read.beats)
	})
}

// spare lists what a line could lose and stay a sentence: an adjective before
// what it describes, an adverb, a small word said a second time, a phrase that a
// preposition opens and a mark closes. The last
// word bears the rhyme and stays.
func (l *Line) spare() []stretch {
	var list []stretch
	last := len(l.Words) - 1
	for w := range last {
		next := l.Words[w+1].Tag
		switch l.Words[w].Tag {
		case grammar.Adjective, grammar.Comparative, grammar.Superlative, grammar.VerbGerund, grammar.VerbParticiple:
			if isNominal(next) && l.Words[w].Break < manuscript.HeavyBreak && !(w > 0 && l.Words[w-1].Tag.IsVerb()) {
				list = append(list, stretch{w, w + 1})
			}
		case grammar.Noun:
			if next == grammar.Noun || next == grammar.NounPlural {
				list = append(list, stretch{w, w + 1}) // the first half of a compound
			}
		case grammar.Adverb:
			if w > 0 && next != grammar.Conjunction {
				list = append(list, stretch{w, w + 1})
			}
		case grammar.Conjunction:
			if w > 0 && w+2 <= last && l.repeats(w+1) {
				list = append(list, stretch{w + 1, w + 2})
			}
		case grammar.Preposition:
			if to := l.phrase(w); to > 0 && to <= last && l.Words[to-1].Break != manuscript.NoBreak {
				list = append(list, stretch{w, to})
			}
		}
	}
	return list
}

// repeats reports whether a small word has stood in the line before, so that
// English can leave it out after "and": "she tightened … and she loosened".
func (l *Line) repeats(w int) bool {
	switch l.Words[w].Tag {
	case grammar.Pronoun, grammar.Preposition, grammar.Possessive, grammar.To, grammar.Determiner:
	default:
		return false
	}
	for k := range w {
		if plainWord(l.Words[k].Text) == plainWord(l.Words[w].Text) {
			return true
		}
	}
	return false
}

func isNominal(t grammar.Tag) bool {
	switch t {
	case grammar.Adjective, grammar.Noun, grammar.NounPlural, grammar.Name, grammar.NamePlural:
		return true
	}
	return false
}

// phrase is where a prepositional phrase ends: after the first noun that no
// further noun follows; 0 where there is none within five words.
func (l *Line) phrase(w int) int {
	for k := w + 1; k < len(l.Words) && k <= w+5; k++ {
		switch t := l.Words[k].Tag; {
		case t == grammar.Noun || t == grammar.NounPlural || t == grammar.Name:
			if k+1 == len(l.Words) || !isNominal(l.Words[k+1].Tag) {
				return k + 1
			}
		case t == grammar.Determiner || t == grammar.Possessive || t == grammar.Adjective || t == grammar.Number:
		default:
			return 0
		}
	}
	return 0
}

// wrench is the longer word that a reading takes furthest out of its stress.
func (l *Line) wrench(r ear.Reading) (from, to int, found bool) {
	worst := float32(0)
	for i := range r.Beats {
		if r.Beats[i] && l.wrenches(r, i) && -r.Lifts[i] > worst {
			worst, found = -r.Lifts[i], true
			from, to = l.wordOf(i)
		}
	}
	return from, to, found
}

// propped reports whether a beat that own has over forced stands on a light
// word, where the ear only puts it because so many slacks are in a row.
func (l *Line) propped(own, forced ear.Reading) bool {
	if len(own.Beats) != len(forced.Beats) {
		return false
	}
	for i := range own.Beats {
		if own.Beats[i] && !forced.Beats[i] && own.Light[i] {
			return true
		}
	}
	return false
}

// run is a run of slacks too long for its meter: three in triple meter make a
// reader stumble (ours). Where one light word makes the run, it is that word.
func (l *Line) run(beats []bool, f *form) (from, to int, found bool) {
	o := outlineOf(beats)
	if len(beats) != len(l.Reading.Syllables) {
		return 0, 0, false
	}
	consider := func(start, end int) {
		if end-start > 2 && end-start > to-from {
			from, to, found = start, end, true
		}
	}
	consider(0, o.opening)
	for k := 0; k+1 < len(o.at); k++ {
		consider(o.at[k]+1, o.at[k+1])
	}
	if !found {
		return 0, 0, false
	}
	best, at := 1.5, -1 // the strain that one word less may leave
	for i := from; i < to; i++ {
		if start, end := l.wordOf(i); end-start > 1 {
			continue
		}
		w := l.Reading.Syllables[i].Word
		if v := l.strainWithout(stretch{w, w + 1}, ask{f.foot, l.Beats}); v < best {
			best, at = v, i
		}
	}
	if at >= 0 {
		return at, at + 1, true
	}
	return from, to, true
}

// local finds the worst place of a line that has its beats but does not dance.
func (l *Line) local(r ear.Reading, f *form) *Break {
	s := l.Reading.Syllables
	if len(r.Beats) != len(s) {
		return l.broken(PatternChange, 0, len(s))
	}
	worst, at := 0.0, Break{Cause: PatternChange, From: 0, To: len(s)}
	consider := func(weight float64, c Cause, from, to int) {
		if weight > worst {
			worst, at = weight, Break{Cause: c, From: from, To: to}
		}
	}
	for i := range s {
		lift := float64(r.Lifts[i])
		switch {
		case r.Beats[i] && lift < 0 && l.wrenches(r, i):
			from, to := l.wordOf(i)
			consider(-lift+1, WrenchedStress, from, to)
		case !r.Beats[i] && lift > 0 && r.Strong[i]:
			from, to := l.around(i)
			consider(lift, CrowdedStress, from, to)
		}
	}
	o := outlineOf(r.Beats)
	for k := 0; k+1 < len(o.at); k++ {
		if o.gap(k) == 0 && !l.pauseBefore(o.at[k+1]) {
			consider(2, CrowdedStress, o.at[k], o.at[k+1]+1)
		}
	}
	if from, to, found := l.run(r.Beats, f); found {
		consider(3, SlackRun, from, to)
	}
	if odd := oddGaps(r.Beats, f.foot); odd >= 2 && l.Evidence.Foreign > worst {
		at = Break{Cause: PatternChange, From: 0, To: len(s)}
	}
	return l.broken(at.Cause, at.From, at.To)
}

// wrenches reports whether a beat on syllable i takes a longer word out of its
// spoken stress: the word's main stress stands in slack.
func (l *Line) wrenches(r ear.Reading, i int) bool {
	if len(r.Beats) != len(l.Reading.Syllables) {
		return false // said in other ways, with other syllables
	}
	from, to := l.wordOf(i)
	if to-from < 2 || l.Reading.Syllables[i].Stress != 0 {
		return false
	}
	for k := from; k < to; k++ {
		if l.Reading.Syllables[k].Stress == 1 && !r.Beats[k] {
			return true
		}
	}
	return false
}

// wordOf is the syllables of the word that syllable i belongs to.
func (l *Line) wordOf(i int) (from, to int) {
	s := l.Reading.Syllables
	from, to = i, i+1
	for from > 0 && s[from-1].Word == s[i].Word {
		from--
	}
	for to < len(s) && s[to].Word == s[i].Word {
		to++
	}
	return from, to
}

// around is a crowded syllable with the strong neighbours that crowd it.
func (l *Line) around(i int) (from, to int) {
	s := l.Reading.Syllables
	from, to = i, i+1
	for from > 0 && s[from-1].Beat && !l.pauseBefore(from) {
		from--
	}
	for to < len(s) && s[to].Beat && !l.pauseBefore(to) {
		to++
	}
	return from, to
}
