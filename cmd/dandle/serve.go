package main

import (
	"context"
	"flag"
	"io"
	"os"
	"runtime/debug"

	"dandle/lsp"
)

func serveCommand() *command {
	return &command{
		name: "serve", synopsis: "[--log FILE]", summary: "the language server, on standard input and output",
		help: `
Speaks the Language Server Protocol 3.17 on standard input and output; an editor starts
it. Nothing but the protocol is written there: the log goes to standard error, or to a
file of your choice, at whose end it is added.

Examples, as an editor would call it:

  dandle serve
  dandle serve --log dandle.log
`,
		flags: func(flags *flag.FlagSet) action {
			var config serveConfig
			flags.BoolVar(&config.stdio, "stdio", false, "taken for the clients that pass it; nothing else is spoken")
			flags.StringVar(&config.log, "log", "", "write the log to the end of `FILE`")
			flags.BoolVar(&config.debug, "debug", false, "log every message too, with what the manuscript says")
			return func(s *session, args []string) (int, error) { return s.serve(config, args) }
		},
	}
}

// tidy is how much rubbish may lie about in the server, in per cent of what is in
// use: it stays open all day beside other programs, and clearing away takes it
// little of its time.
const tidy = 40

type serveConfig struct {
	stdio, debug bool
	log          string
}

func (s *session) serve(c serveConfig, args []string) (int, error) {
	if len(args) > 0 {
		return exitBad, misuse(`%q is one argument too many; see "dandle serve --help"`, args[0])
	}
	var log io.Writer = s.err
	if c.log != "" {
		file, err := os.OpenFile(c.log, os.O_CREATE|os.O_APPEND|os.O_WRONLY, 0o600)
		if err != nil {
			return exitBad, fileError(c.log, err)
		}
		defer file.Close()
		log = file
	}
	debug.SetGCPercent(tidy)
	// Why a session ended stands in the log; the exit code is the protocol's.
	code, _ := lsp.Serve(context.Background(), s.in, s.direct, lsp.Config{Version: version(), Log: log, Debug: c.debug})
	return code, nil
}
