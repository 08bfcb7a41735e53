package manuscript

import "strings"

// frontMatter reads the front matter, if the text starts with it, and returns
// the line of the file behind it.
//
// One that is never closed, as while it is being typed, ends before the first
// blank line or heading.
func (p *parser) frontMatter() int {
	m := p.m
	if strings.TrimPrefix(p.fenceText(0), byteOrderMark) != "---" {
		return 0
	}
	start := 0
	if strings.HasPrefix(p.text, byteOrderMark) {
		start = len(byteOrderMark)
	}
	gap := -1
	for i := 1; i < len(m.LineStarts); i++ {
		line := p.fenceText(i)
		if line == "---" || line == "..." {
			m.Front.Span = Span{start, m.FileLineSpan(i).End}
			p.frontBody(Span{m.LineStarts[1], m.LineStarts[i]})
			return i + 1
		}
		if gap < 0 && (line == "" || line[0] == '#' && strings.HasPrefix(strings.TrimLeft(line, "#"), " ")) {
			gap = i
		}
	}
	// Without a close this is front matter only if it starts as such; else the
	// fence is a mere rule.
	if len(m.LineStarts) < 2 || !startsWithKey(p.fenceText(1)) {
		return 0
	}
	if gap < 0 {
		gap = len(m.LineStarts)
	}
	m.Front.Span = Span{start, m.FileLineSpan(gap - 1).End}
	m.Problems = append(m.Problems, Problem{
		Span{start, start + len("---")},
		"The front matter is never closed, so it is read up to the first blank line. Close it with a line of three hyphens.",
	})
	end := len(p.text)
	if gap < len(m.LineStarts) {
		end = m.LineStarts[gap]
	}
	p.frontBody(Span{m.LineStarts[1], end})
	return gap
}

// fenceText is a line of the file without trailing space.
func (p *parser) fenceText(i int) string {
	span := p.m.FileLineSpan(i)
	return strings.TrimRight(span.In(p.text), " \t")
}

// startsWithKey reports whether the line reads "name: …".
func startsWithKey(line string) bool {
	colon := strings.IndexByte(line, ':')
	if colon <= 0 || colon+1 < len(line) && line[colon+1] != ' ' {
		return false
	}
	for i := range colon {
		if !isASCIILetter(line[i]) && line[i] != '_' && line[i] != '-' {
			return false
		}
	}
	return true
}

// frontBody reads what lies between the fences.
func (p *parser) frontBody(body Span) {
	front := &p.m.Front
	entries, problems := readYAML(body.In(p.text), "front matter")
	for i := range problems {
		problems[i].Span = Span{problems[i].Span.Start + body.Start, problems[i].Span.End + body.Start}
	}
	for _, e := range entries {
		e.shift(body.Start)
		front.Keys = append(front.Keys, e.key)
		trouble := ""
		switch e.key.Name {
		case "title":
			front.Title, trouble = e.text()
		case "meter":
			front.Meter, trouble = e.text()
		case "pitch":
			front.Pitch, trouble = e.text()
		case "ages":
			front.Ages, trouble = e.ages()
		case "dialect":
			front.Dialect, front.HasDialect, trouble = e.dialect()
		case "pronounce":
			front.Pronounce, trouble = e.pronounce()
		case "allow":
			front.Allow, trouble = e.list()
			if len(front.Allow) > 0 {
				p.m.Allowances = append(p.m.Allowances, Allowance{Span: e.place(), Codes: front.Allow, Line: -1})
			}
		case "dandle":
			var mode string
			mode, trouble = e.text()
			front.Verse = mode == "verse"
		default:
			// A manuscript may say more of itself than is read here.
		}
		if trouble != "" {
			problems = append(problems, Problem{e.place(), trouble})
		}
	}
	p.m.Problems = append(p.m.Problems, problems...)
}
