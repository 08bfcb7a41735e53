package phonetics

import (
	"strconv"
	"strings"
)

// numeral reads a whole number out.
func numeral(word string) []reading {
	n, err := strconv.Atoi(strings.ReplaceAll(word, ",", ""))
	if err != nil || n < 0 {
		return nil
	}
	var s Sounds
	for name := range strings.FieldsSeq(numberWords(n)) {
		if list := known(name); list != nil {
			s += list[0].sounds
		}
	}
	return []reading{{sounds: s, source: FromNumber}}
}

var (
	smallNumbers = strings.Fields("zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen")
	tens         = strings.Fields("zero ten twenty thirty forty fifty sixty seventy eighty ninety")
	powers       = []struct {
		value int
		name  string
	}{{1e18, "quintillion"}, {1e15, "quadrillion"}, {1e12, "trillion"}, {1e9, "billion"}, {1e6, "million"}, {1e3, "thousand"}, {100, "hundred"}}
)

func numberWords(n int) string {
	if n < 20 {
		return smallNumbers[n]
	}
	if n < 100 {
		if n%10 == 0 {
			return tens[n/10]
		}
		return tens[n/10] + " " + smallNumbers[n%10]
	}
	for _, p := range powers {
		if n >= p.value {
			text := numberWords(n/p.value) + " " + p.name
			if rest := n % p.value; rest > 0 {
				text += " " + numberWords(rest)
			}
			return text
		}
	}
	return ""
}
