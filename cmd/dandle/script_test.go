package main

import (
	"flag"
	"os"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

var update = flag.Bool("update", false, "rewrite what the scripts compare with")

// TestMain lets scripts run this test's program as dandle.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"dandle": func() { os.Exit(dandle()) },
	})
}

// TestScripts types the command as its user does.
func TestScripts(t *testing.T) {
	shared, err := filepath.Abs(filepath.Join("..", "..", "testdata"))
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		UpdateScripts:       *update,
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Setup: func(env *testscript.Env) error {
			env.Setenv("TESTDATA", shared)
			return nil
		},
	})
}
