package underway

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"halfturn/coach/archive/folder"
	"halfturn/stream/record"
)

// Unfinished lists the sessions that are not over, oldest first. Those that an earlier run of the program left are
// repaired and played again, or finished; those that come from another Halfturn are continued from there.
func (f *Folders) Unfinished() ([]string, error) {
	ids, err := folder.IDs(f.dir)
	return slices.DeleteFunc(ids, func(id string) bool {
		return !record.Unfinished(f.path(id)) || folder.IsShared(f.path(id))
	}), err
}

// Repair cuts the files of a recording that was interrupted back to their last whole block. It returns how many bytes
// each lost, by name.
func (f *Folders) Repair(id string) (cut map[string]int64, err error) {
	return record.Repair(f.path(id))
}

// Finish notes that a session is over.
func (f *Folders) Finish(id string) error { return record.Finish(f.path(id)) }

// Changed returns when something in the folder of a session was last written; otherwise, when that is not known.
func (f *Folders) Changed(id string, otherwise time.Time) time.Time {
	at := time.Time{}
	entries, _ := os.ReadDir(f.path(id)) // nothing is known of an unreadable folder
	for _, e := range entries {
		if info, err := e.Info(); err == nil && info.ModTime().After(at) {
			at = info.ModTime()
		}
	}
	if at.IsZero() {
		return otherwise
	}
	return at
}

// TidyAll removes what interrupted compressions left in the folders of sessions that are over, and with compress
// compresses the files there that are not yet. It reports what cannot be done and goes on, until the context ends.
func (f *Folders) TidyAll(ctx context.Context, compress bool, warn func(error)) {
	ids, err := folder.IDs(f.dir)
	if err != nil {
		return // whoever looks for unfinished sessions reports it
	}
	for _, id := range ids {
		if ctx.Err() != nil {
			return
		}
		if record.Unfinished(f.path(id)) {
			continue
		}
		if err := record.Tidy(f.path(id)); err != nil {
			warn(fmt.Errorf("what an interrupted compression left cannot be removed: %w", err))
		}
		if compress {
			f.compress(ctx, id, warn)
		}
	}
}

// compress compresses the files of one session.
func (f *Folders) compress(ctx context.Context, id string, warn func(error)) {
	parts, _ := record.Parts(f.path(id)) // an unreadable folder stays as it is
	for _, name := range parts {
		if strings.HasSuffix(name, ".zst") || ctx.Err() != nil {
			continue
		}
		if err := Compress(name); err != nil {
			warn(fmt.Errorf("the recording is kept uncompressed: %w", err))
		}
	}
}

// Compress compresses a file of a recording that is complete. A session whose folder is gone, as it was deleted or left
// to another machine, has none that could stay uncompressed: that is no error.
func Compress(file string) error {
	err := record.Compress(file)
	if errors.Is(err, fs.ErrNotExist) {
		if _, gone := os.Stat(filepath.Dir(file)); errors.Is(gone, fs.ErrNotExist) {
			return nil
		}
	}
	return err
}
