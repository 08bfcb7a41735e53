package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

const program = `dandle reads rhyming verse as an editor would.

Usage:

  dandle check    what an editor's ear would mark
  dandle explain  what a finding means

Examples:

  dandle check lamp.verse          what an editor would mark
`

const checkHelp = `dandle check [-f text|json] FILE…

Reads manuscripts.

Examples:

  dandle check lamp.verse

Flags:

  -f FORMAT              FORMAT of the output: text, json or sarif (also --format)
  --log FILE             write the log to the end of FILE
  --near                 near rhymes too, after the perfect ones
`

func described() []command {
	list := parseCommands(program)
	for i := range list {
		list[i].describe(strings.ReplaceAll(checkHelp, "dandle check [", "dandle "+list[i].name+" ["))
	}
	return list
}

func TestHelpIsRead(t *testing.T) {
	list := described()
	if got := names(list); !slices.Equal(got, []string{"check", "explain"}) {
		t.Fatalf("commands %q", got)
	}
	c := list[0]
	if c.synopsis != "[-f text|json] FILE…" || !strings.HasPrefix(c.text, "Reads") || strings.Contains(c.text, "Flags") {
		t.Errorf("read as %+v", c)
	}
	if got := c.spellings(); !slices.Equal(got, []string{"--help", "-f", "--format", "--log", "--near"}) {
		t.Errorf("flags %q", got)
	}
	if got := c.flags[0].values; !slices.Equal(got, []string{"text", "json", "sarif"}) {
		t.Errorf("values %q", got)
	}
	if !c.flags[1].file() || c.flags[2].value != "" {
		t.Errorf("values of %+v", c.flags)
	}
}

// TestBashCompletes asks bash itself what it would offer.
func TestBashCompletes(t *testing.T) {
	shell, err := exec.LookPath("bash")
	if err != nil {
		t.Skip("no bash here")
	}
	script := filepath.Join(t.TempDir(), "dandle.bash")
	if err := os.WriteFile(script, []byte(bash(described())), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct{ words, want string }{
		{"ch", "check"},
		{"check --", "--help --format --log --near"},
		{"check -f ", "text json sarif"},
		{"check --format j", "json"},
	} {
		words := strings.Split("dandle "+tt.words, " ")
		ask := `source "$0"; COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); _dandle; echo "${COMPREPLY[*]}"`
		got, err := exec.Command(shell, append([]string{"-c", ask, script}, words...)...).CombinedOutput()
		if err != nil || strings.TrimSpace(string(got)) != tt.want {
			t.Errorf("%q: offered %q (%v), want %q", tt.words, got, err, tt.want)
		}
	}
}

// TestShellsTakeTheirCompletions lets the shells that are here read theirs.
func TestShellsTakeTheirCompletions(t *testing.T) {
	for shell, text := range map[string]string{"bash": bash(described()), "zsh": zsh(described()), "fish": fish(described())} {
		name, err := exec.LookPath(shell)
		if err != nil {
			continue
		}
		script := filepath.Join(t.TempDir(), shell)
		if err := os.WriteFile(script, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		if said, err := exec.Command(name, "-n", script).CombinedOutput(); err != nil {
			t.Errorf("%s: %v\n%s", shell, err, said)
		}
	}
	for _, want := range []string{"'check'", "'--format'", "'sarif'"} {
		if !strings.Contains(powershell(described()), want) {
			t.Errorf("PowerShell is not told of %s", want)
		}
	}
}

func TestManPage(t *testing.T) {
	page := man(described(), "v1.2.3", time.Unix(0, 0))
	for _, want := range []string{".TH DANDLE 1 \"1970-01-01\"", ".SS check\n", `\fB\-f, \-\-format\fR FORMAT`, ".SH EXIT STATUS"} {
		if !strings.Contains(page, want) {
			t.Errorf("the page lacks %q:\n%s", want, page)
		}
	}
	if _, err := exec.LookPath("groff"); err != nil {
		t.Skip("no groff here")
	}
	c := exec.Command("groff", "-man", "-Tutf8", "-ww")
	c.Stdin = strings.NewReader(page)
	var said bytes.Buffer
	c.Stderr = &said
	if err := c.Run(); err != nil || said.Len() > 0 {
		t.Errorf("groff: %v\n%s", err, said.Bytes())
	}
}

func TestArchivesAreTheSameTwice(t *testing.T) {
	files := []file{{"dandle", 0o755, []byte("program")}, {"LICENSE", 0o644, []byte("MIT")}}
	for name, pack := range map[string]func(string, []file, time.Time) ([]byte, error){"tar": tarball, "zip": zipped} {
		a, err := pack("dandle-1", files, time.Unix(1e9, 0).UTC())
		if err != nil {
			t.Fatal(err)
		}
		if b, _ := pack("dandle-1", files, time.Unix(1e9, 0).UTC()); !bytes.Equal(a, b) {
			t.Errorf("%s: two archives of the same files differ", name)
		}
	}
}
