package scansion_test

import (
	"strings"
	"testing"

	"dandle/analysis/manuscript"
	"dandle/analysis/scansion"
	"dandle/phonetics"
)

// scan hears a text as a manuscript.
func scan(text string) (*manuscript.Manuscript, *scansion.Poem) {
	m := manuscript.Parse(text)
	return m, scansion.Scan(m, scansion.NewMemo(phonetics.NewReader(phonetics.EnUS, nil)))
}

// worked are scansions that handbooks of English verse print or describe: the
// foot and length named, and with them each line's beats. Verse in the public
// domain; where a handbook names the meter of the poem and gives no marks, the
// marks are the plain line with the variations that it names. All from memory.
var worked = []struct {
	source string
	foot   scansion.Foot
	beats  []int
	lines  string // verse and pattern, parted by "="
}{
	{"Saintsbury, Historical Manual of English Prosody: Byron's anapests", scansion.Anapestic, []int{4}, `
The Assyrian came down like the wolf on the fold, = xx/xx/xx/xx/
And his cohorts were gleaming in purple and gold; = xx/xx/xx/xx/
And the sheen of their spears was like stars on the sea, = xx/xx/xx/xx/
When the blue wave rolls nightly on deep Galilee. = xx/xx/xx/xx/`},
	{"Alden, English Verse: Cowper's three-foot anapests", scansion.Anapestic, []int{3}, `
I am monarch of all I survey, = xx/xx/xx/
My right there is none to dispute, = x/xx/xx/
From the centre all round to the sea = xx/xx/xx/
I am lord of the fowl and the brute. = xx/xx/xx/`},
	{"Turco, Book of Forms: Moore's anapests with their light opening feet", scansion.Anapestic, []int{4}, `
'Twas the night before Christmas, when all through the house = xx/xx/xx/xx/
Not a creature was stirring, not even a mouse; = xx/xx/xx/xx/
The stockings were hung by the chimney with care, = x/xx/xx/xx/
In hopes that St. Nicholas soon would be there. = x/xx/xx/xx/`},
	{"Baum, Principles of English Versification: Longfellow's full trochees", scansion.Trochaic, []int{4}, `
Should you ask me, whence these stories, = /x/x/x/x
Whence these legends and traditions, = /x/x/x/x
With the odors of the forest, = /x/x/x/x
With the dew and damp of meadows, = /x/x/x/x`},
	{"Fussell, Poetic Meter and Poetic Form: Blake's catalectic trochees", scansion.Trochaic, []int{4}, `
Tyger Tyger, burning bright, = /x/x/x/
In the forests of the night; = /x/x/x/
What immortal hand or eye, = /x/x/x/
Could frame thy fearful symmetry? = x/x/x/x/`},
	{"Alden, English Verse: Longfellow's alternate trochees", scansion.Trochaic, []int{4}, `
Tell me not, in mournful numbers, = /x/x/x/x
Life is but an empty dream! = /x/x/x/
For the soul is dead that slumbers, = /x/x/x/x
And things are not what they seem. = x/x/x/x/`},
	{"Saintsbury: Poe's eight-foot trochees", scansion.Trochaic, []int{8}, `
Once upon a midnight dreary, while I pondered, weak and weary, = /x/x/x/x/x/x/x/x
Over many a quaint and curious volume of forgotten lore, = /x/x/x/x/x/x/x/
While I nodded, nearly napping, suddenly there came a tapping, = /x/x/x/x/x/x/x/x
As of some one gently rapping, rapping at my chamber door. = /x/x/x/x/x/x/x/`},
	{"Baum: Hood's dactyls", scansion.Dactylic, []int{2}, `
Take her up tenderly, = /xx/xx
Lift her with care; = /xx/
Fashioned so slenderly, = /xx/xx
Young, and so fair! = /xx/`},
	{"Alden: Tennyson's two-foot dactyls", scansion.Dactylic, []int{2}, `
Cannon to right of them, = /xx/xx
Cannon to left of them, = /xx/xx
Cannon in front of them = /xx/xx
Volleyed and thundered; = /xx/x`},
	{"Saintsbury: Longfellow's six-foot dactyls", scansion.Dactylic, []int{6}, `
This is the forest primeval. The murmuring pines and the hemlocks, = /xx/xx/xx/xx/xx/x
Bearded with moss, and in garments green, indistinct in the twilight, = /xx/xx/x/xx/xx/x
Stand like Druids of eld, with voices sad and prophetic, = /x/xx/x/x/xx/x
Stand like harpers hoar, with beards that rest on their bosoms. = /x/x/x/x/xx/x`},
	{"Gummere, Handbook of Poetics: Gray's heroic quatrain", scansion.Iambic, []int{5}, `
The curfew tolls the knell of parting day, = x/x/x/x/x/
The lowing herd winds slowly o'er the lea, = x/x/x/x/x/
The ploughman homeward plods his weary way, = x/x/x/x/x/
And leaves the world to darkness and to me. = x/x/x/x/x/`},
	{"Baum: common measure, four feet and three", scansion.Iambic, []int{4, 3}, `
God moves in a mysterious way = x/x/x/x/
His wonders to perform; = x/x/x/
He plants his footsteps in the sea, = x/x/x/x/
And rides upon the storm. = x/x/x/

Deep in unfathomable mines = x/x/x/x/
Of never failing skill = x/x/x/
He treasures up his bright designs = x/x/x/x/
And works his sovereign will. = x/x/x/`},
	{"Fry, The Ode Less Travelled: Marlowe's four-foot iambs", scansion.Iambic, []int{4}, `
Come live with me and be my love, = x/x/x/x/
And we will all the pleasures prove, = x/x/x/x/
That valleys, groves, hills, and fields, = x/x//x/
Woods, or steepy mountain yields. = /x/x/x/`},
	{"Turco: Woodworth's amphibrachs", scansion.Amphibrachic, []int{4}, `
How dear to my heart are the scenes of my childhood, = x/xx/xx/xx/x
When fond recollection presents them to view! = x/xx/xx/xx/
The orchard, the meadow, the deep-tangled wildwood, = x/xx/xx/xx/x
And every loved spot which my infancy knew. = x/xx/xx/xx/`},
	{"Webster 1913 Supplement: the limerick, 3-3-2-2-3", scansion.Anapestic, []int{3, 3, 2, 2, 3}, `
There was an Old Man with a beard, = x/xx/xx/
Who said, "It is just as I feared! = x/xx/xx/
Two Owls and a Hen, = x/xx/
Four Larks and a Wren, = x/xx/
Have all built their nests in my beard!" = x/xx/xx/

There was an Old Man in a boat, = x/xx/xx/
Who said, "I'm afloat! I'm afloat!" = x/xx/xx/
When they said, "No, you ain't!" = xx/xx/
He was ready to faint, = xx/xx/
That unhappy Old Man in a boat. = xx/xx/xx/`},
}

