package phonetics

import (
	"errors"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"dandle/phonetics/arpabet"
)

// longestSpoken bounds what ParseSpoken reads, in bytes.
const longestSpoken = 400

// ParseSpoken reads a pronunciation that a writer has given, in any of three
// notations:
//
//   - a respelling, one syllable after another, the loud one in capitals:
//     OH-bn, mak-uh-ROH-nee (the key is that of respellings);
//   - ARPAbet, as the CMU dictionary writes it: OW1 B AH0 N;
//   - the International Phonetic Alphabet: /ˈoʊbən/.
//
// The error says what cannot be read, and what would do instead.
func ParseSpoken(text string) (Sounds, error) {
	text = strings.TrimSpace(text)
	switch {
	case text == "":
		return "", errors.New("the pronunciation is empty; write it like OH-bn")
	case len(text) > longestSpoken:
		return "", fmt.Errorf("the pronunciation is longer than %d bytes", longestSpoken)
	case !utf8.ValidString(text):
		return "", errors.New("the pronunciation is not UTF-8 text")
	}
	var s Sounds
	var err error
	switch {
	case isIPA(text):
		s, err = parseIPA(text)
	case isARPAbet(text):
		s, err = arpabet.Parse(text)
	default:
		s, err = parseRespelling(text)
	}
	if err != nil {
		return "", fmt.Errorf("read pronunciation %q: %w", text, err)
	}
	return withMainStress(s)
}

// withMainStress checks that a word can be said, and stresses the only
// syllable of one that has one.
func withMainStress(s Sounds) (Sounds, error) {
	n := s.SyllableCount()
	switch {
	case n == 0:
		for i := range len(s) {
			if isHeld(s.At(i).Phone()) {
				return s, nil // shh
			}
		}
		return "", errors.New("a word needs a vowel to be said with")
	case n == 1 && !hasStress(s, arpabet.Primary):
		return restress(restress(s, arpabet.Unstressed, arpabet.Primary), arpabet.Secondary, arpabet.Primary), nil
	case !hasStress(s, arpabet.Primary):
		return "", errors.New("no syllable is loud; write the loud one in capitals (OH-bn), with a 1 (OW1 B AH0 N) or behind a stress mark (ˈoʊbən)")
	}
	return s, nil
}

func isIPA(text string) bool {
	if text[0] == '/' || text[0] == '[' {
		return true
	}
	for _, r := range text {
		if r >= utf8.RuneSelf && !strings.ContainsRune("’‘‐–", r) {
			return true
		}
	}
	return false
}

// isARPAbet reports whether a text looks like ARPAbet: digits behind letters,
// or several names that all are sounds.
func isARPAbet(text string) bool {
	if strings.ContainsAny(text, "0123456789") {
		return true
	}
	_, err := arpabet.Parse(text)
	return err == nil && strings.ContainsAny(text, " \t")
}

func parseIPA(text string) (Sounds, error) {
	var b []byte
	stress := arpabet.Unstressed
	for i := 0; i < len(text); {
		r, size := utf8.DecodeRuneInString(text[i:])
		switch {
		case r == 'ˈ' || r == '\'' || r == '’':
			stress = arpabet.Primary
			i += size
			continue
		case r == 'ˌ' || r == ',':
			stress = arpabet.Secondary
			i += size
			continue
		case strings.ContainsRune("/[].- ()ːˑ‿͡", r) || r == '̯':
			i += size
			continue
		}
		// The longest sign that begins here.
		n, phones := 0, ""
		for end := i; end < len(text) && end-i <= 8; {
			_, w := utf8.DecodeRuneInString(text[end:])
			end += w
			if p, ok := ipaPhones[text[i:end]]; ok {
				n, phones = end-i, p
			}
		}
		if n == 0 {
			return "", fmt.Errorf("the sign %q stands for no sound of English", r)
		}
		for _, s := range []byte(sound(phones)) {
			v := arpabet.Sound(s)
			if v.IsVowel() {
				v = arpabet.Make(v.Phone(), stress)
				stress = arpabet.Unstressed
			}
			b = append(b, byte(v))
		}
		i += n
	}
	return Sounds(b), nil
}

