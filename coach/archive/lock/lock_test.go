package lock

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"
)

// TestGate lets one in at a time, and nobody wait for ever.
func TestGate(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "sessions")
	first, err := Gate(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithTimeout(t.Context(), 20*time.Millisecond)
	defer cancel()
	if _, err := Gate(ctx, dir); !errors.Is(err, context.DeadlineExceeded) {
		t.Fatalf("two are in: %v", err)
	}
	in := make(chan error, 1)
	go func() {
		lock, err := Gate(t.Context(), dir)
		if err == nil {
			err = lock.Close()
		}
		in <- err
	}()
	if err := errors.Join(first.Close(), <-in); err != nil {
		t.Error(err)
	}
}

// TestOwn: a data directory has one owner, and whoever else asks is told which process that is.
func TestOwn(t *testing.T) {
	data := filepath.Join(t.TempDir(), "not", "there")
	lock, err := Own(data)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Own(data); err == nil || !strings.Contains(err.Error(), "process "+strconv.Itoa(os.Getpid())) {
		t.Errorf("owned twice: %v", err)
	}
	if err := lock.Close(); err != nil {
		t.Error(err)
	}
	if lock, err = Own(data); err != nil {
		t.Fatal(err)
	}
	if err := lock.Close(); err != nil {
		t.Error(err)
	}
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := Own(file); err == nil || !strings.Contains(err.Error(), "--data") {
		t.Errorf("a file as the data directory: %v", err)
	}
}
