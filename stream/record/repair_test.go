package record

import (
	"errors"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"halfturn/stream/capture"
)

// A file cut anywhere, or with garbage at its end as after a power failure, opens again with all that was
// whole, and can be continued.
func TestRepair(t *testing.T) {
	whole := t.TempDir()
	r := Begin(whole, Options{Section: func(int) string { return "halfturn {}" }})
	add(r, 0, 40)
	if err := r.Close(); err != nil {
		t.Fatal(err)
	}
	file, err := os.ReadFile(filepath.Join(whole, "stream-0001.pcapng"))
	if err != nil {
		t.Fatal(err)
	}
	random := rand.New(rand.NewPCG(1, 2))
	dir := t.TempDir()
	name := filepath.Join(dir, "stream-0001.pcapng")
	for i := range 200 {
		n := random.IntN(len(file) + 1)
		if i < 100 { // also in the head
			n = i
		}
		cut := append(slices.Clone(file[:n]), make([]byte, random.IntN(2)*random.IntN(5000))...)
		if err := os.WriteFile(name, cut, 0o600); err != nil {
			t.Fatal(err)
		}
		lost, err := Repair(dir)
		if err != nil {
			t.Fatal(err)
		}
		now, err := os.ReadFile(name)
		if errors.Is(err, os.ErrNotExist) && !strings.Contains(string(cut), "datagram ") &&
			lost["stream-0001.pcapng"] == int64(len(cut)) {
			continue // cut within the head: nothing was in it
		}
		if err != nil || int64(len(now)) != int64(len(cut))-lost["stream-0001.pcapng"] {
			t.Fatalf("%d of %d bytes left, said %v, %v", len(now), len(cut), lost, err)
		}
		part, err := capture.Whole(strings.NewReader(string(now)))
		if err != nil && n > leastHead {
			t.Fatalf("cut at %d: %v", n, err)
		}
		if part.Bytes > 0 && part.Bytes != int64(len(now)) {
			t.Fatalf("cut at %d: %d of %d bytes are whole", n, part.Bytes, len(now))
		}
		if want := strings.Count(string(file[:n]), "datagram "); int(part.Packets) < want-1 {
			t.Fatalf("cut at %d: %d packets of %d", n, part.Packets, want)
		}
	}
	// Damage in the middle of a long recording is left: what follows may be read by another tool.
	long := append(slices.Clone(file), make([]byte, mostTorn+1)...)
	if err := os.WriteFile(name, long, 0o600); err != nil {
		t.Fatal(err)
	}
	if lost, err := Repair(dir); err != nil || len(lost) > 0 {
		t.Errorf("lost %v, %v", lost, err)
	}
	// So is a file of another kind.
	if err := os.WriteFile(name, []byte("something unknown today"), 0o600); err != nil {
		t.Fatal(err)
	}
	if lost, err := Repair(dir); err != nil || len(lost) > 0 {
		t.Errorf("lost %v, %v", lost, err)
	}
}
