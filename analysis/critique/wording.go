package critique

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"dandle/analysis/checks"
)

var cardinals = [...]string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"}

// cardinal is a number as running text has it: a word up to twelve, else
// figures (The Chicago Manual of Style spells out more; common practice).
func cardinal(n int) string {
	if 0 <= n && n < len(cardinals) {
		return cardinals[n]
	}
	return strconv.Itoa(n)
}

// counted is a number with its noun: "one line", "three lines", "no lines".
func counted(n int, noun string) string {
	if n == 1 {
		return cardinal(n) + " " + noun
	}
	return cardinal(n) + " " + noun + "s"
}

// listed joins parts as a sentence does: "a, b and c".
func listed(parts []string) string {
	if len(parts) < 2 {
		return strings.Join(parts, "")
	}
	return strings.Join(parts[:len(parts)-1], ", ") + " and " + parts[len(parts)-1]
}

// lineNumbers names lines: "line 4", "lines 4, 9 and 12". One that is named
// twice is said once.
func lineNumbers(places []Place) string {
	var numbers []string
	last := 0
	for _, p := range places {
		if p.Line != last {
			numbers = append(numbers, strconv.Itoa(p.Line))
			last = p.Line
		}
	}
	if len(numbers) == 1 {
		return "line " + numbers[0]
	}
	return "lines " + listed(numbers)
}

func capital(s string) string {
	if s == "" {
		return s
	}
	r, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[size:]
}

// quoted sets words in quotation marks; speech inside them takes single ones.
func quoted(s string) string {
	if strings.Count(s, "“") != strings.Count(s, "”") || strings.Count(s, `"`)%2 != 0 {
		s = strings.Trim(s, "“”\"") // speech that began or goes on elsewhere
	}
	return "“" + strings.NewReplacer("“", "‘", "”", "’", `"`, "'").Replace(s) + "”"
}

// A remedy is what to do about findings of one code, and how several of them
// are spoken of together.
type remedy struct {
	code   checks.Code
	weight int    // how much it matters to the reading; the order of a read-through (craft of the trade, common practice)
	action string // the heading it stands under
	label  string // for a margin
	// several opens the note that gathers more than one; "%d" does not occur:
	// the count is put in front, in words.
	several func(n int) string
}

// An area's notes stand together under one heading.
const (
	sayAgain  = "Lines to say aloud again"
	rhymes    = "Rhymes to listen to"
	turnRound = "Sentences to say the natural way round"
	letGo     = "Words that could go"
	showMore  = "Words that could show more"
	smooth    = "Places where the tongue may slip"
	refrains  = "Refrains to lay side by side"
	pictures  = "Pictures to keep whole"
	marks     = "Marks to set"
	artNotes  = "Notes for the illustrator"
	bookSize  = "The size of the book"
	others    = "Other places to look at"
)

