package grammar

import "strings"

// modern gives the spelling that today's prose has for a word of verse: its
// tag is the same, and the tagger has learned from prose. A word that needs
// no other spelling is returned as it is. The old words are those of
// Webster's Unabridged Dictionary (1913); "thou" is "you", "doth" is "does".
func modern(low string) string {
	switch low {
	case "thou", "thee", "ye":
		return "you"
	case "thy":
		return "your"
	case "thine":
		return "yours"
	case "thyself":
		return "yourself"
	case "hath":
		return "has"
	case "hast":
		return "have"
	case "hadst":
		return "had"
	case "doth", "doeth":
		return "does"
	case "dost":
		return "do"
	case "didst":
		return "did"
	case "wast", "wert":
		return "were"
	case "shalt":
		return "shall"
	case "wouldst":
		return "would"
	case "shouldst":
		return "should"
	case "couldst":
		return "could"
	case "canst":
		return "can"
	case "mayst":
		return "may"
	case "saith":
		return "says"
	case "quoth":
		return "said"
	case "ere":
		return "before"
	case "'fore":
		return "before"
	case "o'er":
		return "over"
	case "e'er", "ev'r":
		return "ever"
	case "ne'er":
		return "never"
	case "e'en", "ev'n":
		return "even"
	case "oft":
		return "often"
	case "whene'er":
		return "whenever"
	case "where'er":
		return "wherever"
	case "howe'er":
		return "however"
	case "whate'er":
		return "whatever"
	case "th'":
		return "the"
	case "'em":
		return "them"
	case "o'":
		return "of"
	case "i'":
		return "in"
	case "an'", "'n'", "'n", "n'":
		return "and"
	case "ol'":
		return "old"
	case "'neath":
		return "beneath"
	case "'mongst":
		return "amongst"
	case "'mid":
		return "amid"
	case "'gainst":
		return "against"
	case "'twixt", "twixt":
		return "between"
	case "'round":
		return "around"
	case "'bout":
		return "about"
	case "'til", "'till":
		return "until"
	case "'cause":
		return "because"
	case "'way":
		return "away"
	case "'long":
		return "along"
	case "tho'":
		return "though"
	case "thro'", "thro":
		return "through"
	case "altho'":
		return "although"
	}
	if len(low) < 4 {
		return low
	}
	if strings.IndexByte(low, '\'') > 0 {
		return unclipped(low)
	}
	if strings.HasSuffix(low, "eth") {
		if _, ok := lookup(low); !ok {
			for _, base := range [...]string{low[:len(low)-2] + "s", low[:len(low)-3] + "s"} { // maketh, singeth
				if set, ok := lookup(base); ok && set.may>>cVBZ&1 != 0 {
					return base
				}
			}
		}
	}
	if strings.HasSuffix(low, "est") || strings.HasSuffix(low, "dst") {
		if _, ok := lookup(low); !ok {
			for _, base := range [...]string{low[:len(low)-3], low[:len(low)-2]} { // singest, lovest, heardst
				if set, ok := lookup(base); ok && set.may&(1<<cVBP|1<<cVBD) != 0 {
					return base
				}
			}
		}
	}
	return low
}

// unclipped fills the gap an apostrophe marks: goin', ev'ry, heav'n, wand'ring.
func unclipped(low string) string {
	if base, ok := strings.CutSuffix(low, "in'"); ok {
		if _, ok := lookup(base + "ing"); ok {
			return base + "ing"
		}
	}
	i := strings.IndexByte(low, '\'')
	before, after := low[:i], low[i+1:]
	for _, gap := range [...]string{"e", "o", "i", "u", "a", "v", "ve"} {
		if after == "" && gap != "e" && gap != "o" {
			break
		}
		if word := before + gap + after; len(word) > 3 {
			if _, ok := lookup(word); ok {
				return word
			}
		}
	}
	return low
}
