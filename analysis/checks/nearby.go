package checks

import (
	"encoding/binary"
	"math"
	"strings"

	"dandle/analysis/manuscript"
)

// stanzaNotes are what the checks of one stanza found in a stanza. Their places
// count from where the stanza starts, their lines from the stanza's first.
type stanzaNotes struct {
	number uint64 // of its memory's own
	found  []Finding
	// leaning are the checks that asked how far a line is off, or tried a change of
	// one. What they found is not among the rest: it hangs on all that the poem's
	// meter rests on, which nearly every change of the poem moves a little.
	leaning []*Check
}

// nearby are the findings of checks that hear one stanza at a time, from memory
// for stanzas that have not changed.
func (p *Pass) nearby(near []*Check) []Finding {
	var found []Finding
	var key []byte
	for _, c := range near {
		key = append(append(key, c.Code...), 0)
	}
	key = binary.LittleEndian.AppendUint64(key, math.Float64bits(p.Threshold))
	start := len(key)
	var standard []byte
	for s, stanza := range p.Manuscript.Stanzas {
		if stanza.From == stanza.To {
			continue
		}
		add := func(list []Finding) {
			from := p.Manuscript.Lines[stanza.From].Span.Start
			for i := range list {
				found = append(found, list[i].moved(from, stanza.From))
			}
		}
		var leant []Finding
		anew := false
		key = p.appendStanza(key[:start], s)
		kept := p.Memory.stanzas.Get(key, func() (notes *stanzaNotes) {
			notes = &stanzaNotes{number: p.Memory.counted.Add(1)}
			notes.found, leant, notes.leaning = p.notesIn(stanza, near)
			anew = true
			return notes
		})
		add(kept.found)
		if len(kept.leaning) == 0 {
			continue
		}
		standard = binary.LittleEndian.AppendUint64(standard[:0], kept.number)
		standard = append(standard, truth(p.curly()))
		standard = p.Poem.AppendStandard(standard, stanza.From, stanza.To)
		add(p.Memory.leaning.Get(standard, func() []Finding {
			if !anew {
				_, leant, _ = p.notesIn(stanza, kept.leaning)
			}
			return leant
		}))
	}
	return found
}

// notesIn lets checks listen to one stanza. What those found that leaned on its
// standard stands by itself.
func (p *Pass) notesIn(stanza manuscript.Stanza, near []*Check) (found, leant []Finding, leaning []*Check) {
	leans := false
	listener := p.listener(stanza, func() { leans = true })
	from := p.Manuscript.Lines[stanza.From].Span.Start
	for _, c := range near {
		leans, listener.found = false, nil
		listener.hear(c)
		for i := range listener.found {
			f := listener.found[i].moved(-from, -stanza.From)
			for _, fix := range f.Fixes {
				for k := range fix.Edits {
					fix.Edits[k].Text = strings.Clone(fix.Edits[k].Text) // lest it hold on to the whole text
				}
			}
			if leans {
				leant = append(leant, f)
			} else {
				found = append(found, f)
			}
		}
		if leans {
			leaning = append(leaning, c)
		}
	}
	return found, leant, leaning
}

// moved is the same finding so many bytes and lines further on.
func (f Finding) moved(bytes, lines int) Finding {
	move := func(s manuscript.Span) manuscript.Span {
		return manuscript.Span{Start: s.Start + bytes, End: s.End + bytes}
	}
	f.Span = move(f.Span)
	f.Line += lines
	if f.Fixes != nil {
		fixes := make([]Fix, len(f.Fixes))
		for i, fix := range f.Fixes {
			fixes[i] = Fix{Title: fix.Title, Edits: make([]Edit, len(fix.Edits))}
			for k, e := range fix.Edits {
				fixes[i].Edits[k] = Edit{Span: move(e.Span), Text: e.Text}
			}
		}
		f.Fixes = fixes
	}
	if f.Related != nil {
		related := make([]Related, len(f.Related))
		for i, r := range f.Related {
			related[i] = Related{Span: move(r.Span), Message: r.Message}
		}
		f.Related = related
	}
	return f
}

// appendStanza appends to a key all that a check of one stanza may look at: the
// text to the end of the file's line and as far as a mark may reach, its words
// with their places, what is heard in its lines, and what refrains hold of it.
func (p *Pass) appendStanza(b []byte, s int) []byte {
	m := p.Manuscript
	stanza := m.Stanzas[s]
	first, last := &m.Lines[stanza.From], &m.Lines[stanza.To-1]
	end := max(m.FileLineSpan(last.Number-1).End, last.Span.End+longestMark)
	b = append(b, m.Text[first.Span.Start:min(end, len(m.Text))]...)
	b = append(b, 0, truth(s == 0))
	again, held := p.again(), p.held()
	at := first.Span.Start
	for i := stanza.From; i < stanza.To; i++ {
		b = append(b, truth(again[i]))
		b = binary.AppendUvarint(b, uint64(held[i].before))
		b = binary.AppendUvarint(b, uint64(held[i].after))
		for _, w := range m.Lines[i].Words {
			b = binary.AppendVarint(b, int64(w.Span.Start-at))
			b = binary.AppendVarint(b, int64(w.Span.Len()))
			b = append(b, truth(w.Quoted))
			at = w.Span.End
		}
		if i < len(p.Poem.Lines) {
			b = p.Poem.Lines[i].AppendKey(b)
		}
	}
	return b
}

func truth(is bool) byte {
	if is {
		return 1
	}
	return 0
}
