package phonetics

import (
	"strings"

	"dandle/phonetics/arpabet"
)

// graphemes are the ways each phoneme is commonly spelt: the phonogram tables
// of phonics teaching (from memory), filled up by what the dictionary shows.
// A doubled consonant is left out: the aligner allows it of itself.
var graphemes = [...][]string{
	arpabet.AA: ways("a o au aw ho ah ea e ow oh"),
	arpabet.AE: ways("a ai au i ea"),
	arpabet.AH: ways("a e i o u y ou oo oe ia io ea ai ei eo ie ah au eau iou uh"),
	arpabet.AO: ways("o a au aw ou oa oo augh ough ho"),
	arpabet.AW: ways("ou ow ough au hou"),
	arpabet.AY: ways("i y igh ie ye uy ey ei eigh ai is ig"),
	arpabet.EH: ways("e ea a ai ie ei u ay eo he ae ey"),
	arpabet.ER: ways("er ir ur or ar ear our re yr r eur ure err urr irr orr olo ere arr oar aur"),
	arpabet.EY: ways("a ai ay ei eigh ey ea e ee et aigh au ae"),
	arpabet.IH: ways("i e y a u ui ee ea ie o ei ai hi ia"),
	arpabet.IY: ways("e ee ea y i ie ei ey ay eo oe ae"),
	arpabet.OW: ways("o ow oa ough oe ou eau ew oh au owe"),
	arpabet.OY: ways("oi oy"),
	arpabet.UH: ways("oo u ou o"),
	arpabet.UW: ways("oo u ou ew ue ui o oe ough eu ooh wo"),
	arpabet.B:  ways("b be bu"),
	arpabet.CH: ways("ch tch t c te che ti cc cz tu"),
	arpabet.D:  ways("d ed ld de"),
	arpabet.DH: ways("th the"),
	arpabet.F:  ways("f ph gh fe lf ft"),
	arpabet.G:  ways("g gu gh gue x ge"),
	arpabet.HH: ways("h wh j"),
	arpabet.JH: ways("j g ge dge d dg di gi gg dj"),
	arpabet.K:  ways("k c ck ch q x qu cu ke lk que cc kh cqu ckgu"),
	arpabet.L:  ways("l le ln"),
	arpabet.M:  ways("m mb me mn lm gm"),
	arpabet.N:  ways("n kn gn ne pn mn nd"),
	arpabet.NG: ways("ng n ngue ngu nd"),
	arpabet.P:  ways("p pe ph"),
	arpabet.R:  ways("r wr rh re rrh"),
	arpabet.S:  ways("s c ss se ce sc st ps z sw sce sch ts"),
	arpabet.SH: ways("sh ti ci ch si s ssi sci ce sch ss se xi"),
	arpabet.T:  ways("t ed te bt pt th tw d"),
	arpabet.TH: ways("th the"),
	arpabet.V:  ways("v ve f lv ph"),
	arpabet.W:  ways("w wh u o ju"),
	arpabet.Y:  ways("y i e j"),
	arpabet.Z:  ways("z s se ze x zz es ss ts cz"),
	arpabet.ZH: ways("s si g ge z j ti zi"),
	arpabet.OH: ways("o a au ou ow ho"),
}

func ways(list string) []string { return strings.Fields(list) }

// What departures from the table cost the alignment. Only their order matters.
const (
	costSilentE      = 2
	costSilent       = 6
	costOtherVowel   = 8
	costOtherSound   = 20
	costUnspelt      = 7
	costUnspeltVowel = 9
)

// longestAligned bounds the work: a longer spelling is cut evenly instead.
const longestAligned = 60

// align finds which letters spell each sound: the letters of sound i run from
// starts[i] to starts[i+1], silent letters going to the sound before them.
// The spelling is in lower case.
func align(spelling string, sounds Sounds) (starts [longestAligned + 1]uint8, ok bool) {
	n, m := len(spelling), len(sounds)
	if n > longestAligned || m > longestAligned || m == 0 {
		return starts, false
	}
	// Most words follow the table closely. A low ceiling keeps the search to
	// the few places near the diagonal; it rises until a way is found.
	for ceiling := uint16(16); ; ceiling *= 4 {
		if alignWithin(ceiling, spelling, sounds, &starts) {
			return starts, true
		}
		if ceiling > costOtherSound*longestAligned {
			return starts, false
		}
	}
}

func alignWithin(ceiling uint16, spelling string, sounds Sounds, starts *[longestAligned + 1]uint8) bool {
	const stackCells = 512
	n, m := len(spelling), len(sounds)
	width := n + 1
	type cell struct {
		cost uint16 // 1 + the cost, so that 0 is a place not reached
		took uint8  // letters of the last sound; silent for a silent letter
	}
	const silent = 255
	var room [stackCells]cell
	cells := room[:]
	if need := (m + 1) * width; need > stackCells {
		cells = make([]cell, need)
	}
	reach := func(at int, cost uint16, took uint8) {
		if cost <= ceiling && (cells[at].cost == 0 || cost < cells[at].cost) {
			cells[at] = cell{cost, took}
		}
	}
	cells[0].cost = 1
	for j := 0; j <= m; j++ {
		for i := 0; i <= n; i++ {
			here := cells[j*width+i].cost
			if here == 0 {
				continue
			}
			if i < n {
				reach(j*width+i+1, here+silentCost(spelling, i), silent)
			}
			if j == m {
				continue
			}
			s := sounds.At(j)
			next := (j+1)*width + i
			if s.IsVowel() {
				reach(next, here+costUnspeltVowel, 0)
			} else {
				reach(next, here+costUnspelt, 0)
			}
			if i == n {
				continue
			}
			rest := spelling[i:]
			for _, g := range graphemes[s.Phone()] {
				if g[0] == rest[0] && strings.HasPrefix(rest, g) && (g != "ed" || len(rest) == 2) { // -ed ends a word
					// A longer grapheme beats a shorter one with silent letters.
					reach(next+len(g), here, uint8(len(g)))
					if k := len(g); !s.IsVowel() && k < len(rest) && k == 1 && rest[k] == g[0] {
						reach(next+2, here, 2)
					}
				}
			}
			if isVowelLetter(rest[0]) == s.IsVowel() && rest[0] != '\'' && rest[0] != '-' {
				other := uint16(costOtherSound)
				if s.IsVowel() {
					other = costOtherVowel
				}
				reach(next+1, here+other, 1)
			}
		}
	}
	if cells[m*width+n].cost == 0 {
		return false
	}
	i, j := n, m
	starts[m] = uint8(n)
	for i > 0 || j > 0 {
		if took := cells[j*width+i].took; took == silent {
			i--
		} else {
			i -= int(took)
			j--
			starts[j] = uint8(i)
		}
	}
	starts[0] = 0
	return true
}

func silentCost(spelling string, i int) uint16 {
	switch spelling[i] {
	case '\'', '-', '.':
		return 0
	case 'e':
		return costSilentE
	}
	if i > 0 && spelling[i] == spelling[i-1] {
		return costSilentE
	}
	return costSilent
}

func isVowelLetter(c byte) bool { return strings.IndexByte("aeiouyw", c) >= 0 }
