package suggest_test

import (
	"slices"
	"strings"
	"testing"

	"dandle/analysis"
	"dandle/analysis/rhyme"
	"dandle/analysis/scansion"
	"dandle/analysis/suggest"
	"dandle/analysis/suggest/words"
	"dandle/phonetics"
)

// place reads a text in which a bar marks the cursor.
func place(text string) suggest.Place {
	before, after, _ := strings.Cut(text, "|")
	s := analysis.New(before+after, analysis.Options{})
	return suggest.Place{Manuscript: s.Manuscript(), Poem: s.Poem(), Reader: s.Reader(), Stanzas: s.Stanzas(), Offset: len(before)}
}

func texts(items []suggest.Item, n int) []string {
	var list []string
	for _, item := range items[:min(n, len(items))] {
		list = append(list, item.Text)
	}
	return list
}

// Words that an editor would think of, in verse of our own.
func TestAtOffersWhatFits(t *testing.T) {
	tests := []struct {
		name, text string
		want       string // among the first twenty
	}{
		{
			"a noun after an adjective",
			"The lighthouse was dark and the night was cold,\nThe goat on the rock was remarkably |\n", "bold",
		},
		{
			"one beat after the article",
			"The boat in the harbor had mended its sail,\nAnd out of the water came waving a |\n", "whale",
		},
		{
			"cross rhyme",
			"The hen took a broom to the floor of the shed,\nThe goose took a cloth to the pane,\nThe pig had a cushion tied over his head,\nFor over the hill came the |\n", "rain",
		},
		{
			"the mate comes later",
			"The snail took her umbrella out into the |\nAnd polished her shell till it shone on the lane,\n", "rain",
		},
		{
			"a phrase where no word fills the slot",
			"A tortoise went walking one day to the shore,\nHe wiped both his feet and he knocked |\n", "on the door",
		},
		{
			"the next stanza of a chain",
			"The lamp at the top of the stair was low,\nThe wind in the keyhole had started to hum,\nAnd nobody told me which way I should go.\n\n" +
				"I counted my fingers from pinkie to thumb,\nI counted the buttons that ran down my sleeve,\nI tapped on the rail like a small hollow drum.\n\n" +
				"The moon put her cheek to the edge of the eave,\nShe looked at the carpet, she looked at the clock,\nAnd said in a whisper, \"It's time you should leave.\"\n\n" +
				"So I crept down the stair in one slipper, one |\n", "sock",
		},
		{
			"a day of the calendar, with its capital",
			"The spider was humming a silvery tune\nAnd spinning a web in the middle of |\n", "June",
		},
		{
			"a word half typed is replaced whole",
			"The boat in the harbor had mended its sail,\nAnd out of the water came waving a wh|\n", "whale",
		},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			list := suggest.At(place(tt.text))
			if got := texts(list.Items, 20); !slices.Contains(got, tt.want) {
				t.Errorf("%q is not among %v", tt.want, got)
			}
		})
	}
}

func TestAtReplacesTheWordBeingTyped(t *testing.T) {
	p := place("The boat in the harbor had mended its sail,\nAnd out of the water came waving a wh|!\n")
	list := suggest.At(p)
	if len(list.Items) == 0 {
		t.Fatal("nothing is offered")
	}
	for _, item := range list.Items {
		if got := item.Span.In(p.Manuscript.Text); got != "wh" {
			t.Fatalf("%q replaces %q, want the letters typed and not the mark after them", item.Text, got)
		}
	}
}

// The documentation tells the meaning and the feet of the whole line.
func TestDocTellsHowTheLineWouldGo(t *testing.T) {
	p := place("The gull had a hammer, the crab had a nut,\nThe lid of the toolbox would never stay shut,\n" +
		"The boat in the harbor had mended its sail,\nAnd out of the water came waving a |\n")
	for _, item := range suggest.At(p).Items {
		if item.Text == "whale" {
			if doc := p.Docs()(item); !strings.Contains(doc, "**whale** *(noun)*") || !strings.Contains(doc, "The line would go x/|xx/|xx/|xx/.") {
				t.Errorf("whale: %q", doc)
			}
			return
		}
	}
	t.Error("no whale is offered")
}

