package page

import (
	"fmt"
	"strings"

	"dandle/analysis/critique"
	"dandle/analysis/scansion"
)

// A strip is one stanza as beats: a bar for a beat, a dot for a slack, the
// beats of all lines one under the other.
type strip struct {
	Number        int
	Width, Height int
	Rows          []row
	Odd           string // the lines out of step, in words
	Says          string // what the picture shows, for who does not see it
}

type row struct {
	Y     int
	Off   bool
	Bars  []int // x of each beat
	Over  []int // x of each beat that its place does not call for
	Short []int // x where a beat is missing
	Dots  []int // x of each slack
}

// Measures of a strip, in pixels.
const (
	lead    = 34 // for the mark of an odd line and the slacks before the first beat
	step    = 24 // from beat to beat
	rowStep = 16
)

func strips(p critique.Parts) []strip {
	var list []strip
	for s, st := range p.Manuscript.Stanzas {
		one := strip{Number: s + 1, Height: rowStep*(st.To-st.From) + 4}
		var beats, odd []string
		most := 1
		for i := st.From; i < st.To; i++ {
			line := &p.Poem.Lines[i]
			r := rowOf(line, rowStep*(i-st.From)+rowStep/2+2)
			one.Rows = append(one.Rows, r)
			n := len(r.Bars) + len(r.Over)
			most = max(most, n+len(r.Short))
			beats = append(beats, fmt.Sprint(n))
			if r.Off {
				odd = append(odd, fmt.Sprint(p.Manuscript.Lines[i].Number))
			}
		}
		one.Width = lead + step*most + 8
		one.Says = fmt.Sprintf("Verse %d: lines of %s beats", s+1, strings.Join(beats, ", "))
		if len(odd) > 0 {
			one.Odd = "line " + strings.Join(odd, ", line ")
			one.Says += "; out of step: " + one.Odd
		}
		list = append(list, one)
	}
	return list
}

// rowOf lays a line out: beats at even distances, the slacks spread between.
func rowOf(line *scansion.Line, y int) row {
	r := row{Y: y, Off: !line.Fits}
	beat := 0
	slack := 0
	flush := func(before bool) {
		for k := range slack {
			if before {
				r.Dots = append(r.Dots, lead-7*(slack-k))
				continue
			}
			r.Dots = append(r.Dots, lead+step*(beat-1)+step*(k+1)/(slack+1))
		}
		slack = 0
	}
	for _, s := range line.Reading.Syllables {
		if !s.Beat {
			slack++
			continue
		}
		flush(beat == 0)
		x := lead + step*beat
		if r.Off && line.Beats > 0 && beat >= line.Beats {
			r.Over = append(r.Over, x)
		} else {
			r.Bars = append(r.Bars, x)
		}
		beat++
	}
	flush(false)
	for k := beat; r.Off && k < line.Beats; k++ {
		r.Short = append(r.Short, lead+step*k)
	}
	return r
}
