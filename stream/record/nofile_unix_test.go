//go:build unix

package record

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// TestNoFile: what is no file is refused at once, and not waited for.
func TestNoFile(t *testing.T) {
	dir := t.TempDir()
	pipe, loop := filepath.Join(dir, "pipe"), filepath.Join(dir, "loop")
	if err := errors.Join(syscall.Mkfifo(pipe, 0o600), os.Symlink(loop, loop)); err != nil {
		t.Skip(err)
	}
	for name, want := range map[string]string{pipe: "is a pipe", dir: "is a folder", os.DevNull: "is a device",
		loop: "too many"} {
		_, err := Read([]string{name}).Next()
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v; wanted: %s", name, err, want)
		}
		if _, err := ReadHead(t.Context(), name); err == nil {
			t.Errorf("%s has a heading", name)
		}
	}
}
