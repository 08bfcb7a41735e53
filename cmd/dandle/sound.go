package main

import (
	"flag"
	"fmt"
	"strings"

	"dandle/phonetics"
	"dandle/phonetics/arpabet"
)

func soundCommand() *command {
	return &command{
		name: "sound", synopsis: "[-f text|json] [--dialect TAG] WORD…", summary: "how a word sounds, and how dandle knows",
		help: `
Lists the ways to say each word, the most usual first: its syllables, their stress, its
sounds in the notation of the CMU Pronouncing Dictionary and in the IPA, and whether
they stand in the dictionary, are made of words that do, or are guessed from the letters.

Examples:

  dandle sound moonbeam
  dandle sound -f json lantern hush 1815
  dandle sound --dialect en-GB bath
`,
		flags: func(flags *flag.FlagSet) action {
			f := formatFlag(flags, textFormat, jsonFormat)
			d := dialectFlag(flags)
			return func(s *session, args []string) (int, error) { return s.sound(f.format, *d, args) }
		},
	}
}

func dialectFlag(flags *flag.FlagSet) *phonetics.Dialect {
	d := phonetics.EnUS
	flags.Func("dialect", "language `TAG` of the accent, such as en-GB (en-US where none is given)", func(text string) error {
		var err error
		d, err = phonetics.ParseDialect(text)
		return err
	})
	return &d
}

type soundedWord struct {
	Word   string        `json:"word"`
	Sounds []soundedForm `json:"sounds"`
}

type soundedForm struct {
	Arpabet   string   `json:"arpabet"`
	IPA       string   `json:"ipa"`
	Syllables []string `json:"syllables"`
	Pattern   string   `json:"pattern"`
	Stress    []int    `json:"stress"`
	Source    string   `json:"source"`
}

func (s *session) sound(f format, d phonetics.Dialect, words []string) (int, error) {
	if len(words) == 0 {
		return exitBad, misuse(`no word given; see "dandle sound --help"`)
	}
	reader := phonetics.NewReader(d, nil)
	list := make([]soundedWord, len(words))
	for i, word := range words {
		list[i] = soundOf(reader, word)
		if len(list[i].Sounds) == 0 {
			return exitBad, misuse("%q: nothing in it that can be said; give a word with letters or digits", word)
		}
	}
	if f == jsonFormat {
		return exitFine, encode(s.out, struct {
			Words []soundedWord `json:"words"`
		}{list})
	}
	for _, w := range list {
		fmt.Fprintln(s.out, s.paint.paint(bold, printable(w.Word)))
		for _, form := range w.Sounds {
			fmt.Fprintf(s.out, "  %-20s %-8s %-24s /%s/  %s\n", strings.Join(form.Syllables, "·"), form.Pattern,
				form.Arpabet, form.IPA, s.paint.paint(faint, form.Source))
		}
	}
	return exitFine, nil
}

func soundOf(reader *phonetics.Reader, word string) soundedWord {
	out := soundedWord{Word: word, Sounds: []soundedForm{}}
	for _, p := range reader.Pronounce(word, phonetics.Context{}) {
		form := soundedForm{Arpabet: p.Sounds.String(), IPA: p.IPA(reader.Dialect()), Syllables: []string{}, Stress: []int{}, Source: p.Source.String()}
		pattern := make([]byte, 0, len(p.Syllables))
		for _, syllable := range p.Syllables {
			form.Syllables = append(form.Syllables, word[syllable.Start:syllable.End])
			form.Stress = append(form.Stress, int(syllable.Stress))
			mark := byte('/')
			if syllable.Stress == arpabet.Unstressed {
				mark = 'x'
			}
			pattern = append(pattern, mark)
		}
		form.Pattern = string(pattern)
		out.Sounds = append(out.Sounds, form)
	}
	return out
}
