package phonetics

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"dandle/phonetics/arpabet"
	"dandle/phonetics/grammar"
	"dandle/phonetics/lexicon"
)

// said is the first way to say a word: its sounds, its source and its
// syllables in the spelling.
func said(r *Reader, word string, c Context) string {
	list := r.Pronounce(word, c)
	if len(list) == 0 {
		return "nothing"
	}
	return fmt.Sprintf("%v (%v) %s", list[0].Sounds, list[0].Source, spelt(word, list[0]))
}

func spelt(word string, p Pronunciation) string {
	parts := make([]string, len(p.Syllables))
	for i, s := range p.Syllables {
		parts[i] = word[s.Start:s.End]
	}
	return strings.Join(parts, "·")
}

// Sounds are those of Merriam-Webster's Collegiate and Webster's Unabridged
// of 1913 for real words (from memory); invented words are said as their
// parts are.
func TestPronounce(t *testing.T) {
	r := NewReader(EnUS, map[string]Sounds{"Oban": sound("OW1 B AH0 N")})
	for _, test := range []struct{ area, word, want string }{
		{"lexicon", "lighthouse", "L AY1 T HH AW2 S (lexicon) light·house"},
		{"lexicon", "Lantern", "L AE1 N T ER0 N (lexicon) Lan·tern"},
		{"lexicon", "every", "EH1 V R IY0 (lexicon) eve·ry"},
		{"taught", "oban", "OW1 B AH0 N (writer) o·ban"},
		{"taught", "OBAN’S", "OW1 B AH0 N Z (inflection) O·BAN’S"},

		{"inflection", "hedgehoggish", "HH EH1 JH HH AA2 G IH0 SH (inflection) hedge·hog·gish"},
		{"inflection", "splooshing", "S P L UW1 SH IH0 NG (inflection) sploosh·ing"},
		{"inflection", "squelchiest", "S K W EH1 L CH IY0 AH0 S T (inflection) squel·chi·est"},
		{"inflection", "woodlouse's", "W UH1 D L AW2 S IH0 Z (compound) wood·louse·'s"},
		{"inflection", "wandereth", "W AA1 N D ER0 AH0 TH (inflection) wan·der·eth"},
		{"inflection", "wingèd", "W IH1 NG IH0 D (inflection) wing·èd"},
		{"inflection", "unbuttoned", "AH0 N B AH1 T AH0 N D (lexicon) un·but·toned"},
		{"inflection", "rewrapped", "R IY0 R AE1 P T (inflection) re·wrapped"},
		{"inflection", "shouldn't've", "SH UH1 D AH0 N T AH0 V (inflection) should·n't·'ve"},
		{"inflection", "I'd've", "AY1 D AH0 V (inflection) I'd·'ve"},

		{"inflection", "smokier", "S M OW1 K IY0 ER0 (inflection) smo·ki·er"},
		{"inflection", "shiniest", "SH AY1 N IY0 AH0 S T (inflection) shi·ni·est"},
		{"inflection", "nibblers", "N IH1 B L ER0 Z (inflection) nibb·lers"},

		// Spellings of both usages: Webster's reforms, from memory.
		{"variant", "paralysed", "P EH1 R AH0 L AY2 Z D (inflection) par·a·lysed"},
		{"variant", "rancour", "R AE1 NG K ER0 (variant) ran·cour"},
		{"variant", "mesmerise", "M EH1 Z M ER0 AY2 Z (variant) mes·me·rise"},
		{"variant", "anaemic", "AH0 N IY1 M IH0 K (variant) a·nae·mic"},

		// Words that are two words part between them.
		{"halves", "cartwheel", "K AA1 R T W IY2 L (lexicon) cart·wheel"},
		{"halves", "without", "W IH0 TH AW1 T (lexicon) with·out"},
		{"halves", "window", "W IH1 N D OW0 (lexicon) win·dow"},

		{"compound", "moonmoth", "M UW1 N M AO2 TH (compound) moon·moth"},
		{"compound", "puddlejumping", "P AH1 D AH0 L JH AH2 M P IH0 NG (compound) pud·dle·jump·ing"},
		{"compound", "snow-soft", "S N OW1 S AA2 F T (compound) snow-·soft"},
		{"compound", "tip-toeing", "T IH1 P T OW2 IH0 NG (compound) tip-·toe·ing"},
		{"compound", "pitter-patter", "P IH1 T ER0 P AE2 T ER0 (compound) pit·ter-·pat·ter"},
		{"compound", "cock-a-doodle-doo", "K AA1 K AH0 D UW2 D AH0 L D UW2 (compound) cock-·a-·doo·dle-·doo"},

		{"elision", "'tis", "T IH1 Z (lexicon) 'tis"},
		{"elision", "‘twas", "T W AH1 Z (lexicon) ‘twas"},
		{"elision", "o’er", "AO1 R (lexicon) o’er"},
		{"elision", "ev'ry", "EH1 V R IY0 (elision) ev'·ry"},
		{"elision", "heav'n", "HH EH1 V N (elision) heav'n"},
		{"elision", "wand’ring", "W AA1 N D R IH0 NG (elision) wan·d’ring"},
		{"elision", "goin'", "G OW1 AH0 N (lexicon) go·in'"},
		{"elision", "splooshin'", "S P L UW1 SH IH0 N (elision) sploo·shin'"},
		{"elision", "’neath", "N IY1 TH (elision) ’neath"},
		{"elision", "th'old", "DH OW1 L D (elision) th'old"},
		{"elision", "o'clock", "AH0 K L AA1 K (lexicon) o'·clock"},

		{"imitation", "sooooo", "S OW1 (imitation) sooooo"},
		{"imitation", "nooo", "N OW1 (imitation) nooo"},
		{"imitation", "mooooo", "M UW1 (imitation) mooooo"},
		{"imitation", "loooong", "L AO1 NG (imitation) loooong"},
		{"imitation", "sleeeep", "S L IY1 P (imitation) sleeeep"},
		{"imitation", "brrrr", "B ER1 (imitation) brrrr"},
		{"imitation", "shhhh", "SH (imitation) shhhh"},
		{"imitation", "zzzzz", "Z (imitation) zzzzz"},
		{"imitation", "aaaargh", "AA1 R G (imitation) aaaargh"},
		{"imitation", "whoooosh", "W UW1 SH (imitation) whoooosh"},
		{"imitation", "pssst", "P S T (imitation) pssst"},
		{"imitation", "ka-thump", "K AH0 TH AH1 M P (inflection) ka-·thump"},
		{"imitation", "b-b-but", "B AH0 B AH0 B AH1 T (imitation) b-·b-·but"},
		{"imitation", "th-that", "DH AH0 DH AE1 T (imitation) th-·that"},
		{"imitation", "no-o-o", "N OW1 OW2 OW2 (imitation) no-·o-·o"},

		{"number", "42", "F AO1 R T IY0 T UW1 (number) ·4·2"},
		{"number", "3rd", "TH ER1 D (number) 3rd"},
		{"number", "1905", "N AY1 N T IY1 N OW1 F AY1 V (number) 1·9·0·5"},
		{"number", "$1", "W AH1 N D AA1 L ER0 (number) ·$·1"},
		{"number", "½", "W AH1 N HH AE1 F (number) ·½"},
		{"number", "&", "AE1 N D (number) &"},
		{"letters", "A-B-C", "EY2 B IY2 S IY1 (letters) A-·B-·C"},
		{"letters", "XQ", "EH2 K S K Y UW1 (letters) X·Q"},
		{"accents", "Zoë", "Z OW1 IY0 (lexicon) Zo·ë"},
		{"emphasis", "*the*", "DH IY1 (lexicon) *the*"},
		{"shouting", "THE", "DH IY1 (lexicon) THE"},
		{"nothing", "—", "nothing"},
		{"nothing", "", "nothing"},
	} {
		if diff := cmp.Diff(test.want, said(r, test.word, Context{})); diff != "" {
			t.Errorf("%s: %q (-want +got):\n%s", test.area, test.word, diff)
		}
	}
}