// remedies holds every code that has words of its own here, in the order of the
// letter; a code without an entry is spoken of in its findings' own words.
var remedies = []remedy{
	{"meter/missing-beat", 9, sayAgain, "a beat short", func(n int) string { return capital(cardinal(n)) + " lines stop before the ear does" }},
	{"meter/extra-beat", 9, sayAgain, "a beat over", func(n int) string { return capital(cardinal(n)) + " lines go on after the ear has sat down" }},
	{"meter/pattern-change", 8, sayAgain, "another step", func(n int) string { return capital(cardinal(n)) + " lines change step and leave the dance" }},
	{"meter/wrenched-stress", 8, sayAgain, "stress pulled", func(n int) string {
		return "In " + cardinal(n) + " places the tune leans on a syllable that the voice passes over"
	}},
	{"meter/crowded-stress", 7, sayAgain, "strong words meet", func(n int) string {
		return "Strong words crowd in " + cardinal(n) + " places; where the reader should slow down, keep them"
	}},
	{"meter/slack-run", 7, sayAgain, "light words run", func(n int) string {
		return "Light words run together in " + cardinal(n) + " places, and the beat has nowhere to land"
	}},
	{"rhyme/none", 8, rhymes, "no rhyme heard", func(n int) string { return capital(cardinal(n)) + " line ends wait for a rhyme" }},
	{"rhyme/wrenched", 7, rhymes, "rhyme off the stress", func(n int) string {
		return capital(cardinal(n)) + " rhymes fall on a syllable that the voice passes over"
	}},
	{"rhyme/near", 6, rhymes, "near rhyme", func(n int) string { return capital(cardinal(n)) + " pairs come near without meeting" }},
	{"rhyme/same-word", 6, rhymes, "same word", func(n int) string { return "A word answers itself in " + cardinal(n) + " places" }},
	{"rhyme/homophone", 5, rhymes, "same sound", func(n int) string { return "In " + cardinal(n) + " places a word is answered by its own sound" }},
	{"rhyme/overused-sound", 3, rhymes, "sound used often", nil},
	{"rhyme/well-worn-pair", 2, rhymes, "well-worn pair", func(n int) string { return capital(cardinal(n)) + " pairs are ones that a listener can foresee" }},
	{"word/inverted-order", 6, turnRound, "order turned", func(n int) string {
		return "In " + cardinal(n) + " places the words change order so that the line can end on its rhyme"
	}},
	{"word/filler", 5, letGo, "keeps time only", func(n int) string {
		if n == 2 {
			return "Two words keep time and show nothing; one longer word often does the work of both"
		}
		return capital(cardinal(n)) + " words keep time and show nothing; dropped, or traded for one longer word, they make room for a picture"
	}},
	{"word/padding-do", 5, letGo, "patch before a verb", func(n int) string {
		return "In " + cardinal(n) + " places “do” or “did” stands before a verb only to make room"
	}},
	{"word/weak", 3, showMore, "tells, shows nothing", func(n int) string {
		if n == 2 {
			return "Two words say what to think; what would a listener see?"
		}
		return capital(cardinal(n)) + " words say what to think and leave nothing to see; a thing, a colour or a small deed could say it"
	}},
	{"sound/tongue-tangle", 1, smooth, "hard to say fast", func(n int) string {
		return "Said at pace, " + cardinal(n) + " meetings of sounds may trip the tongue; another order or another word would run"
	}},
	{"refrain/drift", 4, refrains, "refrain drifts", func(n int) string {
		return "In " + cardinal(n) + " places the refrain leaves its own words; a room that says it along would trip"
	}},
	{"stanza/unmatched", 4, pictures, "unlike its sisters", func(n int) string { return capital(cardinal(n)) + " verses leave out what their sisters give" }},
	{"image/stray", 3, pictures, "another picture", func(n int) string {
		return capital(cardinal(n)) + " words come from another picture than their verse’s"
	}},
	{"mark/dash", 0, marks, "dash", func(n int) string {
		return "In " + cardinal(n) + " places hyphens do a dash’s work; a dash would let every reader take the breath"
	}},
	{"mark/apostrophe", 0, marks, "apostrophe", func(n int) string { return capital(cardinal(n)) + " apostrophes could be set like their fellows" }},
	{"mark/quote", 0, marks, "quotation mark", func(n int) string {
		return capital(cardinal(n)) + " quotation marks could be set like the others"
	}},
	{"mark/space", 0, marks, "two spaces", func(n int) string { return "Two spaces stand in " + cardinal(n) + " places where one is enough" }},
	{"mark/end", 0, marks, "no end mark", func(n int) string {
		return capital(cardinal(n)) + " verses end without the mark that the others end with"
	}},
	{"mark/capital", 0, marks, "line’s first letter", func(n int) string {
		return capital(cardinal(n)) + " lines begin in another case than the rest"
	}},
	{"note/count", 0, artNotes, "many notes", nil},
	{"note/inside", 0, artNotes, "note in a line", func(n int) string {
		return capital(cardinal(n)) + " notes stand inside their lines, where a voice reading aloud has to leap over them"
	}},
	{"note/label", 0, artNotes, "label", func(n int) string {
		return capital(cardinal(n)) + " notes begin with a label that their brackets make needless"
	}},
	{"note/too-long", 0, artNotes, "long note", func(n int) string {
		return capital(cardinal(n)) + " notes say more than the picture needs; “who = what” is often enough"
	}},
	{"note/redundant", 0, artNotes, "told by the verse", func(n int) string {
		return capital(cardinal(n)) + " notes tell what the verse beside them tells, and may rest"
	}},
	{"book/full-spread", 0, bookSize, "full spread", nil},
	{"book/opening", 0, bookSize, "opening and promise", nil},
	{"book/reading-level", 0, bookSize, "reading level", nil},
	{"book/word-count", 0, bookSize, "length", nil},
	{"book/spreads", 0, bookSize, "spreads", nil},
	{"praise/refrain", 0, "", "refrain", nil},
	{"praise/variation", 0, "", "the tune tells it", nil},
	{"praise/internal-rhyme", 0, "", "rhyme inside", nil},
	{"praise/page-turn", 0, "", "page turn", nil},
	{"praise/alliteration", 0, "", "same first sound", nil},
	{"praise/assonance", 0, "", "one vowel rings", nil},
	{"praise/consonance", 0, "", "one close rings", nil},
	{"praise/sound-word", 0, "", "sound word", nil},
}

func remedyOf(code checks.Code) remedy {
	for _, r := range remedies {
		if r.code == code {
			return r
		}
	}
	return remedy{code: code, weight: 2, action: others, label: strings.ReplaceAll(string(code[strings.IndexByte(string(code), '/')+1:]), "-", " ")}
}

// Label is a finding's code in two or three kind words, for a margin.
func Label(code checks.Code) string { return remedyOf(code).label }
