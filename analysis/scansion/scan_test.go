package scansion_test

import (
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"
	"dandle/phonetics"

	"github.com/google/go-cmp/cmp"
)

// steady is a poem of our own with nothing amiss: eight lines of four anapests.
const steady = `The mole and the mallard went down to the quay
In a wheelbarrow lined with the leaves of a tree,
With a kettle, a candle, a fiddle of pine,
And a map that the mallard had drawn with a line.

The harbour was silver, the harbour was wide,
And the boat they had borrowed was tugging the tide,
So the mallard went forward to see to the sail,
And the mole told the tiller a comical tale.
`

func TestVariationsAreNamed(t *testing.T) {
	for name, test := range map[string]struct {
		poem string
		line int
		want []scansion.VariationKind
	}{
		"plain anapests":   {steady, 1, nil},
		"light first foot": {steady, 0, []scansion.VariationKind{scansion.LightFoot}},
		// A line of Marlowe's; the inversion after a pause is Fry's example of
		// what an iambic line may do (from memory).
		"inversion": {`The owl came down at half past four
To watch the fog along the shore,
Under the lamp he kept the score
And counted every herring's snore.
`, 2, []scansion.VariationKind{scansion.Inversion}},
		"headless line": {`The kettle sang, the window steamed,
The badger counted every spoon,
He stacked the plates, he swept, he dreamed,
Humming softly to the moon.
`, 3, []scansion.VariationKind{scansion.Headless}},
		"catalexis": {`Barley, barley in the barrow,
Rattle down the lane so narrow,
Tip the lot and let it tumble,
Listen to the barrow grumble,
Rattle home and softly hum.
`, 4, []scansion.VariationKind{scansion.Catalexis}},
		"feminine ending": {`The heron wrote a little letter,
And every line was somehow better,
She licked the stamp and signed her name
And up the hill the postman came.
`, 0, []scansion.VariationKind{scansion.FeminineEnding}},
		"light feet": {`Tuesday Jones had a wobbly tooth,
It wobbled whenever she spoke,
It wobbled at breakfast, it wobbled at lunch,
It wobbled when Grandpa would joke.

She wiggled it left and she wiggled it right,
She wiggled it under the stairs,
She tied it with cotton to Gran's garden gate
And she tied it to three kitchen chairs.
`, 0, []scansion.VariationKind{scansion.Headless, scansion.LightFoot, scansion.LightFoot}},
		// Handbooks let a three-beat line among four end in silence, and a pause
		// hold a beat likewise (common practice).
		"silent beat": {strings.Replace(steady, "With a kettle, a candle, a fiddle of pine,", "With a kettle, a creak — and a fiddle,", 1), 2, []scansion.VariationKind{scansion.FeminineEnding, scansion.SilentBeat}},
		// Housman rhymes "be" with "poetry"; the name from memory.
		"light ending": {`The otter read beneath the tree,
A page, a leaf, a second sea,
And all of it was new to me
And full of rhyme and poetry.
`, 3, []scansion.VariationKind{scansion.LightEnding}},
	} {
		t.Run(name, func(t *testing.T) {
			_, poem := scan(test.poem)
			l := poem.Lines[test.line]
			var got []scansion.VariationKind
			for _, v := range l.Variations {
				got = append(got, v.Kind)
			}
			if diff := cmp.Diff(test.want, got); diff != "" {
				t.Errorf("%s (-want +got):\n%s", l.Reading.FeetPattern(), diff)
			}
			if !l.Fits {
				t.Errorf("a licensed variation is called off: deviance %.2f", l.Deviance)
			}
		})
	}
}

