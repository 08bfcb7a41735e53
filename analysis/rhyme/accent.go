package rhyme

// An Accent is a feature of some accents of English that makes a rhyme.
type Accent uint8

// OwnAccent is the writer's own.
const (
	OwnAccent Accent = iota
)
