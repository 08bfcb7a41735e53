package lsp

import (
	"fmt"
	"strings"

	"dandle/analysis/scansion"
)

// What is heard in a line is told without a doubt where there is none. The
// thresholds are ours: a writer who points at a line in step wants to see its
// feet, and no other way to take them.
const (
	// sureOfMeter is the confidence (0 … 1) from which no other meter is named.
	sureOfMeter = 0.75
	// sureOfLine is the deviance (0 fits … 1 certainly off) up to which a line is
	// told without other ways to read it.
	sureOfLine = 0.1
	// asLikely is the cost up to which another reading is as good as told with
	// the best: it is at least half as likely.
	asLikely = 0.7
)

// doubts say where another ear may hear a line otherwise: the meter that would
// explain its part of the poem next best, and the other ways to read the line by
// itself. There are none where dandle is sure.
func doubts(poem *scansion.Poem, line int, meter scansion.Meter) []string {
	var out []string
	sure := meter.Declared || meter.Confidence >= sureOfMeter
	if !sure && meter.RunnerUp != scansion.NoMeter {
		out = append(out, fmt.Sprintf("I am %.0f %% sure of %s here; %s feet would explain these lines next best.", 100*meter.Confidence, meter.Name(), meter.RunnerUp))
	}
	if sure && poem.Lines[line].Deviance < sureOfLine {
		return out
	}
	var ways []string
	for _, a := range poem.Alternatives(line) {
		if a.Cost <= asLikely {
			ways = append(ways, fmt.Sprintf("%s (%s)", a.Feet, count(a.Beats, "beat")))
		}
	}
	if len(ways) > 0 {
		out = append(out, fmt.Sprintf("By itself the line could as well be said %s.", strings.Join(ways, ", or ")))
	}
	return out
}
