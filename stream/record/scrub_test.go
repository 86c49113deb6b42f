package record

import (
	"bytes"
	"context"
	"errors"
	"io"
	"net/netip"
	"path/filepath"
	"slices"
	"testing"
	"time"
)

// TestScrub: names go from comments and from the name of the station, in compressed files too, and every datagram stays
// as it was.
func TestScrub(t *testing.T) {
	const name = "Ada Example"
	for _, packed := range []bool{false, true} {
		dir := t.TempDir()
		r := Begin(dir, Options{Station: name, Section: func(int) string { return "head " + name }})
		from, to := netip.MustParseAddrPort("127.0.0.1:1"), netip.MustParseAddrPort("127.0.0.1:7181")
		for i := range 3 {
			r.Add([]byte("sent by " + name)[:10+i*4], from, to, time.Unix(int64(i), 0), "by "+name, "none")
		}
		if err := r.Close("over, " + name); err != nil {
			t.Fatal(err)
		}
		file := filepath.Join(dir, "stream-0001.pcapng")
		before := payloads(t, file)
		if packed {
			if err := Compress(file); err != nil {
				t.Fatal(err)
			}
			file += ".zst"
		}
		change := over(name)
		if changed, err := Scrub(file, change); err != nil || !changed {
			t.Fatalf("changed %v, %v", changed, err)
		}
		if after := payloads(t, file); !slices.EqualFunc(after, before, bytes.Equal) || len(after) != 3 {
			t.Errorf("%q; must be %q", after, before)
		}
		data, err := Plain(file)
		if err != nil || bytes.Count(data, []byte(name)) != 0 || bytes.Count(data, []byte("xxxxxxxxxxx")) < 5 {
			t.Errorf("the name stands there %d times, %v", bytes.Count(data, []byte(name)), err)
		}
		if changed, err := Scrub(file, change); err != nil || changed {
			t.Errorf("again: changed %v, %v", changed, err)
		}
	}
}

// over writes x over a name.
func over(name string) func([]byte) bool {
	return func(option []byte) bool {
		n := bytes.Count(option, []byte(name))
		copy(option, bytes.ReplaceAll(option, []byte(name), bytes.Repeat([]byte("x"), len(name))))
		return n > 0
	}
}

// payloads are the datagrams of a recording.
func payloads(t *testing.T, file string) (all [][]byte) {
	t.Helper()
	r := ReadWithin(context.Background(), []string{file}, Reading{})
	defer r.Close()
	for {
		d, err := r.Next()
		if errors.Is(err, io.EOF) {
			return all
		}
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, slices.Clone(d.Payload))
	}
}

// FuzzScrub: whatever bytes are scrubbed, nothing outside them is touched and nothing breaks.
func FuzzScrub(f *testing.F) {
	f.Add([]byte("\x0a\x0d\x0d\x0a\x1c\x00\x00\x00\x4d\x3c\x2b\x1a\x01\x00\x00\x00\xff\xff\xff\xff\xff\xff\xff\xff"))
	f.Fuzz(func(t *testing.T, data []byte) {
		n := len(data)
		scrub(data, over("a"))
		if len(data) != n {
			t.Fatal("its length changed")
		}
	})
}
