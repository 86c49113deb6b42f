package stored

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"halfturn/configs/strict"
	"halfturn/stream/capture"
)

// WriteFile writes a file that appears whole or not at all, and never over one that is there unless forced. What could
// be read of a damaged recording is kept; the error says so.
func WriteFile(name string, force bool, write func(io.Writer) error) (err error) {
	if _, err := os.Lstat(name); err == nil && !force {
		return fmt.Errorf("%s is there already; choose another name or add --force", name)
	}
	f, err := os.CreateTemp(filepath.Dir(name), ".halfturn-*")
	if err != nil {
		return fmt.Errorf("%s cannot be written: %w", name, strict.WithoutName(err))
	}
	failed := write(f)
	var cut *capture.CutError
	if failed != nil && !errors.As(failed, &cut) {
		return errors.Join(failed, f.Close(), os.Remove(f.Name()))
	}
	if err := errors.Join(f.Chmod(0o644), f.Sync(), f.Close()); err != nil {
		return errors.Join(fmt.Errorf("%s cannot be written: %w", name, strict.WithoutName(err)), os.Remove(f.Name()))
	}
	return errors.Join(failed, os.Rename(f.Name(), name))
}
