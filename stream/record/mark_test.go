package record

import (
	"os"
	"path/filepath"
	"testing"
)

// The names of a recording's files, and those of others in its folder.
func TestIsPart(t *testing.T) {
	for name, want := range map[string]bool{
		"stream-0001.pcapng":      true,
		"stream-0001.pcapng.zst":  true,
		"stream-12345.pcapng":     true,
		"stream-001.pcapng":       false,
		"stream-0001.pcap":        false,
		"stream-0001.pcapng.gz":   false,
		"stream-0001.pcapng.zst~": false,
		"a-stream-0001.pcapng":    false,
		"stream-.pcapng":          false,
		"notes.json":              false,
		"":                        false,
	} {
		if got := IsPart(name); got != want {
			t.Errorf("%q: %v; must be %v", name, got, want)
		}
	}
	for n := range 3 {
		if name := PartName(n * 9999); !IsPart(name) {
			t.Errorf("%q is no part", name)
		}
	}
}

// Parts are in the order of their numbers, not of their letters; of one that is there both ways the uncompressed is
// taken, and folders are passed over.
func TestPartsInOrder(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"stream-10000.pcapng", "stream-9999.pcapng.zst", "stream-0002.pcapng.zst",
		"stream-0002.pcapng", "stream-0001.pcapng.zst", "notes.json"} {
		if err := os.WriteFile(filepath.Join(dir, name), nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Mkdir(filepath.Join(dir, "stream-0003.pcapng"), 0o700); err != nil {
		t.Fatal(err)
	}
	got, err := Parts(dir)
	if err != nil {
		t.Fatal(err)
	}
	want := []string{"stream-0001.pcapng.zst", "stream-0002.pcapng", "stream-9999.pcapng.zst", "stream-10000.pcapng"}
	if len(got) != len(want) {
		t.Fatalf("%q; must be %q", got, want)
	}
	for i := range want {
		if got[i] != filepath.Join(dir, want[i]) {
			t.Errorf("part %d is %q; must be %q", i, got[i], want[i])
		}
	}
	if _, err := Parts(filepath.Join(dir, "none")); !os.IsNotExist(err) {
		t.Errorf("of no folder: %v", err)
	}
}

// A session is marked until it is over; to end it twice is no error.
func TestMark(t *testing.T) {
	dir := t.TempDir()
	check := func(when string, want bool) {
		t.Helper()
		if got := Unfinished(dir); got != want {
			t.Errorf("%s it is unfinished: %v", when, got)
		}
	}
	check("at first", false)
	for range 2 {
		if err := Mark(dir); err != nil {
			t.Fatal(err)
		}
		check("marked", true)
	}
	for range 2 {
		if err := Finish(dir); err != nil {
			t.Fatal(err)
		}
		check("over", false)
	}
	if err := Mark(filepath.Join(dir, "none")); !os.IsNotExist(err) {
		t.Errorf("in no folder: %v", err)
	}
}
