package phonetics

import "fmt"

// A Dialect is an accent of English that words are pronounced in.
type Dialect uint8

// The dialects.
const (
	EnUS Dialect = iota // General American
	EnGB                // Southern British
)

var dialectNames = [...]string{"en-US", "en-GB"}

// String is the dialect's language tag (BCP 47), such as "en-US".
func (d Dialect) String() string { return dialectNames[d] }

// ParseDialect reads a language tag. The error names the tags that are known.
func ParseDialect(tag string) (Dialect, error) {
	for d, name := range dialectNames {
		if tag == name {
			return Dialect(d), nil
		}
	}
	return EnUS, fmt.Errorf("dialect %q is not known; known are en-US and en-GB", tag)
}