// respellings is the key: what letters stand for in a respelling. Of those
// that fit, the longest is taken. It follows the respelling keys of American
// dictionaries and newspapers (from memory), with their variants.
var respellings = map[string]string{
	"ee": "IY", "ea": "IY", "ie": "AY", "ih": "IH", "i": "IH", "ay": "EY", "ai": "EY", "ey": "EY", "eh": "EH", "e": "EH", "a": "AE", "ah": "AA", "aa": "AA",
	"aw": "AO", "au": "AO", "o": "AA", "oh": "OW", "oa": "OW", "oe": "OW", "oo": "UW", "ew": "UW", "uu": "UH", "uh": "AH", "u": "AH", "ow": "AW", "ou": "AW",
	"oy": "OY", "oi": "OY", "eye": "AY", "igh": "AY", "er": "ER", "ur": "ER", "ir": "ER", "ar": "AA R", "ahr": "AA R", "or": "AO R", "awr": "AO R", "air": "EH R",
	"ehr": "EH R", "eer": "IH R", "ihr": "IH R", "oor": "UH R", "yoo": "Y UW", "yew": "Y UW", "you": "Y UW", "ire": "AY ER", "our": "AW ER", "ohr": "AO R", "eir": "EH R",
	"b": "B", "bb": "B", "ch": "CH", "tch": "CH", "d": "D", "dd": "D", "dh": "DH", "f": "F", "ff": "F", "ph": "F", "g": "G", "gg": "G", "gh": "G", "h": "HH", "j": "JH", "dj": "JH",
	"k": "K", "kk": "K", "ck": "K", "kh": "K", "c": "K", "q": "K", "qu": "K W", "l": "L", "ll": "L", "m": "M", "mm": "M", "n": "N", "nn": "N", "ng": "NG", "nk": "NG K",
	"p": "P", "pp": "P", "r": "R", "rr": "R", "s": "S", "ss": "S", "sh": "SH", "shh": "SH", "t": "T", "tt": "T", "th": "TH", "v": "V", "vv": "V", "w": "W", "wh": "W", "x": "K S",
	"y": "Y", "z": "Z", "zz": "Z", "zh": "ZH",
}

func parseRespelling(text string) (Sounds, error) {
	syllables := strings.FieldsFunc(text, func(r rune) bool { return unicode.IsSpace(r) || strings.ContainsRune("-‐–.·", r) })
	if len(syllables) == 0 {
		return "", errors.New("it has no letters; write it like OH-bn")
	}
	var all Sounds
	for _, syllable := range syllables {
		stress := arpabet.Unstressed
		if strings.ToUpper(syllable) == syllable {
			stress = arpabet.Primary
		}
		s, err := respelled(strings.ToLower(syllable), stress)
		if err != nil {
			return "", err
		}
		switch n := s.SyllableCount(); {
		case n > 1:
			return "", fmt.Errorf("%q has more than one vowel; part the syllables with hyphens, as in OH-bn", syllable)
		case n == 0 && len(syllables) > 1:
			s, err = withSchwa(s, syllable)
			if err != nil {
				return "", err
			}
		}
		if stress == arpabet.Primary && hasStress(all, arpabet.Primary) {
			s = restress(s, arpabet.Primary, arpabet.Secondary)
		}
		all += s
	}
	return all, nil
}

// respelled reads one syllable.
func respelled(syllable string, stress Stress) (Sounds, error) {
	var b []byte
	hasVowel := false
	for i := 0; i < len(syllable); {
		n, phones := 0, ""
		for size := min(3, len(syllable)-i); size > 0; size-- {
			if p, ok := respellings[syllable[i:i+size]]; ok {
				n, phones = size, p
				break
			}
		}
		if n == 0 {
			r, _ := utf8.DecodeRuneInString(syllable[i:])
			return "", fmt.Errorf("%q in %q stands for no sound; letters and hyphens do, as in OH-bn", r, syllable)
		}
		letters, isLast := syllable[i:i+n], i+n == len(syllable)
		switch {
		case letters == "y" && i > 0 && !hasVowel:
			phones = "AY" // MY-loh
			if stress == arpabet.Unstressed {
				phones = "IY"
			}
		case letters == "y" && i > 0 && hasVowel:
			return "", fmt.Errorf("the y in %q could be a vowel or not; write ee, eye or ay", syllable)
		case len(letters) == 1 && isLast && strings.Contains("aeiou", letters):
			phones = openVowels[letters]
			if letters == "a" && stress == arpabet.Unstressed {
				phones = "AH"
			}
		}
		for _, c := range []byte(sound(phones)) {
			v := arpabet.Sound(c)
			if v.IsVowel() {
				v = arpabet.Make(v.Phone(), stress)
				hasVowel = true
			}
			b = append(b, byte(v))
		}
		i += n
	}
	return Sounds(b), nil
}

// openVowels are what a bare vowel letter stands for at a syllable's end.
var openVowels = map[string]string{"a": "AA", "e": "EH", "i": "IY", "o": "OW", "u": "UW"}

// withSchwa gives the syllable of "bn" in OH-bn its schwa, before the
// sonorant that ends it.
func withSchwa(s Sounds, syllable string) (Sounds, error) {
	for i := len(s) - 1; i >= 0; i-- {
		switch s.At(i).Phone() {
		case arpabet.L, arpabet.M, arpabet.N, arpabet.R, arpabet.NG:
			return s[:i] + schwa + s[i:], nil
		}
	}
	return "", fmt.Errorf("%q has no vowel; uh stands for a weak one", syllable)
}
