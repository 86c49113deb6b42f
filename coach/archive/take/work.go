package take

import (
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"

	"halfturn/coach/archive/lock"
)

// Names in the folder of the sessions.
const (
	workPrefix = ".import-" // begins the name of a work folder
	workLock   = "lock"     // in a work folder, locked while it is used
	oldUpload  = ".upload-" // earlier versions wrote uploads beside the sessions
)

// staleAfter is how long a folder without a lock may be unchanged before it counts as left over.
const staleAfter = 10 * time.Minute

// A work is a folder in which sessions are prepared. It is removed with everything in it.
type work struct {
	dir  string
	lock io.Closer
}

// newWork makes a work folder.
func newWork(ctx context.Context, sessions string) (*work, error) {
	gate, err := lock.Gate(ctx, sessions)
	if err != nil {
		return nil, err
	}
	defer gate.Close()
	dir, err := os.MkdirTemp(sessions, workPrefix+"*")
	if err != nil {
		return nil, err
	}
	lock, err := lock.Try(filepath.Join(dir, workLock))
	if err != nil {
		return nil, errors.Join(err, os.RemoveAll(dir))
	}
	return &work{dir, lock}, nil
}

// remove removes the folder. Should that fail, a later Sweep does it.
func (w *work) remove() {
	w.lock.Close()
	os.RemoveAll(w.dir)
}

// Sweep removes what killed imports left in the folder of the sessions. One that is under way, in
// this process or another, is not touched.
func Sweep(ctx context.Context, sessions string) error {
	entries, err := os.ReadDir(sessions)
	if errors.Is(err, os.ErrNotExist) {
		return nil
	}
	var left []string
	for _, e := range entries {
		if strings.HasPrefix(e.Name(), workPrefix) || strings.HasPrefix(e.Name(), oldUpload) {
			left = append(left, filepath.Join(sessions, e.Name()))
		}
	}
	if err != nil || len(left) == 0 {
		return err
	}
	gate, err := lock.Gate(ctx, sessions)
	if err != nil {
		return err
	}
	defer gate.Close()
	for _, name := range left {
		if isStale(name) {
			err = errors.Join(err, os.RemoveAll(name))
		}
	}
	return err
}

// isStale reports whether nobody uses a work folder, or an upload of an earlier version.
func isStale(name string) bool {
	held := filepath.Join(name, workLock)
	if _, err := os.Stat(held); err == nil {
		f, err := lock.Try(held)
		if err != nil {
			return false
		}
		return f.Close() == nil
	}
	last := time.Time{}
	files, _ := filepath.Glob(filepath.Join(name, "*")) // the pattern is a good one
	for _, file := range append(files, name) {
		if info, err := os.Stat(file); err == nil && info.ModTime().After(last) {
			last = info.ModTime()
		}
	}
	return time.Since(last) > staleAfter
}
