package main

import (
	"os"
	"testing"
)

func TestPaintOnlyWhereWanted(t *testing.T) {
	if got := painter(false).paint(bold, "lamp"); got != "lamp" {
		t.Errorf("unpainted: %q", got)
	}
	if got := painter(true).paint(bold, "lamp"); got != "\x1b[1mlamp\x1b[0m" {
		t.Errorf("painted: %q", got)
	}
	read, write, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	defer read.Close()
	defer write.Close()
	if colorful(write, func(string) string { return "" }) {
		t.Error("a pipe is no terminal")
	}
}

// TestNoColor holds to no-color.org: any value that is not empty says no.
func TestNoColor(t *testing.T) {
	terminal, err := os.Open("/dev/tty")
	if err != nil {
		terminal, err = os.Open(os.DevNull) // a character device, too
	}
	if err != nil {
		t.Fatal(err)
	}
	defer terminal.Close()
	env := func(name, value string) func(string) string {
		return func(asked string) string {
			if asked == name {
				return value
			}
			return ""
		}
	}
	for _, c := range []struct {
		name, value string
		want        bool
	}{
		{"NO_COLOR", "", true},
		{"NO_COLOR", "1", false},
		{"NO_COLOR", "0", false},
		{"TERM", "dumb", false},
		{"TERM", "xterm", true},
	} {
		if got := colorful(terminal, env(c.name, c.value)); got != c.want {
			t.Errorf("%s=%q: colour %v", c.name, c.value, got)
		}
	}
}

func TestPrintableTakesControlsOut(t *testing.T) {
	if got := printable("a\x1b[2Jb\tc\u009b"); got != "a [2Jb c " {
		t.Errorf("got %q", got)
	}
}
