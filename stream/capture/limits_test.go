package capture

import (
	"bytes"
	"compress/gzip"
	"context"
	"encoding/binary"
	"errors"
	"io"
	"strings"
	"testing"

	"github.com/klauspost/compress/zstd"
)

// bomb compresses a recording that repeats a block for some megabytes.
func bomb(t *testing.T, start, again []byte, megabytes int64, compress func(io.Writer) io.WriteCloser) []byte {
	t.Helper()
	var b bytes.Buffer
	w := compress(&b)
	if _, err := io.Copy(w, io.MultiReader(bytes.NewReader(start),
		io.LimitReader(&repeat{b: again}, megabytes*1_000_000/int64(len(again))*int64(len(again))))); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func gzipped(w io.Writer) io.WriteCloser { return gzip.NewWriter(w) }

func zstded(w io.Writer) io.WriteCloser {
	z, _ := zstd.NewWriter(w, zstd.WithEncoderConcurrency(1)) // its options are good
	return z
}

func both(w io.Writer) io.WriteCloser {
	outer := gzip.NewWriter(w)
	return &twice{zstded(outer), outer}
}

// twice closes what is inside first.
type twice struct {
	io.WriteCloser
	outer io.Closer
}

func (t *twice) Close() error { return errors.Join(t.WriteCloser.Close(), t.outer.Close()) }

// TestLimits: a small file that holds much is read so far as the limits say, however it is compressed, and whether
// what it holds are datagrams or nothing at all.
func TestLimits(t *testing.T) {
	le := binary.LittleEndian
	start := append(section(le), iface(le, linkRaw)...)
	datagram := enhanced(le, 1700000000250000, unhex(t, vectorIP))
	nothing := block(le, 0x40000bad, make([]byte, 4096))
	for name, again := range map[string][]byte{"datagrams": datagram, "nothing": nothing} {
		for kind, compress := range map[string]func(io.Writer) io.WriteCloser{"gzip": gzipped, "zstd": zstded,
			"both": both} {
			file := bomb(t, start, again, 100, compress)
			for want, l := range map[string]Limits{
				"more than 10 MB uncompressed": {Bytes: 10e6},
				"times as much":                {Bytes: 1e9, Ratio: 10},
				"":                             {Bytes: 110e6},
			} {
				r, err := OpenWithin(t.Context(), bytes.NewReader(file), &l)
				for err == nil {
					_, err = r.Next()
				}
				var limit *LimitError
				if want == "" && err != io.EOF ||
					want != "" && (!errors.As(err, &limit) || !strings.Contains(err.Error(), want)) {
					t.Errorf("%s by %s, limits %+v: %v", name, kind, l, err)
				}
				if l.Bytes == 10e6 && l.out > 11e6 {
					t.Errorf("%s by %s: %d bytes were read", name, kind, l.out)
				}
			}
		}
	}
}

// TestLimitsTogether: the parts of a recording share their limits.
func TestLimitsTogether(t *testing.T) {
	l := Limits{Bytes: 1500}
	for range 2 {
		r, err := OpenWithin(t.Context(), bytes.NewReader(long(t, 2)), &l)
		for err == nil {
			_, err = r.Next()
		}
		if l.out < 1500 && err != io.EOF || l.out > 1500 && err == io.EOF {
			t.Errorf("after %d bytes: %v", l.out, err)
		}
	}
	if l.out < 1500 {
		t.Errorf("%d bytes were counted", l.out)
	}
}

// TestContext: the end of a context ends the reading, also where no datagram comes.
func TestContext(t *testing.T) {
	le := binary.LittleEndian
	start := append(section(le), iface(le, linkRaw)...)
	in := io.MultiReader(bytes.NewReader(start), &repeat{b: block(le, 0x40000bad, make([]byte, 4096))}) // has no end
	ctx, cancel := context.WithCancel(t.Context())
	r, err := OpenWithin(ctx, in, &Limits{})
	if err != nil {
		t.Fatal(err)
	}
	done := make(chan error, 1)
	go func() {
		_, err := r.Next()
		done <- err
	}()
	cancel()
	if err := <-done; !errors.Is(err, context.Canceled) {
		t.Error(err)
	}
	if _, err := OpenWithin(ctx, bytes.NewReader(start), &Limits{}); !errors.Is(err, context.Canceled) {
		t.Errorf("opened afterwards: %v", err)
	}
}

// TestUntimed leaves out and counts what no calendar of ours can hold: a pcapng file may claim any offset.
func TestUntimed(t *testing.T) {
	le := binary.LittleEndian
	packet := unhex(t, vectorIP)
	for offset, want := range map[int64]Stats{
		0:               {Packets: 2, Datagrams: 2},
		9e9:             {Packets: 2, Datagrams: 2},
		1e10:            {Packets: 2, Untimed: 2},
		300e9:           {Packets: 2, Untimed: 2},
		-2e9:            {Packets: 2, Untimed: 2},
		-1 << 63:        {Packets: 2, Untimed: 2},
		1<<63 - 1 - 2e9: {Packets: 2, Untimed: 2},
	} {
		file := append(section(le),
			iface(le, linkRaw, append([]byte{14, 0, 8, 0}, le.AppendUint64(nil, uint64(offset))...)...)...)
		for range 2 {
			file = append(file, enhanced(le, 250000, packet)...)
		}
		r, err := Open(bytes.NewReader(file))
		for err == nil {
			_, err = r.Next()
		}
		if err != io.EOF || r.Stats() != want {
			t.Errorf("offset %d s: %+v, %v; want %+v", offset, r.Stats(), err, want)
		}
	}
}