// A line that comes back may end in its own word again, and that word comes
// first. Elsewhere a line's mate is not offered for it.
func TestAtOffersARefrainsOwnWord(t *testing.T) {
	const stanza = "The heron has hidden my hat with the bow,\nAnd down by the rushes the cold waters flow,\n"
	tests := []struct {
		name, text string
		again      bool
	}{
		{"said twice on end", stanza + "The cold waters flow and the cold waters |\n", true},
		{"the end of another stanza", stanza + "\nHer nest in the reeds is a beautiful show,\nAnd down by the rushes the cold waters |\n", true},
		{"another line", stanza + "She washed it and wrung it and told it to |\n", false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := texts(suggest.At(place(tt.text)).Items, 100)
			if len(got) == 0 || (got[0] == "flow") != tt.again || !tt.again && slices.Contains(got, "flow") {
				t.Errorf("offered are %v", got[:min(len(got), 5)])
			}
		})
	}
}

// An article asks for its own sound.
func TestAtFollowsTheArticle(t *testing.T) {
	const verse = "The wind took a shower right up to the sky,\nAnd down on the meadow it gave us a"
	for article, vowel := range map[string]bool{" |\n": false, "n |\n": true} {
		got := texts(suggest.At(place(verse+article)).Items, 2)
		if len(got) == 0 {
			t.Errorf("a%s: nothing is offered", article)
		}
		for _, word := range got {
			if strings.ContainsAny(word[:1], "aeiou") != vowel {
				t.Errorf("a%s: %v", article, got)
			}
		}
	}
}

// No possessive stands alone.
func TestAtOffersAPossessiveSomething(t *testing.T) {
	got := texts(suggest.At(place("The wind took a shower right up to the sky,\nAnd gave it a polish and called it its |\n")).Items, 20)
	for _, word := range []string{"by", "I", "my", "why"} {
		if slices.Contains(got, word) {
			t.Errorf("%q is offered behind “its”: %v", word, got)
		}
	}
	if !slices.Contains(got, "eye") {
		t.Errorf("no eye is offered: %v", got)
	}
}

// What a possessor has is a thing.
func TestAtOffersAPossessorSomething(t *testing.T) {
	got := texts(suggest.At(place("We packed up the kettle, we folded the tent,\nAnd followed the trail of the elephant's |\n")).Items, 5)
	if !slices.Contains(got, "scent") {
		t.Errorf("the elephant's %v", got)
	}
}

// Of a word half typed, only what begins with its letters is offered.
func TestAtFollowsTheLettersTyped(t *testing.T) {
	items := suggest.At(place("The boat in the harbor had mended its sail,\nAnd out of the water came waving a sn|\n")).Items
	if len(items) == 0 {
		t.Fatal("nothing is offered")
	}
	for _, item := range items {
		if !strings.HasPrefix(item.Text, "sn") {
			t.Errorf("%q is offered for a word that begins with sn", item.Text)
		}
	}
}

// A slot that single words leave open is filled by a few together.
func TestRhymesFillASlotWithPhrases(t *testing.T) {
	items := suggest.Rhymes("floor", phonetics.NewReader(phonetics.EnUS, nil), suggest.Options{Slot: "xx/"})
	if got := texts(items, 30); !slices.Contains(got, "at the door") && !slices.Contains(got, "on the shore") {
		t.Errorf("for xx/, floor: %v", got)
	}
	for _, item := range items {
		if strings.Contains(item.Text, " ") && item.Pattern != "xx/" {
			t.Errorf("%q goes %s", item.Text, item.Pattern)
		}
	}
}