func TestHandbooks(t *testing.T) {
	lines, right := 0, 0
	for _, w := range worked {
		var verse, patterns []string
		for row := range strings.Lines(strings.TrimSpace(w.lines)) {
			text, pattern, found := strings.Cut(strings.TrimSpace(row), " = ")
			verse = append(verse, text)
			if found {
				patterns = append(patterns, pattern)
			}
		}
		t.Run(w.source, func(t *testing.T) {
			_, poem := scan(strings.Join(verse, "\n") + "\n")
			if got := poem.Meter.Foot; got != w.foot {
				t.Errorf("foot %v, want %v", got, w.foot)
			}
			for i, want := range patterns {
				l := &poem.Lines[i]
				lines++
				if got := l.Reading.Pattern(); got != want {
					t.Logf("%s: got %s, want %s", l.Words[0].Text, got, want)
				} else {
					right++
				}
				if got, want := l.Beats, w.beats[i%len(w.beats)]; got != want {
					t.Errorf("line %d: its place calls for %d beats, want %d", i+1, got, want)
				}
			}
		})
	}
	t.Logf("%d of %d lines as the handbooks have them", right, lines)
	if lines < 40 || right*100 < lines*90 {
		t.Errorf("%d of %d lines as the handbooks have them, want nine of ten", right, lines)
	}
}
