package phonetics

import (
	"fmt"
	"strings"
)

// A Dialect is an accent of English that words are pronounced in.
type Dialect uint8

// The dialects.
const (
	EnUS Dialect = iota // General American
	EnGB                // Southern British
)

var dialectNames = [...]string{"en-US", "en-GB"}

// String is the dialect's language tag (BCP 47), such as "en-US".
func (d Dialect) String() string { return dialectNames[d] }

// ParseDialect reads a language tag; case does not matter in it. The error
// names the tags that are known.
func ParseDialect(tag string) (Dialect, error) {
	for d, name := range dialectNames {
		if strings.EqualFold(tag, name) {
			return Dialect(d), nil
		}
	}
	return EnUS, fmt.Errorf("dialect %q is not known; known are en-US and en-GB", tag)
}

// A Feature is one respect in which the accents of English differ. The names
// and the word sets are those of Wells, Accents of English (1982).
type Feature uint16

// The features.
const (
	Rhotic        Feature = 1 << iota // r is sounded wherever it is written: "car"
	TrapBathSplit                     // "bath" has the vowel of "palm", "trap" has not
	LotPalmMerger                     // "lot" has the vowel of "palm"
	LotClothSplit                     // "cloth" has the vowel of "thought"
	CotCaught                         // "cot" and "caught" are one
	MarryMerry                        // "marry" and "merry" are one
	HurryFurry                        // "hurry" rhymes with "furry"
	PinPen                            // "pin" and "pen" are one
	YodDropping                       // no y in "new", "tune", "dew"
	WeakMerger                        // "rabbit" rhymes with "abbot"
	StrongEndings                     // -ary, -ory and -mony keep a full vowel
)

// features are what each dialect has. General American is given without the
// merger of cot and caught, which about half of its speakers have, since the
// dictionary keeps the two apart.
var features = [...]Feature{
	EnUS: Rhotic | LotPalmMerger | LotClothSplit | MarryMerry | HurryFurry | YodDropping | WeakMerger | StrongEndings,
	EnGB: TrapBathSplit,
}

// Has reports whether a dialect has all of the features.
func (d Dialect) Has(f Feature) bool { return features[d]&f == f }
