package suggest

// Replacements lists words that could stand in for word number word of line
// number line: near in sense, and of the beats that its place wants.
func Replacements(p Place, line, word int) []Item { return nil }