// Words of old verse come first only where the verse speaks as the old does.
func TestAtKeepsOldWordsForOldVerse(t *testing.T) {
	rank := func(text string) int {
		for i, item := range suggest.At(place(text)).Items {
			if item.Text == "thee" {
				return i
			}
		}
		return 1000
	}
	plain := rank("The otter came home with a leaf from a tree,\nAnd carried a basket of berries for |\n")
	old := rank("O lantern, thou shinest on mountain and tree,\nAnd sailors at midnight go seeking for |\n")
	if plain < 5 || old >= plain {
		t.Errorf("thee comes %d. in plain verse and %d. in old", plain+1, old+1)
	}
}

// Nothing is offered inside a line, in front matter, or with no line to answer.
func TestAtStaysSilent(t *testing.T) {
	for _, text := range []string{
		"The boat in the | harbor had mended its sail,\nAnd out of the water came waving a whale\n",
		"---\ntitle: The | Boat\n---\nThe boat in the harbor had mended its sail,\n",
		"|", "\n\n|\n",
	} {
		if list := suggest.At(place(text)); len(list.Items) > 0 {
			t.Errorf("%q: %v are offered", text, texts(list.Items, 5))
		}
	}
}

// Perfect rhymes of the dictionary and of no other sound, best known first.
func TestRhymes(t *testing.T) {
	reader := phonetics.NewReader(phonetics.EnUS, nil)
	items := suggest.Rhymes("glow", reader, suggest.Options{})
	if got := texts(items, 20); !slices.Contains(got, "snow") && !slices.Contains(got, "know") {
		t.Errorf("glow: %v", got)
	}
	for _, item := range suggest.Rhymes("glow", reader, suggest.Options{Slot: "x/"}) {
		if item.Pattern != "x/" {
			t.Errorf("%q has the pattern %s, want x/", item.Text, item.Pattern)
		}
	}
	near := suggest.Rhymes("prize", reader, suggest.Options{Near: true, Limit: 1000})
	last := rhyme.Perfect
	found := false
	for _, item := range near {
		found = found || item.Text == "mice" && item.Kind == rhyme.Near
		if last == rhyme.Near && item.Kind == rhyme.Perfect {
			t.Fatalf("%q, a perfect rhyme, follows a near one", item.Text)
		}
		last = item.Kind
	}
	if !found {
		t.Error("mice is not among the near rhymes of prize")
	}
	sea := suggest.Rhymes("boat", reader, suggest.Options{Sense: "winter clothes"})
	if got := texts(sea, 3); !slices.Contains(got, "coat") {
		t.Errorf("boat, near in sense to winter clothes: %v", got)
	}
}

// No word of the lists of words unfit for a child's book is ever offered.
func TestNothingUnfitIsOffered(t *testing.T) {
	reader := phonetics.NewReader(phonetics.EnUS, nil)
	for _, word := range []string{"duck", "hit", "grass", "sock", "witch", "blunt", "score"} {
		for _, item := range suggest.Rhymes(word, reader, suggest.Options{Near: true, Limit: 5000}) {
			if w := words.Find(strings.ToLower(item.Text)); w == words.None || w.Fitness() == words.Unfit {
				t.Errorf("%q is offered for %q", item.Text, word)
			}
		}
	}
}

func TestMeaning(t *testing.T) {
	for text, want := range map[string]string{"goats": "agile ruminants", "running": "run", "zzz": ""} {
		if got := suggest.Meaning(text); !strings.Contains(got, want) || want == "" && got != "" {
			t.Errorf("%s means %q, want %q in it", text, got, want)
		}
	}
}

func BenchmarkAt(b *testing.B) {
	p := place("The hen took a broom to the floor of the shed,\nThe goose took a cloth to the pane,\nThe pig had a cushion tied over his head,\nFor over the hill came the |\n")
	b.ReportAllocs()
	for b.Loop() {
		suggest.At(p)
	}
}

func BenchmarkRhymes(b *testing.B) {
	reader := phonetics.NewReader(phonetics.EnUS, nil)
	b.ReportAllocs()
	for b.Loop() {
		suggest.Rhymes("glow", reader, suggest.Options{})
	}
}

