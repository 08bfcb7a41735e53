package card

import (
	"strconv"
	"strings"

	"dandle/analysis/scansion"
)

// lengths are the names of lines by their number of beats (Baum, The Principles
// of English Versification).
var lengths = [...]string{"", "monometer", "dimeter", "trimeter", "tetrameter", "pentameter", "hexameter", "heptameter", "octameter"}

// Meter is the name of a meter as one would say it: "anapestic tetrameter" where
// all lines have as many beats, else "iambic 4-3-4-3". It is empty where there
// is no meter.
func Meter(foot scansion.Foot, beats []int) string {
	if foot == scansion.NoMeter || len(beats) == 0 {
		return ""
	}
	same := true
	parts := make([]string, len(beats))
	for i, n := range beats {
		parts[i] = strconv.Itoa(n)
		same = same && n == beats[0]
	}
	if same && 0 < beats[0] && beats[0] < len(lengths) {
		return foot.String() + " " + lengths[beats[0]]
	}
	return foot.String() + " " + strings.Join(parts, "-")
}
