package main

import (
	"errors"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// An output is where a command's result goes: the standard output, or a file.
type output struct {
	name  string
	force bool
}

// outputFlags adds -o and --force.
func outputFlags(flags *flag.FlagSet) *output {
	var o output
	flags.StringVar(&o.name, "o", "", "write to `FILE` instead of the standard output (also --output)")
	flags.StringVar(&o.name, "output", "", "")
	flags.BoolVar(&o.force, "force", false, "overwrite FILE if it is there")
	return &o
}

// check reports early what would keep the result from being written, before
// anybody waits for it. Inputs are files that must not be overwritten.
func (o *output) check(inputs ...string) error {
	if o.name == "" || o.name == standardInput {
		return nil
	}
	info, err := os.Stat(o.name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return writeError(o.name, err)
	case info.IsDir():
		return fmt.Errorf("%s: a folder; name a file in it", o.name)
	}
	for _, input := range inputs {
		if in, err := os.Stat(input); err == nil && os.SameFile(in, info) {
			return fmt.Errorf("%s: the manuscript itself; name another file for the output", o.name)
		}
	}
	if !o.force && info.Mode().IsRegular() {
		return existsError(o.name)
	}
	return nil
}

func existsError(name string) error {
	return fmt.Errorf("%s: is there already; --force overwrites it", name)
}

// write puts the result where it goes. A file is written whole or not at all:
// beside its place first, then moved there.
func (o *output) write(s *session, data []byte) error {
	if o.name == "" || o.name == standardInput {
		_, err := s.out.Write(data)
		return err
	}
	mode := fs.FileMode(0o644)
	if info, err := os.Stat(o.name); err == nil {
		if !info.Mode().IsRegular() {
			// A device or a pipe cannot be replaced, only written to.
			return writeError(o.name, os.WriteFile(o.name, data, mode))
		}
		mode = info.Mode().Perm()
	}
	name := o.name
	if target, err := filepath.EvalSymlinks(name); err == nil {
		name = target // the link stays, and what it points at is replaced
	}
	f, err := os.CreateTemp(filepath.Dir(name), "."+filepath.Base(name)+".*")
	if err != nil {
		return writeError(o.name, err)
	}
	defer os.Remove(f.Name()) // where it was moved, there is nothing left to remove
	_, err = f.Write(data)
	if err == nil {
		err = f.Chmod(mode)
	}
	if closing := f.Close(); err == nil {
		err = closing
	}
	if err != nil {
		return writeError(o.name, err)
	}
	if o.force {
		return writeError(o.name, os.Rename(f.Name(), name))
	}
	// A link, unlike a move, never takes the place of a file that came there
	// in the meantime.
	switch err := os.Link(f.Name(), name); {
	case errors.Is(err, fs.ErrExist):
		return existsError(o.name)
	case err != nil: // a file system without links
		return writeError(o.name, os.Rename(f.Name(), name))
	}
	return nil
}

// writeError is err as one line that names the file and what to do; nil for nil.
func writeError(name string, err error) error {
	if err == nil {
		return nil
	}
	var path *fs.PathError
	var link *os.LinkError
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("%s: cannot be written, its folder is not there", name)
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("%s: may not be written; see that the folder is yours", name)
	case errors.As(err, &path):
		err = path.Err
	case errors.As(err, &link):
		err = link.Err
	}
	return fmt.Errorf("%s: cannot be written: %w", name, err)
}
