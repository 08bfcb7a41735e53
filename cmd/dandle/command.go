package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"strings"
)

// A session is one run of the command: where it reads and writes.
type session struct {
	in       io.Reader
	out, err io.Writer
	direct   io.Writer // where out ends up, with nothing held back
	paint    painter
	progress bool // whether the person at the other end watches stderr
}

// A command is one subcommand.
type command struct {
	name     string
	synopsis string // its arguments, for the first line of its help
	summary  string // what it does, in a few words
	help     string // what else there is to say, with examples
	flags    func(*flag.FlagSet) action
}

// An action runs a subcommand on what is left after its flags, and returns the
// exit code.
type action func(s *session, args []string) (int, error)

// commands lists every subcommand, in the order of the help.
func commands() []*command {
	return []*command{
		serveCommand(), checkCommand(), scanCommand(), rhymeCommand(), soundCommand(),
		critiqueCommand(), compareCommand(), convertCommand(),
		explainCommand(), versionCommand(),
	}
}

// A useError is a mistake in how the command was called.
type useError struct{ message string }

func (e *useError) Error() string { return e.message }

// misuse makes a useError. The message gives the reason and the remedy.
func misuse(format string, args ...any) error {
	return &useError{message: fmt.Sprintf(format, args...)}
}

// run carries out a command line and returns the exit code. What goes wrong is
// told in one line on the error stream.
func (s *session) run(args []string) int {
	if len(args) == 0 {
		return s.fail("dandle", misuse(`no command given; see "dandle --help"`))
	}
	name, rest := args[0], args[1:]
	switch name {
	case "-h", "-help", "--help", "help":
		return s.help(rest)
	case "-version", "--version":
		name = "version"
	}
	c, err := findCommand(name)
	if err != nil {
		return s.fail("dandle", err)
	}
	code, err := s.runCommand(c, rest)
	if err != nil {
		return s.fail("dandle "+c.name, err)
	}
	return code
}

func (s *session) runCommand(c *command, args []string) (int, error) {
	flags := flag.NewFlagSet(c.name, flag.ContinueOnError)
	flags.SetOutput(io.Discard)
	act := c.flags(flags)
	operands, err := parse(flags, args)
	if errors.Is(err, flag.ErrHelp) {
		s.commandHelp(c, flags)
		return exitFine, nil
	}
	if err != nil {
		return exitBad, misuse(`%v; see "dandle %s --help"`, err, c.name)
	}
	return act(s, operands)
}

// parse reads flags wherever they stand among the operands, up to "--".
func parse(flags *flag.FlagSet, args []string) ([]string, error) {
	var operands []string
	for {
		if err := flags.Parse(args); err != nil {
			return nil, err
		}
		rest := flags.Args()
		if len(rest) == 0 {
			return operands, nil
		}
		if read := len(args) - len(rest); read > 0 && args[read-1] == "--" {
			return append(operands, rest...), nil
		}
		operands, args = append(operands, rest[0]), rest[1:]
	}
}

func findCommand(name string) (*command, error) {
	var names []string
	for _, c := range commands() {
		if c.name == name {
			return c, nil
		}
		names = append(names, c.name)
	}
	return nil, misuse("no command %q; there are %s", name, strings.Join(names, ", "))
}

// fail tells what went wrong, in one line, and returns the exit code for it.
func (s *session) fail(who string, err error) int {
	fmt.Fprintf(s.err, "%s: %s\n", who, oneLine(err.Error()))
	return exitBad
}

func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }

func (s *session) help(args []string) int {
	if len(args) > 0 {
		c, err := findCommand(args[0])
		if err != nil {
			return s.fail("dandle help", err)
		}
		flags := flag.NewFlagSet(c.name, flag.ContinueOnError)
		c.flags(flags)
		s.commandHelp(c, flags)
		return exitFine
	}
	fmt.Fprintf(s.out, "dandle reads rhyming verse as an editor would: it hears the meter, finds the line\nthat loses it, and helps to find a better one.\n\nUsage:\n\n")
	for _, c := range commands() {
		fmt.Fprintf(s.out, "  dandle %-8s %s\n", c.name, c.summary)
	}
	fmt.Fprint(s.out, `
Examples:

  dandle check lamp.verse          what an editor would mark
  dandle scan lamp.verse           every line with its feet
  dandle rhyme --slot x/ glow      rhymes for "glow" of two syllables, the second a beat
  dandle explain meter/slack-run   what a finding means

"dandle COMMAND --help" tells more. Exit codes: 0 fine; 1 only when --fail-on finds
something as grave; 2 when the call or a file cannot be used.
`)
	return exitFine
}

func (s *session) commandHelp(c *command, flags *flag.FlagSet) {
	fmt.Fprintf(s.out, "dandle %s %s\n\n%s\n", c.name, c.synopsis, strings.TrimSpace(c.help))
	var list strings.Builder
	flags.VisitAll(func(f *flag.Flag) {
		if f.Usage == "" { // a long name of another flag
			return
		}
		kind, usage := flag.UnquoteUsage(f)
		dashes := "--"
		if len(f.Name) == 1 {
			dashes = "-"
		}
		fmt.Fprintf(&list, "  %-22s %s\n", strings.TrimSpace(dashes+f.Name+" "+kind), usage)
	})
	if list.Len() > 0 {
		fmt.Fprintf(s.out, "\nFlags:\n\n%s", list.String())
	}
}