func TestBreaksAreFound(t *testing.T) {
	for name, test := range map[string]struct {
		from, to string // of the steady poem
		cause    scansion.Cause
		words    string
	}{
		"missing beat":   {"With a kettle, a candle, a fiddle of pine,", "With a kettle, a fiddle of pine,", scansion.MissingBeat, "pine"},
		"extra beat":     {"With a kettle, a candle, a fiddle of pine,", "With a kettle, a candle, a fiddle of excellent pine,", scansion.ExtraBeat, "excellent"},
		"crowd":          {"So the mallard went forward to see to the sail,", "So the mallard's long red thick oars beat at the sail,", scansion.CrowdedStress, "long red thick oars beat"},
		"slack run":      {"And the mole told the tiller a comical tale.", "And the mole told the tiller and the comical tale.", scansion.SlackRun, "and"},
		"pattern change": {"And a map that the mallard had drawn with a line.", "And one old map he drew in ink.", scansion.PatternChange, "And one old map he drew in ink"},
	} {
		t.Run(name, func(t *testing.T) {
			if !strings.Contains(steady, test.from) {
				t.Fatal("the poem has no such line")
			}
			m, poem := scan(strings.Replace(steady, test.from, test.to, 1))
			for i := range poem.Lines {
				l := &poem.Lines[i]
				if text := m.Lines[i].Span.In(m.Text); text != test.to {
					if !l.Fits {
						t.Errorf("%q is called off", text)
					}
					continue
				}
				if l.Break == nil {
					t.Fatalf("%s: not found, deviance %.2f, %+v", l.Reading.FeetPattern(), l.Deviance, l.Evidence)
				}
				if l.Break.Cause != test.cause || l.Break.Span.In(m.Text) != test.words {
					t.Errorf("found cause %d at %q, want %d at %q", l.Break.Cause, l.Break.Span.In(m.Text), test.cause, test.words)
				}
			}
		})
	}
}

// A line may be given its beats at the price of what its siblings do: a light
// word lifted where they all open softly, two beats side by side.
func TestShortLinesAreHeardBesideTheirSiblings(t *testing.T) {
	const bakers = `In the bakery at midnight when the ovens are all humming,
You can hear the pans a-rattle and the rolling pins a-drumming,
For the mice are making muffins and the moths are mixing dough
And the beetles bring the butter in a wheelbarrow, just so.

And the baker's boy is sleeping with his cheek upon a sack,
And he never sees the spiders as they ice the almond stack,
And he never hears the crickets as they whistle for the cream,
For he thinks the smell of cinnamon is drifting through a dream.
`
	for name, test := range map[string]struct {
		poem, from, to string
		cause          scansion.Cause
	}{
		"light opening": {bakers, "And he never hears the crickets as they whistle for the cream,", "And he never hears the crickets whistle for the cream,", scansion.MissingBeat},
		"jam":           {steady, "And the mole told the tiller a comical tale.", "And the mole told the tiller a short tale.", scansion.CrowdedStress},
	} {
		t.Run(name, func(t *testing.T) {
			if !strings.Contains(test.poem, test.from) {
				t.Fatal("the poem has no such line")
			}
			m, poem := scan(strings.Replace(test.poem, test.from, test.to, 1))
			for i := range poem.Lines {
				l := &poem.Lines[i]
				if text := m.Lines[i].Span.In(m.Text); l.Fits == (text == test.to) {
					t.Errorf("%q fits: %v, deviance %.2f, %s", text, l.Fits, l.Deviance, l.Reading.FeetPattern())
				}
				if l.Break != nil && l.Break.Cause != test.cause {
					t.Errorf("%s: cause %d, want %d", l.Reading.FeetPattern(), l.Break.Cause, test.cause)
				}
			}
		})
	}
}

func TestProseHasNoMeter(t *testing.T) {
	// A letter of our own, broken as a column of prose would be.
	const prose = `We have read the story about the lighthouse twice
and would like to keep it for another month.
There is something in the second half which nobody
here can forget, although the ending seems sudden.
Could you tell us whether the goat survives the winter?
A note about the illustrations is on the next page.
`
	_, poem := scan(prose)
	for i, l := range poem.Lines {
		if !l.Fits {
			t.Errorf("line %d is called off: %s", i+1, l.Reading.FeetPattern())
		}
	}
}

func TestMemoChangesNothing(t *testing.T) {
	reader := phonetics.NewReader(phonetics.EnUS, nil)
	memo := scansion.NewMemo(reader)
	changed := strings.Replace(steady, "fiddle", "trombone", 1)
	for _, text := range []string{steady, changed, steady, "", changed} {
		m := manuscript.Parse(text)
		fresh := scansion.Scan(m, scansion.NewMemo(reader))
		kept := scansion.Scan(m, memo)
		for i := range fresh.Lines {
			if a, b := fresh.Lines[i].Reading.FeetPattern(), kept.Lines[i].Reading.FeetPattern(); a != b {
				t.Errorf("line %d: %s from memory, %s afresh", i, b, a)
			}
			if a, b := fresh.Lines[i].Deviance, kept.Lines[i].Deviance; a != b {
				t.Errorf("line %d: deviance %v from memory, %v afresh", i, b, a)
			}
		}
	}
}

