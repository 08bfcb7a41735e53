package main

import (
	"flag"
	"fmt"
	"io"
	"strings"

	"dandle/analysis/checks"
)

func explainCommand() *command {
	return &command{
		name: "explain", synopsis: "[CODE]", summary: "what a finding means, and when to leave it be",
		help: `
Prints the page of a finding: what the ear hears, why it matters, when it is meant, and
how to accept it. Without a code it lists all of them.

Examples:

  dandle explain meter/missing-beat
  dandle explain
`,
		flags: func(*flag.FlagSet) action {
			return func(s *session, args []string) (int, error) { return s.explain(args) }
		},
	}
}

func (s *session) explain(args []string) (int, error) {
	switch len(args) {
	case 0:
		return exitFine, listChecks(s.out)
	case 1:
		page, found := checks.Explain(checks.Code(args[0]))
		if !found {
			return exitBad, misuse(`no finding has the code %q; "dandle explain" lists them%s`, args[0], perhaps(args[0]))
		}
		_, err := io.WriteString(s.out, page)
		return exitFine, err
	}
	return exitBad, misuse("%d codes given; ask for one at a time", len(args))
}

func listChecks(w io.Writer) error {
	for _, c := range checks.All {
		if _, err := fmt.Fprintf(w, "%-22s %-12s %s\n", c.Code, c.Severity, c.Summary()); err != nil {
			return err
		}
	}
	return nil
}

// perhaps names the codes that share a part with what was typed.
func perhaps(typed string) string {
	var near []string
	for _, c := range checks.All {
		area, name, _ := strings.Cut(string(c.Code), "/")
		if strings.EqualFold(typed, name) || strings.EqualFold(typed, area) || strings.EqualFold(typed, string(c.Code)) {
			near = append(near, string(c.Code))
		}
	}
	if len(near) == 0 {
		return ""
	}
	return "; perhaps " + orList(near)
}