func FuzzAt(f *testing.F) {
	f.Add("The boat had a sail,\nAnd out came a |\n")
	f.Add("a|\n\xff\n’|")
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 2000 {
			t.Skip()
		}
		p := place(text)
		for _, item := range suggest.At(p).Items {
			if item.Span.Start < 0 || item.Span.End < item.Span.Start || item.Span.End > len(p.Manuscript.Text) {
				t.Fatalf("%q replaces %v of %d bytes", item.Text, item.Span, len(p.Manuscript.Text))
			}
		}
	})
}

// Every word offered in another's place leaves its line in step.
func TestReplacementsKeepTheLine(t *testing.T) {
	p := place("The moth had a wonderful coat of her own,\n|And a glorious chair on a glorious stone,\n" +
		"A kettle that whistled, a carpet of moss,\nAnd a friend in the gutter who came to play toss.\n")
	m := p.Manuscript
	p.Judges = func(word string) bool { return word == "wonderful" || word == "glorious" }
	list := suggest.Replacements(p, 0, 4)
	if len(list) == 0 {
		t.Fatal("nothing could stand in for wonderful")
	}
	for _, item := range list {
		edited := m.Text[:item.Span.Start] + item.Text + m.Text[item.Span.End:]
		line := analysis.New(edited, analysis.Options{}).Poem().Lines[0]
		if !line.Fits || line.Reading.Beats() != 4 {
			t.Errorf("%q: the line has %s", item.Text, line.Reading.FeetPattern())
		}
	}
}

// A replacement keeps its line's last word in rhyme, its tense and number, and
// gives the article before it the form that its sound asks for. That the words
// share a sense or a class is as WordNet 3.1 has it: {wind}: breeze, gust, gale;
// {soup}: broth; {rock, stone}; {rock, sway}; {luggage, baggage}; {garden}: orchard.
func TestReplacementsAreInflected(t *testing.T) {
	for _, c := range []struct{ name, line, word, want string }{
		{"narrower", "The ferry stopped, the wind blew cold,", "wind", "gale"},
		{"number", "And mind the rocks beside the pier,", "rocks", "stones"},
		{"tense", "The river rocked, the wind blew cold,", "rocked", "swayed"},
		{"article", "We crossed a garden by the pier,", "garden", "an orchard"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := place("|" + c.line + "\nThe mole sat down beside the hold,\nThe moon went up, the owl was near,\nAnd nobody was there to hear.\n")
			list := suggest.Replacements(p, 0, wordAt(t, p, c.word))
			if !slices.ContainsFunc(list, func(i suggest.Item) bool { return i.Text == c.want }) {
				t.Errorf("%s for %s is not among %v", c.want, c.word, texts(list, 9))
			}
		})
	}
}

func TestReplacementsKeepTheRhyme(t *testing.T) {
	p := place("|The mole set off to cross the sea,\nAs brave as any mole can be,\nHe packed a cup, he packed a cake,\nHe packed a map of every lake.\n")
	for line := range p.Poem.Lines {
		last := len(p.Poem.Lines[line].Words) - 1
		old := p.Poem.Lines[line].Words[last]
		for _, item := range suggest.Replacements(p, line, last) {
			way := p.Reader.Pronounce(item.Text, phonetics.Context{})
			a := rhyme.NewEnd([]rhyme.Word{{Text: old.Text, Ways: old.Ways}})
			b := rhyme.NewEnd([]rhyme.Word{{Text: item.Text, Ways: way}})
			if m := rhyme.Compare(&a, &b); m.Kind != rhyme.Perfect {
				t.Errorf("%s for %s: %v", item.Text, old.Text, m.Kind)
			}
		}
	}
}

