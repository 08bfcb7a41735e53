package main

import (
	"fmt"
	"strings"
	"time"
)

// man is the manual page, in the macros of man(7).
func man(list []command, version string, date time.Time) string {
	var b strings.Builder
	fmt.Fprintf(&b, ".TH DANDLE 1 %q %q\n", date.UTC().Format(time.DateOnly), "dandle "+version)
	b.WriteString(".SH NAME\ndandle \\- hear rhyming verse as an editor would\n.SH SYNOPSIS\n.B dandle\n.I command\n[\\fIflags\\fR] [\\fIfiles\\fR]\n")
	b.WriteString(".SH DESCRIPTION\nReads manuscripts of rhyming verse: hears the meter, finds the line that loses it, and\nhelps to find a better one, at the prompt and as a language server.\n.SH COMMANDS\n")
	for _, c := range list {
		fmt.Fprintf(&b, ".SS %s\n.B dandle %s\n%s\n.PP\n%s\n", roff(c.name), roff(c.name), roff(c.synopsis), paragraphs(c.text))
		for _, o := range c.flags {
			fmt.Fprintf(&b, ".TP\n\\fB%s\\fR %s\n%s\n", roff(strings.Join(o.spellings(), ", ")), roff(o.value), roff(o.usage))
		}
	}
	b.WriteString(".SH EXIT STATUS\n0 fine; 1 only when\n.B check \\-\\-fail\\-on\nfinds something as grave; 2 when the call or a file cannot be used.\n")
	return b.String()
}

// paragraphs sets a help's text: its indented lines stay as they are.
func paragraphs(text string) string {
	var b strings.Builder
	still := false // inside lines that are set as they stand
	for _, line := range strings.Split(text, "\n") {
		if indented := strings.HasPrefix(line, "  "); indented != still {
			b.WriteString(map[bool]string{true: ".RS 4\n.nf\n", false: ".fi\n.RE\n"}[indented])
			still = indented
		}
		switch line = strings.TrimSpace(line); line {
		case "":
			b.WriteString(".PP\n")
		default:
			b.WriteString(roff(line) + "\n")
		}
	}
	if still {
		b.WriteString(".fi\n.RE\n")
	}
	return strings.TrimSpace(b.String())
}

// roff writes a text so that no sign of it is taken for a command.
func roff(text string) string {
	text = strings.NewReplacer(`\`, `\e`, "-", `\-`, "…", "...").Replace(text)
	if strings.HasPrefix(text, ".") || strings.HasPrefix(text, "'") {
		text = `\&` + text
	}
	return text
}