func TestNumeralsAreReadOut(t *testing.T) {
	for _, test := range []struct{ numeral, words string }{
		{"0", "zero"},
		{"13", "thirteen"},
		{"80", "eighty"},
		{"101", "one hundred one"},
		{"1,000,000", "one million"},
		{"1st", "first"},
		{"12th", "twelfth"},
		{"21st", "twenty first"},
		{"30th", "thirtieth"},
		{"1999", "nineteen ninety nine"},
		{"1900", "nineteen hundred"},
		{"2005", "two thousand five"},
		{"1920s", "nineteen twenties"},
		{"'90s", "nineties"},
		{"$5.50", "five dollars and fifty cents"},
		{"£2", "two pounds"},
		{"$0.05", "five cents"},
		{"7:30", "seven thirty"},
		{"10:05", "ten oh five"},
		{"6:00", "six o'clock"},
		{"3pm", "three p. m."},
		{"10kg", "ten kilograms"},
		{"1ft", "one foot"},
		{"50%", "fifty percent"},
		{"20°", "twenty degrees"},
		{"1/2", "one half"},
		{"3/4", "three quarters"},
		{"2½", "two and a half"},
		{"3.14", "three point one four"},
		{"007", "oh oh seven"},
		{"#1", "number one"},
	} {
		want := ""
		for _, way := range say(test.words, FromNumber) {
			want = way.sounds.String()
		}
		p := NewReader(EnUS, nil).Pronounce(test.numeral, Context{})
		if len(p) == 0 || p[0].Sounds.String() != want || p[0].Source != FromNumber {
			t.Errorf("%s is %v, want %s: %s", test.numeral, p, test.words, want)
		}
	}
}