func FuzzScan(f *testing.F) {
	f.Add(steady)
	f.Add("th' th' th'\n'\n\n-\n")
	f.Add(strings.Repeat("very ", 300))
	f.Add("a\x00b \xff\xfe\r\rzzz *so* 1,000,000 O'O'O\n")
	reader := phonetics.NewReader(phonetics.EnUS, nil)
	f.Fuzz(func(t *testing.T, text string) {
		m := manuscript.Parse(text)
		poem := scansion.Scan(m, scansion.NewMemo(reader))
		again := scansion.Scan(m, scansion.NewMemo(reader))
		for i := range poem.Lines {
			l := &poem.Lines[i]
			if a, b := l.Reading.FeetPattern(), again.Lines[i].Reading.FeetPattern(); a != b {
				t.Fatalf("two readings of one line: %s and %s", a, b)
			}
			if n := utf8.RuneCountInString(l.Reading.Pattern()); n != len(l.Reading.Syllables) {
				t.Fatalf("%d marks for %d syllables", n, len(l.Reading.Syllables))
			}
			if l.Deviance < 0 || l.Deviance > 1 {
				t.Fatalf("deviance %v", l.Deviance)
			}
			last := m.Lines[i].Span.Start
			for _, s := range l.Reading.Syllables {
				if s.Span.Start < last || s.Span.End < s.Span.Start || s.Span.End > m.Lines[i].Span.End {
					t.Fatalf("syllable at %v in a line at %v", s.Span, m.Lines[i].Span)
				}
				last = s.Span.Start
			}
			if b := l.Break; b != nil && (b.Span.Start < m.Lines[i].Span.Start || b.Span.End > m.Lines[i].Span.End || b.Span.Len() <= 0) {
				t.Fatalf("break at %v in a line at %v", b.Span, m.Lines[i].Span)
			}
		}
	})
}

func TestMendsFit(t *testing.T) {
	for name, test := range map[string]struct{ line, want string }{
		"drop an adjective":  {"With a kettle, a candle, a fiddle of excellent pine,", "With a kettle, a candle, a fiddle of pine,"},
		"drop a conjunction": {"And the mole told the tiller, and a comical tale.", "And the mole told the tiller, a comical tale."},
		"run words together": {"So the mallard, he is seeing again to the sail,", "So the mallard, he's seeing again to the sail,"},
	} {
		t.Run(name, func(t *testing.T) {
			text := strings.Replace(steady, "With a kettle, a candle, a fiddle of pine,", test.line, 1)
			m, poem := scan(text)
			for i := range m.Lines {
				if m.Lines[i].Span.In(m.Text) != test.line {
					continue
				}
				mends := poem.Mends(m.Text, i)
				var lines []string
				for _, mend := range mends {
					lines = append(lines, mend.Line)
					edited := m.Text[:mend.Span.Start] + mend.Text + m.Text[mend.Span.End:]
					if !strings.Contains(edited, mend.Line) {
						t.Errorf("the edit does not make the line %q", mend.Line)
					}
					if _, again := scan(edited); !again.Lines[i].Fits {
						t.Errorf("%q does not fit", mend.Line)
					}
				}
				if !slices.Contains(lines, strings.TrimRight(test.want, ",.")) {
					t.Errorf("offered %q, want %q among them", lines, test.want)
				}
			}
		})
	}
}

