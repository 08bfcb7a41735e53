package critique

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"dandle/analysis/checks"
	"dandle/analysis/scansion"
)

// Praise is gathered by kind, in this order: what took the most art first.
var praised = []struct {
	code checks.Code
	one  string // with the quotation
	many string // with the number
	keep string // what the letter parts with, with the quotation and the line; empty where it never does
	most int    // so many places at most; the rest show under the words
}{
	{"praise/refrain", "%s comes back true to itself, and a room will soon be saying it along", "%s refrains come back true to themselves, and a room will soon be saying them along", "", 4},
	{"praise/page-turn", "", "In %s places the page turns just where a listener has to know what comes", "keep the turn of the page behind line %[2]d: nobody will let a reader stop at %[1]s", 3},
	{"praise/variation", "", "In %s places the meter bends just as something happens, so that the tune tells it too", "keep line %[2]d as it is: the meter bends at %[1]s, and the tune tells the story too", 3},
	{"praise/internal-rhyme", "%s rhymes inside the line, before the ear has asked for it", "%s lines rhyme inside, before the ear has asked for it", "keep the rhyme inside line %[2]d, %[1]s", 3},
	{"praise/alliteration", "%s is a pleasure in the mouth: its strong syllables begin alike", "Strong syllables that begin alike make %s places a pleasure in the mouth", "keep %[1]s in line %[2]d: it is a joy to say", 3},
	{"praise/assonance", "One vowel rings all through %s", "In %s places one vowel rings through the strong words", "keep the sound of %[1]s in line %[2]d", 3},
	{"praise/consonance", "Strong syllables close on one sound in %s", "In %s places strong syllables close on one sound", "keep the sound of %[1]s in line %[2]d", 2},
	{"praise/sound-word", "%s makes the sound that it tells", "%s words make the sound that they tell", "keep %[1]s in line %[2]d: it makes the sound that it tells", 4},
}

// shownPraise is for how many kinds of praise a line is set with its feet.
const shownPraise = 2

// welcome lists the praise of a kind that no other note spoils: what is asked to
// change is not praised in the same breath.
func (w *writer) welcome(code checks.Code) []int {
	return w.open(func(f checks.Finding) bool {
		if f.Code != code || f.Severity != checks.Praise {
			return false
		}
		for _, i := range w.faults[f.Line] {
			g := w.Findings[i]
			if g.Code.Area() == "meter" && g.Severity > checks.Hint || g.Span.Start < f.Span.End && f.Span.Start < g.Span.End {
				return false
			}
		}
		// Sounds on either side of a full stop or a quotation mark are heard,
		// and are hard to quote.
		return code == "praise/refrain" || !strings.ContainsAny(w.place(f).Quote, ".!?;“”\"")
	})
}

// works says what works: how many lines keep the beat, where that is most of
// them, and what is a pleasure to say.
func (w *writer) works() Section {
	s := Section{Kind: Works, Heading: "What works"}
	if text := w.kept(); text != "" {
		s.Paragraphs = append(s.Paragraphs, text)
	}
	kinds := 0
	for _, kind := range praised {
		list := w.welcome(kind.code)
		if len(list) == 0 || w.tone == Brief && kinds == 2 {
			continue
		}
		kinds++
		s.Notes = append(s.Notes, w.praise(kind.code, kind.one, kind.many, list, kind.most))
	}
	if len(s.Paragraphs)+len(s.Notes) == 0 {
		n := len(w.Manuscript.Lines)
		s.Paragraphs = append(s.Paragraphs, fmt.Sprintf("There %s on the page to read aloud, and that is where every book begins.", pick(n, "is one line", "are "+counted(n, "line"))))
	}
	return s
}

// praise is one note about all places of a kind. The most confident are quoted.
func (w *writer) praise(code checks.Code, one, many string, list []int, most int) Note {
	n := Note{Code: code, Severity: checks.Praise}
	said := map[string]bool{}
	refrain := map[string][]Place{}
	for _, i := range list {
		w.told[i] = true
		p := w.place(w.Findings[i])
		if code == "praise/refrain" {
			// A refrain is reported wherever it stands; it is one thing.
			key := strings.ToLower(strings.Trim(p.Quote, " .,;:!?—–-"))
			n.Findings = append(n.Findings, i)
			if refrain[key] = append(refrain[key], p); len(refrain[key]) > 1 {
				continue
			}
			p.Quote = strings.Trim(p.Quote, " .,;:")
			n.Places = append(n.Places, p)
			continue
		}
		if said[p.Quote] {
			continue // a refrain's sounds come back with it
		}
		said[p.Quote] = true
		if len(n.Places) < most {
			n.Places = append(n.Places, p)
			n.Findings = append(n.Findings, i)
		}
	}
	if v := n.Places[0].Verse; v >= 0 && w.tone == Full && w.Poem.Meter.Regular && w.shown < shownPraise {
		n.Feet = []Verse{w.verse(v)}
		w.shown++
	}
	switch {
	case len(n.Places) > 1:
		n.Text = fmt.Sprintf(many, cardinal(len(n.Places))) + ":"
		n.Text = capital(n.Text)
	case one == "":
		n.Text = w.Findings[list[0]].Message
	default:
		n.Text = fmt.Sprintf(one, quoted(n.Places[0].Quote))
		if code == "praise/refrain" {
			n.Text += fmt.Sprintf(" (%s)", lineNumbers(slices.Concat(slices.Collect(maps.Values(refrain))...)))
		}
		n.Text += "."
	}
	return n
}

