package archive

import (
	"context"
	"errors"
	"path/filepath"
	"testing"
	"time"
)

// TestGate lets one in at a time, and nobody wait for ever.
func TestGate(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "sessions")
	open, err := gate(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithTimeout(t.Context(), 20*time.Millisecond)
	defer cancel()
	if _, err := gate(ctx, dir); !errors.Is(err, context.DeadlineExceeded) {
		t.Fatalf("two are in: %v", err)
	}
	in := make(chan error, 1)
	go func() {
		open, err := gate(t.Context(), dir)
		if err == nil {
			open()
		}
		in <- err
	}()
	open()
	if err := <-in; err != nil {
		t.Error(err)
	}
}
