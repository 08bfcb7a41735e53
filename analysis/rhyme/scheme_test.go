package rhyme_test

import (
	"strings"
	"testing"

	"dandle/analysis/rhyme"
	"dandle/phonetics"

	"github.com/google/go-cmp/cmp"
)

// stanzas makes the ends of a poem whose lines are given by their last words:
// stanzas parted by "|".
func stanzas(t testing.TB, ends string) [][]rhyme.End {
	t.Helper()
	var out [][]rhyme.End
	for stanza := range strings.SplitSeq(ends, "|") {
		var list []rhyme.End
		for word := range strings.FieldsSeq(stanza) {
			list = append(list, end(t, strings.ReplaceAll(word, "_", " "), phonetics.EnUS))
		}
		out = append(out, list)
	}
	return out
}

// hear hears a poem whose lines are given by their last words.
func hear(t testing.TB, ends string) []rhyme.Stanza {
	t.Helper()
	return rhyme.Hear(listened(stanzas(t, ends)))
}

func listened(poem [][]rhyme.End) []*rhyme.Ends {
	list := make([]*rhyme.Ends, len(poem))
	for i, ends := range poem {
		list[i] = rhyme.Listen(ends)
	}
	return list
}

// The forms are those that Baum 1922 and Webster 1913 name.
func TestSchemes(t *testing.T) {
	tests := []struct {
		name, ends string
		want       []string
	}{
		{"couplets", "lamp damp harbor barber", []string{"AABB"}},
		{"couplets of open vowels", "red head day play | blow go do blue | could wood tree me", []string{"AABB", "AABB", "AABB"}},
		{"cross rhyme", "hill snow still glow", []string{"ABAB"}},
		{"enclosed", "hill snow glow still", []string{"ABBA"}},
		{"ballad", "lantern snow winter glow | ladder lamp otter damp", []string{"XAXA", "XAXA"}},
		{"limerick", "Crewe shoe tall ball new", []string{"AABBA"}},
		{"one place of the form holds no perfect rhyme", "hill snow still glow | lamp road damp wood | night sea light bee", []string{"ABAB", "ABAB", "ABAB"}},
		{"one line breaks the form", "hill still snow glow | lamp damp sea bee | night light coat kettle | road toad ship trip", []string{"AABB", "AABB", "AAXX", "AABB"}},
		{"free verse", "window harbor seven under the_gull | morning rope salt again_tomorrow house", []string{"XXXXX", "XXXXX"}},
		{"mosaic", "poet lamp know_it damp", []string{"ABAB"}},
		{"chain rhyme in one stanza", "hill snow still glow ship low trip sea flip", []string{"ABABCBCXC"}},
		{"feminine ends of a ballad left free", "lantern snow winter glow | otter damp kettle lamp | garden sea ladder bee", []string{"XAXA", "XAXA", "XAXA"}},
		{"feminine ends that rhyme", "feather snow weather glow | otter damp daughter lamp", []string{"ABAB", "ABAB"}},
		{"triplets", "hill still mill | snow glow low", []string{"AAA", "AAA"}},
		{"a line alone", "lamp", []string{"X"}},
		{"nothing", "", []string{""}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var got []string
			for _, s := range hear(t, tt.ends) {
				got = append(got, s.Scheme.String())
			}
			if diff := cmp.Diff(tt.want, got); diff != "" {
				t.Errorf("(-want +got)\n%s", diff)
			}
		})
	}
}

// A line that breaks the form is told which line it should have answered, and
// a line of free verse is asked for nothing.
func TestWants(t *testing.T) {
	heard := hear(t, "hill still snow glow | lamp damp sea bee | night light coat kettle | road toad ship trip")
	wants := heard[2].Wants(3)
	if len(wants) == 0 || wants[0].Line != 2 || wants[0].Wanted < 0.8 {
		t.Errorf("the last line wants %+v, want line 2 by at least 0.8", wants)
	}
	free := hear(t, "window harbor seven under the_gull | morning rope salt again_tomorrow house")
	for line := range 5 {
		for _, m := range free[0].Wants(line) {
			if m.Wanted > 0.5 {
				t.Errorf("in free verse line %d wants %+v", line, m)
			}
		}
	}
}

func TestMates(t *testing.T) {
	heard := hear(t, "hill snow still glow")
	if diff := cmp.Diff([]int{0}, heard[0].Mates(2)); diff != "" {
		t.Errorf("mates of line 2 (-want +got)\n%s", diff)
	}
	if diff := cmp.Diff([]int{3}, heard[0].Mates(1)); diff != "" {
		t.Errorf("mates of line 1 (-want +got)\n%s", diff)
	}
}

// A long poem has more classes than letters; X stays the letter of none.
func TestLettersGoOn(t *testing.T) {
	pairs := "hill still | lamp damp | snow glow | night light | road toad | ship trip | sea bee | bread said | cake lake | moon spoon | " +
		"rain lane | book cook | house mouse | king ring | bed red | boat goat | cart start | hand sand | nose rose | five hive | " +
		"hat cat | dish fish | door floor | farm arm | gate plate | deep sheep"
	scheme := hear(t, strings.ReplaceAll(pairs, "|", ""))[0].Scheme
	if got := scheme.Letters[len(scheme.Letters)-1]; got != "A2" {
		t.Errorf("the last line of %v has the letter %q, want A2", scheme, got)
	}
}

func BenchmarkHear(b *testing.B) {
	poem := stanzas(b, strings.Repeat("hill snow still glow | lamp road damp wood | night sea light bee |", 20))
	b.ReportAllocs()
	for b.Loop() {
		rhyme.Hear(listened(poem))
	}
}

func FuzzHear(f *testing.F) {
	f.Add("hill snow still glow | lamp damp")
	f.Add("know_it poet | x")
	f.Add("’’ -- a | | |")
	f.Add("fire's o'er 1888 Mr. ööö")
	f.Fuzz(func(t *testing.T, ends string) {
		if len(ends) > 2000 {
			t.Skip()
		}
		poem := stanzas(t, ends)
		for i, s := range rhyme.Hear(listened(poem)) {
			if len(s.Scheme.Letters) != len(poem[i]) {
				t.Fatalf("%d letters for %d lines", len(s.Scheme.Letters), len(poem[i]))
			}
			for line := range poem[i] {
				for _, m := range s.Wants(line) {
					if m.Line < 0 || m.Line >= len(poem[i]) || m.Line == line || m.Wanted < 0 || m.Wanted > 1 {
						t.Fatalf("line %d wants %+v", line, m)
					}
				}
				for _, m := range s.Mates(line) {
					a, b := rhyme.Compare(&poem[i][line], &poem[i][m]), rhyme.Compare(&poem[i][m], &poem[i][line])
					if a.Kind != b.Kind {
						t.Fatalf("%q and %q: %v one way and %v the other", poem[i][line].Word(), poem[i][m].Word(), a.Kind, b.Kind)
					}
				}
			}
		}
	})
}
