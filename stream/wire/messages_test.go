package wire

import (
	"encoding/hex"
	"encoding/json"
	"math"
	"testing"

	"halfturn/stream"
)

// A message is a published, captured or computed datagram and what it says, in the channels' units.
type message struct {
	Name, Status, Source, Format, Hex, Text, Error, Note string
	Frame, Magnetic                                      bool
	Want                                                 map[string]float64
}

// messages reads the datagrams of the formats that are neither text nor DATA rows.
func messages(t testing.TB) []message {
	t.Helper()
	var all []message
	if err := json.Unmarshal(readFile(t, "messages.json"), &all); err != nil {
		t.Fatal(err)
	}
	if len(all) < 50 {
		t.Fatalf("only %d messages", len(all))
	}
	return all
}

// datagram returns the bytes; those published without flags get them.
func (m *message) datagram(t testing.TB) []byte {
	t.Helper()
	if m.Text != "" {
		return []byte(m.Text)
	}
	b, err := hex.DecodeString(m.Hex)
	if err != nil {
		t.Fatal(err)
	}
	if m.Frame {
		if n := len(b) - 2; gdlSum(b[:n]) == uint16(b[n])|uint16(b[n+1])<<8 {
			b = b[:n] // published with its checksum: compared, then rebuilt
		}
		b = gdlFrame(nil, b)
	}
	return b
}

// The published attitude of the vehicle whose other MAVLink messages are read.
const mavFirst = "fd1000000007011e000040e20100c2b8323d35fa8ebdc34bcb3fd318"

// TestMessages decodes each alone. Those without attitude make no sample: what they left behind
// is looked at.
func TestMessages(t *testing.T) {
	for _, m := range messages(t) {
		t.Run(m.Name, func(t *testing.T) {
			r := NewReader(Options{})
			var s stream.Sample
			if m.Error == "follow" {
				first, _ := hex.DecodeString(mavFirst)
				mustDecode(t, r, first)
				r.other.merge.latest.Reset()
			}
			err := r.Decode(m.datagram(t), &s)
			want := map[string]error{"": nil, "part": ErrPart, "follow": ErrPart, "other": ErrOther,
				ErrMalformed.Error(): ErrMalformed, ErrUnknown.Error(): ErrUnknown}
			if err != want[m.Error] {
				t.Fatalf("%v, want %q (source: %s)", err, m.Error, m.Source)
			}
			if err == ErrPart {
				s = r.other.merge.latest
			}
			if m.Error != ErrMalformed.Error() && r.Format() != m.Format {
				t.Errorf("format %q, want %q", r.Format(), m.Format)
			}
			tol := 2e-6
			if m.Format == "DIS entity state" { // three angles and three speeds of 32 bits make one
				tol = 2e-4
			}
			for name, want := range m.Want {
				c, ok := stream.ChannelNamed(name)
				if !ok {
					t.Fatalf("no channel %q", name)
				}
				if got, has := s.Get(c); !has || !near(c, got, want, tol+2e-7*math.Abs(want)) {
					t.Errorf("%s = %v (there: %v), want %v (source: %s)", name, got, has, want, m.Source)
				}
			}
			if got := s.Has.Names(); len(got) != len(m.Want) || s.Magnetic != m.Magnetic {
				t.Errorf("channels %v, magnetic %v; want %d, %v", got, s.Magnetic, len(m.Want), m.Magnetic)
			}
		})
	}
}
