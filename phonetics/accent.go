package phonetics

import (
	"slices"
	"strings"

	"dandle/phonetics/arpabet"
	"dandle/phonetics/lexicon"
)

// accent says a reading of General American in the dialect. The sounds alone
// do not tell which vowels part ways (GA has one vowel in "father" and
// "bother"), so the rules look at the letters too.
//
// What is left of r in a dialect without it is written so: "car" AA, "north"
// AO, "letter" AH0, "nurse" ER; but "near", "square", "cure" and "fire" keep
// IH R, EH R, UH R and AY R, where the R stands for the glide to schwa.
func (d Dialect) accent(word string, way reading) reading {
	if own, ok := ownWords[word]; ok && d == EnGB && way.source == FromLexicon && hasStress(way.sounds, arpabet.Primary) {
		way.sounds = own
		return way
	}
	a := accenting{dialect: d, aligned: aligned{spelling: word, sounds: way.sounds}}
	if way.source != FromWriter {
		// What the writer has spelt out is not second-guessed by its letters.
		a.starts, a.ok = align(word, way.sounds)
	}
	moved := make([]int, len(way.sounds)+1) // where each sound has come to
	a.out = make([]byte, 0, len(way.sounds)+4)
	for a.at = 0; a.at < len(way.sounds); a.at++ {
		moved[a.at] = len(a.out)
		if s := way.sounds.At(a.at); s.IsVowel() {
			a.vowel(s)
		} else {
			a.consonant(s)
		}
	}
	moved[len(way.sounds)] = len(a.out)
	way.sounds = Sounds(a.out)
	if len(way.seams) > 0 {
		way.seams = slices.Clone(way.seams)
		for i := range way.seams {
			way.seams[i].sound = moved[way.seams[i].sound]
		}
	}
	return way
}

// Accent says a word's sounds of General American, as the dictionary has them,
// in the reader's dialect.
func (r *Reader) Accent(word string, sounds Sounds) Sounds {
	if r.dialect == EnUS {
		return sounds
	}
	return r.dialect.accent(word, reading{sounds: sounds, source: FromLexicon}).sounds
}

// accenting is the state of one word's passage into a dialect.
type accenting struct {
	aligned
	dialect Dialect
	at      int // the sound that is being said
	out     []byte
}

func (a *accenting) put(p arpabet.Phone, s Stress) { a.out = append(a.out, byte(arpabet.Make(p, s))) }

func (a *accenting) next(n int) arpabet.Phone { return phoneAt(a.sounds, a.at+n) }

// isCodaR reports whether the sound n places on is an r that no vowel follows.
func (a *accenting) isCodaR(n int) bool {
	return a.next(n) == arpabet.R && !a.next(n+1).IsVowel()
}

func (a *accenting) consonant(s arpabet.Sound) {
	p := s.Phone()
	switch {
	case p == arpabet.HH && a.next(1) == arpabet.W:
		return // "what" begins as "watt" does in both dialects
	case p == arpabet.R && !a.dialect.Has(Rhotic) && !a.next(1).IsVowel():
		switch phoneAt(a.sounds, a.at-1) {
		case arpabet.AA, arpabet.AO, arpabet.OW, arpabet.AH, arpabet.ER, arpabet.OH:
			return
		}
	}
	a.put(p, arpabet.Unstressed)
}

func (a *accenting) vowel(s arpabet.Sound) {
	p, stress := s.Phone(), s.Stress()
	letters := a.letters(a.at)
	switch p {
	case arpabet.AE:
		if a.dialect.Has(TrapBathSplit) && a.isBath() {
			p = arpabet.AA
		}
	case arpabet.AA:
		if !a.dialect.Has(LotPalmMerger) && a.isLot(letters) {
			p = arpabet.OH
		}
	case arpabet.AO:
		if !a.dialect.Has(LotClothSplit) && a.isCloth(letters) {
			p = arpabet.OH
		}
		if !a.dialect.Has(StrongEndings) && stress == arpabet.Secondary && a.endsIn("R IY0") {
			p, stress = arpabet.AH, arpabet.Unstressed // territory
		}
	case arpabet.EH:
		if !a.dialect.Has(StrongEndings) && stress != arpabet.Primary && a.at > 2 && a.endsIn("R IY0") {
			p, stress = arpabet.AH, arpabet.Unstressed // secretary
		} else if !a.dialect.Has(MarryMerry) && a.isMarry(letters) {
			p = arpabet.AE
		}
	case arpabet.OW:
		if !a.dialect.Has(StrongEndings) && stress == arpabet.Secondary && a.endsIn("N IY0") {
			p, stress = arpabet.AH, arpabet.Unstressed // ceremony
		}
		if !a.dialect.Has(Rhotic) && a.isCodaR(1) {
			p = arpabet.AO
		}
	case arpabet.ER:
		a.er(letters, stress)
		return
	case arpabet.UW, arpabet.UH:
		if !a.dialect.Has(YodDropping) && a.wantsYod(letters) {
			a.put(arpabet.Y, arpabet.Unstressed)
		}
		if p == arpabet.UW && !a.dialect.Has(Rhotic) && a.next(1) == arpabet.R {
			p = arpabet.UH
		}
	case arpabet.IY:
		if !a.dialect.Has(Rhotic) && a.next(1) == arpabet.R && letters != "" {
			p = arpabet.IH
		}
	case arpabet.EY:
		if !a.dialect.Has(Rhotic) && a.isCodaR(1) {
			p = arpabet.EH
		}
	case arpabet.AH:
		if stress == arpabet.Unstressed && !a.dialect.Has(WeakMerger) && a.isWeakI(letters) {
			p = arpabet.IH
		}
		if stress == arpabet.Unstressed && a.dialect == EnGB && a.next(1) == arpabet.L && strings.HasSuffix(a.spelling, "ile") && a.at+2 == len(a.sounds) {
			p, stress = arpabet.AY, arpabet.Secondary // fragile
		}
	}
	a.put(p, stress)
}

