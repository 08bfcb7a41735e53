package rhyme_test

import (
	"strings"
	"testing"

	"dandle/analysis/rhyme"
	"dandle/phonetics"
)

// end is the end of a line of these words, as the dictionary says them.
func end(t testing.TB, line string, dialect phonetics.Dialect) rhyme.End {
	t.Helper()
	reader := phonetics.NewReader(dialect, nil)
	var words []rhyme.Word
	for text := range strings.FieldsSeq(line) {
		words = append(words, rhyme.Word{Text: text, Ways: reader.Pronounce(text, phonetics.Context{})})
	}
	return rhyme.NewEnd(words)
}

func compare(t testing.TB, a, b string) rhyme.Match {
	t.Helper()
	x, y := end(t, a, phonetics.EnUS), end(t, b, phonetics.EnUS)
	return rhyme.Compare(&x, &y)
}

// The kinds, by the definitions and examples of handbooks and of teachers'
// glossaries, and by the poets they quote: Behler's glossary (perfect,
// mosaic), Webster's 1913 dictionary and Baum 1922 (masculine, feminine,
// triple), the Bedford Glossary (wrenched).
func TestKinds(t *testing.T) {
	tests := []struct {
		name, a, b string
		want       rhyme.Kind
		syllables  int
	}{
		{"masculine (Byron)", "hair", "air", rhyme.Perfect, 1},
		{"feminine (Moore)", "clatter", "matter", rhyme.Perfect, 2},
		{"triple (Hood)", "tenderly", "slenderly", rhyme.Perfect, 3},
		{"secondary stress", "butterfly", "sky", rhyme.Perfect, 1},
		{"mosaic (Behler)", "famous", "shame us", rhyme.Mosaic, 2},
		{"mosaic of common words", "poet", "know it", rhyme.Mosaic, 2},
		{"across a hyphen", "merry-go-round", "sound", rhyme.Perfect, 1},
		{"elided", "o'er", "more", rhyme.Perfect, 1},
		{"either way of saying it (Byron)", "again", "pain", rhyme.Perfect, 1},
		{"the other way (Byron)", "again", "men", rhyme.Perfect, 1},
		{"fire has one syllable or two", "fire", "higher", rhyme.Perfect, 1},
		{"one vowel before r", "near", "here", rhyme.Perfect, 1},
		{"identical", "lantern", "lantern", rhyme.Identical, 2},
		{"rime riche (Lovelace)", "write", "right", rhyme.Homophone, 1},
		{"rime riche (Behler)", "made", "maid", rhyme.Homophone, 1},
		{"light (Housman)", "be", "poetry", rhyme.Light, 1},
		{"wrenched (Marlowe, in the Bedford Glossary)", "sing", "morning", rhyme.Wrenched, 1},
		{"one feature off, voice", "prize", "mice", rhyme.Near, 1},
		{"one feature off, place", "loom", "moon", rhyme.Near, 1},
		{"assonance", "lake", "safe", rhyme.Near, 1},
		{"consonance (Byron)", "given", "heaven", rhyme.Near, 2},
		{"eye (Byron)", "love", "move", rhyme.Eye, 1},
		{"eye (Kipling)", "wind", "kind", rhyme.Perfect, 1}, // to wind a clock
		{"only -ing agrees", "walking", "jumping", rhyme.NoRhyme, 0},
		{"all from the stress on", "walking", "talking", rhyme.Perfect, 2},
		{"nothing agrees", "kettle", "moon", rhyme.NoRhyme, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			for _, m := range []rhyme.Match{compare(t, tt.a, tt.b), compare(t, tt.b, tt.a)} {
				if m.Kind != tt.want {
					t.Errorf("%s / %s: %v, want %v (%+v)", tt.a, tt.b, m.Kind, tt.want, m)
				} else if tt.want != rhyme.NoRhyme && tt.want != rhyme.Eye && m.Syllables != tt.syllables {
					t.Errorf("%s / %s: %d syllables, want %d", tt.a, tt.b, m.Syllables, tt.syllables)
				}
			}
		})
	}
}

func TestLikenessOfNearRhymes(t *testing.T) {
	tests := []struct {
		a, b string
		want rhyme.Likeness
	}{
		{"prize", "mice", rhyme.OneFeature},
		{"loom", "moon", rhyme.OneFeature},
		{"lake", "safe", rhyme.Assonance},
		{"given", "heaven", rhyme.Consonance},
		{"bright", "brights", rhyme.OneMore},
	}
	for _, tt := range tests {
		if m := compare(t, tt.a, tt.b); m.Near != tt.want {
			t.Errorf("%s / %s: %v, want %v (%+v)", tt.a, tt.b, m.Near, tt.want, m)
		}
	}
}

// The order of near rhymes, from the nearest: a children's editor takes one
// feature off for the nearest (common practice).
func TestNearRhymesHaveAnOrder(t *testing.T) {
	order := [][2]string{{"breeze", "trees"}, {"prize", "mice"}, {"lake", "safe"}, {"lake", "soap"}}
	for i := 1; i < len(order); i++ {
		nearer, farther := compare(t, order[i-1][0], order[i-1][1]), compare(t, order[i][0], order[i][1])
		if !(nearer.Distance < farther.Distance) {
			t.Errorf("%v lies at %.2f, %v at %.2f: want the first nearer", order[i-1], nearer.Distance, order[i], farther.Distance)
		}
	}
}

// Wells, Accents of English, 1982 (from memory), and the Manchester dialect
// maps for foot and cut.
func TestElsewhere(t *testing.T) {
	tests := []struct {
		a, b string
		want rhyme.Accent
	}{
		{"umbrella", "cellar", rhyme.NonRhotic},
		{"fear", "idea", rhyme.NonRhotic},
		{"path", "hearth", rhyme.SouthernEnglish},
		{"dawn", "don", rhyme.CotCaught},
		{"him", "hem", rhyme.PinPen},
		{"foot", "cut", rhyme.FootStrut},
		{"kettle", "moon", rhyme.OwnAccent},
	}
	for _, tt := range tests {
		a, b := end(t, tt.a, phonetics.EnUS), end(t, tt.b, phonetics.EnUS)
		if got := rhyme.Elsewhere(&a, &b); got != tt.want {
			t.Errorf("%s / %s rhyme in %v, want %v", tt.a, tt.b, got, tt.want)
		}
	}
}
