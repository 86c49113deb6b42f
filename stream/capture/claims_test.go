package capture

import (
	"bytes"
	"encoding/binary"
	"errors"
	"io"
	"runtime"
	"strings"
	"testing"
)

// A file may claim what it likes about lengths: the reader's memory does not follow.
func TestClaims(t *testing.T) {
	le := binary.LittleEndian
	const most = 3 << 20 // bytes: the buffers, not the claims
	packet := vectorTime + "ffffffff" + "ffffffff"
	interfaces := section(le)
	for range mostInterfaces + 10 {
		interfaces = append(interfaces, iface(le, linkRaw)...)
	}
	enhancedHead := append(enhanced(le, 0, nil)[:20], 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff)
	start := append(section(le), iface(le, linkRaw)...)
	names := block(le, 4, make([]byte, 4096))
	tests := []struct {
		name  string
		start []byte
		again []byte // and this until 1 GB is read
		want  string
	}{
		{"packet of 4 GB", unhex(t, vectorHead+"65000000"+packet), make([]byte, 1<<16), "damaged after 0 packets"},
		{"packet and snap length of 4 GB", unhex(t, vectorHead[:32]+"ffffffff65000000"+packet), make([]byte, 1<<16),
			"damaged after 0 packets"},
		{"packet block of 4 GB", append(start, 6, 0, 0, 0, 0xfc, 0xff, 0xff, 0xff), make([]byte, 1<<16),
			"block of 4294967292 bytes"},
		{"packet of 4 GB in a short block", append(start, enhancedHead...), make([]byte, 1<<16), "block of"},
		{"interfaces", interfaces, iface(le, linkRaw), "more than 4096 interfaces"},
		{"unknown block of 4 GB", append(start, 0xad, 0xb, 0, 0x40, 0xfc, 0xff, 0xff, 0xff), make([]byte, 1<<16),
			"cut off after 0 packets"},
		{"blocks of names", start, names, "cut off after 0 packets"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			in := io.MultiReader(bytes.NewReader(test.start), io.LimitReader(&repeat{b: test.again}, 1<<30),
				strings.NewReader("."))
			r, err := Open(in)
			for err == nil {
				_, err = r.Next()
			}
			if runtime.ReadMemStats(&after); after.TotalAlloc-before.TotalAlloc > most {
				t.Errorf("%d bytes allocated", after.TotalAlloc-before.TotalAlloc)
			}
			var cut *CutError
			if !errors.As(err, &cut) || !strings.Contains(err.Error(), test.want) {
				t.Errorf("got %v; must be %q", err, test.want)
			}
		})
	}
}

// repeat reads the same bytes over and over.
type repeat struct {
	b  []byte
	at int
}

func (r *repeat) Read(p []byte) (int, error) {
	n := copy(p, r.b[r.at:])
	r.at = (r.at + n) % len(r.b)
	return n, nil
}

// A file cut behind the head of a packet is no whole file.
func TestCutBehindHead(t *testing.T) {
	one := vectorFile(t, 0)
	r, err := Open(bytes.NewReader(append(bytes.Clone(one), one[24:40]...)))
	for err == nil {
		_, err = r.Next()
	}
	if want := "the recording is cut off after 1 packets; those before were read"; err.Error() != want {
		t.Errorf("got %v; must be %s", err, want)
	}
}
