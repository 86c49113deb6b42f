package disk

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"halfturn/coach/logbook"
)

func TestUnwritable(t *testing.T) {
	for err, want := range map[error]bool{
		syscall.ENOSPC: true,
		syscall.EROFS:  true,
		syscall.EACCES: false,
		fs.ErrNotExist: false,
		&os.PathError{Op: "write", Path: "x", Err: syscall.ENOSPC}: true,
		&logbook.Failure{Unwritable: true}:                         true,
		&logbook.Failure{Damaged: true}:                            false,
	} {
		if got := Unwritable(fmt.Errorf("wrapped: %w", err)); got != want {
			t.Errorf("%v may recover: %v; must be %v", err, got, want)
		}
	}
}

// A file appears whole or not at all, and nothing else is left in the folder.
func TestWriteWhole(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "file")
	if err := WriteWhole(name, []byte("old")); err != nil {
		t.Fatal(err)
	}
	failed := errors.New("no room")
	if err := PutWhole(name, []byte("new"), func(*os.File) error { return failed }); !errors.Is(err, failed) {
		t.Errorf("it says %v", err)
	}
	text, err := os.ReadFile(name)
	entries, _ := os.ReadDir(dir)
	if string(text) != "old" || err != nil || len(entries) != 1 {
		t.Errorf("%q, %v, beside %d files", text, err, len(entries)-1)
	}
}

// Probe leaves nothing behind, and fails in a folder that does not exist.
func TestProbe(t *testing.T) {
	dir := t.TempDir()
	if err := Probe(dir); err != nil {
		t.Error(err)
	}
	if entries, err := os.ReadDir(dir); len(entries) != 0 || err != nil {
		t.Errorf("left %v, %v", entries, err)
	}
	if err := Probe(filepath.Join(dir, "none")); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("it says %v", err)
	}
}