// kept says how many lines keep the meter, where it is a thing to be glad of.
func (w *writer) kept() string {
	if !w.Poem.Meter.Regular {
		return ""
	}
	total, fit := 0, 0
	for i := range w.Poem.Lines {
		if l := &w.Poem.Lines[i]; len(l.Reading.Syllables) > 0 {
			total++
			if l.Fits && !w.stumbles(i) {
				fit++
			}
		}
	}
	switch {
	case total < 4 || fit*4 < total*3:
		return ""
	case fit == total:
		return fmt.Sprintf("All %s lines keep their beat; my ear stumbled over none of them.", cardinal(total))
	case total-fit == 1:
		return fmt.Sprintf("Of %s lines, all but one keep their beat. The tune is there, and the ear trusts it.", cardinal(total))
	}
	return fmt.Sprintf("Of %s lines, %s keep their beat. The tune is there, and the ear trusts it.", cardinal(total), cardinal(fit))
}

// stumbles reports whether a finding about the meter warns of a line.
func (w *writer) stumbles(line int) bool {
	return slices.ContainsFunc(w.faults[line], func(i int) bool {
		return w.Findings[i].Code.Area() == "meter" && w.Findings[i].Severity == checks.Warning
	})
}

// parting holds back one piece of praise for the last words of the letter,
// where there is enough: the surest, and of those the last.
func (w *writer) parting() string {
	var list []int
	keep := map[checks.Code]string{}
	for _, kind := range praised {
		if kind.keep != "" {
			list = append(list, w.welcome(kind.code)...)
			keep[kind.code] = kind.keep
		}
	}
	if len(list) < 2 {
		return ""
	}
	last, times := -1, map[string]int{}
	for _, i := range list {
		times[w.place(w.Findings[i]).Quote]++
	}
	for _, i := range list {
		if times[w.place(w.Findings[i]).Quote] > 1 {
			continue
		}
		if last < 0 || w.Findings[i].Confidence > w.Findings[last].Confidence ||
			w.Findings[i].Confidence == w.Findings[last].Confidence && w.Findings[i].Span.Start > w.Findings[last].Span.Start {
			last = i
		}
	}
	if last < 0 {
		return ""
	}
	f := w.Findings[last]
	w.told[last] = true
	p := w.place(f)
	return "And whatever else moves, " + fmt.Sprintf(keep[f.Code], quoted(p.Quote), p.Line) + "."
}

// steps are the next three, and the last words.
func (w *writer) steps(first Section, parting string) Section {
	s := Section{Kind: NextSteps, Heading: "The next three steps", Closing: parting}
	turned := w.linesOf("word/inverted-order")
	meter, rest := w.linesOf("meter"), w.linesOf("rhyme")
	words := w.linesOf("word/filler", "word/padding-do", "word/weak")
	switch {
	case len(meter) > 0:
		s.Steps = append(s.Steps, fmt.Sprintf("Say %s aloud, %s, and tap the beats.", lineNumbers(meter), pick(len(meter), "together with the line before it", "each with the line before it")))
	case len(first.Notes) > 0 && len(words)+len(rest)+len(turned) == 0:
		s.Steps = append(s.Steps, "Go through the notes above with a pencil, and keep whatever you meant.")
	}
	if len(rest) > 0 {
		s.Steps = append(s.Steps, fmt.Sprintf("Listen to the rhymes in %s in the voice of the reader you have in mind.", lineNumbers(rest)))
	}
	if len(turned) > 0 {
		s.Steps = append(s.Steps, fmt.Sprintf("Say what happens in %s as you would tell it across a table, and look for the rhyme from there.", lineNumbers(turned)))
	}
	if len(words) > 0 {
		s.Steps = append(s.Steps, fmt.Sprintf("Try %s without the %s marked there; what is missed can come back.", lineNumbers(words), pick(len(words), "word", "words")))
	}
	pages := "Draw a box for every page turn, and see what changes from one to the next."
	if len(w.Manuscript.Spreads) > 0 {
		pages = "Ask at every page turn what makes a listener want the next page."
	}
	for _, step := range []string{
		"Ask somebody who has not seen it to read it aloud, and mark where the voice stumbles.",
		"Lay it by for a week, then read it through once in one breath.",
		pages,
	} {
		if len(s.Steps) < 3 {
			s.Steps = append(s.Steps, step)
		}
	}
	s.Steps = s.Steps[:3]
	return s
}

// linesOf is the places of some codes' or areas' findings, the hints left out:
// eight at most, which is enough for one sitting.
func (w *writer) linesOf(codes ...string) []Place {
	var list []Place
	for _, f := range w.Findings {
		if f.Severity > checks.Hint && f.Line >= 0 && (slices.Contains(codes, f.Code.Area()) || slices.Contains(codes, string(f.Code))) {
			list = append(list, w.place(f))
		}
	}
	return list[:min(len(list), 8)]
}

// footWords say what a foot does, for who has never met its name.
var footWords = map[scansion.Foot]struct{ steps, sung string }{
	scansion.Iambic:       {"a light syllable, then a strong one", "da-DUM"},
	scansion.Trochaic:     {"a strong syllable, then a light one", "DUM-da"},
	scansion.Anapestic:    {"two light syllables, then a strong one", "da-da-DUM"},
	scansion.Dactylic:     {"a strong syllable, then two light ones", "DUM-da-da"},
	scansion.Amphibrachic: {"a strong syllable with a light one on either side", "da-DUM-da"},
}
