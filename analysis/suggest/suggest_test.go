package suggest_test

import (
	"slices"
	"strings"
	"testing"

	"dandle/analysis"
	"dandle/analysis/rhyme"
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

// Every word offered in another's place leaves its line in step, and none is
// offered for the word that bears the rhyme.
func TestReplacementsKeepTheLine(t *testing.T) {
	p := place("The moth had a wonderful lamp of her own,\n|And a glorious chair on a glorious stone,\n" +
		"A kettle that whistled, a carpet of moss,\nAnd a friend in the gutter who came to play toss.\n")
	m := p.Manuscript
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
	if list := suggest.Replacements(p, 0, 8); len(list) > 0 {
		t.Errorf("offered %v for the rhyme word", texts(list, 3))
	}
}
