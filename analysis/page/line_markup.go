package page

// feet sets a line cut into its feet.
func (w *writer) feet(feet []foot) {
	for _, f := range feet {
		w.write(`<span class="foot">`)
		for i := range f.Pieces {
			w.piece(&f.Pieces[i])
		}
		w.write(`</span>`)
	}
}

func (w *writer) piece(p *piece) {
	if p.Mark == "" {
		w.write(`%`, p.Text)
	} else {
		w.write(`<span class="syllable`)
		if p.Mark == "/" {
			w.write(` beat`)
		}
		if p.Noted {
			w.write(` noted`)
		}
		if p.Rhymes {
			w.write(` chime`)
		}
		w.write(`" data-mark="%">`, p.Mark)
		if p.Emphasis {
			w.write(`<em>%</em>`, p.Text)
		} else {
			w.write(`%`, p.Text)
		}
		w.write(`</span>`)
	}
	if p.Space {
		w.write(` `)
	}
}

// verse sets a line with its feet in marks behind it, for who does not see them.
func (w *writer) verse(l *verseLine) {
	w.write(`<span class="verse">`)
	w.feet(l.Feet)
	w.write(`<span class="hidden">`)
	if l.Pattern != "" {
		w.write(`; feet %`, l.Pattern)
	}
	w.write(`</span></span>`)
}

// off is a class more for what is out of step.
func (w *writer) off(is bool) {
	if is {
		w.write(` off`)
	}
}
