package phonetics

import (
	"bufio"
	"cmp"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"dandle/phonetics/lexicon"
)

// hyphenDictionary is where Debian's package hyphen-en-us puts its patterns,
// which are Liang's for US English, as extended for the office suites.
const hyphenDictionary = "/usr/share/hyphen/hyph_en_US.dic"

// hyphenator breaks words by Liang's patterns (Liang, Word Hy-phen-a-tion by
// Com-put-er, 1983): the odd digits between letters allow a break.
type hyphenator map[string][]byte

func readHyphenator(t *testing.T) hyphenator {
	f, err := os.Open(hyphenDictionary)
	if err != nil {
		t.Skipf("the hyphenation dictionary is not installed (Debian: hyphen-en-us): %v", err)
	}
	defer f.Close()
	h := hyphenator{}
	for lines := bufio.NewScanner(f); lines.Scan(); {
		line := lines.Text()
		if line == "NEXTLEVEL" {
			// The first level only parts compounds at their hyphens.
			clear(h)
			continue
		}
		if strings.ContainsAny(line, "/%= ") || line == strings.ToUpper(line) && !strings.ContainsAny(line, "0123456789") {
			continue
		}
		var letters []byte
		digits := []byte{0}
		for i := range len(line) {
			if c := line[i]; '0' <= c && c <= '9' {
				digits[len(digits)-1] = c - '0'
			} else {
				letters = append(letters, c)
				digits = append(digits, 0)
			}
		}
		h[string(letters)] = digits
	}
	return h
}

// breaks are the places at which a word may be broken, two letters from its
// start and three from its end at the least.
func (h hyphenator) breaks(word string) []int {
	dotted := "." + word + "."
	levels := make([]byte, len(dotted)+1)
	for i := range len(dotted) {
		for j := i + 1; j <= len(dotted); j++ {
			for k, level := range h[dotted[i:j]] {
				levels[i+k] = max(levels[i+k], level)
			}
		}
	}
	var places []int
	for at := 2; at <= len(word)-3; at++ {
		if levels[at+1]%2 == 1 {
			places = append(places, at)
		}
	}
	return places
}

// TestSyllablesBreakWhereAHyphenatorDoes takes the thousand most familiar
// words that both break, and counts the hyphenator's breaks that are syllable
// boundaries of ours.
func TestSyllablesBreakWhereAHyphenatorDoes(t *testing.T) {
	h := readHyphenator(t)
	type candidate struct {
		word     string
		familiar int
	}
	var words []candidate
	for word, e := range lexicon.All() {
		if len(word) > 4 && e.Familiarity() > 0 && !strings.ContainsAny(word, "'.-") {
			words = append(words, candidate{word, e.Familiarity()})
		}
	}
	slices.SortStableFunc(words, func(a, b candidate) int { return cmp.Compare(b.familiar, a.familiar) })
	r := NewReader(EnUS, nil)
	tested, shared, agreed := 0, 0, 0
	var odd []string
	for _, c := range words {
		if tested == 1000 {
			break
		}
		breaks := h.breaks(c.word)
		if len(breaks) == 0 {
			continue
		}
		// The reading with the most syllables has a boundary for each break.
		var starts []int
		for _, p := range r.Pronounce(c.word, Context{}) {
			if len(p.Syllables) > len(starts)+1 {
				starts = nil
				for _, s := range p.Syllables[1:] {
					starts = append(starts, s.Start)
				}
			}
		}
		if len(starts) == 0 {
			continue
		}
		tested++
		missed := false
		for _, at := range breaks {
			shared++
			if slices.Contains(starts, at) {
				agreed++
			} else {
				missed = true
			}
		}
		if missed {
			odd = append(odd, fmt.Sprintf("%s: %s, not %s", c.word, parted(c.word, starts), parted(c.word, breaks)))
		}
	}
	rate := float64(agreed) / float64(shared)
	t.Logf("%d words, %d breaks, %d at a syllable boundary: %.1f %%", tested, shared, agreed, 100*rate)
	if rate < 0.95 {
		t.Errorf("only %.1f %% agree:\n%s", 100*rate, strings.Join(odd, "\n"))
	}
}

func parted(word string, places []int) string {
	var b strings.Builder
	for i := range len(word) {
		if slices.Contains(places, i) {
			b.WriteByte('-')
		}
		b.WriteByte(word[i])
	}
	return b.String()
}
