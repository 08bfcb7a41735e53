package page

import "dandle/analysis/card"

func (w *writer) critique(v *critiqueView) {
	w.head(v.Heading)
	w.write("<header><h1>%</h1></header>\n<main>\n<article class=\"letter\">\n", v.Heading)
	for i := range v.Sections {
		w.section(&v.Sections[i])
	}
	w.write("</article>\n")
	if len(v.Stanzas) > 0 {
		w.stanzas(v.Stanzas)
		w.strips(v.Strips)
	}
	if len(v.Spreads) > 0 {
		w.spreads(v.Spreads)
	}
	w.foot()
}

// section is one of the letter's.
func (w *writer) section(s *sectionView) {
	w.write("<section>\n<h2>%</h2>\n", s.Heading)
	for _, p := range s.Paragraphs {
		w.write("<p>%</p>\n", p)
	}
	if len(s.Feet) > 0 {
		w.write(`<pre class="card" tabindex="0" aria-label="Lines with their beats">`)
		for i, v := range s.Feet {
			if i > 0 {
				w.write("\n")
			}
			w.write("%\n%", v.Block.Marks, v.Block.Syllables)
		}
		w.write("</pre>\n")
	}
	for i := range s.Notes {
		w.note(&s.Notes[i])
	}
	if len(s.Steps) > 0 {
		w.write("<ol>\n")
		for _, step := range s.Steps {
			w.write("<li>%</li>\n", step)
		}
		w.write("</ol>\n")
	}
	if s.Closing != "" {
		w.write("<p>%</p>\n", s.Closing)
	}
	w.write("</section>\n")
}

func (w *writer) note(n *noteView) {
	if n.Heading != "" {
		w.write("<h3>%</h3>\n", n.Heading)
	}
	w.write(`<div class="note`)
	if n.Reviewer {
		w.write(` pencil`)
	}
	w.write(`"`)
	if n.Number > 0 {
		w.write(` id="note-%"`, n.Number)
	}
	w.write(">\n<p>")
	if n.Number > 0 {
		w.write(`<span class="number"><span class="hidden">Note </span>%</span> `, n.Number)
	}
	if n.Lead != "" {
		w.write(`<strong>%</strong> `, n.Lead)
	}
	w.write(`%`, n.Text)
	if n.At != "" {
		w.write(` %`, n.At)
	}
	if n.Reviewer {
		w.write(` <span class="whose">(reviewer)</span>`)
	}
	w.write("</p>\n")
	for _, v := range n.Feet {
		w.block(v.Block)
	}
	if n.Wanted != "" {
		w.write("<p class=\"wanted\">%</p>\n", n.Wanted)
	}
	for _, way := range n.Ways {
		w.write("<p class=\"way\">%</p>\n", way.Text)
		w.block(way.Block)
	}
	w.write("</div>\n")
}

func (w *writer) block(b card.Block) {
	if b.Syllables != "" {
		w.write("<pre class=\"card\" tabindex=\"0\" aria-label=\"The line with its beats\">%\n%</pre>", b.Marks, b.Syllables)
	}
	w.write("\n")
}

// stanzas is the manuscript with its beats.
func (w *writer) stanzas(list []stanzaView) {
	w.write(`<section class="set">
<h2>The manuscript with its beats</h2>
<p class="key">A slash (/) under a syllable is a beat, an x is slack; upright strokes part the feet. Line ends with the same letter and the same underline rhyme. A dashed box marks the words that a note in the margin is about, and a diamond (◆) a line that is out of step.</p>
`)
	for _, s := range list {
		w.write("<section class=\"stanza\" aria-label=\"Verse %\">\n", s.Number)
		for i := range s.Lines {
			w.setLine(&s.Lines[i])
		}
		w.write("</section>\n")
	}
	w.write("</section>\n")
}

