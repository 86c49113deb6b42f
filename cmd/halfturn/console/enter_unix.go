//go:build unix

package console

import (
	"bytes"
	"context"
	"errors"
	"os"

	"golang.org/x/sys/unix"
)

// Enter waits until a line has been typed, and reports whether one was: not when ctx ends, or nothing more can come. A
// read of a terminal cannot be ended from outside, so it is asked first whether there is something to read.
func Enter(ctx context.Context, typed *os.File) bool {
	fd := int(typed.Fd())
	for ctx.Err() == nil {
		asked := []unix.PollFd{{Fd: int32(fd), Events: unix.POLLIN}}
		n, err := unix.Poll(asked, int(lookEvery.Milliseconds()))
		if errors.Is(err, unix.EINTR) || err == nil && n == 0 {
			continue
		}
		if err != nil {
			return false
		}
		var line [256]byte
		got, err := unix.Read(fd, line[:])
		switch {
		case errors.Is(err, unix.EINTR) || errors.Is(err, unix.EAGAIN):
		case err != nil || got == 0:
			return false
		case bytes.IndexByte(line[:got], '\n') >= 0:
			return true
		}
	}
	return false
}
