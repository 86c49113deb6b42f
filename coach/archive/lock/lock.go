package lock

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/gofrs/flock"
)

// The files that are locked in a data directory.
const (
	gateFile  = "import.lock" // while imported sessions are put among the others
	ownerFile = "lock"        // by the server that owns the data directory
)

// ErrHeld says that a lock is held already, by this process or another.
var ErrHeld = errors.New("locked")

// A Lock is a lock on a file. It ends with the process at the latest.
type Lock struct{ file *flock.Flock }

// Try locks a file, which it makes when it does not exist, against everybody else, and does not wait: the error is
// [ErrHeld] when somebody holds the lock.
func Try(name string) (*Lock, error) {
	f := newLock(name)
	locked, err := f.TryLock()
	switch {
	case err != nil:
		return nil, errors.Join(err, f.Close())
	case !locked:
		return nil, errors.Join(ErrHeld, f.Close())
	}
	return &Lock{f}, nil
}

func newLock(name string) *flock.Flock {
	return flock.New(name, flock.SetFlag(os.O_CREATE|os.O_RDWR), flock.SetPermissions(0o640))
}

// lockRetry is how often a lock that is waited for is tried. Locks are held for milliseconds.
const lockRetry = 5 * time.Millisecond

// Wait is Try that waits until the lock is free or the context ends.
func Wait(ctx context.Context, name string) (*Lock, error) {
	f := newLock(name)
	if _, err := f.TryLockContext(ctx, lockRetry); err != nil {
		if ctx.Err() == nil {
			err = fmt.Errorf("%s cannot be locked: %w", name, err)
		}
		return nil, errors.Join(err, f.Close())
	}
	return &Lock{f}, nil
}

// Close releases the lock.
func (l *Lock) Close() error { return l.file.Close() }

// Gate waits for the lock that is held while imported sessions are put among the others, and while their work folders
// come and go.
func Gate(ctx context.Context, sessions string) (*Lock, error) {
	lock, err := Wait(ctx, filepath.Join(filepath.Dir(sessions), gateFile))
	if err != nil && ctx.Err() == nil {
		return nil, fmt.Errorf("the folder of the sessions cannot be locked: %w", err)
	}
	return lock, err
}

// Own makes sure that one server alone writes into a data directory. The lock ends with the process, however that ends.
func Own(data string) (*Lock, error) {
	if err := os.MkdirAll(data, 0o750); err != nil {
		return nil, fmt.Errorf("the data directory cannot be used: %w; choose another with --data", err)
	}
	name := filepath.Join(data, ownerFile)
	lock, err := Try(name)
	switch {
	case errors.Is(err, ErrHeld):
		who := ""
		if pid, err := os.ReadFile(name); err == nil && len(pid) > 0 && len(pid) < 100 {
			who = " (process " + strings.TrimSpace(string(pid)) + ")"
		}
		return nil, fmt.Errorf("the data directory %s is in use by another Halfturn%s; "+
			"stop that one, or choose another directory with --data", data, who)
	case err != nil:
		return nil, fmt.Errorf("the data directory cannot be locked: %w; "+
			"make it writable, or choose another with --data", err)
	}
	_ = os.WriteFile(name, fmt.Appendln(nil, os.Getpid()), 0o640) // for people; the lock holds without it
	return lock, nil
}