func TestContextDecides(t *testing.T) {
	r := NewReader(EnUS, nil)
	for _, test := range []struct {
		word    string
		context Context
		want    string
	}{
		{"St.", Context{After: "Ives"}, "S EY1 N T"},
		{"St.", Context{Before: "Mill"}, "S T R IY1 T"},
		{"Dr.", Context{After: "Quill"}, "D AA1 K T ER0"},
		{"VIII", Context{Before: "Rupert"}, "DH AH0 EY1 T TH"},
		{"II", Context{Before: "Chapter"}, "T UW1"},
		{"no.", Context{After: "7"}, "N AH1 M B ER0"},
		{"record", Context{Tag: grammar.Verb}, "R AH0 K AO1 R D"},
		{"record", Context{Tag: grammar.Noun}, "R EH1 K ER0 D"},
	} {
		p := r.Pronounce(test.word, test.context)
		if got := p[0].Sounds.String(); got != test.want {
			t.Errorf("%s in %+v is %s, want %s", test.word, test.context, got, test.want)
		}
	}
}

// Elision of an unstressed syllable in verse: Saintsbury, Historical Manual of
// English Prosody (1910), glossary, "elision", "syncope" and "synalepha",
// names the kinds; the words are ours.
func TestOptionalSyllables(t *testing.T) {
	r := NewReader(EnUS, nil)
	for _, test := range []struct {
		word   string
		counts string // syllables, most usual first
	}{
		{"fire", "1 2"},
		{"flower", "2 1"},
		{"power", "2 1"},
		{"every", "2 3"},
		{"family", "2 3"},
		{"heaven", "2 1"},
		{"spirit", "2 1"},
		{"poem", "2 1"},
		{"quiet", "2 1"},
		{"being", "2 1"},
		{"towel", "2 1"},
		{"real", "1 2"},
		{"curious", "3 2"},
		{"usual", "3 2"},
		{"opening", "2 3"},
		{"wandering", "3 2"},
		{"memory", "3 2"},
		{"diamond", "2 3"},
		{"prism", "2 1"},
		{"rhythm", "2 1"},
		{"empire", "3 2"},
		{"moon", "1"},
		{"lantern", "2"},
		{"toward", "2 1"},
		{"blessed", "1 2"},
		{"different", "2 3"},
		{"camera", "2 3"},
		{"chocolate", "2 3"},
	} {
		var counts []string
		for _, p := range r.Pronounce(test.word, Context{}) {
			if n := fmt.Sprint(p.Sounds.SyllableCount()); !strings.Contains(strings.Join(counts, " "), n) {
				counts = append(counts, n)
			}
		}
		if got := strings.Join(counts, " "); got != test.counts {
			t.Errorf("%s has %s syllables, want %s", test.word, got, test.counts)
		}
	}
	if p := r.Pronounce("many", Context{After: "a"}); len(p) < 2 || p[1].Sounds.SyllableCount() != 1 {
		t.Errorf("many before a cannot glide: %v", p)
	}
}

