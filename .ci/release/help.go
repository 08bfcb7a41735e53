package main

import (
	"fmt"
	"os/exec"
	"regexp"
	"strings"
)

// A command is one subcommand, as its own help describes it.
type command struct {
	name, summary string
	synopsis      string // after the name
	text          string // between the synopsis and the flags
	flags         []option
}

// An option is a flag of a command.
type option struct {
	short, long string   // without their dashes; one may be empty
	value       string   // what stands for its value; empty where it takes none
	usage       string   // what it does
	values      []string // what it may be given, where the usage lists it
}

// spellings are the ways to write the option.
func (o *option) spellings() []string {
	var list []string
	if o.short != "" {
		list = append(list, "-"+o.short)
	}
	if o.long != "" {
		list = append(list, "--"+o.long)
	}
	return list
}

// file reports whether the value names a file.
func (o *option) file() bool { return o.value == "FILE" }

// readHelp asks a program for its help, and for that of each subcommand.
func readHelp(program string) ([]command, error) {
	all, err := exec.Command(program, "--help").Output()
	if err != nil {
		return nil, fmt.Errorf("ask %s for its help: %w", program, err)
	}
	list := parseCommands(string(all))
	if len(list) == 0 {
		return nil, fmt.Errorf("the help of %s lists no commands", program)
	}
	for i := range list {
		own, err := exec.Command(program, list[i].name, "--help").Output()
		if err != nil {
			return nil, fmt.Errorf("ask for the help of %s: %w", list[i].name, err)
		}
		list[i].describe(string(own))
	}
	return list, nil
}

var usageLine = regexp.MustCompile(`(?m)^  dandle ([a-z]+) +(.+)$`)

// parseCommands finds the subcommands in the program's help: they stand up to
// the examples.
func parseCommands(help string) []command {
	usage, _, _ := strings.Cut(help, "\nExamples:")
	var list []command
	for _, m := range usageLine.FindAllStringSubmatch(usage, -1) {
		list = append(list, command{name: m[1], summary: strings.TrimSpace(m[2])})
	}
	return list
}

// describe takes over what a command's own help says.
func (c *command) describe(help string) {
	head, rest, _ := strings.Cut(help, "\n")
	c.synopsis = strings.TrimSpace(strings.TrimPrefix(strings.TrimSpace(head), "dandle "+c.name))
	text, flags, _ := strings.Cut(rest, "\nFlags:\n")
	c.text = strings.TrimSpace(text)
	for _, line := range strings.Split(flags, "\n") {
		if o, ok := parseOption(line); ok {
			c.flags = append(c.flags, o)
		}
	}
}

var (
	flagLine = regexp.MustCompile(`^  (-{1,2})([a-z-]+)(?: ([A-Z]+))?  +(.+)$`)
	alsoLong = regexp.MustCompile(` \(also --([a-z-]+)\)`)
	choice   = regexp.MustCompile(`: ((?:[a-z]+, )*[a-z]+ or [a-z]+)$`)
)

func parseOption(line string) (option, bool) {
	m := flagLine.FindStringSubmatch(line)
	if m == nil {
		return option{}, false
	}
	o := option{value: m[3], usage: m[4]}
	if m[1] == "-" {
		o.short = m[2]
	} else {
		o.long = m[2]
	}
	if also := alsoLong.FindStringSubmatch(o.usage); also != nil {
		o.long = also[1]
		o.usage = strings.Replace(o.usage, also[0], "", 1)
	}
	if listed := choice.FindStringSubmatch(o.usage); listed != nil {
		o.values = strings.Split(strings.ReplaceAll(listed[1], " or ", ", "), ", ")
	}
	return o, true
}
