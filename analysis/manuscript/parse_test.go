package manuscript

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"dandle/phonetics"
)

// verse lists the lines of verse, with a blank line between stanzas.
func verse(m *Manuscript) string {
	var out []string
	for i := range m.Stanzas {
		var lines []string
		for _, l := range m.StanzaLines(i) {
			lines = append(lines, l.Span.In(m.Text))
		}
		out = append(out, strings.Join(lines, "\n"))
	}
	return strings.Join(out, "\n\n")
}

func words(m *Manuscript) []string {
	var out []string
	for _, l := range m.Lines {
		for _, w := range l.Words {
			out = append(out, w.Text)
		}
	}
	return out
}

func TestVerse(t *testing.T) {
	for _, tt := range []struct{ name, text, want string }{
		{"bare", "One goat\ntwo goats\n\nthree goats\n", "One goat\ntwo goats\n\nthree goats"},
		{"no line break at the end", "One goat", "One goat"},
		{"carriage returns", "One\r\ntwo\r\n\r\nthree\rfour", "One\ntwo\n\nthree\nfour"},
		{"byte order mark", "\uFEFFOne goat\n", "One goat"},
		{"indent and trailing space", "  One goat \t\n\u00a0two\u00a0\n", "One goat\ntwo"},
		{"heading (CommonMark 4.2)", "# Title\n## Spread 1 ##\n### Part\n#tag goat\n####### seven goats\n", "#tag goat\n####### seven goats"},
		{"thematic breaks part (CommonMark 4.1)", "one\n***\ntwo\n- - -\nthree\n___\nfour\n--\nfive", "one\n\ntwo\n\nthree\n\nfour\n\nfive"},
		{"an ornament parts", "one\n~\ntwo\n* *\nthree", "one\n\ntwo\n\nthree"},
		{"block quote (CommonMark 5.1) without lazy continuation", "one\n> mine\n  >mine\ntwo", "one\ntwo"},
		{"comment within a line (CommonMark 6.6)", "one <!-- x --> two <!-->three<!---> four\n", "one <!-- x --> two <!-->three<!---> four"},
		{"comment at the end", "one two <!-- x -->\n<!-- y -->\nthree", "one two\nthree"},
		{"comment over lines", "one <!-- x\ny\n\nz --> two\nthree", "one\ntwo\nthree"},
		{"comment never closed", "one <!-- x\ntwo", "one\ntwo"},
		{"tags (CommonMark 6.6)", "one<br>\ntwo </i>\n<p align=\"center\">\nthree < four", "one\ntwo\nthree < four"},
		{"hard line breaks (CommonMark 6.7)", "one  \ntwo\\\nthree", "one\ntwo\nthree"},
		{"art notes", "one [a note]\n[a note\nthat runs on]\ntwo\n[never\n\nthree", "one\ntwo\n\nthree"},
		{"nested art note", "one [a [b] c]\ntwo", "one\ntwo"},
		{"escaped bracket (CommonMark 2.4)", "one \\[two\\] three", "one \\[two\\] three"},
		{"code (CommonMark 4.5)", "one\n\n```\nx := 1\n```\n\ntwo", "one\n\ntwo"},
		{"code never closed", "one\n```\ntwo", "one\n\ntwo"},
		{"page turn within a stanza", "one\n## Spread 2\ntwo", "one\ntwo"},
		{"page turn between stanzas", "one\n\n## Spread 2\n\ntwo", "one\n\ntwo"},
		{
			"page turn that cuts a stanza", "a\nb\nc\nd\n\ne\nf\ng\nh\n\n## 2\n\ni\nj\n\n## 3\n\nk\nl\n",
			"a\nb\nc\nd\n\ne\nf\ng\nh\n\ni\nj\nk\nl",
		},
		{"couplets are not joined", "a\nb\n\n## 2\n\nc\nd\n\n## 3\n\ne\nf", "a\nb\n\nc\nd\n\ne\nf"},
		{"nul, bad UTF-8", "a\x00b \xff\xfe goat\n\x00\ntwo", "a\x00b \xff\xfe goat\n\ntwo"},
		{"front matter", "---\ntitle: x\n---\none", "one"},
		{"front matter closed by dots", "---\ntitle: x\n...\none", "one"},
		{"front matter never closed", "---\ntitle: x\n\none", "one"},
		{"a rule first", "---\none goat\ntwo", "one goat\ntwo"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			m := Parse(tt.text)
			checkInvariants(t, m)
			if diff := cmp.Diff(tt.want, verse(m)); diff != "" {
				t.Errorf("verse (-want +got):\n%s", diff)
			}
		})
	}
}

