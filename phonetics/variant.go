package phonetics

import "strings"

// endings are how British words end that the dictionary has only in their
// American spelling (Webster's reforms, as the style guides of both usages
// give them; from memory). Neither spelling sounds otherwise.
var endings = []struct{ british, american string }{
	{"isation", "ization"},
	{"ise", "ize"},
	{"yse", "yze"},
	{"our", "or"},
	{"ence", "ense"},
	{"logue", "log"},
	{"gramme", "gram"},
	{"plough", "plow"},
	{"oulder", "older"},
	{"lment", "llment"},
	{"lful", "llful"},
}

// digraphs are the vowels of Greek and Latin words that American spelling has
// simplified.
var digraphs = []struct{ british, american string }{
	{"aem", "em"}, {"paed", "ped"}, {"naes", "nes"}, {"aec", "ec"}, {"aeo", "eo"}, {"oeuv", "euv"},
}

// variant says a word of British spelling that the dictionary knows in its
// American one: "savour" as "savor", "anaemia" as "anemia".
func variant(word string) []reading {
	for _, e := range endings {
		if stem, ok := strings.CutSuffix(word, e.british); ok && len(stem) > 0 {
			if list := known(stem + e.american); list != nil {
				return withSource(list, FromVariant)
			}
		}
	}
	for _, d := range digraphs {
		if before, after, ok := strings.Cut(word, d.british); ok {
			if list := known(before + d.american + after); list != nil {
				return withSource(list, FromVariant)
			}
		}
	}
	return nil
}