// er says the vowel of "nurse" and "letter".
func (a *accenting) er(letters string, stress Stress) {
	if a.dialect.Has(Rhotic) {
		a.put(arpabet.ER, stress)
		return
	}
	before := a.next(1).IsVowel()
	switch {
	case stress == arpabet.Unstressed:
		a.put(arpabet.AH, stress)
	case before && !a.dialect.Has(HurryFurry) && isHurry(letters, a.spelling):
		a.put(arpabet.AH, stress)
	default:
		a.put(arpabet.ER, stress)
	}
	if before {
		a.put(arpabet.R, arpabet.Unstressed)
	}
}

// isHurry tells "hurry" and "courage" from "furry", which is "fur" and -y.
func isHurry(letters, word string) bool {
	switch letters {
	case "urr", "orr", "our":
	default:
		return false
	}
	stem := word[:strings.Index(word, letters)+len(letters)]
	short, isDouble := strings.CutSuffix(stem, "rr")
	ending := word[len(stem):]
	return !isDouble || !(lexicon.Lookup(short+"r").Familiarity() > 8 && (ending == "y" || ending == "ing" || ending == "ed"))
}

// endsIn reports whether the sounds after this one are these and the word
// ends with them, or with them and a plural.
func (a *accenting) endsIn(text string) bool {
	rest := a.sounds[a.at+1:]
	tail := endingSounds[text]
	return rest == tail || rest == tail+voicedS
}

var endingSounds = map[string]Sounds{"R IY0": sound("R IY0"), "N IY0": sound("N IY0")}

// bathStems are the words of Wells's BATH set, by the letters that they and
// their kin share; the vowel in question is the first a of each.
var bathStems = strings.Fields(`staff graph laugh craft draft draught raft shaft after path bath pass glass grass class brass
blast cast fast last mast past vast ghast mask ask task bask cask flask clasp gasp grasp rasp castle fasten master plaster disaster
pastor nasty dance chance france glance lance prance trance vance hance branch blanch plant grant slant chant aunt can't shan't
mand slander chandler alexander flanders sample example calf half calve halve rather slant advantage`)

// trapStems look like them and keep the vowel of "trap".
var trapStems = strings.Fields(`plastic elastic classic classif passage passeng passi massag massive fantast gymnast finance romance mascot
pastel pastry castig lancet alask gasket mandar mandol salamand mandib mandat chandelier enthusiast sarcast bombast drast mastic tasman maskat
transplantation graphic photographic manda`)

// isBath reports whether the short a being said belongs to the BATH set.
func (a *accenting) isBath() bool {
	if !a.ok {
		return false
	}
	for _, stem := range trapStems {
		if strings.Contains(a.spelling, stem) {
			return false
		}
	}
	place := int(a.starts[a.at])
	for _, stem := range bathStems {
		start := place - strings.IndexByte(stem, 'a')
		if start >= 0 && strings.HasPrefix(a.spelling[start:], stem) {
			return true
		}
	}
	return false
}

// isLot reports whether the vowel that GA has in "lot" and "palm" is that of
// "lot": it is written o, or a behind w.
func (a *accenting) isLot(letters string) bool {
	if strings.HasPrefix(letters, "o") || letters == "ho" {
		return !a.isCodaR(1)
	}
	return letters == "a" && phoneAt(a.sounds, a.at-1) == arpabet.W && a.next(1) != arpabet.R
}

