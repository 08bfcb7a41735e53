package scansion

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// lengths are the names of lines by their number of beats.
var lengths = [...]string{"", "monometer", "dimeter", "trimeter", "tetrameter", "pentameter", "hexameter", "heptameter", "octameter"}

// Name is the meter as one would say it: "anapestic tetrameter", or "iambic
// 4-3-4-3" where the lines of a stanza differ.
func (m *Meter) Name() string {
	switch {
	case m.Foot == NoMeter:
		return "no meter"
	case !m.Regular:
		return "no regular meter"
	case len(m.Beats) == 1 && 0 < m.Beats[0] && m.Beats[0] < len(lengths):
		return m.Foot.String() + " " + lengths[m.Beats[0]]
	}
	list := make([]string, len(m.Beats))
	for i, n := range m.Beats {
		list[i] = strconv.Itoa(n)
	}
	return m.Foot.String() + " " + strings.Join(list, "-")
}

// ParseMeter reads a meter's name as a writer gives it: a foot, and a length by
// name or as beats line by line: "anapestic tetrameter", "iambic 4-3-4-3",
// "trochaic". Without a length Beats is empty. The error says what is known.
func ParseMeter(name string) (Meter, error) {
	words := strings.Fields(strings.ToLower(name))
	if len(words) == 0 || len(words) > 2 {
		return Meter{}, fmt.Errorf("meter %q is not known; write a foot and a length, such as “anapestic tetrameter” or “iambic 4-3-4-3”", name)
	}
	m := Meter{Regular: true, Declared: true, Confidence: 1}
	for f := Iambic; f <= Mixed; f++ {
		if words[0] == f.String() {
			m.Foot = f
		}
	}
	if m.Foot == NoMeter {
		return Meter{}, fmt.Errorf("meter %q: no foot is called %q; known are iambic, trochaic, anapestic, dactylic, amphibrachic and mixed", name, words[0])
	}
	if len(words) == 1 {
		return m, nil
	}
	if i := slices.Index(lengths[:], words[1]); i > 0 {
		m.Beats = []int{i}
		return m, nil
	}
	for part := range strings.SplitSeq(words[1], "-") {
		n, err := strconv.Atoi(part)
		if err != nil || n < 1 || n >= len(lengths) || len(m.Beats) == longestPeriod {
			return Meter{}, fmt.Errorf("meter %q: no length is called %q; known are monometer to octameter, or beats such as 4-3-4-3", name, words[1])
		}
		m.Beats = append(m.Beats, n)
	}
	return m, nil
}
