package card

import (
	"fmt"
	"strings"

	"dandle/analysis/scansion"
)

// What is heard in a line is told without a doubt where there is none. The
// thresholds are ours: who looks at a line in step wants to see its feet, and no
// other way to take them.
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

// NextBest is the foot that would explain a part of a poem next best, where its
// meter is no sure thing. The second result is false where it is one.
func NextBest(meter scansion.Meter) (scansion.Foot, bool) {
	unsure := meter.Regular && !meter.Declared && meter.Confidence < sureOfMeter
	return meter.RunnerUp, unsure && meter.RunnerUp != scansion.NoMeter
}

// Otherwise says how else a line could as well be read by itself, in feet and
// beats, likeliest first: "x/|x/|x/ (3 beats)". It is empty where the ear is sure
// of the line under the meter of its part.
func Otherwise(poem *scansion.Poem, line int, meter scansion.Meter) string {
	if _, unsure := NextBest(meter); !meter.Regular || !unsure && poem.Lines[line].Deviance < sureOfLine {
		return ""
	}
	var ways []string
	for _, a := range poem.Alternatives(line) {
		if a.Cost <= asLikely {
			ways = append(ways, fmt.Sprintf("%s (%s)", a.Feet, beats(a.Beats)))
		}
	}
	return strings.Join(ways, ", or ")
}

func beats(n int) string {
	if n == 1 {
		return "1 beat"
	}
	return fmt.Sprintf("%d beats", n)
}
