package main

import (
	"fmt"
	"strings"
)

// bash is the completion for bash, without the package bash-completion.
func bash(list []command) string {
	var b strings.Builder
	b.WriteString("# Completion of dandle for bash. Source it, or put it where bash-completion looks.\n_dandle() {\n")
	b.WriteString("\tlocal word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]} words=\n\tCOMPREPLY=()\n")
	fmt.Fprintf(&b, "\tif ((COMP_CWORD == 1)); then\n\t\tCOMPREPLY=($(compgen -W '%s' -- \"$word\"))\n\t\treturn\n\tfi\n", strings.Join(names(list), " "))
	b.WriteString("\tcase ${COMP_WORDS[1]} in\n")
	for _, c := range list {
		fmt.Fprintf(&b, "\t%s)\n\t\tcase $before in\n", c.name)
		for _, o := range c.flags {
			if len(o.values) > 0 {
				fmt.Fprintf(&b, "\t\t%s) COMPREPLY=($(compgen -W '%s' -- \"$word\")); return ;;\n", strings.Join(o.spellings(), "|"), strings.Join(o.values, " "))
			}
		}
		fmt.Fprintf(&b, "\t\tesac\n\t\twords='%s'\n\t\t;;\n", strings.Join(c.spellings(), " "))
	}
	b.WriteString("\tesac\n\tif [[ $word == -* ]]; then\n\t\tCOMPREPLY=($(compgen -W \"$words\" -- \"$word\"))\n\telse\n\t\tCOMPREPLY=($(compgen -f -- \"$word\"))\n\tfi\n}\ncomplete -o filenames -F _dandle dandle\n")
	return b.String()
}

// zsh is the completion for zsh, to be put into a folder of its fpath.
func zsh(list []command) string {
	var b strings.Builder
	b.WriteString("#compdef dandle\n# Completion of dandle for zsh.\n_dandle() {\n\tlocal -a commands\n\tcommands=(\n")
	for _, c := range list {
		fmt.Fprintf(&b, "\t\t%s\n", single(c.name+":"+c.summary))
	}
	b.WriteString("\t)\n\tif ((CURRENT == 2)); then\n\t\t_describe command commands\n\t\treturn\n\tfi\n\tlocal name=$words[2]\n\tshift words\n\t((CURRENT--))\n\tcase $name in\n")
	for _, c := range list {
		fmt.Fprintf(&b, "\t%s)\n\t\t_arguments", c.name)
		for _, o := range c.flags {
			for _, spelling := range o.spellings() {
				fmt.Fprintf(&b, " \\\n\t\t\t%s", single(spelling+"["+strings.NewReplacer("[", "(", "]", ")").Replace(o.usage)+"]"+zshValue(&o)))
			}
		}
		b.WriteString(" \\\n\t\t\t'*:file:_files'\n\t\t;;\n")
	}
	b.WriteString("\tesac\n}\n_dandle \"$@\"\n")
	return b.String()
}

func zshValue(o *option) string {
	switch {
	case o.value == "":
		return ""
	case len(o.values) > 0:
		return ":" + o.value + ":(" + strings.Join(o.values, " ") + ")"
	case o.file():
		return ":" + o.value + ":_files"
	}
	return ":" + o.value + ": "
}

// fish is the completion for fish.
func fish(list []command) string {
	var b strings.Builder
	b.WriteString("# Completion of dandle for fish.\n")
	for _, c := range list {
		fmt.Fprintf(&b, "complete -c dandle -n __fish_use_subcommand -f -a %s -d %s\n", c.name, single(c.summary))
		for _, o := range c.flags {
			fmt.Fprintf(&b, "complete -c dandle -n '__fish_seen_subcommand_from %s'", c.name)
			if o.short != "" {
				b.WriteString(" -s " + o.short)
			}
			if o.long != "" {
				b.WriteString(" -l " + o.long)
			}
			switch {
			case len(o.values) > 0:
				fmt.Fprintf(&b, " -x -a %s", single(strings.Join(o.values, " ")))
			case o.file():
				b.WriteString(" -r")
			case o.value != "":
				b.WriteString(" -x")
			}
			fmt.Fprintf(&b, " -d %s\n", single(o.usage))
		}
	}
	return b.String()
}

// powershell is the completion for PowerShell 5 and later.
func powershell(list []command) string {
	quoted := func(words []string) string {
		for i, w := range words {
			words[i] = "'" + strings.ReplaceAll(w, "'", "''") + "'"
		}
		return "@(" + strings.Join(words, ", ") + ")"
	}
	var b strings.Builder
	b.WriteString("# Completion of dandle for PowerShell. Dot-source it in your profile.\nRegister-ArgumentCompleter -Native -CommandName dandle -ScriptBlock {\n\tparam($word, $tree, $cursor)\n")
	b.WriteString("\t$typed = @($tree.CommandElements | ForEach-Object { $_.ToString() })\n\t$before = if ($word) { $typed[-2] } else { $typed[-1] }\n")
	fmt.Fprintf(&b, "\t$words = %s\n", quoted(names(list)))
	b.WriteString("\tif ($typed.Count -gt 2 -or ($typed.Count -eq 2 -and -not $word)) {\n\t\tswitch ($typed[1]) {\n")
	for _, c := range list {
		fmt.Fprintf(&b, "\t\t\t'%s' {\n\t\t\t\t$words = %s\n", c.name, quoted(c.spellings()))
		for _, o := range c.flags {
			if len(o.values) > 0 {
				fmt.Fprintf(&b, "\t\t\t\tif ($before -in %s) { $words = %s }\n", quoted(o.spellings()), quoted(append([]string(nil), o.values...)))
			}
		}
		b.WriteString("\t\t\t}\n")
	}
	b.WriteString("\t\t}\n\t}\n\t$words | Where-Object { $_ -like \"$word*\" } | ForEach-Object { [System.Management.Automation.CompletionResult]::new($_) }\n}\n")
	return b.String()
}

func names(list []command) []string {
	var out []string
	for _, c := range list {
		out = append(out, c.name)
	}
	return out
}

// spellings are all flags of a command, and the one that all have.
func (c *command) spellings() []string {
	list := []string{"--help"}
	for _, o := range c.flags {
		list = append(list, o.spellings()...)
	}
	return list
}

// single puts a text into single quotes, as zsh and fish both read them.
func single(text string) string {
	return "'" + strings.NewReplacer(`\`, `\\`, "'", `'\''`).Replace(text) + "'"
}
