package main

import (
	"fmt"
	"io"
)

// manyFiles is the number of files from which one wants to know how far the
// work is.
const manyFiles = 20

// A progress counts files for a person who waits.
type progress struct {
	w           io.Writer // nil where nobody watches
	done, total int
}

func (s *session) newProgress(total int) *progress {
	if !s.progress || total < manyFiles {
		return &progress{total: total}
	}
	return &progress{w: s.err, total: total}
}

func (p *progress) step() {
	p.done++
	if p.w != nil {
		fmt.Fprintf(p.w, "\r%d of %d manuscripts", p.done, p.total)
	}
}

// clear wipes the count, so that another line can be written.
func (p *progress) clear() {
	if p.w != nil {
		fmt.Fprint(p.w, "\r\x1b[K")
	}
}

func (p *progress) end() { p.clear() }
