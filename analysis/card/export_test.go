package card

// MaxSyllables is what the tests count up to.
const MaxSyllables = maxSyllables
