package phonetics

import (
	"strings"

	"dandle/phonetics/arpabet"
	"dandle/phonetics/grammar"
	"dandle/phonetics/lexicon"
)

// hyphenated joins the parts of a hyphenated word. The first part that can
// bear it has the main stress and the later ones a second stress, as in the
// dictionary's own compounds; words of grammar in the middle have none
// (merry-go-round, up-and-down). The parts of a stutter are a consonant and a
// schwa each (b-b-but), and letters named one by one have a stress each
// (A-B-C).
func (r *Reader) hyphenated(word string) []reading {
	parts := strings.Split(word, "-")
	last := parts[len(parts)-1]
	if allSingle(parts) {
		return letters(word)
	}
	joined := reading{source: FromCompound}
	at, stressed := 0, false
	for i, part := range parts {
		start := at
		at += len(part) + 1
		if part == "" {
			stressed = false // a dash of two hyphens parts words
			continue
		}
		var ways []reading
		forms, isFunction := functionWords[part]
		switch {
		case i < len(parts)-1 && isStutter(part, last):
			ways = r.stutter(part, last)
			joined.source = FromImitation
		case i > 0 && len(part) == 1 && isVowelLetter(part[0]) && strings.HasSuffix(parts[i-1], part) && joined.sounds != "":
			// no-o-o: the vowel is said again.
			ways = []reading{{sounds: lastVowel(joined.sounds)}}
			joined.source, isFunction = FromImitation, false
		case i > 0 && len(part) == 1 && !isVowelLetter(part[0]) && strings.HasSuffix(parts[i-1], part):
			continue // gr-r-r: the same sound goes on
		case i == 0 && crashes[part] != "":
			// ka-thump, ker-plunk: the weak opening of a crash.
			ways = []reading{{sounds: crashes[part]}}
			joined.source = FromImitation
		default:
			ways = r.readings(part, wordShape{})
		}
		if len(ways) == 0 {
			continue
		}
		s := ways[0].sounds
		switch {
		case isFunction && i > 0 && i < len(parts)-1:
			s = weakest(forms)
		case stressed:
			s = restress(s, arpabet.Primary, arpabet.Secondary)
		}
		if len(joined.sounds) > 0 {
			joined.seams = append(joined.seams, seam{len(joined.sounds), start})
		}
		joined.seams = append(joined.seams, ways[0].shifted(len(joined.sounds), start)...)
		joined.sounds += s
		stressed = stressed || hasStress(s, arpabet.Primary)
	}
	if joined.sounds == "" {
		return nil
	}
	if len(parts) == 2 && (grammar.CanBe(last, grammar.Adjective) || parts[0] == last) && joined.source == FromCompound && len(joined.seams) > 0 {
		// "Knee-deep" and "sky-blue" lean on their second part where no noun follows, and what is
		// said twice, as "tap-tap", on either (Wells, Longman Pronunciation Dictionary,
		// "Compounds and phrases"; from memory).
		at := joined.seams[0].sound
		late := joined
		late.sounds = restress(joined.sounds[:at], arpabet.Primary, arpabet.Secondary) + restress(joined.sounds[at:], arpabet.Secondary, arpabet.Primary)
		return []reading{joined, late}
	}
	return []reading{joined}
}

// shifted are a part's own seams, where the part stands in its whole.
func (way *reading) shifted(sound, letter int) []seam {
	var seams []seam
	for _, at := range way.seams {
		seams = append(seams, seam{at.sound + sound, at.letter + letter})
	}
	return seams
}

// weakest is the first weak form of a word of grammar.
func weakest(forms []reading) Sounds {
	for _, form := range forms {
		if !hasStress(form.sounds, arpabet.Primary) {
			return form.sounds
		}
	}
	return restress(forms[0].sounds, arpabet.Primary, arpabet.Unstressed)
}

// crashes are the weak openings of words for a fall or a blow.
var crashes = map[string]Sounds{"ka": sound("K AH0"), "ker": sound("K ER0"), "ga": sound("G AH0"), "cu": sound("K AH0"), "ba": sound("B AH0"), "pa": sound("P AH0"), "ta": sound("T AH0")}

func allSingle(parts []string) bool {
	for _, part := range parts {
		if len(part) != 1 || part[0] < 'a' || 'z' < part[0] {
			return false
		}
	}
	return len(parts) > 1
}

// isStutter reports whether a part is the beginning of the word that follows
// it, consonants or consonants and one vowel: b-b-but, th-that, wh-what.
func isStutter(part, word string) bool {
	return len(part) <= 3 && len(part) < len(word) && strings.HasPrefix(word, part) && (!hasVowelLetter(part) || len(part) == 1)
}

// stutter says the sounds that a part's letters stand for in the word.
func (r *Reader) stutter(part, word string) []reading {
	ways := r.readings(word, wordShape{})
	if len(ways) == 0 {
		return nil
	}
	s := ways[0].sounds
	starts, ok := align(word, s)
	if !ok {
		return nil
	}
	n := 0
	for n < len(s) && int(starts[n]) < len(part) && !s.At(n).IsVowel() {
		n++
	}
	if n == 0 {
		// A vowel stammered is the vowel itself.
		if s.At(0).IsVowel() {
			return []reading{{sounds: restress(s[:1], arpabet.Primary, arpabet.Unstressed)}}
		}
		return nil
	}
	return []reading{{sounds: s[:n] + sound("AH0")}}
}

