package main

import (
	"flag"
	"fmt"
	"strings"

	"dandle/analysis/suggest"
	"dandle/phonetics"
)

func rhymeCommand() *command {
	return &command{
		name: "rhyme", synopsis: "[-f text|json] [--slot xx/] [--near] [--sense WORD] [--sound SOUND | WORD]", summary: "words that rhyme, those that fit a slot",
		help: `
Lists words that rhyme with a word, best first. A slot is what the line still wants, one
character a syllable: "x/" asks for words of two syllables with the beat on the second. Where
few words fill it, a few words together are offered: "on the shore" for "xx/". With --sense,
those come first that lie near a word in sense; with --sound, the rhyme is given as a sound, in
ARPAbet ("AY1 T") or in the International Phonetic Alphabet ("aɪt").

Examples:

  dandle rhyme glow
  dandle rhyme --slot x/ glow
  dandle rhyme --sense winter boat
  dandle rhyme --sound "OW1 T"
  dandle rhyme --near --limit 20 lantern
`,
		flags: func(flags *flag.FlagSet) action {
			f := formatFlag(flags, textFormat, jsonFormat)
			d := dialectFlag(flags)
			var o suggest.Options
			flags.Func("slot", "only words of this `PATTERN`, \"/\" a beat and \"x\" slack", func(text string) error {
				o.Slot = text
				if text == "" || strings.Trim(text, "/x") != "" {
					return fmt.Errorf("write one character a syllable, / for a beat and x for slack, such as xx/")
				}
				return nil
			})
			flags.BoolVar(&o.Near, "near", false, "near rhymes too, after the perfect ones")
			flags.StringVar(&o.Sense, "sense", "", "first those that lie near this `WORD` in sense")
			flags.Func("sound", "words that end in this `SOUND`, in ARPAbet or IPA", func(text string) error {
				sound, err := phonetics.ParseSpoken(text)
				o.Sound = sound
				return err
			})
			flags.IntVar(&o.Limit, "limit", 200, "the most words to list, a `NUMBER` from 1")
			return func(s *session, args []string) (int, error) { return s.rhyme(f.format, *d, o, args) }
		},
	}
}

type rhymed struct {
	Text    string  `json:"text"`
	Kind    string  `json:"kind"`
	Pattern string  `json:"pattern"`
	Score   float64 `json:"score"`
}

func (s *session) rhyme(f format, d phonetics.Dialect, o suggest.Options, args []string) (int, error) {
	switch {
	case o.Sound != "" && len(args) > 0:
		return exitBad, misuse("a word and --sound are given; name one of them to rhyme with")
	case o.Sound == "" && len(args) != 1:
		return exitBad, misuse(`%d words given; name the one to rhyme with (quote several words that end a line)`, len(args))
	}
	if o.Limit < 1 {
		return exitBad, misuse("--limit %d: nothing would be listed; give a number from 1", o.Limit)
	}
	word := o.Sound.String()
	if o.Sound == "" {
		word = args[0]
	}
	list := []rhymed{}
	for _, item := range suggest.Rhymes(word, phonetics.NewReader(d, nil), o) {
		list = append(list, rhymed{Text: item.Text, Kind: item.Kind.String(), Pattern: item.Pattern, Score: rounded(item.Score)})
	}
	if f == jsonFormat {
		return exitFine, encode(s.out, struct {
			Word   string   `json:"word"`
			Slot   string   `json:"slot"`
			Rhymes []rhymed `json:"rhymes"`
		}{word, o.Slot, list})
	}
	if len(list) == 0 {
		fmt.Fprintf(s.out, "Nothing found that rhymes with %s%s.\n", printable(word), remedy(o))
		return exitFine, nil
	}
	wide := 0
	for _, r := range list {
		wide = max(wide, width(r.Text))
	}
	for _, r := range list {
		fmt.Fprintf(s.out, "%s%s  %-8s %s\n", r.Text, strings.Repeat(" ", wide-width(r.Text)), r.Pattern, s.paint.paint(faint, r.Kind))
	}
	return exitFine, nil
}

// remedy says how to look wider.
func remedy(o suggest.Options) string {
	switch {
	case o.Slot != "":
		return " and fits " + o.Slot + "; try another slot, or none"
	case !o.Near:
		return "; try --near"
	}
	return ""
}
