// Package rhyme hears which lines rhyme, how well, and what scheme the stanzas
// keep. It knows the ends of lines; it knows nothing of meter beyond them.
package rhyme

import "strings"

// Unrhymed is the letter of a line that rhymes with none.
const Unrhymed = "X"

// A Scheme is the rhyme scheme of one stanza.
type Scheme struct {
	// Letters has one entry for each line of the stanza: "A" … "Z", then
	// "A2" …, or Unrhymed.
	Letters []string
}

// String is the scheme in letters, such as "AABB".
func (s Scheme) String() string { return strings.Join(s.Letters, "") }