func TestWords(t *testing.T) {
	for _, tt := range []struct {
		name, text string
		want       []string
	}{
		{"apostrophes inside", "o'er o’er don‘t", []string{"o'er", "o’er", "don‘t"}},
		{"apostrophes in front", "’tis 'tis ‘tis ’em ’ouse 'ouse", []string{"’tis", "'tis", "‘tis", "’em", "’ouse", "'ouse"}},
		{"apostrophes behind", "goin’ goin' the goats’ o’ th' mill", []string{"goin’", "goin'", "the", "goats’", "o’", "th'", "mill"}},
		{"apostrophes around", "rock ’n’ roll, rock 'n' roll, rock‘n’roll", []string{"rock", "’n’", "roll", "rock", "'n'", "roll", "rock‘n’roll"}},
		{"single quotes", "‘Hush,’ said the owl. 'Hush.' 'Go home'", []string{"Hush", "said", "the", "owl", "Hush", "Go", "home"}},
		{"speech with an elision in it", "‘I’m goin’ home,’ he said", []string{"I’m", "goin’", "home", "he", "said"}},
		{"quoted elision", "‘’Twas me,’ he said", []string{"’Twas", "me", "he", "said"}},
		{"quote before a word that is also elided", "‘Round the bend!’ she said", []string{"Round", "the", "bend", "she", "said"}},
		{"elision of the same word", "go ‘round the bend", []string{"go", "‘round", "the", "bend"}},
		{"hyphens", "snow-soft half‐way will-o’-the-wisp -x- and--but", []string{"snow-soft", "half‐way", "will-o’-the-wisp", "x", "and", "but"}},
		{"dashes part", "roll—goin’ one–two", []string{"roll", "goin’", "one", "two"}},
		{"numbers", "1,000 3.5 7:30 10% 1/2 5th 1,2 ½", []string{"1,000", "3.5", "7:30", "10%", "1/2", "5th", "1", "2", "½"}},
		{"money", "$5 £2.50 €3 $", []string{"$5", "£2.50", "€3"}},
		{"ampersand", "salt & pepper R&B", []string{"salt", "&", "pepper", "R", "&", "B"}},
		{"escaped (CommonMark 2.4)", "\\& \\$5 \\'tis", []string{"&", "$5", "'tis"}},
		{"initials", "at 9 a.m. the U.S.A. team", []string{"at", "9", "a.m.", "the", "U.S.A.", "team"}},
		{"combining marks", "cafe\u0301 na\u00efve", []string{"cafe\u0301", "na\u00efve"}},
		{"unheard characters are left out", "light\u00adhouse zero\u200dwidth", []string{"lighthouse", "zerowidth"}},
		{"other letters and pictures", "goat \U0001F410 ziège \U0001F469\u200d\U0001F680 ok", []string{"goat", "ziège", "ok"}},
		{"no-break space", "one\u00a0two", []string{"one", "two"}},
		{"emphasis within", "un*believ*able", []string{"unbelievable"}},
		{"notes are no words", "one [two] three <!-- four --> five", []string{"one", "three", "five"}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			m := Parse(tt.text)
			checkInvariants(t, m)
			if diff := cmp.Diff(tt.want, words(m)); diff != "" {
				t.Errorf("words (-want +got):\n%s", diff)
			}
		})
	}
}

