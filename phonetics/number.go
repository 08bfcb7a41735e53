package phonetics

import (
	"strconv"
	"strings"
)

// say reads words out as one, in the order given.
func say(words string, source Source) []reading {
	var s Sounds
	for word := range strings.FieldsSeq(words) {
		list := known(word)
		if list == nil {
			list = new(Reader).inflected(word)
		}
		if list == nil {
			continue
		}
		part := list[0].sounds
		if forms, isFunction := functionWords[word]; isFunction {
			part = weakest(forms)
		}
		s += part
	}
	if s == "" {
		return nil
	}
	return []reading{{sounds: s, source: source}}
}

// numeral reads what holds a digit or a sign: numbers, ordinals, years,
// decades, money, times, units, fractions, &.
func (r *Reader) numeral(word string) []reading {
	if sign, ok := signs[word]; ok {
		if list := known(sign); list != nil {
			return withSource(list, FromNumber)
		}
		return say(sign, FromNumber)
	}
	if !strings.ContainsAny(word, "0123456789½¼¾") {
		return nil
	}
	if list := yearOrNumber(word); list != nil {
		return list
	}
	if words := numeralWords(word); words != "" {
		return say(words, FromNumber)
	}
	return r.mixed(word)
}

// signs are the marks that are read as words.
var signs = map[string]string{
	"&": "and", "+": "plus", "@": "at", "%": "percent", "=": "equals", "#": "number", "$": "dollars", "£": "pounds",
	"€": "euros", "¢": "cents", "°": "degrees", "×": "times", "÷": "divided by",
}

// yearOrNumber reads a plain whole number. Four digits without a comma are
// most often a year: "nineteen oh five".
func yearOrNumber(word string) []reading {
	n, ok := wholeNumber(word)
	if !ok {
		return nil
	}
	list := say(numberWords(n), FromNumber)
	if year := yearWords(n); year != "" && len(word) == 4 {
		list[0].cost = 0.7
		list = append(say(year, FromNumber), list...)
	}
	return list
}

// wholeNumber reads digits, with commas or without.
func wholeNumber(word string) (int, bool) {
	digits := strings.ReplaceAll(word, ",", "")
	if digits == "" || len(digits) > 18 || strings.Trim(digits, "0123456789") != "" || word[0] == ',' || len(digits) > 1 && digits[0] == '0' {
		return 0, false
	}
	n, err := strconv.Atoi(digits)
	return n, err == nil
}

// numeralWords spells out every other kind of numeral, or nothing.
func numeralWords(word string) string {
	if rest, ok := strings.CutPrefix(word, "#"); ok {
		if n, ok := wholeNumber(rest); ok {
			return "number " + numberWords(n)
		}
	}
	if rest, ok := strings.CutPrefix(word, "-"); ok {
		if words := amountWords(rest); words != "" {
			return "minus " + words
		}
	}
	for _, money := range currencies {
		if rest, ok := strings.CutPrefix(word, money.sign); ok {
			return moneyWords(rest, money.one, money.many, money.cents)
		}
	}
	if hour, minute, ok := strings.Cut(word, ":"); ok {
		return timeWords(hour, minute)
	}
	if words := decadeWords(word); words != "" {
		return words
	}
	// Digits, then letters: an ordinal or a unit.
	digits := strings.TrimRight(word, "abcdefghijklmnopqrstuvwxyz%°¢")
	if unit := word[len(digits):]; unit != "" {
		switch unit {
		case "st", "nd", "rd", "th":
			if n, ok := wholeNumber(digits); ok {
				return ordinalWords(n)
			}
			return ""
		}
		for _, u := range units {
			if u.letters == unit {
				words := amountWords(digits)
				if words == "" {
					return ""
				}
				if words == "one" {
					return words + " " + u.one
				}
				return words + " " + u.many
			}
		}
		return ""
	}
	return amountWords(word)
}

