package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// critiqueMany writes letters about many manuscripts into a folder. A letter
// that cannot be written does not stop the others.
func (s *session) critiqueMany(w writing, out *output, named, files []string, complete bool) (int, error) {
	if len(files) == 0 {
		return exitBad, nil
	}
	if out.name == "" || out.name == standardInput {
		return exitBad, misuse("%d manuscripts: -o names the folder for their letters", len(files))
	}
	if err := makeFolder(out.name); err != nil {
		return exitBad, err
	}
	type written struct {
		name string
		data []byte
		row  row
	}
	var rows table
	taken := map[string]string{}
	all, err := readManuscripts(s, files, func(r reading) (written, error) {
		data, err := w.letter(r)
		return written{r.name, data, rowOf(r)}, err
	}, func(l written) error {
		rows = append(rows, l.row)
		to := output{name: filepath.Join(out.name, letterName(l.name, named, w.format)), force: out.force}
		if err := s.post(to, l.name, l.data, taken, files); err != nil {
			s.fail("dandle", err)
			complete = false
		}
		return nil
	})
	if err != nil {
		return exitBad, err
	}
	if _, err := s.out.Write(rows.text(s.paint)); err != nil {
		return exitBad, err
	}
	if !all || !complete {
		return exitBad, nil
	}
	return exitFine, nil
}

func makeFolder(name string) error {
	err := os.Mkdir(name, 0o777)
	if !errors.Is(err, fs.ErrExist) {
		return writeError(name, err)
	}
	if info, err := os.Stat(name); err == nil && !info.IsDir() {
		return fmt.Errorf("%s: a file; name a folder for the letters", name)
	}
	return nil
}

// post writes the letter about a manuscript, unless another's has its name.
func (s *session) post(to output, about string, data []byte, taken map[string]string, files []string) error {
	if other, is := taken[to.name]; is {
		return fmt.Errorf("%s: has the letter about %s; read %s by itself", to.name, other, about)
	}
	taken[to.name] = about
	if err := os.MkdirAll(filepath.Dir(to.name), 0o777); err != nil {
		return writeError(to.name, err)
	}
	if err := to.check(files...); err != nil {
		return err
	}
	return to.write(s, data)
}

// letterName is where in the folder for letters the one about a manuscript
// stands: as the manuscript stands in the folder that was named.
func letterName(name string, named []string, f format) string {
	place := filepath.Base(name)
	for _, folder := range named {
		if relative, err := filepath.Rel(folder, name); err == nil && relative != "." && filepath.IsLocal(relative) {
			place = relative
			break
		}
	}
	return strings.TrimSuffix(place, filepath.Ext(place)) + ".letter." + f.String()
}
