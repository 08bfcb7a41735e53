// Command release builds the archives of a release: the program for each
// system, the licences, completions for four shells and a manual page, and a
// list of checksums. The same commit gives the same bytes, wherever it is built.
//
//	go run ./.ci/release -o DIR            all systems
//	go run ./.ci/release -o DIR linux/amd64
package main

import (
	"bytes"
	"crypto/sha256"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"time"
)

// targets are the systems that there are archives for.
var targets = []string{"darwin/amd64", "darwin/arm64", "linux/amd64", "linux/arm64", "windows/amd64", "windows/arm64"}

func main() {
	out := flag.String("o", "", "the folder to write to")
	flag.Parse()
	if err := release(*out, flag.Args()); err != nil {
		fmt.Fprintln(os.Stderr, "release:", err)
		os.Exit(1)
	}
}

func release(out string, chosen []string) error {
	if out == "" {
		return fmt.Errorf("no folder given; name one with -o")
	}
	if len(chosen) == 0 {
		chosen = targets
	}
	for _, t := range chosen {
		if !slices.Contains(targets, t) {
			return fmt.Errorf("no such system: %q; there are %s", t, strings.Join(targets, ", "))
		}
	}
	work, err := os.MkdirTemp("", "release")
	if err != nil {
		return err
	}
	defer os.RemoveAll(work)
	version, when, err := commit()
	if err != nil {
		return err
	}
	shared, err := sharedFiles(work, version, when)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(out, 0o755); err != nil {
		return err
	}
	var sums strings.Builder
	for _, t := range chosen {
		name, archive, err := pack(work, t, version, when, shared)
		if err != nil {
			return fmt.Errorf("%s: %w", t, err)
		}
		if err := os.WriteFile(filepath.Join(out, name), archive, 0o644); err != nil {
			return err
		}
		fmt.Fprintf(&sums, "%x  %s\n", sha256.Sum256(archive), name)
		fmt.Printf("%s: %d bytes\n", name, len(archive))
	}
	return os.WriteFile(filepath.Join(out, "checksums.txt"), []byte(sums.String()), 0o644)
}

// commit is the name of the version that is checked out, and its time.
func commit() (version string, when time.Time, err error) {
	name, err := exec.Command("git", "describe", "--tags", "--always", "--dirty").Output()
	if err != nil {
		return "", time.Time{}, fmt.Errorf("ask git for the version: %w", err)
	}
	text, err := exec.Command("git", "log", "-1", "--format=%ct").Output()
	if err != nil {
		return "", time.Time{}, fmt.Errorf("ask git for the time of the version: %w", err)
	}
	seconds, err := strconv.ParseInt(strings.TrimSpace(string(text)), 10, 64)
	return strings.TrimSpace(string(name)), time.Unix(seconds, 0).UTC(), err
}

// sharedFiles are those that every archive has. The completions and the manual
// page are made from the help of a program built for this machine.
func sharedFiles(work, version string, when time.Time) ([]file, error) {
	program := filepath.Join(work, "dandle-here")
	if err := build(program, runtime.GOOS, runtime.GOARCH); err != nil {
		return nil, err
	}
	commands, err := readHelp(program)
	if err != nil {
		return nil, err
	}
	files := []file{
		{"completions/_dandle", 0o644, []byte(zsh(commands))},
		{"completions/dandle.bash", 0o644, []byte(bash(commands))},
		{"completions/dandle.fish", 0o644, []byte(fish(commands))},
		{"completions/dandle.ps1", 0o644, []byte(powershell(commands))},
		{"man/man1/dandle.1", 0o644, []byte(man(commands, version, when))},
	}
	for _, name := range []string{"LICENSE", "NOTICE", "README.md"} {
		content, err := os.ReadFile(name)
		if err != nil {
			return nil, err
		}
		files = append(files, file{name, 0o644, content})
	}
	return files, nil
}

// build makes the program for a system. No path of this machine and no time is
// left in it.
func build(to, system, processor string) error {
	c := exec.Command("go", "build", "-trimpath", "-ldflags=-s -w -buildid=", "-o", to, "./cmd/dandle")
	c.Env = append(os.Environ(), "CGO_ENABLED=0", "GOOS="+system, "GOARCH="+processor, "GOAMD64=v1", "GOARM64=v8.0")
	var said bytes.Buffer
	c.Stdout, c.Stderr = &said, &said
	if err := c.Run(); err != nil {
		return fmt.Errorf("build: %w\n%s", err, said.Bytes())
	}
	return nil
}

// pack makes the archive of one system.
func pack(work, target, version string, when time.Time, shared []file) (name string, archive []byte, err error) {
	system, processor, _ := strings.Cut(target, "/")
	program := filepath.Join(work, system+"-"+processor)
	if err := build(program, system, processor); err != nil {
		return "", nil, err
	}
	binary, err := os.ReadFile(program)
	if err != nil {
		return "", nil, err
	}
	folder := fmt.Sprintf("dandle-%s-%s-%s", strings.TrimPrefix(version, "v"), system, processor)
	if system == "windows" {
		archive, err = zipped(folder, append([]file{{"dandle.exe", 0o755, binary}}, shared...), when)
		return folder + ".zip", archive, err
	}
	archive, err = tarball(folder, append([]file{{"dandle", 0o755, binary}}, shared...), when)
	return folder + ".tar.gz", archive, err
}
