package lastcommit_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"dandle/lsp/lastcommit"
)

// git runs git in a folder, as nobody in particular and without the settings of
// whoever runs the test.
func git(t *testing.T, folder string, args ...string) {
	t.Helper()
	command := exec.CommandContext(t.Context(), "git", append([]string{"-c", "user.name=Nobody", "-c", "user.email=nobody@example.org", "-c", "commit.gpgsign=false"}, args...)...)
	command.Dir = folder
	command.Env = append(os.Environ(), "GIT_CONFIG_GLOBAL="+os.DevNull, "GIT_CONFIG_SYSTEM="+os.DevNull)
	if out, err := command.CombinedOutput(); err != nil {
		t.Fatalf("git %v: %v\n%s", args, err, out)
	}
}

func write(t *testing.T, path, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
}

func TestText(t *testing.T) {
	if _, err := exec.LookPath("git"); err != nil {
		t.Skip("git is not installed")
	}
	folder := t.TempDir()
	path := filepath.Join(folder, "shelf", "lamp.verse")
	write(t, path, "The lamp went out.\n")
	if _, err := lastcommit.Text(t.Context(), path, 100); err == nil || !strings.Contains(err.Error(), "in no git repository") {
		t.Errorf("outside a repository: %v", err)
	}
	git(t, folder, "init", "-q")
	if _, err := lastcommit.Text(t.Context(), path, 100); err == nil || !strings.Contains(err.Error(), "no committed version") {
		t.Errorf("before the first commit: %v", err)
	}
	git(t, folder, "add", ".")
	git(t, folder, "commit", "-q", "-m", "A first draft")
	write(t, path, "The lamp went on.\n")
	// Settings and attributes of the repository that would run programs are not heeded.
	write(t, filepath.Join(folder, ".gitattributes"), "*.verse diff=evil filter=evil\n")
	for _, setting := range []string{"diff.evil.textconv", "filter.evil.smudge", "core.pager", "core.fsmonitor"} {
		git(t, folder, "config", setting, "touch "+filepath.Join(folder, "ran"))
	}
	data, err := lastcommit.Text(t.Context(), path, 100)
	if err != nil || string(data) != "The lamp went out.\n" {
		t.Errorf("got %q, %v", data, err)
	}
	if _, err := os.Stat(filepath.Join(folder, "ran")); err == nil {
		t.Error("a program of the repository ran")
	}
	if _, err := lastcommit.Text(t.Context(), path, 5); err == nil || !strings.Contains(err.Error(), "too long") {
		t.Errorf("over the limit: %v", err)
	}
	for _, other := range []string{"none.verse", "-x", "a:b"} {
		if _, err := lastcommit.Text(t.Context(), filepath.Join(folder, "shelf", other), 100); err == nil {
			t.Errorf("%s was never committed", other)
		}
	}
}