// amountWords reads a number with its decimals or its fraction.
func amountWords(word string) string {
	if n, ok := wholeNumber(word); ok {
		return numberWords(n)
	}
	for _, f := range fractions {
		if whole, ok := strings.CutSuffix(word, f.sign); ok {
			if whole == "" {
				return f.alone
			}
			if n, ok := wholeNumber(whole); ok {
				return numberWords(n) + " and " + f.after
			}
			return ""
		}
	}
	if above, below, ok := strings.Cut(word, "/"); ok {
		a, okA := wholeNumber(above)
		b, okB := wholeNumber(below)
		if !okA || !okB || b < 2 {
			return ""
		}
		part := ordinalWords(b)
		switch b {
		case 2:
			part = "half"
		case 4:
			part = "quarter"
		}
		switch {
		case a == 1:
			return "one " + part
		case b == 2:
			return numberWords(a) + " halves"
		}
		return numberWords(a) + " " + part + "s"
	}
	whole, decimals, ok := strings.Cut(word, ".")
	if !ok || decimals == "" || strings.Trim(decimals, "0123456789") != "" {
		return digitWords(word)
	}
	words := "point " + digitWords(decimals)
	if n, ok := wholeNumber(whole); ok {
		return numberWords(n) + " " + words
	}
	if whole != "" {
		return ""
	}
	return words
}

// digitWords names digits one by one; a nought is "oh". It is empty where the
// word holds anything else.
func digitWords(word string) string {
	if strings.Trim(word, "0123456789") != "" {
		return ""
	}
	var names []string
	for i := range len(word) {
		if word[i] == '0' {
			names = append(names, "oh")
		} else {
			names = append(names, smallNumbers[word[i]-'0'])
		}
	}
	return strings.Join(names, " ")
}

var fractions = []struct{ sign, alone, after string }{
	{"½", "one half", "a half"}, {"¼", "one quarter", "a quarter"}, {"¾", "three quarters", "three quarters"},
}

var currencies = []struct{ sign, one, many, cents string }{
	{"$", "dollar", "dollars", "cents"}, {"£", "pound", "pounds", "pence"}, {"€", "euro", "euros", "cents"},
}

func moneyWords(amount, one, many, cents string) string {
	whole, part, hasPart := strings.Cut(amount, ".")
	n, ok := wholeNumber(whole)
	if !ok {
		return ""
	}
	words := numberWords(n) + " " + many
	if n == 1 {
		words = "one " + one
	}
	if !hasPart || part == "00" {
		return words
	}
	c, err := strconv.Atoi(part)
	if err != nil || len(part) != 2 || c < 0 {
		return ""
	}
	if n == 0 {
		return numberWords(c) + " " + cents
	}
	return words + " and " + numberWords(c) + " " + cents
}

func timeWords(hour, minute string) string {
	half := ""
	for _, end := range []string{"am", "pm", "a.m", "p.m"} {
		if m, ok := strings.CutSuffix(minute, end); ok {
			minute, half = m, " "+end[:1]+". m."
		}
	}
	h, ok := wholeNumber(hour)
	m, err := strconv.Atoi(minute)
	if !ok || err != nil || h > 24 || m < 0 || m > 59 || len(minute) != 2 {
		return ""
	}
	switch {
	case m == 0 && half == "":
		return numberWords(h) + " o'clock"
	case m == 0:
		return numberWords(h) + half
	case m < 10:
		return numberWords(h) + " oh " + numberWords(m) + half
	}
	return numberWords(h) + " " + numberWords(m) + half
}

// decadeWords reads 1920s, 90s and '90s.
func decadeWords(word string) string {
	digits, ok := strings.CutSuffix(strings.TrimPrefix(word, "'"), "s")
	if !ok {
		digits = strings.TrimSuffix(digits, "'")
	}
	n, isNumber := wholeNumber(digits)
	if !isNumber {
		return ""
	}
	if !ok {
		if word[0] == '\'' {
			return numberWords(n)
		}
		return ""
	}
	if n%10 != 0 {
		return ""
	}
	words := numberWords(n)
	if year := yearWords(n); year != "" {
		words = year
	}
	if stem, ok := strings.CutSuffix(words, "y"); ok {
		return stem + "ies"
	}
	return words + "s"
}

