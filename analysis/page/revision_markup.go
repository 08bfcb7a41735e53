package page

func (w *writer) revision(v *revisionView) {
	w.head(v.Title)
	w.write(`<header><h1>%</h1>
<p class="verdict">%</p>
<p class="key">Lines: %. A slash (/) under a syllable is a beat, an x is slack; the diamond (◆) marks a line that is out of step.</p></header>
<main>
`, v.Title, v.Verdict, v.Lines)
	if len(v.Changes) > 0 {
		w.write("<section>\n<h2>What changed</h2>\n")
		for i := range v.Changes {
			w.change(i, &v.Changes[i])
		}
		w.write("</section>\n")
	}
	for _, l := range v.Lists {
		w.write("<section>\n<h2>%</h2>\n<ul>\n", l.Heading)
		for i := range l.Notes {
			w.changedNote(&l.Notes[i])
		}
		w.write("</ul>\n</section>\n")
	}
	w.foot()
}

func (w *writer) change(i int, c *changeView) {
	w.write("<section class=\"change\" aria-label=\"Change %: %\">\n<h3>%</h3>\n", i, c.Kind, c.Kind)
	if len(c.Old) > 0 {
		w.write("<p class=\"draft\">before</p>\n")
		for k := range c.Old {
			w.side(&c.Old[k])
		}
	}
	if len(c.New) > 0 {
		w.write("<p class=\"draft\">after</p>\n")
		for k := range c.New {
			w.write(`<div id="line-%">`, c.New[k].Number)
			w.side(&c.New[k])
			w.write("</div>\n")
		}
	}
	w.write("</section>\n")
}

// side is a line of one draft.
func (w *writer) side(l *verseLine) {
	w.write(`<div class="side`)
	w.off(l.Off)
	w.write(`"><span class="when">`)
	if l.Off {
		w.write(`<span class="flagged"><span aria-hidden="true">◆ </span><span class="hidden">out of step, </span></span>`)
	}
	w.write(`line %</span>`, l.Number)
	w.verse(l)
	w.write("</div>\n")
	if l.Wanted != "" {
		w.write("<div class=\"side\"><span></span><span class=\"wanted\">its place goes %</span></div>\n", l.Wanted)
	}
}

func (w *writer) changedNote(n *changedNote) {
	w.write(`<li>`)
	if n.Link {
		w.write(`<a href="#line-%">Line %</a>`, n.Line, n.Line)
	} else {
		w.write(`Line %`, n.Line)
	}
	w.write(`, %`, n.Label)
	if n.Words != "" {
		w.write(` <q>%</q>`, n.Words)
	}
	if n.Message != "" {
		w.write(`: %`, n.Message)
	}
	w.write("</li>\n")
}
