// Command dandle reads manuscripts of rhyming verse as an editor would: in an
// editor, as a language server, and at the prompt. It knows flags, files, exit
// codes and ways to print; it knows no verse.
package main

import (
	"bufio"
	"fmt"
	"os"
	"runtime/debug"
)

// The ways a run can end.
const (
	exitFine   = 0
	exitFailed = 1 // --fail-on found a finding as grave
	exitBad    = 2 // bad use or bad input
)

// roomy is how much rubbish may lie about, in per cent of what is in use: a command
// is soon over, and clearing away would take it a tenth of its time.
const roomy = 250

func main() { os.Exit(dandle()) }

// dandle runs the command line of this process and returns its exit code.
func dandle() int {
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(roomy)
	}
	out := bufio.NewWriterSize(os.Stdout, 64<<10)
	s := &session{
		in:       os.Stdin,
		out:      out,
		direct:   os.Stdout,
		err:      os.Stderr,
		paint:    painter(colorful(os.Stdout, os.Getenv)),
		progress: isTerminal(os.Stderr),
	}
	code := s.run(os.Args[1:])
	if err := out.Flush(); err != nil {
		fmt.Fprintf(os.Stderr, "dandle: write the output: %v; see that its disk or reader is there\n", err)
		return exitBad
	}
	return code
}
