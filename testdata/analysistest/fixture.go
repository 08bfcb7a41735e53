// Package analysistest holds the harness for fixtures: manuscripts that say,
// in comments at their line ends, what should be found there. The comments are
// taken out before the text is read, so the program knows nothing of them.
//
//	The goat trimmed the wick and just polished the glass <!-- want word/filler "just" -->
//
// It is for tests of the analysis and of the floors above it.
package analysistest

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "rewrite golden files")

// A Fixture is a manuscript with what is expected of it taken out.
type Fixture struct {
	Text  string // without the comments
	Wants []Mark
	Traps []Mark // what looks guilty and must stay silent
}

// A Mark is one expectation.
type Mark struct {
	Line int // in the file, from 1
	Code string
	Text string // what the finding's span holds
}

// String is the mark as it is written in a fixture, with its line in front.
func (m Mark) String() string { return fmt.Sprintf("%d: %s %q", m.Line, m.Code, m.Text) }

var (
	trailing = regexp.MustCompile(`[ \t]*<!--[ \t]*(?:want|trap)\b[^>]*-->[ \t]*$`)
	comment  = regexp.MustCompile(`<!--[ \t]*(want|trap)[ \t]+(.*?)[ \t]*-->`)
	pair     = regexp.MustCompile(`^([a-z]+/[a-z-]+)(?:[ \t]+("(?:[^"\\]|\\.)*"))?[ \t]*`)
)

// Parse takes the expectations out of a fixture. One comment may hold several,
// one after the other; each is a code and the text of its span in quotes. A
// trap may leave the text out: then the whole line stays silent.
func Parse(source string) (Fixture, error) {
	var f Fixture
	lines := strings.SplitAfter(source, "\n")
	for i, line := range lines {
		body := strings.TrimRight(line, "\r\n")
		ending := line[len(body):]
		for trailing.MatchString(body) {
			last := strings.LastIndex(body, "<!--")
			if err := f.read(body[last:], i+1); err != nil {
				return Fixture{}, fmt.Errorf("line %d: %w", i+1, err)
			}
			body = strings.TrimRight(body[:last], " \t")
		}
		if strings.Contains(body, "<!-- want") || strings.Contains(body, "<!-- trap") {
			return Fixture{}, fmt.Errorf("line %d: an expectation stands at the line's end only", i+1)
		}
		lines[i] = body + ending
	}
	f.Text = strings.Join(lines, "")
	return f, nil
}

// read adds what one comment expects.
func (f *Fixture) read(text string, line int) error {
	m := comment.FindStringSubmatch(text)
	if m == nil || m[2] == "" {
		return fmt.Errorf("cannot read the expectation %q", text)
	}
	for rest := m[2]; rest != ""; {
		p := pair.FindStringSubmatch(rest)
		if p == nil {
			return fmt.Errorf("expected CODE \"text\", found %q", rest)
		}
		mark := Mark{Line: line, Code: p[1]}
		if p[2] != "" {
			quoted, err := strconv.Unquote(p[2])
			if err != nil {
				return fmt.Errorf("%s: %w", p[2], err)
			}
			mark.Text = quoted
		}
		switch {
		case m[1] == "trap":
			f.Traps = append(f.Traps, mark)
		case mark.Text == "":
			return fmt.Errorf("%s: a want names its text", mark.Code)
		default:
			f.Wants = append(f.Wants, mark)
		}
		rest = rest[len(p[0]):]
	}
	return nil
}

// Load reads a fixture, by its path below testdata.
func Load(t testing.TB, path string) Fixture {
	t.Helper()
	source, err := os.ReadFile(filepath.Join(Dir(t), filepath.FromSlash(path)))
	if err != nil {
		t.Fatal(err)
	}
	f, err := Parse(string(source))
	if err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	return f
}

// Dir is the module's testdata folder.
func Dir(t testing.TB) string {
	t.Helper()
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return filepath.Join(dir, "testdata")
		}
		up := filepath.Dir(dir)
		if up == dir {
			t.Fatal("no go.mod above the working directory")
		}
		dir = up
	}
}

// Golden compares with a file, or rewrites it under -update.
func Golden(t testing.TB, path, got string) {
	t.Helper()
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatalf("%v; run with -update to write it", err)
	}
	if diff := cmp.Diff(string(want), got); diff != "" {
		t.Errorf("%s is not current, run with -update and read what changes (-want +got):\n%s", path, diff)
	}
}