func (w *writer) setLine(s *setLine) {
	w.between(s.Before)
	if s.Turn != "" {
		w.write("<h3 class=\"turn\">%</h3>\n", s.Turn)
	}
	w.between(s.Opening)
	l := &s.Line
	w.write(`<div class="line`)
	w.off(l.Off)
	if l.Letter != nil {
		w.write(` s%`, l.Letter.Style)
	}
	w.write("\" id=\"line-%\">\n<span class=\"number\">", l.Number)
	if l.Off {
		w.write(`<span aria-hidden="true">◆</span><span class="hidden">out of step, </span>`)
	}
	w.write("<span class=\"hidden\">line </span>%</span>\n", l.Number)
	w.verse(l)
	w.write("\n<span class=\"rhyme\">")
	if m := l.Letter; m != nil {
		w.write(`<a class="letter" href="#line-%" title="rhymes with line %">%<span class="hidden">, rhymes with line %</span></a>`, m.To, m.Mates, m.Letter, m.Mates)
	}
	w.write("</span>\n")
	w.margin(l)
	w.write("\n</div>\n")
	w.between(s.After)
}

func (w *writer) between(notes []noteBetween) {
	for _, n := range notes {
		if n.Reviewer {
			w.write("<p class=\"pencil\">% <span class=\"whose\">(reviewer)</span></p>\n", n.Text)
		} else {
			w.write("<p class=\"art\">[%]</p>\n", n.Text)
		}
	}
}

// margin is what stands beside a line.
func (w *writer) margin(l *verseLine) {
	if len(l.Margin) == 0 && l.Wanted == "" {
		return
	}
	w.write(`<ul class="margin">`)
	for _, m := range l.Margin {
		switch {
		case m.Praise:
			w.write(`<li class="praise"><span aria-hidden="true">♪ </span><span class="hidden">praise: </span>%`, m.Label)
		case m.Note > 0:
			w.write(`<li><a href="#note-%"><span class="hidden">note </span>%: %</a>`, m.Note, m.Note, m.Label)
		default:
			w.write(`<li>%`, m.Label)
		}
		if m.Words != "" {
			w.write(` <q>%</q>`, m.Words)
		}
		w.write(`</li>`)
	}
	if l.Wanted != "" {
		w.write(`<li class="wanted">its place goes %</li>`, l.Wanted)
	}
	w.write(`</ul>`)
}

func (w *writer) strips(list []strip) {
	w.write(`<section class="strips">
<h2>Every verse as beats</h2>
<p class="key">Tall bars are beats and dots are slack. A hollow bar is a beat that the ear waits for, a barred one a beat more than its place keeps; the diamond (◆) points at a line that is out of step.</p>
<div class="row">
`)
	for i := range list {
		w.strip(&list[i])
	}
	w.write("</div>\n</section>\n")
}

func (w *writer) strip(s *strip) {
	w.write(`<figure><figcaption>Verse %`, s.Number)
	if s.Odd != "" {
		w.write(`: <span class="flagged">%</span>`, s.Odd)
	}
	w.write(`</figcaption><svg role="img" aria-label="%" viewBox="0 0 % %" width="%" height="%">`, s.Says, s.Width, s.Height, s.Width, s.Height)
	for i := range s.Rows {
		w.row(&s.Rows[i])
	}
	w.write("</svg></figure>\n")
}

func (w *writer) row(r *row) {
	w.write(`<g transform="translate(0 %)"`, r.Y)
	if r.Off {
		w.write(` class="off"><path class="flag" d="M5 -5 L10 0 L5 5 L0 0 Z"/>`)
	} else {
		w.write(`>`)
	}
	for _, x := range r.Dots {
		w.write(`<circle cx="%" cy="0" r="1.6"/>`, x)
	}
	for _, x := range r.Bars {
		w.write(`<path class="bar" d="M% -5 V5"/>`, x)
	}
	for _, x := range r.Over {
		w.write(`<path class="bar" d="M% -5 V5"/><path class="cross" d="M% 0 m-5 3 l10 -6"/>`, x, x)
	}
	for _, x := range r.Short {
		w.write(`<rect class="gap" x="%" y="-5" width="4" height="10"/>`, x)
	}
	w.write(`</g>`)
}

func (w *writer) spreads(list []spreadView) {
	w.write(`<section class="spreads">
<h2>Words by spread</h2>
<table>
<thead><tr><th scope="col">Spread</th><th scope="col">Words</th><td></td></tr></thead>
<tbody>
`)
	for _, s := range list {
		w.write(`<tr><th scope="row">%</th><td class="count">%</td><td class="bars" aria-hidden="true"><svg width="100%%" height="12" preserveAspectRatio="none" viewBox="0 0 100 12"><rect class="words" width="%" height="12"/></svg></td></tr>
`, s.Name, s.Words, s.Percent)
	}
	w.write("</tbody>\n</table>\n</section>\n")
}