func TestAlternatives(t *testing.T) {
	// In Blake's poem the second line has four beats; by itself it is as easily
	// said with two (Attridge, The Rhythms of English Poetry; from memory).
	_, poem := scan("Tyger Tyger, burning bright,\nIn the forests of the night;\nWhat immortal hand or eye,\nCould frame thy fearful symmetry?\n")
	list := poem.Alternatives(1)
	if len(list) == 0 {
		t.Fatal("no other way to read the line")
	}
	for i, a := range list {
		if a.Pattern == poem.Lines[1].Reading.Pattern() {
			t.Errorf("the best reading %s is among its alternatives", a.Pattern)
		}
		if n := strings.Count(a.Pattern, "/"); n != a.Beats || strings.ReplaceAll(a.Feet, "|", "") != a.Pattern {
			t.Errorf("%s has %d beats, and is said to have %d; feet %s", a.Pattern, n, a.Beats, a.Feet)
		}
		if i > 0 && a.Cost < list[i-1].Cost {
			t.Errorf("%s stands after a less likely way", a.Pattern)
		}
	}
	if poem.Meter.RunnerUp == poem.Meter.Foot || poem.Meter.RunnerUp == scansion.NoMeter {
		t.Errorf("the runner-up to %v is %v", poem.Meter.Foot, poem.Meter.RunnerUp)
	}
}

func TestEmphasisRaisesAWord(t *testing.T) {
	for _, test := range []struct{ plain, raised string }{
		{"He said it was his and he said it was gone", "He said it was *his* and he said it was gone"},
		{"He said it was his and he said it was gone", "He said it was HIS and he said it was gone"},
	} {
		beat := func(text string) bool {
			_, poem := scan(text + "\n")
			for _, s := range poem.Lines[0].Reading.Syllables {
				if strings.EqualFold(poem.Lines[0].Words[s.Word].Text, "his") {
					return s.Beat
				}
			}
			return false
		}
		if !beat(test.raised) {
			t.Errorf("%q: no beat on the raised word", test.raised)
		}
	}
}

// Rhymed lines of four beats that roll and march by turns, as nursery verse does,
// keep a meter all the same; the same looseness without rhyme is none.
func TestRhymeVouchesForMeter(t *testing.T) {
	const rolling = `Captain Thimble, five inches tall,
Sailed a walnut across the hall,
Over the rug and under the chair,
Past the cliffs of the kitchen stair.

Up blew a gale from the open door,
Ships had been lost on that checkered floor!
Captain Thimble took hold of the wheel,
Never had fingers gripped such a reel.

"Steady!" he cried to his crew of one
(A beetle named Button who weighed half a ton,
Or so it would seem when she sat on the sail),
"We'll ride out the whirl of this vacuum-tube gale!"

Round went the walnut and round went the floor,
Round went the fringe of the rug by the door,
Round went the beetle and down went the sun,
And home came the captain, his voyage all done.
`
	if _, poem := scan(rolling); !poem.Meter.Regular || poem.Meter.Beats[0] != 4 {
		t.Errorf("the rhymed verse keeps %s, want four beats", poem.Meter.Name())
	}
	unrhymed := strings.NewReplacer(" tall", " high", " chair", " bed", " door", " gate", " wheel", " helm", " one", " two", " sail", " deck", " floor", " walls", " sun", " moon").Replace(rolling)
	if _, poem := scan(unrhymed); poem.Meter.Regular {
		t.Errorf("the same without rhymes keeps %s, want none", poem.Meter.Name())
	}
}

// A beat falls on the stressed syllable of the last word even where too many
// slacks come before it: the ear then trips over them, and misses no beat.
func TestSlackRunBeforeTheLastBeat(t *testing.T) {
	m, poem := scan(`A sock who was stuck in the wash
Went round with a slosh and a slosh,
"I'm dizzy," he cried,
"Let me out! I've been fried!"
And he fell in the basket, kersplosh.

A mitten who'd lost her twin brother
Went looking all over for another,
She found in a drawer
A dozen or more,
And now she's the whole family's mother.

There once was an apron named Flo
Who wanted to be in a show,
She practiced her twirls
With the tablecloth girls,
And she danced in the wind to and fro.
`)
	l := &poem.Lines[6]
	if l.Break == nil {
		t.Fatalf("%q keeps its meter, deviance %.2f", m.Lines[6].Span.In(m.Text), l.Deviance)
	}
	if got := l.Reading.FeetPattern(); l.Break.Cause != scansion.SlackRun || got != "x/|xx/|xxx/|x" {
		t.Errorf("cause %d, heard %s; want %d, x/|xx/|xxx/|x", l.Break.Cause, got, scansion.SlackRun)
	}
}
