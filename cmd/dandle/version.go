package main

import (
	"flag"
	"fmt"
	"runtime"
	"runtime/debug"
)

func versionCommand() *command {
	return &command{
		name: "version", synopsis: "", summary: "which dandle this is",
		help: `
Prints the version, the Go release it was built with, and the system it is for.
`,
		flags: func(*flag.FlagSet) action {
			return func(s *session, args []string) (int, error) {
				if len(args) > 0 {
					return exitBad, misuse(`%q is one argument too many; see "dandle version --help"`, args[0])
				}
				fmt.Fprintf(s.out, "dandle %s, %s, %s/%s\n", version(), runtime.Version(), runtime.GOOS, runtime.GOARCH)
				return exitFine, nil
			}
		},
	}
}

// version is the module's version as the Go command recorded it, or "(devel)".
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok || info.Main.Version == "" {
		return "(devel)"
	}
	return info.Main.Version
}