func lastVowel(s Sounds) Sounds {
	for i := len(s) - 1; i >= 0; i-- {
		if s.At(i).IsVowel() {
			return restress(s[i:i+1], arpabet.Primary, arpabet.Secondary)
		}
	}
	return ""
}

func hasStress(s Sounds, stress Stress) bool {
	for i := range len(s) {
		if v := s.At(i); v.IsVowel() && v.Stress() == stress {
			return true
		}
	}
	return false
}

// restress changes one degree of stress into another.
func restress(s Sounds, from, to Stress) Sounds {
	if !hasStress(s, from) {
		return s
	}
	b := []byte(s)
	for i := range b {
		if v := s.At(i); v.IsVowel() && v.Stress() == from {
			b[i] = byte(arpabet.Make(v.Phone(), to))
		}
	}
	return Sounds(b)
}

// What the parts of a closed compound may cost together. A part costs what
// it lacks in familiarity, and a short part costs more: any letters at all
// can be cut into short names. Dearer cuts must agree with what the letters
// say. The figures are ours, set so that invented words such as "wibbled" and
// "snuffled" stay whole.
const (
	mostSureCost     = 32
	mostCompoundCost = 62
	shortestPart     = 3
	shortPartCost    = 6
	taughtPartCost   = 8
	endedPartCost    = 18 // a part that bears an ending: "puddlejumping"
)

// compound says a closed compound of two known words, such as "moonbeam",
// with the main stress on the first. It takes the cheapest cut.
func (r *Reader) compound(word string) []reading {
	joined, cost, ok := r.cheapestCut(word)
	if !ok {
		return nil
	}
	if cost > mostSureCost {
		guess := r.guessed(word)
		if len(guess) == 0 || !soundAlike(guess[0].sounds, joined.sounds) || mainStress(guess[0].sounds) != mainStress(joined.sounds) {
			return nil
		}
	}
	return []reading{joined}
}

// sureCompound is compound where the parts leave no doubt.
func (r *Reader) sureCompound(word string) []reading {
	if joined, cost, ok := r.cheapestCut(word); ok && cost <= mostSureCost {
		return []reading{joined}
	}
	return nil
}

// cheapestCut cuts a word into the two known words that cost the least.
func (r *Reader) cheapestCut(word string) (joined reading, cost int, ok bool) {
	if len(word) < 2*shortestPart || len(word) > 30 {
		return reading{}, 0, false
	}
	best, least := 0, mostCompoundCost+1
	for cut := shortestPart; cut <= len(word)-shortestPart; cut++ {
		first := r.partCost(word[:cut])
		if first >= least {
			continue
		}
		if cost := first + r.partCost(word[cut:]); cost < least {
			best, least = cut, cost
		}
	}
	if best == 0 {
		return reading{}, 0, false
	}
	if min(best, len(word)-best) == shortestPart {
		least = max(least, mostSureCost+1) // three letters need the letters' word for it
	}
	first, second := r.part(word[:best]), r.part(word[best:])
	if len(first) == 0 || len(second) == 0 {
		return reading{}, 0, false
	}
	return reading{
		sounds: first[0].sounds + restress(second[0].sounds, arpabet.Primary, arpabet.Secondary),
		source: FromCompound,
		seams:  append([]seam{{len(first[0].sounds), best}}, second[0].shifted(len(first[0].sounds), best)...),
	}, least, true
}

// soundAlike reports whether two readings differ in weak vowels and degrees
// of stress only.
func soundAlike(a, b Sounds) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range len(a) {
		x, y := a.At(i), b.At(i)
		if x.Phone() == y.Phone() {
			continue
		}
		if !x.IsVowel() || !y.IsVowel() || x.Stress() != arpabet.Unstressed && y.Stress() != arpabet.Unstressed {
			return false
		}
	}
	return true
}

func (r *Reader) part(word string) []reading {
	if list := r.base(word); list != nil {
		return list
	}
	return r.inflectedOnce(word)
}

// hasEnding reports whether a part may bear an inflection: the endings of
// derived words end too many parts by chance ("dams-elf-ly").
func hasEnding(word string) bool {
	for _, ending := range [...]string{"s", "ed", "ing", "er"} {
		if strings.HasSuffix(word, ending) {
			return true
		}
	}
	return false
}

// partCost is what a part costs; a part that is no word costs too much.
func (r *Reader) partCost(word string) int {
	const never = 100
	if len(word) < shortestPart || !hasVowelLetter(word) {
		return never
	}
	if _, ok := r.taught[word]; ok {
		return taughtPartCost
	}
	entries := lexicon.Lookup(word)
	cost := 31 - entries.Familiarity()
	if entries.Len() == 0 {
		if len(word) < 5 || !hasEnding(word) || r.inflectedOnce(word) == nil {
			return never
		}
		cost = endedPartCost
	}
	if entries.Len() > 0 && (entries.At(0).SyllableCount() == 0 || isSpeltOut(word, entries.At(0))) {
		return never
	}
	if len(word) == shortestPart {
		cost += shortPartCost
	}
	return cost
}