func TestFunctionWordsHaveWeakForms(t *testing.T) {
	r := NewReader(EnUS, nil)
	for word := range functionWords {
		list := r.Pronounce(word, Context{})
		for i, p := range list {
			if i > 0 && p.Cost < list[i-1].Cost {
				t.Errorf("%s: costs fall from %v to %v", word, list[i-1].Cost, p.Cost)
			}
		}
	}
	for _, word := range strings.Fields("to and of her for from at as than them was were can must") {
		list := r.Pronounce(word, Context{})
		weak := false
		for _, p := range list {
			weak = weak || p.Syllables[0].Stress == arpabet.Unstressed
		}
		if !weak || list[0].Syllables[0].Stress != arpabet.Primary {
			t.Errorf("%s wants its full form first and a weak one after: %v", word, list)
		}
	}
}

// The words are the key words of Wells's lexical sets and mergers (Accents of
// English, 1982, sections 2.2 and 3).
func TestDialects(t *testing.T) {
	us, gb := NewReader(EnUS, nil), NewReader(EnGB, nil)
	for _, test := range []struct{ word, us, gb string }{
		{"bath", "B AE1 TH", "B AA1 TH"},
		{"trap", "T R AE1 P", "T R AE1 P"},
		{"dance", "D AE1 N S", "D AA1 N S"},
		{"plastic", "P L AE1 S T IH0 K", "P L AE1 S T IH0 K"},
		{"lot", "L AA1 T", "L OH1 T"},
		{"father", "F AA1 DH ER0", "F AA1 DH AH0"},
		{"swan", "S W AA1 N", "S W OH1 N"},
		{"cloth", "K L AO1 TH", "K L OH1 TH"},
		{"caught", "K AA1 T", "K AA1 T"},
		{"dawn", "D AO1 N", "D AO1 N"},
		{"start", "S T AA1 R T", "S T AA1 T"},
		{"north", "N AO1 R TH", "N AO1 TH"},
		{"nurse", "N ER1 S", "N ER1 S"},
		{"letter", "L EH1 T ER0", "L EH1 T AH0"},
		{"carry", "K AE1 R IY0", "K AE1 R IY0"},
		{"marry", "M EH1 R IY0", "M AE1 R IY0"},
		{"merry", "M EH1 R IY0", "M EH1 R IY0"},
		{"various", "V EH1 R IY0 AH0 S", "V EH1 R IY0 AH0 S"},
		{"hurry", "HH ER1 IY0", "HH AH1 R IY0"},
		{"furry", "F ER1 IY0", "F ER1 R IY0"},
		{"forest", "F AO1 R AH0 S T", "F OH1 R IH0 S T"},
		{"story", "S T AO1 R IY0", "S T AO1 R IY0"},
		{"new", "N UW1", "N Y UW1"},
		{"noon", "N UW1 N", "N UW1 N"},
		{"duke", "D UW1 K", "D Y UW1 K"},
		{"rabbit", "R AE1 B AH0 T", "R AE1 B IH0 T"},
		{"abbot", "AE1 B AH0 T", "AE1 B AH0 T"},
		{"secretary", "S EH1 K R AH0 T EH2 R IY0", "S EH1 K R AH0 T AH0 R IY0"},
		{"ceremony", "S EH1 R AH0 M OW2 N IY0", "S EH1 R AH0 M AH0 N IY0"},
		{"tomato", "T AH0 M EY1 T OW2", "T AH0 M AA1 T OW0"},
		{"wandering", "W AA1 N D ER0 IH0 NG", "W OH1 N D AH0 R IH0 NG"},
		{"cellar", "S EH1 L ER0", "S EH1 L AH0"},
	} {
		if got := us.Pronounce(test.word, Context{})[0].Sounds.String(); got != test.us {
			t.Errorf("en-US %s is %s, want %s", test.word, got, test.us)
		}
		if got := gb.Pronounce(test.word, Context{})[0].Sounds.String(); got != test.gb {
			t.Errorf("en-GB %s is %s, want %s", test.word, got, test.gb)
		}
	}
}

// Transcriptions after Wells, Longman Pronunciation Dictionary (from memory).
func TestIPA(t *testing.T) {
	for _, test := range []struct {
		word   string
		us, gb string
	}{
		{"lighthouse", "ˈlaɪtˌhaʊs", "ˈlaɪtˌhaʊs"},
		{"moon", "muːn", "muːn"},
		{"letter", "ˈlɛtɚ", "ˈletə"},
		{"square", "skwɛr", "skweə"},
		{"goat", "ɡoʊt", "ɡəʊt"},
		{"happy", "ˈhæpi", "ˈhæpi"},
		{"near", "nɪr", "nɪə"},
	} {
		for d, want := range map[Dialect]string{EnUS: test.us, EnGB: test.gb} {
			if got := NewReader(d, nil).Pronounce(test.word, Context{})[0].IPA(d); got != want {
				t.Errorf("%v %s is %s, want %s", d, test.word, got, want)
			}
		}
	}
}

