package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"dandle/analysis"
	"dandle/analysis/card"
	"dandle/analysis/rhyme"
	"dandle/analysis/scansion"
)

func scanCommand() *command {
	return &command{
		name: "scan", synopsis: "[-f text|json] FILE|FOLDER…", summary: "every line with its feet under its syllables",
		help: `
Prints every line of verse with its feet: "/" is a beat, "x" is slack, "|" parts the
feet. Beside it stand the letter of its rhyme and, where the line does not fit its
place in the stanza, the feet that its place calls for.

Examples:

  dandle scan lamp.verse
  dandle scan -f json *.verse > feet.json
  pbpaste | dandle scan -
`,
		flags: func(flags *flag.FlagSet) action {
			f := formatFlag(flags, textFormat, jsonFormat)
			return func(s *session, args []string) (int, error) { return s.scan(f.format, args) }
		},
	}
}

func (s *session) scan(f format, named []string) (int, error) {
	files, complete, err := s.files(named)
	if err != nil {
		return exitBad, err
	}
	out := list{between: "\n"}.to(s.out)
	prepare := func(r reading) ([]byte, error) { return scanText(r, s.paint), nil }
	if f == jsonFormat {
		out = filesList.to(s.out)
		prepare = func(r reading) ([]byte, error) { return json.Marshal(scanOf(r)) }
	}
	all, err := readManuscripts(s, files, prepare, out.add)
	if err != nil {
		return exitBad, err
	}
	if err := out.end(); err != nil || !all || !complete {
		return exitBad, err
	}
	return exitFine, nil
}

type scannedFile struct {
	File    string          `json:"file"`
	Meter   scannedMeter    `json:"meter"`
	Stanzas []scannedStanza `json:"stanzas"`
}

type scannedMeter struct {
	Name       string  `json:"name"`
	Foot       string  `json:"foot"`
	Feet       []int   `json:"feet"`
	Confidence float64 `json:"confidence"`
}

type scannedStanza struct {
	Scheme string        `json:"scheme"`
	Lines  []scannedLine `json:"lines"`
}

type scannedLine struct {
	Line     int     `json:"line"`
	Text     string  `json:"text"`
	Pattern  string  `json:"pattern"`
	Feet     string  `json:"feet"`
	Rhyme    string  `json:"rhyme"`
	Fits     bool    `json:"fits"`
	Deviance float64 `json:"deviance"`
}

// scanOf is what is heard in a file, in the shape of the JSON.
func scanOf(r reading) scannedFile {
	m, poem, schemes := r.snapshot.Manuscript(), r.snapshot.Poem(), r.snapshot.Schemes()
	meter := meterOf(r.snapshot)
	file := scannedFile{
		File: r.name,
		Meter: scannedMeter{
			Name:       meter.Name(),
			Foot:       meter.Foot.String(),
			Feet:       append([]int{}, meter.Beats...),
			Confidence: rounded(meter.Confidence),
		},
		Stanzas: make([]scannedStanza, 0, len(m.Stanzas)),
	}
	for i, stanza := range m.Stanzas {
		out := scannedStanza{Scheme: schemes[i].String(), Lines: make([]scannedLine, 0, stanza.To-stanza.From)}
		for at := stanza.From; at < stanza.To; at++ {
			line, heard := &m.Lines[at], &poem.Lines[at]
			out.Lines = append(out.Lines, scannedLine{
				Line:     line.Number,
				Text:     line.Span.In(m.Text),
				Pattern:  heard.Reading.Pattern(),
				Feet:     heard.Reading.FeetPattern(),
				Rhyme:    schemes[i].Letters[at-stanza.From],
				Fits:     heard.Fits,
				Deviance: rounded(heard.Deviance),
			})
		}
		file.Stanzas = append(file.Stanzas, out)
	}
	return file
}

