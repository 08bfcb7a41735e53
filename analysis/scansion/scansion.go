// Package scansion hears the meter of verse: the feet of a line, the meter of
// a poem, and the lines that lose it. It knows beats; it knows nothing of
// rhyme, of files or of protocols.
package scansion

import (
	"strings"

	"dandle/analysis/manuscript"
	"dandle/analysis/scansion/ear"
	"dandle/phonetics"
)

// A Foot names a meter's foot.
type Foot uint8

// The feet. NoMeter is the truth about prose and free verse.
const (
	NoMeter Foot = iota
	Iambic
	Trochaic
	Anapestic
	Dactylic
	Amphibrachic
	Mixed // duple and triple feet side by side
)

var footNames = [...]string{"none", "iambic", "trochaic", "anapestic", "dactylic", "amphibrachic", "mixed"}

// String is the name in lower case, such as "anapestic".
func (f Foot) String() string { return footNames[f] }

// A Word is a word of a line with every way to say it.
type Word = ear.Word

// A Syllable is one syllable of a reading, as it stands in the text.
type Syllable struct {
	Word   int             // index into the line's words
	Span   manuscript.Span // in the manuscript
	Stress phonetics.Stress
	Beat   bool
}

// A Reading is one way to read a line aloud.
type Reading struct {
	Ways      []int // for each word, the index of its pronunciation
	Syllables []Syllable
	Feet      []int // for each foot, the index of the syllable it ends before
	Score     float64
}

// Pattern is one character a syllable: '/' a beat, 'x' slack.
func (r *Reading) Pattern() string { return pattern(len(r.Syllables), r.isBeat, nil) }

// FeetPattern is Pattern with feet parted by '|'.
func (r *Reading) FeetPattern() string { return pattern(len(r.Syllables), r.isBeat, r.Feet) }

// PatternOf is the beats of the words from … to-1 alone, one character a syllable.
func (r *Reading) PatternOf(from, to int) string {
	var b strings.Builder
	for _, s := range r.Syllables {
		switch {
		case s.Word < from || s.Word >= to:
		case s.Beat:
			b.WriteByte('/')
		default:
			b.WriteByte('x')
		}
	}
	return b.String()
}

func (r *Reading) isBeat(syllable int) bool { return r.Syllables[syllable].Beat }

// Beats is the number of beats.
func (r *Reading) Beats() int {
	n := 0
	for _, s := range r.Syllables {
		if s.Beat {
			n++
		}
	}
	return n
}

// pattern writes so many syllables, with bars before those that feet end before.
func pattern(syllables int, isBeat func(int) bool, feet []int) string {
	b := make([]byte, 0, syllables+len(feet))
	for i := range syllables {
		for len(feet) > 0 && feet[0] <= i {
			if feet[0] == i && i > 0 {
				b = append(b, '|')
			}
			feet = feet[1:]
		}
		if isBeat(i) {
			b = append(b, '/')
		} else {
			b = append(b, 'x')
		}
	}
	return string(b)
}

// A Meter is the pattern that a poem, or a part of it, keeps.
type Meter struct {
	Foot       Foot
	RunnerUp   Foot    // the foot that would explain the lines next best; NoMeter where it was not asked
	Beats      []int   // one entry, or one for each place in the stanza where they differ
	Confidence float64 // 0 … 1
	Declared   bool    // named in the front matter
	// Regular is false where the lines keep no meter that a line could lose:
	// prose, free verse. The foot is then but the nearest.
	Regular bool
}

// A Line is what is heard in one line.
type Line struct {
	Words      []Word
	Reading    Reading
	Expected   string // the pattern its place calls for, in feet: "xx/|xx/"; "" where none does
	Beats      int    // the beats its place calls for; 0 where none does
	Fits       bool
	Continues  bool     // it goes on with the verse that the line before began: the meter takes the two for one
	Deviance   float64  // 0 fits … 1 certainly off
	Evidence   Evidence // what the deviance is made of
	Variations []Variation
	Break      *Break // where the line loses the meter; nil where it does not

	standard *standard // nil in a part that keeps no meter
	heard    *heard
	read     ask // what the reading was asked for
}

// A Variation is a licensed departure, under the name the trade gives it.
type Variation struct {
	Kind     VariationKind
	From, To int // syllables [From, To)
}

// A VariationKind names a licensed departure from the meter's plain pattern.
type VariationKind uint8

// The variations.
const (
	Headless       VariationKind = iota // first slack missing
	Anacrusis                           // slack before a falling line
	Inversion                           // "/x" for "x/"
	FeminineEnding                      // one slack after the last beat
	TripleEnding                        // two slacks after it
	Catalexis                           // last slack missing in falling meter
	ExtraSlack                          // a triple foot in duple meter
	LightFoot                           // a duple foot in triple meter
	Clash                               // two beats side by side
	LightEnding                         // a syllable on the last beat that speech passes over
	SilentBeat                          // a pause that holds a beat
)

var variationNames = [...]string{"headless line", "anacrusis", "inversion", "feminine ending", "triple ending", "catalexis", "extra slack", "light foot", "clash", "light ending", "silent beat"}

// String is the trade's name for it.
func (k VariationKind) String() string { return variationNames[k] }

// A Cause is the kind of break in a line that loses the meter.
type Cause uint8

// The causes, in the order of the findings' codes.
const (
	MissingBeat Cause = iota
	ExtraBeat
	CrowdedStress
	SlackRun
	WrenchedStress
	PatternChange
)

// A Break is the place where a line loses the meter.
type Break struct {
	Cause    Cause
	From, To int // syllables [From, To)
	Span     manuscript.Span
	// Spare is the word or the phrase without which the line would fit; empty
	// where none could go.
	Spare manuscript.Span
}

// A Poem is what is heard in a whole manuscript.
type Poem struct {
	Meter Meter  // of its largest part
	Parts []Part // one, unless its meter changes between stanzas
	Lines []Line // one for each line of the manuscript

	memo *Memo
}
