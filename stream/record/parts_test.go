package record

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"testing"
	"time"

	"halfturn/stream/capture"
)

// recorded records n datagrams into a folder.
func recorded(t *testing.T, dir string, n int) (name string) {
	t.Helper()
	r := Begin(dir, Options{Section: func(int) string { return "halfturn {}" }})
	add(r, 0, n)
	if err := r.Close(); err != nil {
		t.Fatal(err)
	}
	return filepath.Join(dir, "stream-0001.pcapng")
}

// TestRepairHead cuts a file at every byte of its head and a little beyond: without a whole head it holds nothing,
// and goes; with one it stays, cut back to whole blocks.
func TestRepairHead(t *testing.T) {
	dir := t.TempDir()
	name := recorded(t, dir, 3)
	file, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	// The head is a Section Header Block and an Interface Description Block; the second four bytes of a block are its
	// length (draft-ietf-opsawg-pcapng, 3.1).
	length := func(at int) int { return int(file[at+4]) | int(file[at+5])<<8 }
	head := length(0) + length(length(0))
	for n := range head + 40 {
		for _, tail := range []int{0, 5000} { // a power cut may leave zeros behind what was written
			cut := append(slices.Clone(file[:n]), make([]byte, tail)...)
			if err := os.WriteFile(name, cut, 0o600); err != nil {
				t.Fatal(err)
			}
			headed := bytes.HasPrefix(cut, file[:head]) // its last bytes are zeros
			_, err := Repair(dir)
			info, gone := os.Stat(name)
			switch {
			case err != nil:
				t.Fatalf("cut at %d of %d, %d zeros: %v", n, head, tail, err)
			case !headed && (n >= leastHead || tail == 0) && !errors.Is(gone, os.ErrNotExist):
				t.Fatalf("cut at %d of %d within the head, %d zeros: %d bytes are kept", n, head, tail, info.Size())
			case headed && (gone != nil || info.Size() != int64(head)):
				t.Fatalf("cut at %d of %d, %d zeros: %v", n, head, tail, gone)
			}
		}
	}
}

// TestCompressStopped stops Compress after each of its steps: whatever was done, all datagrams are there, and after
// Tidy and another Compress nothing but the compressed file.
func TestCompressStopped(t *testing.T) {
	for _, step := range []string{"create", "copy", "sync", "rename"} {
		t.Run(step, func(t *testing.T) {
			dir := t.TempDir()
			name := recorded(t, dir, 40)
			reached := false
			done := make(chan struct{})
			go func() {
				defer close(done)
				_ = compress(name, func(at string) {
					if at == step {
						reached = true
						runtime.Goexit() // runs what is deferred, as a crash would not
					}
				})
			}()
			<-done
			if !reached {
				t.Fatal("there is no such step")
			}
			all := func() {
				t.Helper()
				if payloads, _, _ := read(t, dir); !slices.Equal(payloads, numbered(40)) {
					t.Errorf("%d datagrams are there", len(payloads))
				}
			}
			all()
			if step != "rename" {
				if left, _ := filepath.Glob(filepath.Join(dir, ".*")); len(left) != 1 {
					t.Fatalf("left over: %v", left)
				}
			}
			if err := Tidy(dir); err != nil {
				t.Fatal(err)
			}
			if left, _ := filepath.Glob(filepath.Join(dir, ".*")); len(left) > 0 {
				t.Errorf("Tidy leaves %v", left)
			}
			all()
			if err := Compress(name); err != nil {
				t.Fatal(err)
			}
			all()
			if left, _ := filepath.Glob(filepath.Join(dir, "*")); !slices.Equal(left, []string{name + ".zst"}) {
				t.Errorf("in the end there are %v", left)
			}
		})
	}
}

// TestReadWithin: a context that ends and a limit that is passed end the reading of all files.
func TestReadWithin(t *testing.T) {
	dir := t.TempDir()
	r := Begin(dir, Options{Rotate: 4000})
	add(r, 0, 200)
	if err := r.Close(); err != nil {
		t.Fatal(err)
	}
	parts, err := Parts(dir)
	if err != nil || len(parts) < 3 {
		t.Fatal(parts, err)
	}
	count := func(r *Reader) (n int, err error) {
		for {
			if _, err = r.Next(); err != nil {
				return n, err
			}
			n++
		}
	}
	ctx, cancel := context.WithTimeout(t.Context(), time.Hour)
	cancel()
	if n, err := count(ReadWithin(ctx, parts, Reading{})); n > 0 || !errors.Is(err, context.Canceled) {
		t.Errorf("read %d datagrams after the end, %v", n, err)
	}
	var limit *capture.LimitError
	within := func(bytes int64) Reading { return Reading{Limits: &capture.Limits{Bytes: bytes}} }
	if n, err := count(ReadWithin(t.Context(), parts, within(6000))); n == 0 || n == 200 ||
		!errors.As(err, &limit) {
		t.Errorf("read %d datagrams within 6000 bytes, %v", n, err)
	}
	if n, err := count(ReadWithin(t.Context(), parts, within(60000))); n != 200 ||
		!errors.Is(err, io.EOF) {
		t.Errorf("read %d datagrams within 60000 bytes, %v", n, err)
	}
	if limit == nil || limit.Error() != fmt.Sprintf("the recording holds more than %d MB uncompressed", 0) {
		t.Error(limit)
	}
}
