// Package rhyme hears which lines rhyme, how well, and what scheme the stanzas
// keep. It knows the ends of lines; it knows nothing of meter beyond them.
package rhyme