// isCloth reports whether the vowel that GA has in "cloth" and "thought" is
// short in Britain: a bare o, or the ou of "cough".
func (a *accenting) isCloth(letters string) bool {
	if a.next(1) == arpabet.R {
		return a.next(2).IsVowel() && a.isForest(letters)
	}
	switch letters {
	case "o", "ho":
		return true
	case "ou", "ough":
		return a.next(1) == arpabet.F
	case "a":
		// "want" and "wash", but "water", "walk" and "wall"
		return phoneAt(a.sounds, a.at-1) == arpabet.W && a.next(1) != arpabet.L && a.next(1) != arpabet.T && a.next(1) != arpabet.K
	}
	return false
}

// isForest tells "forest" and "sorry" from "story" and "boring", whose or is
// that of "north" with an ending behind it.
func (a *accenting) isForest(letters string) bool {
	if letters != "o" && letters != "a" {
		return false
	}
	rest := a.spelling[a.starts[a.at+1]:]
	if strings.HasPrefix(rest, "rr") {
		return true
	}
	for _, ending := range []string{"ry", "ries", "ria", "rio", "riu", "ring", "red", "rer", "ral", "rus", "ra"} {
		if strings.HasPrefix(rest, ending) {
			return false
		}
	}
	return true
}

// isMarry reports whether an e before r is a short a in Britain: "marry",
// "character", but not "parent", "various", "scary".
func (a *accenting) isMarry(letters string) bool {
	if letters != "a" || a.next(1) != arpabet.R || !a.next(2).IsVowel() {
		return false
	}
	rest := a.spelling[a.starts[a.at+1]:]
	if strings.HasPrefix(rest, "rr") {
		return true
	}
	for _, ending := range []string{"ry", "ries", "ried", "ria", "rio", "riu", "ring", "red", "rent", "rea", "rer", "res"} {
		if strings.HasPrefix(rest, ending) {
			return false
		}
	}
	return true
}

// wantsYod reports whether the vowel being said has a y before it in "new",
// "tune", "due".
func (a *accenting) wantsYod(letters string) bool {
	if !strings.HasPrefix(letters, "u") && !strings.HasPrefix(letters, "ew") && !strings.HasPrefix(letters, "eu") && letters != "iew" {
		return false
	}
	switch phoneAt(a.sounds, a.at-1) {
	case arpabet.T, arpabet.D, arpabet.N:
		return true
	}
	return false
}

// isWeakI reports whether a schwa is the i of "rabbit" in Britain: written i
// or y, or the e of -ed, -es, -et, -est, -ess. The i of -ible and -ity is a
// schwa there as well.
func (a *accenting) isWeakI(letters string) bool {
	switch letters {
	case "i", "y":
		return a.next(1) != arpabet.B && a.next(1) != arpabet.L
	case "e":
		rest := a.spelling[a.starts[a.at+1]:]
		switch rest {
		case "d", "s", "t", "ts", "st", "ss", "'s":
			return true
		}
	}
	return false
}

// ownWords are words that Britain says in a way no rule gives (Wells, Longman
// Pronunciation Dictionary; from memory).
var ownWords = parseOwn(`
tomato T AH0 M AA1 T OW0
tomatoes T AH0 M AA1 T OW0 Z
banana B AH0 N AA1 N AH0
bananas B AH0 N AA1 N AH0 Z
pyjamas P AH0 JH AA1 M AH0 Z
vase V AA1 Z
vases V AA1 Z IH0 Z
herb HH ER1 B
herbs HH ER1 B Z
zebra Z EH1 B R AH0
zebras Z EH1 B R AH0 Z
leisure L EH1 ZH AH0
lever L IY1 V AH0
been B IY1 N
clerk K L AA1 K
vitamin V IH1 T AH0 M IH0 N
yoghurt Y OH1 G AH0 T
yogurt Y OH1 G AH0 T
garage G AE1 R AA2 ZH
schedule SH EH1 D Y UW0 L
either AY1 DH AH0
neither N AY1 DH AH0
route R UW1 T
what W OH1 T
was W OH1 Z
because B IH0 K OH1 Z
of OH1 V
from F R OH1 M
lieutenant L EH0 F T EH1 N AH0 N T
ate EH1 T
shone SH OH1 N
wrath R OH1 TH
glacier G L AE1 S IY0 AH0
missile M IH1 S AY2 L
progress P R OW1 G R EH0 S
process P R OW1 S EH0 S
figure F IH1 G AH0
aunt AA1 N T
aunty AA1 N T IY0
auntie AA1 N T IY0
drama D R AA1 M AH0
pasta P AE1 S T AH0
aluminium AE2 L Y AH0 M IH1 N IY0 AH0 M
`)

func parseOwn(table string) map[string]Sounds {
	words := map[string]Sounds{}
	for line := range strings.Lines(strings.TrimSpace(table)) {
		word, text, _ := strings.Cut(strings.TrimSpace(line), " ")
		words[word] = sound(text)
	}
	return words
}
