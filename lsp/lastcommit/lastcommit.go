// Package lastcommit asks git for the version of a file that was committed last.
// It runs git only when it is called, which is only where somebody asked for a
// comparison with that version; and of git only the command that prints what is
// stored: no hook, no filter, no pager and no network.
package lastcommit

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"
)

// patience is how long git may take; it reads one object.
const patience = 10 * time.Second

// Text is what the last commit has of a file, at most limit bytes of it. The
// error is one sentence for who asked.
func Text(ctx context.Context, path string, limit int64) ([]byte, error) {
	git, err := exec.LookPath("git")
	if err != nil {
		return nil, errors.New("git is not installed, so there is no last commit to compare with")
	}
	path, err = filepath.Abs(path)
	if err != nil {
		return nil, err
	}
	ctx, cancel := context.WithTimeout(ctx, patience)
	defer cancel()
	// A plumbing command reads no settings that run programs; a repository that
	// lacks the object must not fetch it either.
	command := exec.CommandContext(ctx, git, "--no-pager", "-c", "protocol.allow=never", "cat-file", "blob", "HEAD:./"+filepath.Base(path))
	command.Dir = filepath.Dir(path)
	command.Env = append(os.Environ(), "GIT_TERMINAL_PROMPT=0", "GIT_NO_LAZY_FETCH=1", "GIT_OPTIONAL_LOCKS=0", "LC_ALL=C")
	var told bytes.Buffer
	command.Stderr = &told
	out, err := command.StdoutPipe()
	if err != nil {
		return nil, fmt.Errorf("ask git: %w", err)
	}
	if err := command.Start(); err != nil {
		return nil, fmt.Errorf("ask git: %w", err)
	}
	data, err := io.ReadAll(io.LimitReader(out, limit+1))
	if int64(len(data)) > limit {
		cancel()
	}
	if waited := command.Wait(); err == nil {
		err = waited
	}
	switch {
	case int64(len(data)) > limit:
		return nil, errors.New("what the last commit has of it is too long for a manuscript")
	case strings.Contains(told.String(), "not a git repository"):
		return nil, errors.New("its folder is in no git repository, so there is no last commit to compare with")
	case strings.Contains(told.String(), "dubious ownership"):
		return nil, errors.New("git does not trust its repository, which is somebody else’s")
	case err != nil:
		return nil, errors.New("git has no committed version of it yet")
	}
	return data, nil
}