// meterOf is the meter of a manuscript, with the beats of each line of the
// stanza where its lines differ and all stanzas have as many: 4, 3 becomes 4, 3,
// 4, 3.
func meterOf(s *analysis.Snapshot) scansion.Meter {
	meter, stanzas := s.Poem().Meter, s.Manuscript().Stanzas
	if len(meter.Beats) < 2 {
		return meter
	}
	length := stanzas[0].To - stanzas[0].From
	for _, stanza := range stanzas {
		if stanza.To-stanza.From != length || length%len(meter.Beats) != 0 {
			return meter
		}
	}
	meter.Beats = slices.Repeat(meter.Beats, length/len(meter.Beats))
	return meter
}

// scanText is what is heard in a file, for a person.
func scanText(r reading, p painter) []byte {
	m, poem, schemes := r.snapshot.Manuscript(), r.snapshot.Poem(), r.snapshot.Schemes()
	var b bytes.Buffer
	fmt.Fprintf(&b, "%s: %s\n", p.paint(bold, printable(r.name)), meterSentence(r.snapshot))
	for i, stanza := range m.Stanzas {
		fmt.Fprintf(&b, "\n%s\n", p.paint(faint, "stanza "+strconv.Itoa(i+1)+", "+schemeName(schemes[i])))
		for at := stanza.From; at < stanza.To; at++ {
			line, heard := &m.Lines[at], &poem.Lines[at]
			block := card.Line(m.Text, *line, *heard)
			letter := p.paint(cyan, schemes[i].Letters[at-stanza.From])
			if block.Syllables == "" {
				fmt.Fprintf(&b, "%5d    %s  %s\n", line.Number, printable(line.Span.In(m.Text)), letter)
				continue
			}
			marks := p.paint(faint, block.Marks)
			if !heard.Fits {
				marks = p.paint(yellow, block.Marks)
			}
			fmt.Fprintf(&b, "         %s\n%5d    %s   %s\n", marks, line.Number, block.Syllables, letter)
			if block.Break != "" {
				fmt.Fprintf(&b, "         %s\n", p.paint(yellow, block.Break))
			}
			if !heard.Fits && heard.Expected != "" && heard.Expected != heard.Reading.FeetPattern() {
				fmt.Fprintf(&b, "         %s\n", p.paint(yellow, "its place calls for "+card.Spaced(heard.Expected)))
			}
			if ways := card.Otherwise(poem, at, partMeter(poem, i)); ways != "" {
				fmt.Fprintf(&b, "         %s\n", p.paint(faint, "by itself it could be said "+ways))
			}
		}
	}
	return b.Bytes()
}

func schemeName(s rhyme.Scheme) string {
	name := s.String()
	if strings.Trim(name, rhyme.Unrhymed) == "" {
		return "no rhymes"
	}
	return name
}

// meterSentence says which meter a manuscript keeps, and how it is known.
func meterSentence(s *analysis.Snapshot) string {
	meter := meterOf(s)
	switch {
	case len(s.Manuscript().Lines) == 0:
		return "no verse found; it stands in lines, with a blank line between stanzas"
	case meter.Declared:
		return meter.Name() + ", as its front matter says"
	case !meter.Regular:
		return meter.Name() + leaning(s)
	}
	sentence := fmt.Sprintf("%s, %d %% sure", meter.Name(), int(100*meter.Confidence+0.5))
	if next, unsure := card.NextBest(meter); unsure {
		sentence += fmt.Sprintf("; %s feet would explain it next best", next)
	}
	return sentence
}

// leaning names the meters that lines lean to where they keep none.
func leaning(s *analysis.Snapshot) string {
	var list []string
	for _, l := range s.Poem().Leanings() {
		list = append(list, fmt.Sprintf("%s in %d of %d lines", l.Meter.Name(), len(l.Lines), len(s.Manuscript().Lines)))
	}
	if len(list) == 0 {
		return ""
	}
	return "; it leans to " + strings.Join(list, ", and to ")
}

// partMeter is the meter of the part of a poem that a stanza belongs to.
func partMeter(poem *scansion.Poem, stanza int) scansion.Meter {
	for _, part := range poem.Parts {
		if slices.Contains(part.Stanzas, stanza) {
			return part.Meter
		}
	}
	return poem.Meter
}
