//go:build unix

package lsp

import (
	"context"
	"errors"
	"syscall"
	"time"
)

// parentInterval is how often the client's process is looked for. The end of
// the input tells of most dead clients at once; this is for those whose pipe is
// kept open by another process.
const parentInterval = 3 * time.Second

// watchParent calls gone when the process has ended, and returns then or when
// ctx ends.
func watchParent(ctx context.Context, pid int, gone func()) {
	tick := time.NewTicker(parentInterval)
	defer tick.Stop()
	for {
		if errors.Is(syscall.Kill(pid, 0), syscall.ESRCH) {
			gone()
			return
		}
		select {
		case <-tick.C:
		case <-ctx.Done():
			return
		}
	}
}