// yearWords says a year from 1100 to 2099 as two pairs of digits; it is empty
// for the years that are said as numbers, such as 2005.
func yearWords(n int) string {
	century, rest := n/100, n%100
	switch {
	case n < 1100 || n > 2099 || 2000 <= n && n < 2010:
		return ""
	case rest == 0:
		return numberWords(century) + " hundred"
	case rest < 10:
		return numberWords(century) + " oh " + numberWords(rest)
	}
	return numberWords(century) + " " + numberWords(rest)
}

var units = []struct{ letters, one, many string }{
	{"am", "a. m.", "a. m."},
	{"pm", "p. m.", "p. m."},
	{"ft", "foot", "feet"},
	{"in", "inch", "inches"},
	{"yd", "yard", "yards"},
	{"km", "kilometer", "kilometers"},
	{"m", "meter", "meters"},
	{"cm", "centimeter", "centimeters"},
	{"mm", "millimeter", "millimeters"},
	{"kg", "kilogram", "kilograms"},
	{"g", "gram", "grams"},
	{"lb", "pound", "pounds"},
	{"lbs", "pound", "pounds"},
	{"oz", "ounce", "ounces"},
	{"mph", "m. p. h.", "m. p. h."},
	{"%", "percent", "percent"},
	{"°", "degree", "degrees"},
	{"°c", "degree", "degrees"},
	{"°f", "degree", "degrees"},
	{"¢", "cent", "cents"},
	{"p", "p.", "p."},
	{"k", "thousand", "thousand"},
}

// mixed reads runs of digits, of letters and of signs each by itself: R2D2,
// 4x4, A½.
func (r *Reader) mixed(word string) []reading {
	way := reading{source: FromNumber}
	for i := 0; i < len(word); {
		kind := kindOf(word[i])
		j := i + 1
		for j < len(word) && kindOf(word[j]) == kind {
			j++
		}
		run := word[i:j]
		var list []reading
		switch n, isNumber := wholeNumber(run); {
		case kind == aLetter:
			list = r.readings(run, wordShape{})
		case isNumber:
			list = say(numberWords(n), FromNumber)
		case kind == aDigit:
			list = say(digitWords(run), FromNumber)
		case signs[run] != "":
			list = say(signs[run], FromNumber)
		default:
			list = say(amountWords(run), FromNumber)
		}
		if len(list) > 0 {
			if way.sounds != "" {
				way.seams = append(way.seams, seam{len(way.sounds), i})
			}
			way.sounds += list[0].sounds
		}
		i = j
	}
	if way.sounds == "" {
		return nil
	}
	return []reading{way}
}

// A kind of byte parts a mixed word into its runs.
type kind uint8

const (
	aDigit kind = iota
	aLetter
	aSign
)

func kindOf(c byte) kind {
	switch {
	case isDigit(c):
		return aDigit
	case 'a' <= c && c <= 'z' || c == '\'':
		return aLetter
	}
	return aSign
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

var (
	smallNumbers = strings.Fields("zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen")
	tens         = strings.Fields("zero ten twenty thirty forty fifty sixty seventy eighty ninety")
	powers       = []struct {
		value int
		name  string
	}{{1e15, "quadrillion"}, {1e12, "trillion"}, {1e9, "billion"}, {1e6, "million"}, {1e3, "thousand"}, {100, "hundred"}}
)

// numberWords spells a whole number out; it is not negative.
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

// ordinalWords spells an ordinal out.
func ordinalWords(n int) string {
	words := numberWords(n)
	at := strings.LastIndexByte(words, ' ') + 1
	last := words[at:]
	switch last {
	case "one":
		last = "first"
	case "two":
		last = "second"
	case "three":
		last = "third"
	case "five":
		last = "fifth"
	case "eight":
		last = "eighth"
	case "nine":
		last = "ninth"
	case "twelve":
		last = "twelfth"
	default:
		if stem, ok := strings.CutSuffix(last, "y"); ok {
			last = stem + "ieth"
		} else {
			last += "th"
		}
	}
	return words[:at] + last
}