// One longer word does the work of two.
func TestInsteadOfAPhrase(t *testing.T) {
	p := place("|The lamp gave very bright light to the pier,\nThe ferry came in with a splash and a cheer,\nThe mole waved his hat and the otter his oar,\nAnd the fog and the foam rolled away from the shore.\n")
	for _, to := range []int{4, 5} { // pointed at alone, or with what it leans on
		list := suggest.Instead(p, 0, 3, to)
		if !slices.ContainsFunc(list, func(i suggest.Item) bool { return i.Text == "radiant" }) {
			t.Errorf("up to word %d: radiant is not among %v", to, texts(list, 9))
		}
		for _, item := range list {
			if got := item.Span.In(p.Manuscript.Text); got != "very bright" {
				t.Errorf("%s would replace %q", item.Text, got)
			}
		}
	}
	for _, c := range [][3]int{{0, 3, 3}, {0, -1, 2}, {0, 4, 99}, {9, 0, 1}, {0, 0, 1}} {
		if list := suggest.Instead(p, c[0], c[1], c[2]); len(list) > 0 {
			t.Errorf("%v: offered %v", c, texts(list, 3))
		}
	}
}

func wordAt(t *testing.T, p suggest.Place, text string) int {
	t.Helper()
	i := slices.IndexFunc(p.Poem.Lines[0].Words, func(w scansion.Word) bool { return w.Text == text })
	if i < 0 {
		t.Fatalf("no %q in the line", text)
	}
	return i
}

func FuzzReplacements(f *testing.F) {
	f.Add("The boat had a very old sail,\nAnd out came an unusual snail.\n")
	f.Add("a\n\xff\n’\n")
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 1000 {
			t.Skip()
		}
		p := place(text)
		for line := range p.Poem.Lines {
			for word := range p.Poem.Lines[line].Words {
				for _, item := range suggest.Replacements(p, line, word) {
					if item.Span.Start < 0 || item.Span.End < item.Span.Start || item.Span.End > len(p.Manuscript.Text) || item.Text == "" {
						t.Fatalf("%q replaces %v of %d bytes", item.Text, item.Span, len(p.Manuscript.Text))
					}
				}
			}
		}
	})
}

func BenchmarkReplacements(b *testing.B) {
	p := place("|The lamp gave very bright light to the pier,\nThe ferry came in with a splash and a cheer,\nThe mole waved his hat and the otter his oar,\nAnd the fog and the foam rolled away from the shore.\n")
	b.ReportAllocs()
	for b.Loop() {
		suggest.Replacements(p, 0, 4)
	}
}

// No word is answered by its opposite. The pairs are antonyms in WordNet 3.1
// (data.adj, pointers "!"), which lie near each other in vectors.
func TestNeverTheOpposite(t *testing.T) {
	for _, pair := range [][2]string{
		{"dark", "light"},
		{"hot", "cold"},
		{"wet", "dry"},
		{"loud", "soft"},
		{"old", "new"},
		{"old", "young"},
		{"slow", "fast"},
		{"big", "little"},
		{"hard", "soft"},
		{"rough", "smooth"},
		{"thick", "thin"},
		{"deep", "shallow"},
		{"wide", "narrow"},
		{"high", "low"},
		{"clean", "dirty"},
		{"sweet", "sour"},
		{"rich", "poor"},
		{"full", "empty"},
		{"sharp", "dull"},
		{"tame", "wild"},
	} {
		for _, c := range [][2]string{pair, {pair[1], pair[0]}} {
			for _, line := range []string{"The mole had found a W stone,", "The mole had found a very W stone,", "The stone he found was W and gray,"} {
				p := place("|" + strings.Replace(line, "W", c[0], 1) + "\nHe took it to the hill alone,\nHe set it down beside the bay,\nAnd slept upon it all the day.\n")
				for _, item := range suggest.Replacements(p, 0, wordAt(t, p, c[0])) {
					if slices.Contains(strings.Fields(item.Text), c[1]) {
						t.Errorf("%q is offered %q", strings.Replace(line, "W", c[0], 1), item.Text)
					}
				}
			}
		}
	}
}
