package phonetics

import "strings"

// functionWords are the words of grammar with their full and weak forms, in
// that order; the articles are weak by habit. The forms are those that Gimson
// and Roach list (Roach, English Phonetics and Phonology, chapter on weak
// forms; from memory), with the cost of each after its sounds.
var functionWords = parseForms(`
the   DH AH0, DH IY0 0.2, DH IY1 1.5
a     AH0, EY1 1.5
an    AH0 N, AE1 N 0.7
and   AE1 N D, AH0 N D 0.2, AH0 N 0.4
but   B AH1 T, B AH0 T 0.2
or    AO1 R, ER0 0.3
nor   N AO1 R, N ER0 0.4
of    AH1 V, AH0 V 0.2
to    T UW1, T AH0 0.2
for   F AO1 R, F ER0 0.2
from  F R AH1 M, F R AH0 M 0.2
at    AE1 T, AH0 T 0.2
as    AE1 Z, AH0 Z 0.2
than  DH AE1 N, DH AH0 N 0.2
in    IH1 N, IH0 N 0.2
into  IH1 N T UW0, IH0 N T UW1 0.4, IH0 N T AH0 0.3
on    AA1 N, AO1 N 0.3
by    B AY1
with  W IH1 DH, W IH1 TH 0.1, W IH0 DH 0.2
that  DH AE1 T, DH AH0 T 0.3
some  S AH1 M, S AH0 M 0.3
he    HH IY1, IY0 0.7
she   SH IY1, SH IY0 0.4
we    W IY1, W IY0 0.4
me    M IY1, M IY0 0.4
him   HH IH1 M, IH0 M 0.4
his   HH IH1 Z, IH0 Z 0.4
her   HH ER1, HH ER0 0.2, ER0 0.6
them  DH EH1 M, DH AH0 M 0.2
'em   AH0 M
us    AH1 S, AH0 S 0.3
you   Y UW1, Y AH0 0.5
your  Y AO1 R, Y ER0 0.3
our   AW1 R, AW1 ER0 0.5, AA1 R 0.4
my    M AY1
their DH EH1 R, DH ER0 0.5
am    AE1 M, AH0 M 0.3
are   AA1 R, ER0 0.2
is    IH1 Z, IH0 Z 0.2
was   W AA1 Z, W AH1 Z 0.1, W AH0 Z 0.2
were  W ER1, W ER0 0.2
be    B IY1, B IY0 0.3
been  B IH1 N, B IH0 N 0.3
have  HH AE1 V, HH AH0 V 0.3, AH0 V 0.5
has   HH AE1 Z, HH AH0 Z 0.3, AH0 Z 0.5
had   HH AE1 D, HH AH0 D 0.3, AH0 D 0.5
do    D UW1, D AH0 0.5
does  D AH1 Z, D AH0 Z 0.3
can   K AE1 N, K AH0 N 0.2
could K UH1 D, K AH0 D 0.3
will  W IH1 L, AH0 L 0.6
would W UH1 D, W AH0 D 0.3
shall SH AE1 L, SH AH0 L 0.3
should SH UH1 D, SH AH0 D 0.3
must  M AH1 S T, M AH0 S T 0.3
not   N AA1 T
there DH EH1 R, DH ER0 0.5
just  JH AH1 S T, JH AH0 S T 0.3
o     OW1
o'    AH0
ol'   OW1 L
th'   DH, DH AH0 0.7
`)

func parseForms(table string) map[string][]reading {
	forms := map[string][]reading{}
	for line := range strings.Lines(strings.TrimSpace(table)) {
		word, list, _ := strings.Cut(strings.TrimSpace(line), " ")
		for form := range strings.SplitSeq(list, ",") {
			way := reading{source: FromLexicon}
			if at := strings.LastIndexByte(form, ' '); at > 0 && strings.Contains(form[at:], ".") {
				way.cost, form = parseCost(form[at+1:]), form[:at]
			}
			way.sounds = sound(form)
			forms[word] = append(forms[word], way)
		}
	}
	return forms
}

// parseCost reads one digit, a point and one digit.
func parseCost(text string) float32 {
	return float32(text[0]-'0') + float32(text[2]-'0')/10
}