// TestWordFlags marks each word with its flags: e emphasis, S shouted, q quoted.
func TestWordFlags(t *testing.T) {
	for _, tt := range []struct{ name, text, want string }{
		{"emphasis", "a *so* b _so_ c **so** d ***so*** e", "a so:e b so:e c so:e d so:e e"},
		{"several words", "a *so very* b", "a so:e very:e b"},
		{"over lines of a stanza (CommonMark 6.2: inline content of a paragraph)", "*so\nvery* b", "so:e very:e b"},
		{"not over stanzas", "*so\n\nvery* b", "so very b"},
		{"not before a space", "* so* b", "so b"},
		{"underscore within a word does not mark", "a snow_soft_bed", "a snow soft bed"},
		{"star within a word does", "un*believ*able a", "unbelievable:e a"},
		{"escaped (CommonMark 2.4)", "\\*so\\* b", "so b"},
		{"one alone", "a *so b", "a so b"},
		{"unequal", "a **so* b", "a so:e b"},
		{"punctuation inside", "*“So!”* b", "So:eq b"},
		{"a whole line in italics is a letter", "*Dear Fox, come home.*\nHe *came*", "Dear Fox come home He came:e"},
		{"so are many words", "He wrote, *I have borrowed some warmth for myself*", "He wrote I have borrowed some warmth for myself"},
		{"two words are not", "*So what?*", "So:e what:e"},
		{"shouted", "What NOW said I to TV-MEN", "What NOW:S said I to TV-MEN:S"},
		{"a line in capitals is no shout", "WHAT NOW\nwhat", "WHAT NOW what"},
		{"double quotes", "“Go,” he said. \"Go.\" Gone", "Go:q he said Go:q Gone"},
		{"over lines", "“Go\non,” he said", "Go:q on:q he said"},
		{"over stanzas, each opened", "“Go\n\n“on,” he said", "Go:q on:q he said"},
		{"over stanzas, closed once", "“Go\n\non,” he said", "Go:q on:q he said"},
		{"never closed ends with its stanza", "“Go on\n\nhe said", "Go:q on:q he said"},
		{"straight, never closed, ends with its stanza", "\"Go on\n\nhe said \"Go\" x", "Go:q on:q he said Go:q x"},
		{"single curly", "‘Go,’ he said", "Go:q he said"},
		{"single straight", "'Go,' he said", "Go:q he said"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			var got []string
			m := Parse(tt.text)
			checkInvariants(t, m)
			for _, l := range m.Lines {
				for _, w := range l.Words {
					s := w.Text
					flags := ""
					for _, f := range []struct {
						set  bool
						flag string
					}{{w.Emphasis, "e"}, {w.Shouted, "S"}, {w.Quoted, "q"}} {
						if f.set {
							flags += f.flag
						}
					}
					if flags != "" {
						s += ":" + flags
					}
					got = append(got, s)
				}
			}
			if diff := cmp.Diff(tt.want, strings.Join(got, " ")); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}

func TestBreaks(t *testing.T) {
	for _, tt := range []struct {
		text string
		want string // one digit a word
	}{
		{"one two, three", "010"},
		{"one; two: three — four–five -- six - seven... eight… nine", "222222220"},
		{"one. two! three? four", "3330"},
		{"“one” two (three) four", "1110"},
		{"“one,” two. “Three", "130"},
		{"Mr. Goat met J. Crow at 9 a.m. on St. Ives", "00000000000"},
		{"so said I. Then", "0030"},
		{"snow-soft *one* two", "000"},
		{"what?! one", "30"},
		{"one [a note.] two", "00"},
	} {
		got := ""
		for _, l := range Parse(tt.text).Lines {
			for _, w := range l.Words {
				got += fmt.Sprint(int(w.Break))
			}
		}
		if got != tt.want {
			t.Errorf("%q: breaks %s, want %s", tt.text, got, tt.want)
		}
	}
}

func TestNotes(t *testing.T) {
	m := Parse("[before]\none [at the end]\n> mine\n> still mine\n\n[two\nlines]\ntwo [in] three\n\n> last\n")
	checkInvariants(t, m)
	type note struct {
		Kind   NoteKind
		Text   string
		Line   int
		Inside bool
	}
	var got []note
	for _, n := range m.Notes {
		got = append(got, note{n.Kind, n.Text, n.Line, n.Inside})
	}
	want := []note{
		{ArtNote, "before", -1, false},
		{ArtNote, "at the end", 0, false},
		{ReviewerNote, "mine\nstill mine", 0, false},
		{ArtNote, "two\nlines", 0, false},
		{ArtNote, "in", 1, true},
		{ReviewerNote, "last", 1, false},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if len(m.Problems) != 0 {
		t.Errorf("problems %v, want none", m.Problems)
	}
}

func TestAllowances(t *testing.T) {
	text := "---\nallow: book/spreads\n---\n<!-- dandle: allow word/filler, word/weak -->\n\none\ntwo <!-- dandle: allow sound -->\nthree\n<!-- dandle: allow rhyme/near -->\n<!-- dandle: allow -->\n<!-- dandle: forbid x -->\n"
	m := Parse(text)
	checkInvariants(t, m)
	got := map[int][]string{}
	for _, a := range m.Allowances {
		got[a.Line] = append(got[a.Line], a.Codes...)
	}
	want := map[int][]string{-1: {"book/spreads"}, 0: {"word/filler", "word/weak"}, 1: {"sound"}}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	var told []string
	for _, p := range m.Problems {
		told = append(told, p.Span.In(text))
	}
	wantTold := []string{"<!-- dandle: allow rhyme/near -->", "<!-- dandle: allow -->", "<!-- dandle: forbid x -->"}
	if diff := cmp.Diff(wantTold, told); diff != "" {
		t.Errorf("problems (-want +got):\n%s", diff)
	}
}

func TestSpreads(t *testing.T) {
	m := Parse("# The Goat #\nzero\n## Spread 1\none\n\n## Spread 2 ##\n\n## Spread 3\n\ntwo\nthree\n")
	checkInvariants(t, m)
	if m.Title.Text != "The Goat" {
		t.Errorf("title %q", m.Title.Text)
	}
	var got []string
	for _, s := range m.Spreads {
		got = append(got, fmt.Sprintf("%s %d-%d", s.Heading.Text, s.From, s.To))
	}
	if diff := cmp.Diff([]string{"Spread 1 1-2", "Spread 2 2-2", "Spread 3 2-4"}, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestFrontMatter(t *testing.T) {
	m := Parse("\uFEFF---\r\ntitle: \"The Goat\" # hers\r\nages: 3–6\r\nmeter: anapestic tetrameter\r\ndialect: en-GB\r\npronounce:\r\n  Oban: OH-bn\r\n  Éire: AIR-uh\r\npitch: >\r\n  A goat takes over\r\n  the light.\r\nallow: [word/weak, sound]\r\ndandle: verse\r\nauthor: me\r\n---\r\none")
	checkInvariants(t, m)
	f := m.Front
	var keys []string
	for _, k := range f.Keys {
		keys = append(keys, k.Span.In(m.Text)+"="+k.Value.In(m.Text))
	}
	f.Keys = nil
	if got := f.Span.In(m.Text); !strings.HasPrefix(got, "---\r\ntitle") || !strings.HasSuffix(got, "author: me\r\n---") {
		t.Errorf("span %q", got)
	}
	f.Span = Span{}
	want := Front{
		Title: "The Goat", Ages: Ages{3, 6}, Meter: "anapestic tetrameter", Dialect: phonetics.EnGB, HasDialect: true,
		Pitch: "A goat takes over the light.", Pronounce: map[string]string{"oban": "OH-bn", "éire": "AIR-uh"},
		Allow: []string{"word/weak", "sound"}, Verse: true,
	}
	if diff := cmp.Diff(want, f); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	wantKeys := []string{
		"title=\"The Goat\" # hers", "ages=3–6", "meter=anapestic tetrameter", "dialect=en-GB",
		"pronounce=Oban: OH-bn\r\n  Éire: AIR-uh", "pitch=>", "allow=[word/weak, sound]", "dandle=verse", "author=me",
	}
	if diff := cmp.Diff(wantKeys, keys); diff != "" {
		t.Errorf("keys (-want +got):\n%s", diff)
	}
	if len(m.Problems) != 0 {
		t.Errorf("problems: %v", m.Problems)
	}
}

func TestFrontMatterProblems(t *testing.T) {
	for _, tt := range []struct{ name, front, place, says string }{
		{"ages in words", "ages: small", "small", "such as 3-6"},
		{"ages backwards", "ages: 6-3", "6-3", "younger age first"},
		{"dialect", "dialect: en-XX", "en-XX", "known are en-US"},
		{"pronounce", "pronounce: Oban", "Oban", "Oban: OH-bn"},
		{"list for text", "title: [Hat = x]", "[Hat = x]", "in quotes"},
		{"mapping for list", "allow: {a: b}", "{a: b}", "[one, two]"},
		{"alias", "title: &t x\nmeter: *t", "title", "anchor or alias"},
		{"twice", "title: x\ntitle: y", "title", "twice"},
		{"not YAML", "title: Goat: a tale\nages: 3-6", "title: Goat: a tale", "quotes around it"},
		{"no mapping", "- a\n- b", "- a", "key: value"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			m := Parse("---\n" + tt.front + "\n---\none\n")
			checkInvariants(t, m)
			if len(m.Problems) == 0 {
				t.Fatal("no problem told")
			}
			p := m.Problems[0]
			if got := p.Span.In(m.Text); got != tt.place || !strings.Contains(p.Message, tt.says) {
				t.Errorf("problem on %q: %s\nwant it on %q, saying %q", got, p.Message, tt.place, tt.says)
			}
			if strings.Contains(tt.front, "ages: 3-6") && m.Front.Ages != (Ages{3, 6}) {
				t.Error("the slip in one line lost another")
			}
		})
	}
}

func TestAges(t *testing.T) {
	for text, want := range map[string]Ages{
		"3-6": {3, 6}, "3 – 6": {3, 6}, "3 to 6": {3, 6}, "4": {4, 4}, "8+": {8, oldest}, "0-3": {0, 3}, "": {},
	} {
		if got := Parse("---\nages: " + text + "\n---\n").Front.Ages; got != want {
			t.Errorf("ages: %s: %v, want %v", text, got, want)
		}
	}
}

func TestParseHouse(t *testing.T) {
	house, problems := ParseHouse([]byte("dialect: en-GB\nages: 3-6\npronounce: {Oban: OH-bn}\nallow: word/filler sound\nseverities:\n  word/weak: off\n  meter: Hint\nweak: [Nice, super]\nconfidence: {word/filler: 0.7, sound: 1}\ndash: en\nwibble: 1\n"))
	want := House{
		Dialect: phonetics.EnGB, HasDialect: true, Ages: Ages{3, 6}, Pronounce: map[string]string{"oban": "OH-bn"},
		Allow: []string{"word/filler", "sound"}, Severities: map[string]string{"word/weak": "off", "meter": "hint"}, Weak: []string{"nice", "super"},
		Dash: EnDash, Confidence: map[string]float64{"word/filler": 0.7, "sound": 1},
	}
	if diff := cmp.Diff(want, house); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if len(problems) != 1 || !strings.Contains(problems[0].Message, "wibble") {
		t.Errorf("problems %v, want one on wibble", problems)
	}
	if _, problems := ParseHouse([]byte("dash: long\n")); len(problems) != 1 || !strings.Contains(problems[0].Message, "em for") {
		t.Errorf("problems %v, want one that names the dashes", problems)
	}
	for _, text := range []string{"confidence: {word: most}\n", "confidence: {word: 1.2}\n", "confidence: {word: NaN}\n", "confidence: high\n"} {
		if _, problems := ParseHouse([]byte(text)); len(problems) != 1 || !strings.Contains(problems[0].Message, "0.") {
			t.Errorf("%q: problems %v, want one that says what is usual", text, problems)
		}
	}
	if _, problems := ParseHouse([]byte("severities: {word: error}\n")); len(problems) != 1 || !strings.Contains(problems[0].Message, "off, hint") {
		t.Errorf("problems %v, want one that names the severities", problems)
	}
}

func TestProse(t *testing.T) {
	const letter = "I have enclosed a picture book of four hundred words for readers\nof three to six, in which a goat takes over the lamp of a lonely\nlighthouse and learns that shining is harder than it looks when\nthe fog comes in."
	const long = "A goat takes over the lamp of a lonely lighthouse for one night of storm, and learns that shining is harder than it looks; by morning the whole harbor wants her to stay."
	for _, tt := range []struct{ name, text, verse string }{
		{"wrapped letter", letter + "\n\nOne goat\ntwo goats", "One goat\ntwo goats"},
		{"one long line", long + "\n\nOne goat", "One goat"},
		{"salutation and close", "Dear Ms. Quill,\n\n" + letter + "\n\nWarm regards,\nA. Writer\n\nOne goat", "One goat"},
		{"a sign-off within verse stays", "One goat\n\nBest wishes,\ntwo goats", "One goat\n\nBest wishes,\ntwo goats"},
		// Seven beats: Chapman's measure, here in lines of ours.
		{
			"fourteeners", "The keeper lit the lamp at dusk and climbed the winding stair to bed,\nand all the ships came sliding home along the silver lane it spread,\nand not a goat upon the cliff was thinking any more of bread,\nfor every one was looking at the moon that rose above its head.",
			"The keeper lit the lamp at dusk and climbed the winding stair to bed,\nand all the ships came sliding home along the silver lane it spread,\nand not a goat upon the cliff was thinking any more of bread,\nfor every one was looking at the moon that rose above its head.",
		},
		{
			"long lines without stops or capitals", "the lantern on the harbor wall was swinging in the wind and rain\nand nobody had come to see the little goat go round again\nbecause the fog had covered up the window and the weathervane",
			"the lantern on the harbor wall was swinging in the wind and rain\nand nobody had come to see the little goat go round again\nbecause the fog had covered up the window and the weathervane",
		},
		{
			"a long note behind a line", "One goat\ntwo goats [The second goat has climbed into the lamp room with a bucket, a mop and a feather duster, and is looking at the keeper's boots, which nobody has cleaned since spring.]",
			"One goat\ntwo goats",
		},
		{"a run-on pair", "the lantern on the harbor wall was swinging in the wind and the\nrain", "the lantern on the harbor wall was swinging in the wind and the\nrain"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			m := Parse(tt.text)
			checkInvariants(t, m)
			if diff := cmp.Diff(tt.verse, verse(m)); diff != "" {
				t.Errorf("verse (-want +got):\n%s", diff)
			}
		})
	}
}

// TestOldVerse reads public-domain verse with long lines, whole (from memory):
// Tennyson, "Locksley Hall" (1842), eight beats a line; Longfellow, "Evangeline"
// (1847), six, unrhymed, run on; Poe, "The Raven" (1845), eight.
func TestOldVerse(t *testing.T) {
	for _, text := range []string{
		"Comrades, leave me here a little, while as yet 'tis early morn:\nLeave me here, and when you want me, sound upon the bugle-horn.\n",
		"This is the forest primeval. The murmuring pines and the hemlocks,\nBearded with moss, and in garments green, indistinct in the twilight,\nStand like Druids of eld, with voices sad and prophetic,\nStand like harpers hoar, with beards that rest on their bosoms.\n",
		"Once upon a midnight dreary, while I pondered, weak and weary,\nOver many a quaint and curious volume of forgotten lore,\nWhile I nodded, nearly napping, suddenly there came a tapping,\nAs of some one gently rapping, rapping at my chamber door.\n",
	} {
		m := Parse(text)
		if got := verse(m) + "\n"; got != text || len(m.Problems) > 0 {
			t.Errorf("verse %q\nwant  %q\nproblems %v", got, text, m.Problems)
		}
	}
}

func TestPlaces(t *testing.T) {
	m := Parse("one—two\n\n  three  \n> note\n")
	for _, tt := range []struct{ offset, line, word int }{
		{0, 0, 0}, {3, 0, 0}, {6, 0, 1}, {9, 0, 1}, {10, -1, 0}, {11, -1, 0}, {13, 1, 0}, {18, 1, 0}, {19, -1, 0}, {-1, -1, 0}, {99, -1, 0},
	} {
		line, word, ok := m.WordAt(tt.offset)
		if !ok {
			line = -1
		}
		if line != tt.line || word != tt.word {
			t.Errorf("WordAt(%d) = %d, %d, %t, want %d, %d", tt.offset, line, word, ok, tt.line, tt.word)
		}
	}
	for offset, want := range map[int]int{0: 0, 9: 0, 10: -1, 11: 1, 20: 1, 22: -1} {
		if got := m.LineAt(offset); got != want {
			t.Errorf("LineAt(%d) = %d, want %d", offset, got, want)
		}
	}
	if got := m.NoteAt(25); got != 0 {
		t.Errorf("NoteAt(25) = %d", got)
	}
}

func ExampleParse() {
	m := Parse("## Spread 1\n\nThe lamp on the headland went out with a cough, [dark]\nso *up* went the goat, and she wouldn’t get off.\n")
	for _, line := range m.Lines {
		last := line.Words[len(line.Words)-1]
		fmt.Println(line.Number, len(line.Words), last.Text, last.Span)
	}
	fmt.Println(m.Notes[0].Text)
	// Output:
	// 3 10 cough {54 59}
	// 4 10 off {114 117}
	// dark
}

func TestHouseTellsOfWhatCannotBeSaid(t *testing.T) {
	_, problems := ParseHouse([]byte("pronounce: { Oban: \"OH-bn\", plink: \"qq!\" }\n"))
	if len(problems) != 1 || !strings.Contains(problems[0].Message, `"plink"`) {
		t.Errorf("got %v, want one about plink", problems)
	}
}