// TestLegalOnsets checks the onsets against every word's beginning in the
// dictionary: a cluster that opens twenty words and more opens English
// syllables, foreign names apart, and one that opens none does not.
func TestLegalOnsets(t *testing.T) {
	begins := map[Sounds]int{}
	for _, e := range lexicon.All() {
		if e.Familiarity() == 0 {
			continue
		}
		s := e.At(0)
		for n := range len(s) {
			if s.At(n).IsVowel() {
				begins[s[:n]]++
				break
			}
		}
	}
	foreign := map[string]bool{"SH L": true, "SH M": true, "SH N": true, "SH W": true, "SH T": true, "S V": true, "T S": true, "Z W": true, "V L": true, "SH P": true, "S R": true, "M W": true, "K Y": true, "HH W": true, "N W": true, "S Y": true, "G Y": true, "P W": true, "Z Y": true, "B W": true, "V R": true, "S G": true}
	for cluster, n := range begins {
		if n >= 20 && len(cluster) > 1 && !legalOnset(cluster) && !foreign[cluster.String()] {
			t.Errorf("%v opens %d words and is no legal onset", cluster, n)
		}
	}
	for _, text := range []string{"T L", "D L", "NG", "S T L", "N D", "R T"} {
		if legalOnset(sound(text)) {
			t.Errorf("%s is a legal onset", text)
		}
	}
}

// checkSane asserts what holds of every answer.
func checkSane(t *testing.T, text string, list []Pronunciation) {
	t.Helper()
	for i, p := range list {
		if p.Sounds == "" || i == 0 && p.Cost != 0 || p.Cost < 0 || len(list) > mostReadings {
			t.Fatalf("%q: reading %d is %+v", text, i, p)
		}
		at, from := 0, 0
		for _, s := range p.Syllables {
			if s.Start != at || s.End < s.Start || s.From != from || s.Nucleus < s.From || s.To <= s.Nucleus || s.To > len(p.Sounds) {
				t.Fatalf("%q: the syllables of %v do not join: %+v", text, p.Sounds, p.Syllables)
			}
			at, from = s.End, s.To
		}
		if len(p.Syllables) > 0 && (at != len(text) || from != len(p.Sounds)) {
			t.Fatalf("%q: the syllables of %v do not cover it: %+v", text, p.Sounds, p.Syllables)
		}
		if n := p.Sounds.SyllableCount(); n > 0 && n != len(p.Syllables) {
			t.Fatalf("%q: %d syllables for %v", text, len(p.Syllables), p.Sounds)
		}
	}
}

func TestEveryWordOfTheDictionaryIsSane(t *testing.T) {
	for _, d := range []Dialect{EnUS, EnGB} {
		r := NewReader(d, nil)
		n := 0
		for word := range lexicon.All() {
			if n++; n%7 != 0 && testing.Short() {
				continue
			}
			list := r.Pronounce(word, Context{})
			if len(list) == 0 {
				t.Errorf("%v has no way to say %q", d, word)
			}
			checkSane(t, word, list)
		}
	}
}

func FuzzPronounce(f *testing.F) {
	for _, seed := range []string{"moon", "B-b-but", "'Tis", "o’er", "sooooo", "$5.50", "½", "A.B.C.", "wingèd", "VIII", "th'", "th' ' '", "*so*", "\xff\xfe", "ﬁ", "-", "1/0", "99999999999999999999", "a-a-a-a-a-a-a-a-a-a-a-a-a-a-a", "éd", "ß", "İ"} {
		f.Add(seed, "Rupert", "a")
	}
	us, gb := NewReader(EnUS, nil), NewReader(EnGB, map[string]Sounds{"tam": sound("T AE1 M")})
	f.Fuzz(func(t *testing.T, text, before, after string) {
		for _, r := range []*Reader{us, gb} {
			list := r.Pronounce(text, Context{Before: before, After: after})
			checkSane(t, text, list)
			if len(list) == 0 && len(text) < longestWord && strings.ContainsAny(text, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ") {
				t.Errorf("%q holds a letter and has no sound", text)
			}
			for _, p := range list {
				p.IPA(r.Dialect())
			}
		}
	})
}
