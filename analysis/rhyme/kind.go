package rhyme

// A Kind is how two line ends answer each other.
type Kind uint8

// The kinds, under the trade's names.
const (
	NoRhyme   Kind = iota
	Perfect        // from the last stressed vowel on all sounds agree, the consonants before it differ
	Mosaic         // perfect, and at least one side spans several words
	Identical      // the same word
	Homophone      // another word that sounds the same, onset and all
	Light          // a weak last syllable answers a stressed one: sea, melody
	Near           // most of the sounds agree
	Wrenched       // only unstressed syllables agree: sing, morning
	Eye            // the letters agree and the sounds do not
)

// IsFull reports whether all sounds agree from the stressed vowel on, whatever
// stands before it.
func (k Kind) IsFull() bool { return Perfect <= k && k <= Homophone }

var kindNames = [...]string{"none", "perfect", "mosaic", "identical", "homophone", "light", "near", "wrenched", "eye"}

// String is the name used in output, such as "perfect".
func (k Kind) String() string { return kindNames[k] }
